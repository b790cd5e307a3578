import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createSolver } from '../../../src/dosing/solver.ts';
import { planRings } from '../../../src/rings/plan-rings.ts';
import { createRingSolver, type RingSolver, type RingSolverOptions } from '../../../src/rings/ring-solver.ts';
import type { Longest, SwapGraph } from '../../../src/rings/swap-graph.ts';
import { randomClub } from './random-club.ts';
import { ringsStage, type RingsStage } from './rings-stage.ts';

let stage: RingsStage;
const open: RingSolver[] = [];
const solver = (options?: RingSolverOptions) => {
  const made = stage.solver({ budgetMs: BUDGET_MS, ...options });
  open.push(made);
  return made;
};

beforeAll(async () => {
  stage = await ringsStage();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((one) => one.close()));
});
afterAll(() => stage.remove());

const PATIENT = { seed: 1, timeLimitMs: 15_000 };
/** Enough for small clubs. */
const BUDGET_MS = 40;
const triple: SwapGraph = {
  members: ['nell', 'uma', 'bo'].map((id) => ({ id, weight: 1 })),
  arcs: [
    { from: 'nell', to: 'uma', offerId: 1, weight: 1, km: 4 },
    { from: 'uma', to: 'bo', offerId: 2, weight: 1, km: 4 },
    { from: 'bo', to: 'nell', offerId: 3, weight: 1, km: 4 },
  ],
};
const ringOfThree = { rings: [{ arcs: triple.arcs.toSorted((one, other) => (one.from < other.from ? -1 : 1)) }] };

/** A worker that tells a plan whose bound nobody else would give, and then does what its order's seed says. */
const misbehaving = () =>
  stage.workerOf(`
    import { parentPort } from 'node:worker_threads';
    const plan = { rings: [[0, 1, 2]], served: 3, bound: 7 };
    parentPort.on('message', ({ id, seed }) => {
      if (seed < 10) parentPort.postMessage({ id, kind: 'better', plan });
      if (seed === 1) throw new Error('out of rings');
      if (seed === 2) process.exit(3);
      while (seed === 3 || seed === 13) {}
      parentPort.postMessage({ id, kind: 'done', plan });
    });`);

describe('createRingSolver', () => {
  it('plans as the plain function does', async () => {
    const graph = randomClub({ members: 50, seed: 4 });
    const plain = planRings(graph, { seed: 1, budgetMs: BUDGET_MS });
    const plan = await solver().plan(graph, PATIENT);
    expect(plan.rings).toEqual(plain.rings);
    expect(plan.served).toBe(plain.served);
    expect(plan.bound).toBeLessThanOrEqual(plain.bound);
  });

  it('lowers the bound, and never below what is served', async () => {
    const one = solver();
    let lowered = 0;
    for (const [members, longest] of [
      [60, 3],
      [60, 4],
      [45, 4],
    ] as const) {
      const graph = randomClub({ members, seed: 2 });
      const plan = await one.plan(graph, { ...PATIENT, longest });
      expect(plan.bound).toBeGreaterThanOrEqual(plan.served);
      expect(plan.served / plan.bound).toBeGreaterThanOrEqual(0.95);
      if (plan.bound < planRings(graph, { seed: 1, longest, budgetMs: 0 }).bound) lowered += 1;
    }
    expect(lowered).toBeGreaterThan(1);
  });

  it('keeps the last good plan when the worker is ended at its limit, crashes or leaves', async () => {
    const one = solver({ workerFile: await misbehaving() });
    const plans = await Promise.all([3, 1, 2, 4].map((seed) => one.plan(triple, { seed, timeLimitMs: 2_000 })));
    expect(plans).toEqual(plans.map(() => ({ ...ringOfThree, served: 3, bound: 7, sure: false })));
  });

  it('makes a plan itself when the worker tells none', async () => {
    const one = solver({ workerFile: await misbehaving() });
    expect(await one.plan(triple, { seed: 13, timeLimitMs: 300 })).toMatchObject({ served: 3, ...ringOfThree });
    const silent = await one.plan(randomClub({ members: 400, seed: 1 }), { seed: 13, timeLimitMs: 300, longest: 3 });
    expect(silent).toEqual({ rings: [], served: 0, bound: 400, sure: false });
  });

  it('ends a search that would go on for days, and says what it has', async () => {
    const noBound = createSolver({ workerFile: '/nowhere/solver.js' });
    const one = solver({ budgetMs: 1e9, solver: noBound });
    // More members than are ever planned without the worker, and some whom no plan serves although they lie on rings.
    const graph = randomClub({ members: 300, seed: 2 });
    const plan = await one.plan(graph, { seed: 1, longest: 3, timeLimitMs: 3_000 });
    expect(plan.served).toBeGreaterThan(250);
    // Only a plan that reaches its bound ends such a search by itself.
    expect(plan.served).toBeLessThan(plan.bound);
    expect(await one.plan(triple, PATIENT)).toMatchObject({ served: 3 });
  });

  it('plans at once, by itself and less long, where nothing is built', async () => {
    const one = createRingSolver({ workerFile: '/nowhere/rings.js' });
    open.push(one);
    const graph = randomClub({ members: 40, seed: 1 });
    const plan = await one.plan(graph, PATIENT);
    expect(plan.served).toBeGreaterThan(20);
    expect(plan.bound).toBeGreaterThanOrEqual(plan.served);
  });

  it('never throws, whatever it is asked', async () => {
    const one = solver();
    const odd: SwapGraph = {
      members: [...triple.members, { id: 'olu', weight: NaN }, { id: 'nell', weight: -3 }],
      arcs: [
        ...triple.arcs,
        { from: 'olu', to: 'olu', offerId: 4, weight: 1, km: 1 },
        { from: 'nobody', to: 'olu', offerId: 5, weight: Infinity, km: NaN },
      ],
    };
    expect(await one.plan(odd, { ...PATIENT, seed: NaN })).toMatchObject({ served: 3 });
    expect(await one.plan(odd, { ...PATIENT, longest: 7 as Longest })).toMatchObject({ served: 3 });
    expect(await one.plan(odd, { seed: 1, timeLimitMs: -5 })).toMatchObject({ served: 3 });
  });

  it('answers what still waits when it is closed, and later questions too', async () => {
    const one = solver();
    const waiting = Promise.all([one.plan(triple, PATIENT), one.plan(triple, PATIENT)]);
    await one.close();
    expect((await waiting).map(({ served }) => served)).toEqual([3, 3]);
    expect(await one.plan(triple, PATIENT)).toMatchObject({ served: 3 });
  });
});
