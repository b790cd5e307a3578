// Builds what a program needs, then runs it: `node .config/run.mjs ask -- ...`.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { bundle, bundlePage } from './build.mjs';

const [, , program, ...rest] = process.argv;
const args = rest[0] === '--' ? rest.slice(1) : rest;
await bundle(program === 'knowledge' ? ['knowledge'] : [program, 'knowledge', 'main']);
if (program === 'bench') await bundlePage();
if (program !== 'knowledge' && existsSync('dist/knowledge.js')) {
  await new Promise((done, failed) => {
    const compile = spawn(process.execPath, ['dist/knowledge.js', 'compile'], { stdio: ['ignore', 'ignore', 'inherit'] });
    compile.on('exit', (code) => (code === 0 ? done() : failed(new Error('the knowledge base did not compile'))));
  });
}
const child = spawn(process.execPath, ['--enable-source-maps', `dist/${program}.js`, ...args], { stdio: 'inherit' });
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
child.on('exit', (code, signal) => process.exit(signal ? 1 : (code ?? 1)));
