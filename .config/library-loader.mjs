import { existsSync, readFileSync } from 'node:fs';
import { Script } from 'node:vm';

/** Compiled code is of one version of Node on one kind of processor; any other does not even look at it. */
export const compiledOf = (file) => `${file}.${process.version}-${process.arch}`;

/**
 * Runs a bundle of libraries, with its compiled code if that lies beside it: reading it is far quicker than compiling anew.
 *
 * Where none lies there, or the engine refuses it, the bundle is compiled as any other file is.
 */
export function loadLibraries(file, require) {
  const compiled = compiledOf(file);
  // The bundle is ASCII, and as such the engine keeps it in half of the memory.
  const script = new Script(readFileSync(file, 'latin1'), {
    filename: file,
    ...(existsSync(compiled) ? { cachedData: readFileSync(compiled) } : {}),
  });
  const module = { exports: {} };
  script.runInThisContext()(require, module, module.exports);
  return { script, libraries: module.exports };
}
