import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  catchUp,
  isDoubtful,
  isLate,
  markLineOf,
  mergedView,
  nonceOf,
  owedView,
  retryAt,
  viewToSend,
} from '../../../src/outbox/outbox.ts';
import { after, MINUTE_MS, NOON, saying, waiting } from './messages.ts';

const words = (view: ReturnType<typeof viewToSend>) =>
  (view?.blocks ?? []).map((block) => (block.kind === 'text' ? block.text.markdown : block.kind));

test('a nonce fits Discord’s 25 characters and is another for every id', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER }), fc.integer({ min: 1, max: 1e9 }), (id, other) => {
      expect(nonceOf({ id }).length).toBeLessThanOrEqual(25);
      expect(nonceOf({ id }) === nonceOf({ id: other })).toBe(id === other);
    }),
  );
});

describe('retryAt', () => {
  test('doubles from one second and stays at five minutes', () => {
    const pauses = [1, 2, 3, 9, 30].map((attempts) => retryAt(attempts, null, NOON).getTime() - NOON.getTime());
    expect(pauses).toEqual([1_000, 2_000, 4_000, 256_000, 300_000]);
  });

  test('is never before Discord allows it', () => {
    fc.assert(
      fc.property(fc.nat(60), fc.nat(7_200_000), (attempts, retryAfterMs) => {
        const next = retryAt(attempts, retryAfterMs, NOON).getTime();
        expect(next).toBeGreaterThanOrEqual(NOON.getTime() + retryAfterMs);
      }),
    );
  });
});

test('only a post that was tried more than a minute ago is in doubt', () => {
  expect(isDoubtful(waiting(), after(MINUTE_MS * 90))).toBe(false);
  expect(isDoubtful(waiting({ firstTryAt: NOON }), after(MINUTE_MS))).toBe(false);
  expect(isDoubtful(waiting({ firstTryAt: NOON }), after(MINUTE_MS + 1))).toBe(true);
  expect(isDoubtful(waiting({ firstTryAt: NOON, act: 'edit' }), after(MINUTE_MS * 90))).toBe(false);
});

test('fifteen minutes are on time; a message tried in time stays on time', () => {
  expect(isLate(waiting(), after(15 * MINUTE_MS))).toBe(false);
  expect(isLate(waiting(), after(15 * MINUTE_MS + 1))).toBe(true);
  expect(isLate(waiting({ firstTryAt: after(MINUTE_MS) }), after(600 * MINUTE_MS))).toBe(false);
});

test('a message says when it is late, and carries its mark unless it has one of its own', () => {
  const late = after(60 * MINUTE_MS);
  expect(words(viewToSend(waiting({ id: 46 }), NOON))).toEqual(['clean the skimmer cup', markLineOf({ id: 46 })]);
  expect(words(viewToSend(waiting({ mark: '1:done:1' }), NOON))).toEqual(['clean the skimmer cup']);
  expect(words(viewToSend(waiting({ mark: '1:done:1' }), late))[1]).toContain(`<t:${NOON.getTime() / 1000}:f>`);
  expect(words(viewToSend(waiting({ act: 'edit' }), late))).toEqual(['clean the skimmer cup']);
});

describe('catchUp', () => {
  const late = after(24 * 60 * MINUTE_MS);

  test('joins late ones of one member and channel, leaves out the silent ones, and lets closings be', () => {
    const chores = [1, 2, 3].map((id) => waiting({ id, late: 'merge' }));
    const others = [
      waiting({ id: 4, late: 'merge', memberId: 'ben' }),
      waiting({ id: 5, late: 'merge', channelId: 'elsewhere' }),
      waiting({ id: 6, late: 'merge', guildId: 'another' }),
      waiting({ id: 7, late: 'always' }),
    ];
    const silent = waiting({ id: 8, late: 'drop' });
    const { drop, merge } = catchUp([...chores, ...others, silent], late);
    expect(drop.map(({ id }) => id)).toEqual([8]);
    expect(merge.map(({ carrier, others: rest }) => [carrier.id, ...rest.map(({ id }) => id)])).toEqual([[1, 2, 3]]);
  });

  test('touches nothing that is on time or was tried', () => {
    const messages = [
      waiting({ id: 1, late: 'merge' }),
      waiting({ id: 2, late: 'merge' }),
      waiting({ id: 3, late: 'drop' }),
    ];
    expect(catchUp(messages, after(MINUTE_MS))).toEqual({ drop: [], merge: [] });
    const tried = messages.map((message) => ({ ...message, firstTryAt: NOON }));
    expect(catchUp(tried, late)).toEqual({ drop: [], merge: [] });
  });

  test('keeps the words of all in their order', () => {
    expect(words(mergedView([saying('Monday'), saying('Tuesday')]))).toEqual(['Monday', 'rule', 'Tuesday']);
    expect(() => mergedView([])).toThrow(RangeError);
  });
});

test('what could not be delivered is told in words, without buttons and pictures', () => {
  const [owed] = owedView(
    {
      ...saying('it is closed'),
      blocks: [
        ...saying('it is closed').blocks,
        { kind: 'photo', name: 'photo.jpg', alt: 'a worm' },
        { kind: 'buttons', buttons: [{ label: 'Card', act: 'card', args: ['aiptasia'] }] },
      ],
    },
    'Missing Permissions',
  );
  expect(owed?.audience).toBe('member');
  expect(words(owed ?? null)).toEqual([expect.stringContaining('Missing Permissions'), 'it is closed']);
  expect(owedView(null, null)).toEqual([]);
});
