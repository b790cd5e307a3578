import type { DiscordTime } from './outbox.ts';

/** A clock that stands further ahead of its last turn than this has jumped, or the program was away for long. */
const FAR_AHEAD_MS = 60 * 60_000;
/** Our clock and Discord's agree when they are no further apart. */
const AGREE_WITHIN_MS = 5 * 60_000;
const FIRST_PAUSE_MS = 5_000;
const LONGEST_PAUSE_MS = 5 * 60_000;

/** Whether so much time has passed since the last turn that Discord has to confirm it. A clock that went back has not. */
export const isFarAhead = (lastTurn: Date | null, now: Date): boolean =>
  lastTurn !== null && now.getTime() - lastTurn.getTime() > FAR_AHEAD_MS;

export const agree = (ours: Date, discords: Date): boolean =>
  Math.abs(ours.getTime() - discords.getTime()) <= AGREE_WITHIN_MS;

/** When to ask again after so many checks in a row that did not confirm the clock. */
export const askAgainAt = (checks: number, now: Date): Date =>
  new Date(now.getTime() + Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** Math.min(20, Math.max(0, checks - 1))));

/** What came, what was expected, and what to do about it. */
export function doubtInWords(lastTurn: Date, ours: Date, discords: DiscordTime): string {
  const came = `this machine's clock says ${ours.toISOString()}, more than an hour after the last turn at ${lastTurn.toISOString()}`;
  const held = 'Until then nothing due is sent, and nothing is lost.';
  return discords.kind === 'says'
    ? `${came}; Discord's clock says ${discords.at.toISOString()}, and the two are expected to agree within ${AGREE_WITHIN_MS / 60_000} minutes. Set the clock of this machine right, for example by switching time synchronisation on. ${held}`
    : `${came}; Discord is expected to confirm that and did not say its time (${discords.why}). It is asked again; if this goes on, check the network. ${held}`;
}
