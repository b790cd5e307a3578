// Builds what a program needs, then runs it: `node .config/run.mjs ask -- ...`.
import { spawn } from 'node:child_process';
import { bundle, PROGRAMS } from './build.mjs';

// They are for trying faults only, so the build of the product leaves them out.
Object.assign(PROGRAMS, {
  faults: 'tests/faults/faults.cli.ts',
  'faults-worker': 'tests/faults/worker.cli.ts',
  'faults-discord': 'tests/faults/discord.cli.ts',
});

const [, , program, ...rest] = process.argv;
const args = rest[0] === '--' ? rest.slice(1) : rest;

const also =
  program === 'ask'
    ? ['painter', 'solver', 'rings']
    : program === 'bench'
      ? ['main', 'bench-ping', 'bench-floor', 'painter', 'solver', 'rings']
      : program === 'faults'
        ? ['faults-worker', 'faults-discord']
        : [];
await bundle([...new Set([program, 'knowledge', ...also])]);
if (program !== 'knowledge' && program !== 'faults') {
  const compiled = await run(['dist/knowledge.js', 'compile'], ['ignore', 'ignore', 'inherit']);
  if (compiled !== 0) process.exit(compiled);
}
process.exit(await run(['--enable-source-maps', `dist/${program}.js`, ...args], 'inherit'));

/** Runs Node with these arguments, hands signals on, and gives the exit code. */
function run(nodeArguments, stdio) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, nodeArguments, { stdio });
    for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
    child.on('exit', (code, signal) => resolve(signal ? 1 : (code ?? 1)));
  });
}
