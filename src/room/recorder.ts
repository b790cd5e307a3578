import type { SentFile } from './message-body.ts';

const KEEP = 5_000;

export type RecordedRequest = {
  method: string;
  /** The path behind `/api/v10`, decoded. */
  path: string;
  query: string;
  body: unknown;
  files: { name: string; bytes: number }[];
  /** What was answered; 0 when the room hung up. */
  status: number;
  /** Room time. */
  at: Date;
};
export type Recorder = ReturnType<typeof createRecorder>;

export const fileNames = (files: ReadonlyMap<string, SentFile>) =>
  [...files.values()].map(({ name, data }) => ({ name, bytes: data.length }));

/** Remembers the requests of the bot. */
export function createRecorder() {
  let kept: RecordedRequest[] = [];
  const watchers = new Set<(request: RecordedRequest) => void>();
  return {
    all: () => [...kept],
    clear(): void {
      kept = [];
    },
    add(request: RecordedRequest): void {
      kept.push(request);
      if (kept.length > 2 * KEEP) kept = kept.slice(-KEEP);
      for (const watch of [...watchers]) watch(request);
    },
    /** The next request, from now on, that fits. */
    next(fits: (request: RecordedRequest) => boolean, timeoutMs = 5_000): Promise<RecordedRequest> {
      return new Promise((resolve, reject) => {
        const watch = (request: RecordedRequest) => {
          if (!fits(request)) return;
          clearTimeout(timer);
          watchers.delete(watch);
          resolve(request);
        };
        const timer = setTimeout(() => {
          watchers.delete(watch);
          reject(new Error(`no such request came within ${timeoutMs} ms`));
        }, timeoutMs);
        watchers.add(watch);
      });
    },
  };
}
