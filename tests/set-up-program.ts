import { spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished } from 'vitest';
import { openRoom, type Room } from '../src/room/open-room.ts';
import type { RoomOptions } from '../src/room/room.ts';
import { built } from './set-up-build.ts';

/** Built as Discord builds a bot token, and nobody's. */
export const TOKEN = `${Buffer.from('100000000000000001').toString('base64url')}.abcdef.${'fakeTokenOfNobody'.padEnd(27, '-')}`;

const LONGEST_WAIT_MS = 15_000;

/** Port 9 discards: no test ever reaches the real API, even when it fails. */
const NOWHERE = 'http://127.0.0.1:9/api';

export type Program = {
  /** Everything printed so far, on both outputs. */
  printed: () => string;
  /** Resolves once something printed fits. */
  until: (pattern: RegExp) => Promise<string>;
  /** Ends it by a signal, or waits for its own end; gives the exit code, or the signal that ended it. */
  end: (signal?: NodeJS.Signals) => Promise<{ code: number | null; signal: string | null; ms: number }>;
};

/** Starts the program with the environment given and nothing else; at the end of the test it is gone. */
export function startProgram(env: Record<string, string>): Program {
  const file = built('main.js');
  const child = spawn(process.execPath, ['--enable-source-maps', file], {
    env: { PATH: process.env['PATH'], DATA_DIR: temporaryFolder(), DISCORD_API: NOWHERE, ...env },
    cwd: temporaryFolder(),
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  const watchers = new Set<() => void>();
  const changed = () => [...watchers].forEach((watch) => watch());
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (more: string) => {
      text += more;
      changed();
    });
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve) =>
    child.on('close', (code, signal) => {
      resolve({ code, signal });
      changed();
    }),
  );
  const over = () => child.exitCode !== null || child.signalCode !== null;
  onTestFinished(async () => {
    if (!over()) child.kill('SIGKILL');
    await ended;
    for (const { 0: name, 1: value } of Object.entries(env))
      if (name.startsWith('DISCORD_TOKEN') && value.includes('.')) expect(text).not.toContain(value);
  });
  return {
    printed: () => text,
    until: (pattern) =>
      new Promise((resolve, reject) => {
        const settle = (act: () => void) => {
          clearTimeout(late);
          watchers.delete(watch);
          act();
        };
        const watch = () => {
          if (pattern.test(text)) settle(() => resolve(text));
          else if (over()) settle(() => reject(new Error(`it ended without ${String(pattern)}; it printed:\n${text}`)));
        };
        const late = setTimeout(
          () => settle(() => reject(new Error(`no ${String(pattern)} in ${LONGEST_WAIT_MS} ms; it printed:\n${text}`))),
          LONGEST_WAIT_MS,
        );
        watchers.add(watch);
        watch();
      }),
    async end(signal) {
      const startedMs = performance.now();
      if (signal) child.kill(signal);
      return { ...(await ended), ms: performance.now() - startedMs };
    },
  };
}

/** A folder that is removed when the test is over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'reef-club-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A room to log in to; at the end of the test nothing may have been refused. */
export async function roomForPrograms(options: RoomOptions = {}): Promise<Room> {
  const room = await openRoom({ contract: 'strict', settleMs: 15, ...options });
  onTestFinished(async () => {
    await room.close();
    expect(room.contract.breaches()).toEqual([]);
  });
  return room;
}

/** A port on which nobody listens. */
export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(address !== null && typeof address === 'object' ? address.port : 0));
    });
  });
}
