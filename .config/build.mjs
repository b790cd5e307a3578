// Bundles every program of the project into dist/ and compiles the knowledge base to JSON beside them.
import { cp, mkdir, rm } from 'node:fs/promises';
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { build } from 'esbuild';
import { bundleLibraries } from './libraries.mjs';

export const PROGRAMS = {
  main: 'src/main.ts',
  ask: 'src/room/ask.cli.ts',
  painter: 'src/drawing/painter.worker-thread.ts',
  solver: 'src/dosing/solver.worker-thread.ts',
  rings: 'src/rings/ring-solver.worker-thread.ts',
  register: 'src/discord/register.cli.ts',
  knowledge: 'src/knowledge/knowledge.cli.ts',
  bench: 'tests/bench/bench.cli.ts',
  'bench-ping': 'tests/bench/ping.cli.ts',
  'bench-floor': 'tests/bench/floor.cli.ts',
};

/** Programs whose start counts are bundled by themselves: a program made of few files starts sooner. */
const BY_THEMSELVES = new Set(['main', 'painter', 'solver', 'rings', 'bench-floor', 'bench-ping']);

/** Bundles the named programs. Native modules stay outside the bundle. */
export async function bundle(names = Object.keys(PROGRAMS), outdir = 'dist') {
  await cp('src/drawing/font', `${outdir}/font`, { recursive: true });
  await cp('node_modules/highs/build/highs.wasm', `${outdir}/highs.wasm`);
  const there = names.filter((name) => existsSync(PROGRAMS[name]));
  const together = there.filter((name) => !BY_THEMSELVES.has(name));
  const alone = there.filter((name) => BY_THEMSELVES.has(name)).map((name) => [name]);
  await Promise.all(
    [together, ...alone].filter((group) => group.length > 0).map((group) => bundleGroup(group, outdir)),
  );
}

const EXTERNAL = ['better-sqlite3', '@resvg/resvg-js', 'zlib-sync', 'bufferutil', 'utf-8-validate', 'esbuild'];

/** Programs of a group share what they have in common. */
async function bundleGroup(names, outdir) {
  const plugins = names.includes('main') ? [await bundleLibraries(outdir, EXTERNAL)] : [];
  await build({
    entryPoints: Object.fromEntries(names.map((name) => [name, PROGRAMS[name]])),
    outdir,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    splitting: true,
    chunkNames: 'chunks/[name]-[hash]',
    sourcemap: true,
    // A stack trace needs the places only.
    sourcesContent: false,
    logLevel: 'warning',
    external: EXTERNAL,
    plugins,
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  });
}

/** Bundles the practice room's page. */
export async function bundlePage(outdir = 'dist/page') {
  if (!existsSync('src/room/page/page.tsx')) return;
  await build({
    entryPoints: ['src/room/page/page.tsx', 'src/room/page/page.css'],
    outdir,
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'warning',
  });
  await cp('src/room/page/page.html', `${outdir}/index.html`);
}

if (process.argv[1]?.endsWith('build.mjs')) {
  await rm('dist', { recursive: true, force: true });
  await mkdir('dist', { recursive: true });
  await Promise.all([bundle(), bundlePage()]);
  const { status } = spawnSync(process.execPath, ['dist/knowledge.js', 'compile'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0) process.exit(status ?? 1);
}
