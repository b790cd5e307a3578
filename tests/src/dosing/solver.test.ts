import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { jointPlan } from '../../../shared/joint-plan.ts';
import type { Solver, SolverOptions } from '../../../src/dosing/solver.ts';
import { told } from '../../reference/worked-cases.ts';
import {
  BICARBONATE,
  CALCIUM_CHLORIDE,
  EPSOM,
  MAGNESIUM_CHLORIDE,
  bareSolver,
  tank,
} from '../../shared/joint-plan-stage.ts';
import { solverStage, type SolverStage } from './solver-stage.ts';

const SMALL = 'Minimize\n obj: x + 2 y\nSubject To\n r: x + y >= 3\nBounds\n x <= 1\nEnd\n';
const IMPOSSIBLE = 'Minimize\n obj: x\nSubject To\n r: x >= 3\n s: x <= 1\nEnd\n';

let stage: SolverStage;
const open: Solver[] = [];
const solver = (options?: SolverOptions) => {
  const made = stage.solver(options);
  open.push(made);
  return made;
};

beforeAll(async () => {
  stage = await solverStage();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((one) => one.close()));
});
afterAll(() => stage.remove());

/** A worker that misbehaves on certain words and otherwise answers "infeasible". */
const misbehaving = () =>
  stage.workerOf(`
    import { parentPort } from 'node:worker_threads';
    parentPort.on('message', ({ id, programme }) => {
      if (programme === 'crash') throw new Error('out of numbers');
      if (programme === 'leave') process.exit(3);
      while (programme === 'endless') {}
      parentPort.postMessage({ id, solved: { kind: 'infeasible' } });
    });`);

describe('createSolver', () => {
  it('solves a programme, and says when there is no solution', async () => {
    const solve = solver().forOneQuestion();
    expect(await solve(SMALL)).toEqual({ kind: 'optimal', objective: 5, values: { x: 1, y: 2 } });
    expect(await solve(IMPOSSIBLE)).toEqual({ kind: 'infeasible' });
  });

  it('answers nonsense with a reason and goes on', async () => {
    const solve = solver().forOneQuestion();
    expect(await solve('Minimise me')).toMatchObject({ kind: 'not-solved', reason: expect.any(String) });
    expect(await solve(SMALL)).toMatchObject({ kind: 'optimal' });
  });

  it('plans as the bare solver does', async () => {
    const input = tank({
      levels: {
        alkalinity: { now: 6.4, target: 8.7 },
        calcium: { now: 371, target: 433 },
        magnesium: { now: 1090, target: 1350 },
      },
      reagents: [BICARBONATE, CALCIUM_CHLORIDE, MAGNESIUM_CHLORIDE, EPSOM],
    });
    const inWorker = told(await jointPlan(input, solver().forOneQuestion()), 'plan');
    expect(inWorker).toEqual(await jointPlan(input, await bareSolver()));
    expect(inWorker.days.length).toBeGreaterThan(3);
  });

  it('starts a new worker when one crashes', async () => {
    const one = solver({ workerFile: await misbehaving() });
    const asked = ['crash', 'first', 'leave', 'second'].map((programme) => one.forOneQuestion()(programme));
    expect(await Promise.all(asked)).toEqual([
      { kind: 'not-solved', reason: 'the worker failed: out of numbers' },
      { kind: 'infeasible' },
      { kind: 'not-solved', reason: 'the worker ended with code 3' },
      { kind: 'infeasible' },
    ]);
  });

  it('ends a programme that takes too long, and answers the next question', async () => {
    const one = solver({ workerFile: await misbehaving(), timeLimitMs: 400 });
    const startedMs = performance.now();
    expect(await one.forOneQuestion()('endless')).toEqual({ kind: 'not-solved', reason: 'not solved within 400 ms' });
    expect(performance.now() - startedMs).toBeLessThan(1_500);
    expect(await one.forOneQuestion()('quick')).toEqual({ kind: 'infeasible' });
  });

  it('gives all programmes of one question one time limit together', async () => {
    const solve = solver({ workerFile: await misbehaving(), timeLimitMs: 300 }).forOneQuestion();
    expect(await solve('quick')).toEqual({ kind: 'infeasible' });
    await new Promise((done) => setTimeout(done, 350));
    expect(await solve('quick')).toEqual({ kind: 'not-solved', reason: 'not solved within 300 ms' });
  });

  it('makes a plan that cannot be solved in time an answer', async () => {
    const endless = await stage.workerOf(`
      import { parentPort } from 'node:worker_threads';
      parentPort.on('message', () => { for (;;); });`);
    const input = tank({ levels: { alkalinity: { now: 7, target: 8 } }, reagents: [BICARBONATE] });
    const solve = solver({ workerFile: endless, timeLimitMs: 200 }).forOneQuestion();
    expect(await jointPlan(input, solve)).toEqual({ kind: 'not-solved', reason: 'not solved within 200 ms' });
  });

  it('refuses more programmes than may wait', async () => {
    const one = solver({ longestQueue: 2 });
    const asked = await Promise.all([1, 2, 3, 4].map(() => one.forOneQuestion()(SMALL)));
    expect(asked.map(({ kind }) => kind)).toEqual(['optimal', 'optimal', 'optimal', 'not-solved']);
  });

  it('says which file is missing', async () => {
    expect(await solver({ workerFile: '/nowhere/solver.js' }).forOneQuestion()(SMALL)).toEqual({
      kind: 'not-solved',
      reason: '/nowhere/solver.js is missing; run the build',
    });
    expect(await solver({ wasmFile: '/nowhere/highs.wasm' }).forOneQuestion()(SMALL)).toMatchObject({
      reason: '/nowhere/highs.wasm is missing; run the build',
    });
  });

  it('answers what still waits when it is closed, and solves nothing after', async () => {
    const one = solver();
    const solve = one.forOneQuestion();
    const waiting = Promise.all([solve(SMALL), solve(SMALL)]);
    await one.close();
    expect((await waiting).map(({ kind }) => kind)).toEqual(['not-solved', 'not-solved']);
    expect(await solve(SMALL)).toEqual({ kind: 'not-solved', reason: 'the solver is closed' });
  });
});
