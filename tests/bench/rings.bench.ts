import { resolve } from 'node:path';
import loadHighs from 'highs';
import { createSolver } from '../../src/dosing/solver.ts';
import { boundProgramme } from '../../src/rings/bound.ts';
import { cyclesOf } from '../../src/rings/cycles.ts';
import { planWords } from '../../src/rings/plan-words.ts';
import { createRingSolver } from '../../src/rings/ring-solver.ts';
import { indexGraph, type Longest, type RingPlan, type SwapGraph } from '../../src/rings/swap-graph.ts';
import { randomClub } from '../src/rings/random-club.ts';
import { median, type Row } from './figures.ts';

const WASM = 'dist/highs.wasm';
const CLUBS = [1, 2, 3];
const GOAL_MS = 1_000;
const GOAL_SHARE = 0.99;

const SIZES: readonly { members: number; longest: Longest; goalShare: number | null }[] = [
  // So few members leave a gap between the programme and the best plan that no search can close.
  { members: 60, longest: 4, goalShare: null },
  { members: 200, longest: 3, goalShare: GOAL_SHARE },
  { members: 1_000, longest: 2, goalShare: GOAL_SHARE },
];

/** Rings and their bound in the worker, against the linear programme alone; and the share of it that the rings serve. */
export async function benchRings(): Promise<Row[]> {
  const highs = await (loadHighs as unknown as typeof loadHighs.default)({ locateFile: () => WASM });
  const solver = createRingSolver({
    workerFile: resolve('dist/rings.js'),
    solver: createSolver({ workerFile: resolve('dist/solver.js'), wasmFile: WASM, timeLimitMs: 5_000 }),
  });
  const rows: Row[] = [];
  try {
    // Both workers are started by a small club.
    await solver.plan(randomClub({ members: 40, seed: 1 }), { seed: 1 });
    for (const { members, longest, goalShare } of SIZES) {
      const clubs = CLUBS.map((seed) => randomClub({ members, seed }));
      const ours: number[] = [];
      const floor: number[] = [];
      const shares: number[] = [];
      const plans: RingPlan[] = [];
      for (const club of clubs) {
        const startedMs = performance.now();
        const plan = await solver.plan(club, { seed: 1, longest });
        ours.push(performance.now() - startedMs);
        const programme = linearProgramme(club, longest);
        const solvingMs = performance.now();
        const { ObjectiveValue } = highs.solve(programme);
        floor.push(performance.now() - solvingMs);
        shares.push(plan.served / ObjectiveValue);
        plans.push(plan);
      }
      const what = `rings of up to ${longest}, ${members} members`;
      const worst = Math.min(...shares);
      rows.push(
        {
          what: `${what}, plan and bound, p50`,
          ours: `${median(ours).toFixed(0)} ms`,
          floor: `${median(floor).toFixed(0)} ms, linear programme`,
          ratio: (median(ours) / median(floor)).toFixed(2),
          goal: `< ${GOAL_MS} ms`,
          met: median(ours) < GOAL_MS,
        },
        {
          what: `${what}, share of the linear bound, worst of ${CLUBS.length}`,
          ours: plans.map(planWords).join('; '),
          floor: '',
          ratio: worst.toFixed(3),
          goal: goalShare === null ? '' : `≥ ${goalShare}`,
          met: goalShare === null ? null : worst >= goalShare,
        },
      );
    }
    return rows;
  } finally {
    await solver.close();
  }
}

/** The bound of the whole club as one programme. */
function linearProgramme(club: SwapGraph, longest: Longest): string {
  const { count, first, members } = cyclesOf(indexGraph(club).indexed, longest);
  const rings = Array.from({ length: count }, (_, cycle) => [
    ...members.subarray(first[cycle] ?? 0, first[cycle + 1] ?? 0),
  ]);
  const programme = boundProgramme({ members: [], rings });
  if (programme === null) throw new Error('the programme is too large');
  return programme;
}
