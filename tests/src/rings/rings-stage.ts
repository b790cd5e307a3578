import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { createRingSolver, type RingSolver, type RingSolverOptions } from '../../../src/rings/ring-solver.ts';
import { solverStage } from '../dosing/solver-stage.ts';

const WORKER = fileURLToPath(new URL('../../../src/rings/ring-solver.worker-thread.ts', import.meta.url));
const HERE = fileURLToPath(new URL('.', import.meta.url));

export type RingsStage = {
  solver(options?: RingSolverOptions): RingSolver;
  /** Bundles other source as a worker, to try the solver with one that misbehaves. */
  workerOf(source: string): Promise<string>;
  remove(): void;
};

/** Both workers bundled from source, since Node 20 runs no TypeScript. */
export async function ringsStage(): Promise<RingsStage> {
  const folder = mkdtempSync(join(HERE, '.rings-'));
  const workerFile = join(folder, 'rings.mjs');
  await build({ bundle: true, platform: 'node', format: 'esm', entryPoints: [WORKER], outfile: workerFile });
  const dosing = await solverStage();
  return {
    solver: (options = {}) =>
      createRingSolver({ workerFile, solver: dosing.solver({ timeLimitMs: 5_000 }), ...options }),
    workerOf: dosing.workerOf,
    remove: () => {
      rmSync(folder, { recursive: true, force: true });
      dosing.remove();
    },
  };
}
