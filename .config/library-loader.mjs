import { existsSync, readFileSync } from 'node:fs';
import { Script } from 'node:vm';

/**
 * Runs a bundle of libraries, with its compiled code if that lies beside it: reading it is far quicker than compiling anew.
 *
 * Another version of Node refuses the compiled code by itself; then the bundle is compiled, as any other file is.
 */
export function loadLibraries(file, require) {
  const compiled = `${file}.compiled`;
  // The bundle is ASCII, and as such the engine keeps it in half of the memory.
  const script = new Script(readFileSync(file, 'latin1'), {
    filename: file,
    ...(existsSync(compiled) ? { cachedData: readFileSync(compiled) } : {}),
  });
  const module = { exports: {} };
  script.runInThisContext()(require, module, module.exports);
  return { script, libraries: module.exports };
}
