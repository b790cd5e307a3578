import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { startDiscord, type FakeDiscord } from './children.ts';
import { planReminders } from './reminders.ts';

export type Stage = { folder: string; discord: FakeDiscord; startedMs: number };
export type StagePlan = {
  reminders: number;
  apartMs: number;
  /** What the fake Discord is told by its environment. */
  discord?: Record<string, string>;
};

/** A data folder with reminders, and a fake Discord; both are gone when the act is over. */
export async function onStage<Result>(plan: StagePlan, act: (stage: Stage) => Promise<Result>): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'reef-club-faults-'));
  const startedMs = Date.now();
  const discord = await startDiscord({
    STARTED_MS: String(startedMs),
    MEMBERS: String(plan.reminders),
    ...plan.discord,
  });
  try {
    planReminders(folder, { memberIds: discord.memberIds, startedMs, apartMs: plan.apartMs });
    return await act({ folder, discord, startedMs });
  } finally {
    await discord.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

const LOOK_EVERY_MS = 20;

/** Looks until something is so; false when it is not after all that time. */
export async function until(isSo: () => boolean, longestMs: number): Promise<boolean> {
  for (const startedMs = Date.now(); Date.now() - startedMs < longestMs; await sleep(LOOK_EVERY_MS))
    if (isSo()) return true;
  return isSo();
}
