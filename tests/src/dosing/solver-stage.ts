import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { createSolver, type Solver, type SolverOptions } from '../../../src/dosing/solver.ts';

const DOSING = fileURLToPath(new URL('../../../src/dosing/', import.meta.url));
// Beside this file, so that the bundle finds the solver in the node_modules of the project.
const HERE = fileURLToPath(new URL('.', import.meta.url));
const WASM = fileURLToPath(import.meta.resolve('highs/runtime'));

export type SolverStage = {
  solver(options?: SolverOptions): Solver;
  /** Bundles other source as a worker, to try the solver with one that misbehaves. */
  workerOf(source: string): Promise<string>;
  remove(): void;
};

/** The worker bundled from source, since Node 20 runs no TypeScript. */
export async function solverStage(): Promise<SolverStage> {
  const folder = mkdtempSync(join(HERE, '.solver-'));
  const workerFile = join(folder, 'solver.mjs');
  const common = {
    bundle: true,
    platform: 'node' as const,
    format: 'esm' as const,
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  };
  await build({ ...common, entryPoints: [join(DOSING, 'solver.worker-thread.ts')], outfile: workerFile });
  let count = 0;
  return {
    solver: (options = {}) => createSolver({ workerFile, wasmFile: WASM, ...options }),
    async workerOf(source) {
      const outfile = join(folder, `worker-${++count}.mjs`);
      await build({ ...common, stdin: { contents: source, loader: 'js' }, outfile });
      return outfile;
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
