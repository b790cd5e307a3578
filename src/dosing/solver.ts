// Solves linear programmes in one worker thread, one after the other.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { SolveProgramme, Solved } from '../../shared/joint-plan-model.ts';
import type { SolveAnswer, SolveOrder, SolverSetting } from './solver-messages.ts';

export type Solver = {
  /** Solves the programmes of one question, all of them within one time limit. It never throws: a failure is an answer. */
  forOneQuestion(): SolveProgramme;
  /** Starts the worker, so that the first question does not wait for it. */
  warmUp(): void;
  /** Ends the worker; programmes still waiting are not solved. */
  close(): Promise<void>;
};

export type SolverOptions = {
  /** The bundled worker thread; by default `solver.js` beside this program. */
  workerFile?: string;
  /** The solver itself; by default `highs.wasm` beside the worker. */
  wasmFile?: string;
  /** The longest that one question may take. The limit of the solver itself overshoots by seconds, so this one ends the thread. */
  timeLimitMs?: number;
  /** How many programmes may wait before new ones are refused. */
  longestQueue?: number;
};

type Waiting = { order: SolveOrder; deadlineMs: number; done: (solved: Solved) => void };

const notSolved = (reason: string): Solved => ({ kind: 'not-solved', reason });

/** A solver that starts its worker with the first programme and starts it anew after a crash. */
export function createSolver(options: SolverOptions = {}): Solver {
  const { timeLimitMs = 2_000, longestQueue = 64 } = options;
  const workerFile = options.workerFile ?? beside('solver.js');
  const wasmFile = options.wasmFile ?? beside('highs.wasm');
  const tooLong = `not solved within ${timeLimitMs} ms`;
  const queue: Waiting[] = [];
  let worker: Worker | undefined;
  let current: Waiting | undefined;
  let timer: NodeJS.Timeout | undefined;
  let closed = false;
  let ids = 0;

  const settle = (solved: Solved) => {
    clearTimeout(timer);
    const settled = current;
    current = undefined;
    settled?.done(solved);
    next();
  };
  const dropWorker = (reason: string) => {
    const dropped = worker;
    worker = undefined;
    dropped?.removeAllListeners();
    // A late error of a worker nobody waits for any more must not end the program.
    dropped?.on('error', () => undefined);
    void dropped?.terminate();
    settle(notSolved(reason));
  };
  const startWorker = (): Worker => {
    const started = new Worker(workerFile, { workerData: { wasmFile } satisfies SolverSetting });
    started.unref();
    started.on('message', ({ id, solved }: SolveAnswer) => {
      if (id === current?.order.id) settle(solved);
    });
    started.on('error', (error) => dropWorker(`the worker failed: ${error.message}`));
    started.on('exit', (code) => dropWorker(`the worker ended with code ${code}`));
    return started;
  };
  const next = () => {
    if (current || closed) return;
    current = queue.shift();
    if (!current) {
      worker?.unref();
      return;
    }
    const leftMs = current.deadlineMs - performance.now();
    if (leftMs <= 0) return settle(notSolved(tooLong));
    const missing = [workerFile, wasmFile].find((file) => !existsSync(file));
    if (missing) return settle(notSolved(`${missing} is missing; run the build`));
    worker ??= startWorker();
    // A programme in work keeps the program alive; an idle solver does not.
    worker.ref();
    timer = setTimeout(() => dropWorker(tooLong), leftMs);
    worker.postMessage(current.order);
  };

  return {
    forOneQuestion() {
      const deadlineMs = performance.now() + timeLimitMs;
      return (programme) => {
        if (closed) return Promise.resolve(notSolved('the solver is closed'));
        if (queue.length >= longestQueue) return Promise.resolve(notSolved('too many questions are waiting'));
        return new Promise((done) => {
          queue.push({ order: { id: ++ids, programme }, deadlineMs, done });
          next();
        });
      };
    },
    warmUp() {
      if (!closed && existsSync(workerFile) && existsSync(wasmFile)) worker ??= startWorker();
    },
    async close() {
      closed = true;
      clearTimeout(timer);
      const left = [...(current ? [current] : []), ...queue.splice(0)];
      current = undefined;
      const ending = worker;
      worker = undefined;
      ending?.removeAllListeners();
      for (const waiting of left) waiting.done(notSolved('the solver is closed'));
      await ending?.terminate();
    },
  };
}

/** A file beside the program, whether this code was bundled into it or into one of its chunks. */
export function beside(name: string): string {
  const [near, above] = [`./${name}`, `../${name}`].map((path) => fileURLToPath(new URL(path, import.meta.url)));
  return above && !existsSync(near ?? '') && existsSync(above) ? above : (near ?? name);
}
