import type { DeliveryOutcome } from './outbox.ts';

/** Keeps a sender that meets only refusals from knocking on: Discord bans an address after 10,000 of them. */
export type Breaker = { failures: number; forbidden: number; openUntil: Date | null };

export const CLOSED: Breaker = { failures: 0, forbidden: 0, openUntil: null };

/** So many failures in a row mean that Discord is not answering, not that one message is hard to send. */
const FAILURES = 3;
const PROBE_EVERY_MS = 30_000;
const FORBIDDEN = 10;
const FORBIDDEN_PAUSE_MS = 60_000;
const REFUSED_PAUSE_MS = 5 * 60_000;

/** The breaker after one more delivery. While it is open nothing is tried; then one message is the probe. */
export function afterOutcome(breaker: Breaker, outcome: DeliveryOutcome, now: Date): Breaker {
  const open = (ms: number) => new Date(now.getTime() + ms);
  switch (outcome.kind) {
    case 'sent':
    case 'malformed':
      return CLOSED;
    case 'refused':
      return { ...breaker, openUntil: open(REFUSED_PAUSE_MS) };
    case 'unreachable': {
      const forbidden = breaker.forbidden + (outcome.forbidden ? 1 : 0);
      return { failures: 0, forbidden, openUntil: forbidden >= FORBIDDEN ? open(FORBIDDEN_PAUSE_MS) : null };
    }
    case 'later': {
      if (outcome.retryAfterMs !== null) return { ...breaker, openUntil: open(outcome.retryAfterMs) };
      const failures = breaker.failures + 1;
      return { ...breaker, failures, openUntil: failures >= FAILURES ? open(PROBE_EVERY_MS) : null };
    }
  }
}

/** Until when nothing may be sent; null when sending is allowed. */
export const heldUntil = ({ openUntil }: Breaker, now: Date): Date | null =>
  openUntil && openUntil.getTime() > now.getTime() ? openUntil : null;
