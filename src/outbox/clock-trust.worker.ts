import { agree, askAgainAt, doubtInWords, isFarAhead } from './clock-trust.ts';
import type { LastTurnStore } from './last-turn.store.ts';
import type { DiscordTime } from './outbox.ts';

export type ClockTrustDeps = {
  lastTurn: LastTurnStore;
  /** Asks Discord for its time. Never throws. */
  ask: () => Promise<DiscordTime>;
  now: () => Date;
  onDoubt: (words: string, askAgainAt: Date) => void;
  onConfirmed: (lastTurn: Date, now: Date) => void;
};

/** The row on the disk is at most this much behind, so that a turn seldom costs a commit. */
const WRITTEN_EVERY_MS = 60_000;

/**
 * Compares the clock with the last turn. From the outside a clock that jumped ahead looks like a program that was away:
 * in both cases Discord's clock decides, and until it agrees nothing may fire or be sent.
 */
export function clockTrust({ lastTurn, ask, now, onDoubt, onConfirmed }: ClockTrustDeps) {
  let written = lastTurn.read();
  let last = written;
  let doubt = { checks: 0, askedAt: 0, askAgainAt: 0 };

  const note = (at: Date): void => {
    last = at;
    doubt = { checks: 0, askedAt: 0, askAgainAt: 0 };
    // A clock that went back is written down too: it is the one that the next turn is compared with.
    if (written !== null && Math.abs(at.getTime() - written.getTime()) < WRITTEN_EVERY_MS) return;
    lastTurn.write(at);
    written = at;
  };

  /** Whether time has passed as it should since the last call; if so, this is the instant to compare with from now on. */
  const isSteady = (): boolean => {
    const at = now();
    if (isFarAhead(last, at)) return false;
    note(at);
    return true;
  };

  return {
    isSteady,
    /** Null when the clock can be trusted; otherwise when to look again. */
    async heldUntil(): Promise<Date | null> {
      if (isSteady()) return null;
      const before = now().getTime();
      // A clock that was moved since, in either direction, is looked at anew without waiting.
      if (doubt.checks > 0 && before >= doubt.askedAt && before < doubt.askAgainAt) return new Date(doubt.askAgainAt);
      const discords = await ask();
      // Corrected while the answer was on its way.
      if (isSteady()) return null;
      const at = now();
      const lastWas = last ?? at;
      if (discords.kind === 'says' && agree(at, discords.at)) {
        note(at);
        onConfirmed(lastWas, at);
        return null;
      }
      const checks = doubt.checks + 1;
      const again = askAgainAt(checks, at);
      doubt = { checks, askedAt: at.getTime(), askAgainAt: again.getTime() };
      onDoubt(doubtInWords(lastWas, at, discords), again);
      return again;
    },
  };
}
export type ClockTrust = ReturnType<typeof clockTrust>;
