// Plans rings in one worker thread, one club after the other, and lets another one find how good a plan could be.
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { beside, createSolver, type Solver } from '../dosing/solver.ts';
import { boundOfPart } from './bound.ts';
import { planIndexed, ringPlan, type IndexedPlan, type OpenBound } from './plan-rings.ts';
import type { RingAnswer, RingOrder } from './ring-messages.ts';
import { indexGraph, longestFor, type Longest, type RingPlan, type SwapGraph } from './swap-graph.ts';

export type RingQuestion = {
  /** The same seed makes the same plan, as long as the time limit does not cut it short. */
  seed: number;
  /** By default what suits the number of members. */
  longest?: Longest;
  /** The longest that planning may take, five times as long while there is no plan at all. The bound may take as long again. */
  timeLimitMs?: number;
};

export type RingSolver = {
  /** A plan for a club. It never throws: when time runs out or the worker fails, it is the best plan so far. */
  plan(graph: SwapGraph, question: RingQuestion): Promise<RingPlan>;
  /** Ends the workers; clubs still waiting get the best plan so far. */
  close(): Promise<void>;
};

export type RingSolverOptions = {
  /** The bundled worker thread; by default `rings.js` beside this program. Without it plans are made here, and small. */
  workerFile?: string;
  /** Solves the linear programmes of the bound; by default one of its own, so that no member's question waits behind. */
  solver?: Pick<Solver, 'forOneQuestion' | 'close'>;
  /** Work put into making a plan better, as `planRings` counts it. */
  budgetMs?: number;
};

type Waiting = {
  order: RingOrder;
  timeLimitMs: number;
  best?: IndexedPlan;
  bound?: Promise<number>;
  done: (waiting: Waiting) => void;
};

const TIME_LIMIT_MS = 1_000;
const LONGEST_LIMIT_MS = 60_000;
/** A programme that takes longer is given up, so that the next club's does not wait behind it. */
const BOUND_LIMIT_MS = 5_000;
const BUDGET_MS = 400;
/** How many times the limit a large club may take when there is no plan yet. */
const MOST_TIMES_LIMIT = 5;
/** A plan made in this thread holds up everybody's answers, so it is a quick one. */
const BUDGET_HERE_MS = 20;
/** Larger clubs are planned in the worker or not at all. */
const MOST_ARCS_HERE: Readonly<Record<Longest, number>> = { 2: 20_000, 3: 8_000, 4: 1_500 };

/** A solver that starts its worker with the first club and starts it anew when it was ended or crashed. */
export function createRingSolver(options: RingSolverOptions = {}): RingSolver {
  const { budgetMs = BUDGET_MS, solver = createSolver({ timeLimitMs: BOUND_LIMIT_MS }) } = options;
  const workerFile = options.workerFile ?? beside('rings.js');
  const queue: Waiting[] = [];
  let worker: Worker | undefined;
  let current: Waiting | undefined;
  let timer: NodeJS.Timeout | undefined;
  let closed = false;
  let ids = 0;

  const settle = () => {
    clearTimeout(timer);
    const settled = current;
    current = undefined;
    settled?.done(settled);
    next();
  };
  const dropWorker = () => {
    const dropped = worker;
    worker = undefined;
    dropped?.removeAllListeners();
    // A late error of a worker nobody waits for any more must not end the program.
    dropped?.on('error', () => undefined);
    void dropped?.terminate();
    settle();
  };
  const atLimit = () => {
    if (!current || current.best || canPlanHere(current.order)) return dropWorker();
    // No plan at all would tell a large club that it has no rings, so a busy machine gets some more time.
    timer = setTimeout(dropWorker, current.timeLimitMs * (MOST_TIMES_LIMIT - 1));
  };
  const hear = (answer: RingAnswer) => {
    if (!current || answer.id !== current.order.id) return;
    if (answer.kind === 'open-bound') current.bound = solvedBound(solver, answer.bound, current.order.longest);
    else current.best = answer.plan;
    if (answer.kind === 'done') settle();
  };
  const startWorker = (): Worker => {
    const started = new Worker(workerFile);
    started.unref();
    started.on('message', hear);
    started.on('error', dropWorker);
    started.on('exit', dropWorker);
    return started;
  };
  const next = () => {
    if (current || closed) return;
    current = queue.shift();
    if (!current) {
      worker?.unref();
      return;
    }
    if (!existsSync(workerFile)) return settle();
    try {
      worker ??= startWorker();
      // A club in work keeps the program alive; an idle solver does not.
      worker.ref();
      timer = setTimeout(atLimit, current.timeLimitMs);
      worker.postMessage(current.order);
    } catch {
      dropWorker();
    }
  };

  return {
    async plan(
      graph,
      { seed, longest: wishedLength = longestFor(graph.members.length), timeLimitMs: wished = TIME_LIMIT_MS },
    ) {
      const timeLimitMs = Math.min(Math.max(wished, 1), LONGEST_LIMIT_MS);
      const longest = [2, 3, 4].includes(wishedLength) ? wishedLength : longestFor(graph.members.length);
      const { indexed, arcs } = indexGraph(graph);
      const order = { id: ++ids, graph: indexed, seed, longest, budgetMs };
      const { best, bound } = await new Promise<Waiting>((done) => {
        const waiting = { order, timeLimitMs, done };
        if (closed) return done(waiting);
        queue.push(waiting);
        next();
      });
      const plan = best ?? planHere(order);
      const lower = bound && (await within(bound, timeLimitMs));
      return ringPlan(lower === undefined ? plan : { ...plan, bound: Math.min(plan.bound, lower) }, arcs);
    },
    async close() {
      closed = true;
      clearTimeout(timer);
      const left = [...(current ? [current] : []), ...queue.splice(0)];
      current = undefined;
      const ending = worker;
      worker = undefined;
      ending?.removeAllListeners();
      for (const waiting of left) waiting.done(waiting);
      await Promise.all([ending?.terminate(), solver.close()]);
    },
  };
}

/** What the programmes lower the bound to; a part that is not solved keeps the bound it had. */
async function solvedBound(solver: Pick<Solver, 'forOneQuestion'>, { certain, parts }: OpenBound, longest: Longest) {
  const solve = solver.forOneQuestion();
  const bounds = await Promise.all(
    parts.map(async ({ programme, atMost }) => {
      const solved = programme === null ? undefined : await solve(programme);
      return solved?.kind === 'optimal' ? Math.min(atMost, boundOfPart(solved.objective, longest)) : atMost;
    }),
  );
  return bounds.reduce((sum, each) => sum + each, certain);
}

const canPlanHere = ({ graph, longest }: RingOrder) => graph.to.length <= MOST_ARCS_HERE[longest];

/** A quick plan without the worker; for a large club none, and everybody who could be served as its bound. */
function planHere(order: RingOrder): IndexedPlan {
  if (!canPlanHere(order)) return { rings: [], served: 0, bound: order.graph.count };
  return planIndexed(order.graph, { ...order, budgetMs: BUDGET_HERE_MS });
}

/** What a promise gives within a time; undefined when it takes longer. */
async function within<T>(promise: Promise<T>, ms: number): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<undefined>((done) => {
    timer = setTimeout(() => done(undefined), ms);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}
