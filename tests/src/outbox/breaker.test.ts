import { expect, test } from 'vitest';
import { afterOutcome, CLOSED, heldUntil, type Breaker } from '../../../src/outbox/breaker.ts';
import type { DeliveryOutcome } from '../../../src/outbox/outbox.ts';
import { after, NOON } from './messages.ts';

const failure: DeliveryOutcome = { kind: 'later', retryAfterMs: null, why: '503' };
const forbidden: DeliveryOutcome = { kind: 'unreachable', why: '50013', forbidden: true };
const after_ = (breaker: Breaker, outcomes: readonly DeliveryOutcome[], now = NOON) =>
  outcomes.reduce((state, outcome) => afterOutcome(state, outcome, now), breaker);
const times = (count: number, outcome: DeliveryOutcome) => Array.from({ length: count }, () => outcome);

test('two failures may happen; after the third there is one probe every thirty seconds until one succeeds', () => {
  expect(heldUntil(after_(CLOSED, times(2, failure)), NOON)).toBeNull();
  const open = after_(CLOSED, times(3, failure));
  expect(heldUntil(open, after(29_999))).toEqual(after(30_000));
  expect(heldUntil(open, after(30_000))).toBeNull();
  expect(heldUntil(afterOutcome(open, failure, after(30_000)), after(30_001))).toEqual(after(60_000));
  expect(afterOutcome(open, { kind: 'sent', messageId: '1' }, after(30_000))).toEqual(CLOSED);
});

test('a rate limit holds everything as long as Discord says', () => {
  const limited = afterOutcome(CLOSED, { kind: 'later', retryAfterMs: 4_000, why: '429' }, NOON);
  expect(heldUntil(limited, after(3_999))).toEqual(after(4_000));
  expect(heldUntil(limited, after(4_000))).toBeNull();
});

test('an hour of refused tokens or of forbidden channels stays far below 10,000 invalid requests in ten minutes', () => {
  for (const [outcome, most] of [
    [{ kind: 'refused', why: '401' } as const, 12],
    [forbidden, 70],
  ] as const) {
    let state = CLOSED;
    let requests = 0;
    for (let ms = 0; ms < 3_600_000; ms += 100) {
      if (heldUntil(state, after(ms))) continue;
      requests += 1;
      state = afterOutcome(state, outcome, after(ms));
    }
    expect(requests).toBeLessThanOrEqual(most);
  }
});

test('a channel that is gone is no sign that Discord refuses us', () => {
  expect(heldUntil(after_(CLOSED, times(50, { ...forbidden, forbidden: false })), NOON)).toBeNull();
});
