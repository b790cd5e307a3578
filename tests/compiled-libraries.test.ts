import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { built } from './set-up-build.ts';

const LOADER = new URL('../.config/library-loader.mjs', import.meta.url).href;

/** Loads a bundle of libraries in a process of its own, as a start does. */
function loadedFrom(file: string): unknown {
  const program = `
    import { createRequire } from 'node:module';
    import { loadLibraries } from '${LOADER}';
    const { script, libraries } = loadLibraries(process.argv[1], createRequire('${LOADER}'));
    console.log(JSON.stringify({ rejected: script.cachedDataRejected ?? null, names: Object.keys(libraries).sort() }));`;
  return JSON.parse(
    execFileSync(process.execPath, ['--input-type=module', '--eval', program, file], { encoding: 'utf8', env: {} }),
  );
}

const names = ['discord.js', 'pino', 'temporal-polyfill', 'zod'];
const folder = () => dirname(built('main.js'));
const bundles = () => readdirSync(folder()).filter((name) => /^libraries-[0-9a-f]+\.js$/.test(name));

test('every bundle of libraries has compiled code that the engine takes', () => {
  expect(bundles().length).toBeGreaterThan(0);
  for (const name of bundles()) expect(loadedFrom(join(folder(), name))).toEqual({ rejected: false, names });
});

test.each<[string, boolean | null, (compiled: string) => void]>([
  ['is missing', null, (compiled) => rmSync(compiled)],
  ['was cut off', true, (compiled) => truncateSync(compiled, 10_000)],
  ['is empty', true, (compiled) => truncateSync(compiled, 0)],
])('libraries load without compiled code when it %s', (_what, rejected, spoil) => {
  const [name = ''] = bundles();
  const copies = mkdtempSync(join(tmpdir(), 'reef-libraries-'));
  onTestFinished(() => rmSync(copies, { recursive: true, force: true }));
  const files = readdirSync(folder()).filter((file) => file.startsWith(name));
  for (const file of files) copyFileSync(join(folder(), file), join(copies, file));
  spoil(join(copies, files.find((file) => file !== name) ?? ''));
  expect(loadedFrom(join(copies, name))).toEqual({ rejected, names });
});
