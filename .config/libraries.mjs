// The libraries that the program starts with. They are most of its code and seldom change, so they are bundled by
// themselves and kept with their compiled code.
import { createHash } from 'node:crypto';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { compiledOf, loadLibraries } from './library-loader.mjs';

const require = createRequire(import.meta.url);
const COMMON_JS = ['discord.js', 'pino'];
const MODULES = ['temporal-polyfill', 'zod'];
const LIBRARIES = [...COMMON_JS, ...MODULES];
const LOADED = 'loaded-libraries';

/** Bundles the libraries into `outdir` and gives the plugin that makes a program take them from there. */
export async function bundleLibraries(outdir, external) {
  const { outputFiles } = await build({
    stdin: { contents: everyLibrary(), resolveDir: '.' },
    bundle: true,
    write: false,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    // A script outside of the module loader cannot import.
    supported: { 'dynamic-import': false },
    banner: { js: '(function (require, module, exports) {' },
    footer: { js: '})' },
    logLevel: 'warning',
    external,
  });
  const { contents } = outputFiles[0];
  // The engine tells sources apart by their length alone, so the name says which compiled code belongs to which.
  const name = `libraries-${createHash('sha256').update(contents).digest('hex').slice(0, 10)}.js`;
  const file = resolve(outdir, name);
  await mkdir(outdir, { recursive: true });
  await put(file, contents);
  const { script } = loadLibraries(file, require);
  await put(compiledOf(file), script.createCachedData());
  return fromBundle(name);
}

/** Every library under its own name; modules are taken as modules, which saves a function around each of their files. */
const everyLibrary = () =>
  [
    ...MODULES.map((library, at) => `import * as module${at} from '${library}';`),
    `module.exports = {`,
    ...MODULES.map((library, at) => `'${library}': module${at},`),
    ...COMMON_JS.map((library) => `'${library}': require('${library}'),`),
    `};`,
  ].join('\n');

/** Written beside and moved over, so that a program that starts meanwhile never reads half of it. */
async function put(file, contents) {
  const beside = `${file}.${process.pid}`;
  await writeFile(beside, contents);
  await rename(beside, file);
}

const fromBundle = (name) => ({
  name: 'libraries',
  setup({ onResolve, onLoad }) {
    const wanted = new RegExp(`^(${[...LIBRARIES, LOADED].map((each) => each.replace('.', '\\.')).join('|')})$`);
    onResolve({ filter: wanted }, ({ path, importer }) =>
      importer.includes('node_modules') ? undefined : { path, namespace: 'library', sideEffects: false },
    );
    onLoad({ filter: /./, namespace: 'library' }, async ({ path }) => ({
      contents: path === LOADED ? loading(name) : await exportsOf(path),
      resolveDir: dirname(fileURLToPath(import.meta.url)),
    }));
  },
});

/** The bundle lies beside the program; this code may have come into one of its chunks. */
const loading = (name) => `
  import { existsSync } from 'node:fs';
  import { createRequire } from 'node:module';
  import { fileURLToPath } from 'node:url';
  import { compiledOf, loadLibraries } from './library-loader.mjs';
  const [near, above] = ['./${name}', '../${name}'].map((path) => fileURLToPath(new URL(path, import.meta.url)));
  export const { libraries } = loadLibraries(existsSync(near) ? near : above, createRequire(import.meta.url));
`;

/** Each export by itself, so that what no program uses is left out. */
async function exportsOf(library) {
  const { default: whole, ...named } = await import(library);
  const names = new Set([...Object.keys(named), ...Object.keys(whole ?? {})]);
  const one = (name, at) => `const part${at} = /* @__PURE__ */ of('${name}'); export { part${at} as ${name} };`;
  return [
    `import { libraries } from '${LOADED}';`,
    `const of = (name) => libraries['${library}'][name];`,
    ...[...names].filter((name) => /^[A-Za-z_$][\w$]*$/.test(name) && name !== 'default').map(one),
  ].join('\n');
}
