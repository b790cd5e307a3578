import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRoom } from '../../src/room/open-room.ts';
import { median, type Row } from './figures.ts';
import { endProgram, residentBytes, startProgram } from './processes.ts';
import { BENCH_TOKEN } from './round-trip.bench.ts';

const ROUNDS = 7;

/** From the spawn until the program is about to log in, against a bundle that only imports the same libraries. */
export async function benchStart(): Promise<Row[]> {
  const room = await openRoom({ contract: 'off' });
  const folder = mkdtempSync(join(tmpdir(), 'reef-bench-'));
  const floorMs: number[] = [];
  const floorBytes: number[] = [];
  const loadedMs: number[] = [];
  const readyMs: number[] = [];
  const pingMs: number[] = [];
  const ourBytes: number[] = [];
  const pingBytes: number[] = [];
  const env = { DATA_DIR: folder, DISCORD_TOKEN: BENCH_TOKEN, DISCORD_API: room.apiUrl, LOG_LEVEL: 'debug' };
  try {
    for (let round = 0; round < ROUNDS; round += 1) {
      const floor = await startProgram('dist/bench-floor.js', {}, /^imported/);
      floorMs.push(floor.readyMs);
      floorBytes.push(Number(/rss (\d+)/.exec(floor.line)?.[1]));
      const loading = await startProgram('dist/main.js', env, /"msg":"loaded"/);
      loadedMs.push(loading.readyMs);
      await endProgram(loading.child);
      const ready = await startProgram('dist/main.js', env, /^Ready/);
      readyMs.push(ready.readyMs);
      ourBytes.push(await residentBytes(ready.child));
      await endProgram(ready.child);
      const ping = await startProgram('dist/bench-ping.js', { DISCORD_API: room.apiUrl }, /^ready/);
      pingMs.push(ping.readyMs);
      pingBytes.push(await residentBytes(ping.child));
      await endProgram(ping.child);
    }
  } finally {
    await room.close();
    rmSync(folder, { recursive: true, force: true });
  }
  const ms = (value: number) => `${value.toFixed(0)} ms`;
  const mb = (value: number) => `${(value / 1e6).toFixed(0)} MB`;
  const row = (
    what: string,
    ours: number[],
    floor: number[],
    show: (value: number) => string,
    goal: number | null,
  ): Row => ({
    what,
    ours: show(median(ours)),
    floor: show(median(floor)),
    ratio: (median(ours) / median(floor)).toFixed(2),
    goal: goal === null ? '' : `≤ ${goal}`,
    met: goal === null ? null : median(ours) / median(floor) <= goal,
  });
  return [
    row('cold start to loaded, against imports alone', loadedMs, floorMs, ms, 1.25),
    row('cold start to ready, against a bare client', readyMs, pingMs, ms, null),
    row('memory when ready, against a bare client', ourBytes, pingBytes, mb, null),
    row('memory when ready, against imports alone', ourBytes, floorBytes, mb, null),
  ];
}
