import { build } from 'esbuild';
import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../../src/database/open.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { offering } from './promise-club.ts';

const run = promisify(execFile);

test('two programs that press on one listing at the same time promise each piece once and lose no place', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'reef-promises-'));
  const { db, close } = openDatabase(folder);
  onTestFinished(() => {
    close();
    rmSync(folder, { recursive: true });
  });
  // It stands in the repository while it runs, so that it finds the compiled driver.
  const program = join(import.meta.dirname, `pressing-${process.pid}.tmp.mjs`);
  onTestFinished(() => rmSync(program, { force: true }));
  await build({
    entryPoints: [join(import.meta.dirname, 'pressing.cli.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'error',
  });
  const zoas = offering(db)('nell', 3, {}, new Date());
  const members = Array.from({ length: 50 }, (_, at) => `member${at}`);
  const file = join(folder, 'reef-club.db');
  const at = String(Date.now() + 1_500);
  const halves = [members.slice(0, 25), members.slice(25)];
  const said = await Promise.all(
    halves.map((half) => run(process.execPath, [program, file, String(zoas.id), at, ...half])),
  );
  const outcomes = said.flatMap(({ stdout }) =>
    stdout
      .trim()
      .split('\n')
      .map((line) => line.split(' ')[1]),
  );
  expect(outcomes.filter((kind) => kind === 'promised')).toHaveLength(3);
  expect(outcomes.filter((kind) => kind === 'queued')).toHaveLength(47);
  const kept = promiseStore(db).of(zoas);
  expect(kept.map(({ state }) => state)).toEqual([...Array(3).fill('promised'), ...Array(47).fill('queued')]);
  expect(new Set(kept.map(({ takerId }) => takerId)).size).toBe(50);
  // Each program pressed in its own order, and so they stand.
  for (const half of halves)
    expect(kept.flatMap(({ takerId }) => (half.includes(takerId) ? [takerId] : []))).toEqual(half);
});
