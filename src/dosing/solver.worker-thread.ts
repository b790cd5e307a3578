// Solves linear programmes away from the main thread: the solver blocks while it works, and a programme may never end.
// This file is an entry point of the build: it becomes dist/solver.js, with highs.wasm beside it.
import { parentPort, workerData } from 'node:worker_threads';
import highs from 'highs';
import type { Solved } from '../../shared/joint-plan-model.ts';
import type { SolveAnswer, SolveOrder, SolverSetting } from './solver-messages.ts';

const { wasmFile } = workerData as SolverSetting;
// The package describes its CommonJS build, where the loader lies one `default` deeper than in the one that is bundled.
const loadHighs = highs as unknown as typeof highs.default;
const loading = loadHighs({ locateFile: () => wasmFile });

/** A hundredth of a milligram in a tonne of water: far below every balance, so that a cap is kept to the last digit. */
const TOLERANCE = 1e-10;

parentPort?.on('message', ({ id, programme }: SolveOrder) => {
  void solved(programme).then((answer) => parentPort?.postMessage({ id, solved: answer } satisfies SolveAnswer));
});

async function solved(programme: string): Promise<Solved> {
  try {
    const solution = (await loading).solve(programme, {
      primal_feasibility_tolerance: TOLERANCE,
      dual_feasibility_tolerance: TOLERANCE,
    });
    if (solution.Status === 'Infeasible') return { kind: 'infeasible' };
    if (solution.Status !== 'Optimal') return { kind: 'not-solved', reason: `the solver says "${solution.Status}"` };
    const columns = Object.values(solution.Columns);
    return {
      kind: 'optimal',
      objective: solution.ObjectiveValue,
      values: Object.fromEntries(columns.map(({ Name, Primal }) => [Name, Primal])),
    };
  } catch (error) {
    return { kind: 'not-solved', reason: error instanceof Error ? error.message : String(error) };
  }
}
