import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import loadHighs from 'highs';
import { jointPlan } from '../../shared/joint-plan.ts';
import type { JointPlanInput, SolveProgramme } from '../../shared/joint-plan-model.ts';
import { planInput } from '../../src/dosing/plan-input.ts';
import { readReagents } from '../../src/dosing/plan-reagents.ts';
import type { Span } from '../../src/dosing/plan-span.ts';
import { createSolver } from '../../src/dosing/solver.ts';
import { md } from '../../src/discord/message-view.ts';
import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import type { KnowledgeBase } from '../../src/knowledge/knowledge-base.ts';
import { median, quantile, type Row } from './figures.ts';

const TIMES = 100;
/** Rounds in which both sides are still being compiled. */
const WARM_UPS = 20;
const GOAL_MS = 50;
const WASM = 'dist/highs.wasm';

/** The joint plan in its worker against the bare solver on the same programmes in this thread. */
export async function benchCalculators(): Promise<Row[]> {
  const base = loadCompiledKnowledge('dist/knowledge.json');
  const bare = await bareSolver();
  const solver = createSolver({
    workerFile: fileURLToPath(new URL('solver.js', `file://${process.cwd()}/dist/`)),
    wasmFile: WASM,
  });
  const rows: Row[] = [];
  try {
    const [first] = questions(base);
    const startedMs = performance.now();
    await mustPlan(first?.input, solver.forOneQuestion());
    const coldMs = performance.now() - startedMs;
    for (const { what, input } of questions(base)) {
      const programmes = await programmesOf(input, bare);
      const ours: number[] = [];
      const floor: number[] = [];
      for (let time = -WARM_UPS; time < TIMES; time += 1) {
        if (time === 0) [ours, floor].forEach((samples) => samples.splice(0));
        floor.push(await timed(async () => void (await Promise.all(programmes.map(bare)))));
        ours.push(await timed(() => mustPlan(input, solver.forOneQuestion())));
      }
      const inWords = (samples: number[]) =>
        `${median(samples).toFixed(1)} ms (p99 ${quantile(samples, 0.99).toFixed(1)})`;
      rows.push({
        what: `joint plan, ${what}, warm, p50`,
        ours: inWords(ours),
        floor: `${inWords(floor)}, ${programmes.length} programmes`,
        ratio: (median(ours) / median(floor)).toFixed(2),
        goal: `< ${GOAL_MS} ms`,
        met: median(ours) < GOAL_MS,
      });
    }
    rows.push({
      what: 'joint plan, the first of a run',
      ours: `${coldMs.toFixed(0)} ms`,
      floor: '',
      ratio: '',
      goal: '≤ 2000 ms',
      met: coldMs <= 2_000,
    });
    return rows;
  } finally {
    await solver.close();
  }
}

/** A question of everyday, one with all reagents, and one whose days have to be looked for. */
function questions(base: KnowledgeBase): { what: string; input: JointPlanInput }[] {
  const span = (now: number, target: number): Span => ({ now, target, echo: md``, assumedUnit: false });
  const water = { volumeL: 300, practicalSalinity: 35, temperatureC: 25 };
  const everyday = { alkalinity: span(7.2, 8.5), calcium: span(380, 420), magnesium: span(1250, 1350) };
  const far = { salinity: span(30, 35), alkalinity: span(4, 9), calcium: span(300, 440), magnesium: span(900, 1400) };
  const usual = 'NaHCO3, CaCl2.2H2O, MgCl2.6H2O';
  const every = 'sea salt, NaHCO3, Na2CO3, CaCl2, CaCl2.2H2O, limewater, MgCl2.6H2O, epsom salt';
  const at = (what: string, spans: Parameters<typeof planInput>[2], names: string) => {
    const read = readReagents(base, names);
    if (read.kind !== 'reagents') throw new Error(`the knowledge base does not know all of ${names}`);
    return { what, input: planInput(base, water, spans, read.reagents) };
  };
  return [
    at('three reagents', everyday, usual),
    at('all reagents, far off', far, every),
    at('limewater alone', { alkalinity: span(7, 8.5) }, 'limewater'),
  ];
}

/** The programmes that a question makes, to be solved again by the bare solver. */
async function programmesOf(input: JointPlanInput, solve: SolveProgramme): Promise<string[]> {
  const programmes: string[] = [];
  await mustPlan(input, (programme) => {
    programmes.push(programme);
    return solve(programme);
  });
  return programmes;
}

async function mustPlan(input: JointPlanInput | undefined, solve: SolveProgramme): Promise<void> {
  if (!input) throw new Error('no question');
  const outcome = await jointPlan(input, solve);
  if (outcome.kind !== 'plan') throw new Error(`a plan was due, came ${JSON.stringify(outcome)}`);
}

async function bareSolver(): Promise<SolveProgramme> {
  if (!existsSync(WASM)) throw new Error(`${WASM} is missing; run the build`);
  const highs = await (loadHighs as unknown as typeof loadHighs.default)({ locateFile: () => WASM });
  return (programme) => {
    const { Status, ObjectiveValue, Columns } = highs.solve(programme, {
      primal_feasibility_tolerance: 1e-10,
      dual_feasibility_tolerance: 1e-10,
    });
    return Promise.resolve(
      Status === 'Optimal'
        ? {
            kind: 'optimal',
            objective: ObjectiveValue,
            values: Object.fromEntries(Object.values(Columns).map(({ Name, Primal }) => [Name, Number(Primal)])),
          }
        : { kind: 'infeasible' },
    );
  };
}

async function timed(work: () => Promise<void>): Promise<number> {
  const startedMs = performance.now();
  await work();
  return performance.now() - startedMs;
}
