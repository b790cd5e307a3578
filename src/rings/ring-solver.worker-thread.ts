// Plans rings away from the main thread: a large club takes as long as it may, and the thread can be ended at any time.
// This file is an entry point of the build: it becomes dist/rings.js.
import { parentPort } from 'node:worker_threads';
import { planIndexed } from './plan-rings.ts';
import type { RingAnswer, RingOrder } from './ring-messages.ts';

const tell = (answer: RingAnswer) => parentPort?.postMessage(answer);

parentPort?.on('message', ({ id, graph, ...setting }: RingOrder) => {
  const plan = planIndexed(graph, setting, {
    onBetter: (better) => tell({ id, kind: 'better', plan: better }),
    onOpenBound: (bound) => tell({ id, kind: 'open-bound', bound }),
  });
  tell({ id, kind: 'done', plan });
});
