// Paints SVG as PNG in one worker thread, one picture after the other.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { PaintAnswer, PaintOrder, PaintSetting } from './painter-messages.ts';

export type Painter = {
  /** The picture as PNG, this many pixels wide. Throws `PaintingFailed` when the SVG is broken or time runs out. */
  paint(svg: string, width: number): Promise<Buffer>;
  /** Ends the worker; pictures still waiting fail. */
  close(): Promise<void>;
};

export type PainterSetting = {
  /** The bundled worker thread; by default `painter.js` beside this program. */
  workerFile?: string;
  /** TTF files; by default those in `font/` beside this program. The renderer draws no text from WOFF files. */
  fontFiles?: readonly string[];
  /** The longest one picture may take once it is begun. */
  timeLimitMs?: number;
  /** How many pictures may wait before new ones are refused. */
  longestQueue?: number;
};

/** A picture that could not be painted; the message says why. */
export class PaintingFailed extends Error {
  override name = 'PaintingFailed';
}

type Waiting = { order: PaintOrder; done: (png: Buffer) => void; failed: (error: Error) => void };

const FONTS = ['inter-regular.ttf', 'inter-semibold.ttf'];

/** A painter that starts its worker with the first picture and starts it anew after a crash. */
export function createPainter(setting: PainterSetting = {}): Painter {
  const workerFile = setting.workerFile ?? beside('painter.js');
  const fonts = setting.fontFiles ?? FONTS.map((font) => beside(`font/${font}`));
  const { timeLimitMs = 5_000, longestQueue = 64 } = setting;
  const queue: Waiting[] = [];
  let worker: Worker | undefined;
  let current: Waiting | undefined;
  let timer: NodeJS.Timeout | undefined;
  let closed = false;
  let ids = 0;

  const settle = (act: (waiting: Waiting) => void) => {
    clearTimeout(timer);
    const settled = current;
    current = undefined;
    if (settled) act(settled);
    next();
  };
  const dropWorker = (reason: string) => {
    const dropped = worker;
    worker = undefined;
    dropped?.removeAllListeners();
    // A late error of a worker nobody waits for any more must not end the program.
    dropped?.on('error', () => undefined);
    void dropped?.terminate();
    settle((waiting) => waiting.failed(new PaintingFailed(reason)));
  };
  const startWorker = (): Worker => {
    const missing = [workerFile, ...fonts].find((file) => !existsSync(file));
    if (missing) throw new PaintingFailed(`${missing} is missing; run the build`);
    const started = new Worker(workerFile, { workerData: { fonts } satisfies PaintSetting });
    started.unref();
    started.on('message', (answer: PaintAnswer) => {
      if (answer.id !== current?.order.id) return;
      settle((waiting) =>
        'png' in answer
          ? waiting.done(Buffer.from(answer.png.buffer, answer.png.byteOffset, answer.png.byteLength))
          : waiting.failed(new PaintingFailed(answer.problem)),
      );
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
    try {
      worker ??= startWorker();
    } catch (error) {
      const reason = error instanceof Error ? error : new PaintingFailed(String(error));
      settle((waiting) => waiting.failed(reason));
      return;
    }
    // A picture in work keeps the program alive; an idle painter does not.
    worker.ref();
    timer = setTimeout(() => dropWorker(`not painted within ${timeLimitMs} ms`), timeLimitMs);
    worker.postMessage(current.order);
  };

  return {
    paint(svg, width) {
      if (closed) return Promise.reject(new PaintingFailed('the painter is closed'));
      if (queue.length >= longestQueue) return Promise.reject(new PaintingFailed('too many pictures are waiting'));
      return new Promise((done, failed) => {
        queue.push({ order: { id: ++ids, svg, width }, done, failed });
        next();
      });
    },
    async close() {
      closed = true;
      clearTimeout(timer);
      const left = [...(current ? [current] : []), ...queue.splice(0)];
      current = undefined;
      const ending = worker;
      worker = undefined;
      ending?.removeAllListeners();
      for (const waiting of left) waiting.failed(new PaintingFailed('the painter is closed'));
      await ending?.terminate();
    },
  };
}

/** A file beside the program, whether this code was bundled into it or into one of its chunks. */
function beside(name: string): string {
  const [near, above] = [`./${name}`, `../${name}`].map((path) => fileURLToPath(new URL(path, import.meta.url)));
  return above && !existsSync(near ?? '') && existsSync(above) ? above : (near ?? name);
}
