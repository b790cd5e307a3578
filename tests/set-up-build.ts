import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const BUILDING = join(tmpdir(), `reef-club-building-${Buffer.from(ROOT).toString('base64url')}`);
const WAIT_MS = 100;
const LONGEST_WAIT_MS = 60_000;

/** A file of the build, such as `main.js`. `npm test` builds first; a test run by itself gets its build here, once. */
export function built(name: string): string {
  const file = join(ROOT, 'dist', name);
  for (let waitedMs = 0; !existsSync(file); waitedMs += WAIT_MS) {
    if (waitedMs > LONGEST_WAIT_MS) throw new Error(`${file} is missing and nobody builds it; delete ${BUILDING}`);
    if (takeTurn()) build();
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, WAIT_MS);
  }
  return file;
}

/** The test files run side by side; only the first one that finds nothing built may build. */
function takeTurn(): boolean {
  try {
    mkdirSync(BUILDING);
    return true;
  } catch {
    return false;
  }
}

function build(): void {
  try {
    execFileSync(process.execPath, ['.config/build.mjs'], { cwd: ROOT, stdio: 'inherit' });
  } finally {
    rmSync(BUILDING, { recursive: true, force: true });
  }
}
