import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';

export type Started = { child: ChildProcess; readyMs: number; line: string };

/** Starts a built program and waits for the first output line that fits. Times from just before the spawn. */
export async function startProgram(file: string, env: Record<string, string>, fits: RegExp): Promise<Started> {
  const startedMs = performance.now();
  const child = spawn(process.execPath, [file], {
    env: { PATH: process.env.PATH ?? '', TZ: 'UTC', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    let text = '';
    const read = (chunk: Buffer) => {
      text += chunk.toString();
      const line = text.split('\n').find((each) => fits.test(each));
      if (line !== undefined) resolve({ child, readyMs: performance.now() - startedMs, line });
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.on('exit', (code) => reject(new Error(`${file} ended with code ${code} before it was ready:\n${text}`)));
  });
}

export async function endProgram(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  child.kill('SIGTERM');
  await once(child, 'exit');
}

/** Resident memory of a running process in bytes, as the kernel counts it. */
export async function residentBytes(child: ChildProcess): Promise<number> {
  const { readFile } = await import('node:fs/promises');
  const status = await readFile(`/proc/${child.pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? NaN) * 1024;
}
