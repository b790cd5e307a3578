import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import type { DiscordReport } from './report.ts';
import { writePlan, type Plan } from './plan.ts';

const builtFile = (name: string) => fileURLToPath(new URL(`./${name}.js`, import.meta.url));

export const isOver = (child: ChildProcess): boolean => child.exitCode !== null || child.signalCode !== null;

/** Resolves once it has ended; at once when it has. */
export async function over(child: ChildProcess): Promise<{ code: number | null; signal: string | null }> {
  if (!isOver(child)) await once(child, 'exit');
  return { code: child.exitCode, signal: child.signalCode };
}

/** A process that delivers, and dies where its plan says. */
export const startWorker = (plan: Plan): ChildProcess =>
  fork(builtFile('faults-worker'), [], {
    env: { PATH: process.env['PATH'] ?? '', TZ: 'UTC', ...writePlan(plan) },
    // What it says of its own faults is no matter here; what it does not deliver is.
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });

const Open = z.object({
  open: z.object({ apiUrl: z.string(), botId: z.string(), memberIds: z.array(z.string()) }),
});
const Report = z.object({ report: z.custom<DiscordReport>((value) => typeof value === 'object' && value !== null) });

export type FakeDiscord = z.infer<typeof Open>['open'] & {
  report: () => Promise<DiscordReport>;
  close: () => Promise<void>;
};

/** The fake Discord, in its own process. */
export async function startDiscord(env: Record<string, string>): Promise<FakeDiscord> {
  const child = fork(builtFile('faults-discord'), [], {
    env: { PATH: process.env['PATH'] ?? '', TZ: 'UTC', ...env },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  const { open } = Open.parse((await once(child, 'message'))[0]);
  return {
    ...open,
    report: async () => {
      child.send('report');
      return Report.parse((await once(child, 'message'))[0]).report;
    },
    close: async () => {
      child.kill('SIGKILL');
      await over(child);
    },
  };
}
