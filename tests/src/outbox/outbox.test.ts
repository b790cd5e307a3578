import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { MessageView } from '../../../src/discord/message-view.ts';
import { render } from '../../../src/discord/render.ts';
import type { OutboxMessage } from '../../../src/outbox/outbox.ts';
import { isDoubtful, isLate, markLineOf, nonceOf, owedView, retryAt, viewToSend } from '../../../src/outbox/outbox.ts';
import { joinLate, mergedView } from '../../../src/outbox/catch-up.ts';
import { after, MINUTE_MS, NOON, saying, waiting } from './messages.ts';

const withButtons = (text: string, id: number, buttons: number): MessageView => ({
  ...saying(text),
  blocks: [
    ...saying(text).blocks,
    ...(buttons > 0
      ? [
          {
            kind: 'buttons' as const,
            buttons: Array.from({ length: buttons }, (_, at) => ({
              label: 'Done',
              act: 'done',
              args: [String(id), String(at)],
            })),
          },
        ]
      : []),
  ],
});

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

describe('what is late', () => {
  const late = after(24 * 60 * MINUTE_MS);
  const chore = (id: number, change: Partial<OutboxMessage> = {}) => waiting({ id, late: 'merge', ...change });
  const ids = (messages: readonly OutboxMessage[]) =>
    joinLate(messages, late).map(({ carrier, others }) => [carrier.id, ...others.map(({ id }) => id)]);

  test('is joined for one member and place, and nothing else is', () => {
    const others = [
      chore(4, { memberId: 'ben' }),
      chore(5, { channelId: 'elsewhere' }),
      chore(6, { guildId: 'another' }),
      chore(7, { fallbackChannelId: 'parent' }),
      chore(8, { file: Buffer.from('photo') }),
      chore(9, { late: 'always' }),
      chore(10, { memberId: null }),
    ];
    expect(ids([chore(1), chore(2), chore(3), ...others, ...others])).toEqual([
      [1, 2, 3],
      [4, 4],
      [5, 5],
      [6, 6],
      [7, 7],
    ]);
  });

  test('leaves alone what is on time or was tried', () => {
    expect(joinLate([chore(1), chore(2)], after(MINUTE_MS))).toEqual([]);
    expect(ids([chore(1, { firstTryAt: NOON }), chore(2, { firstTryAt: NOON })])).toEqual([]);
  });

  test('shows every word and button, in as few messages as can show them', () => {
    const text = fc.string({ minLength: 1, maxLength: 900 }).map((words) => `${words.trim()}.`);
    const given = fc.array(fc.record({ text, buttons: fc.nat(3) }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(given, (parts) => {
        const messages = parts.map(({ text: words, buttons }, n) =>
          chore(n, { view: withButtons(`${n}: ${words}`, n, buttons), mark: `mark ${n}` }),
        );
        const joined = joinLate(messages, late);
        const carried = new Set(joined.flatMap(({ others }) => others.map(({ id }) => id)));
        const bodies = messages
          .filter(({ id }) => !carried.has(id))
          .map((message) => {
            const group = joined.find(({ carrier }) => carrier === message);
            const views = [message, ...(group?.others ?? [])].flatMap(({ view }) => view ?? []);
            const shown = viewToSend({ ...message, view: mergedView(views) }, late);
            return shown ? JSON.stringify(render(shown).components) : '';
          });
        const all = bodies.join('');
        parts.forEach(({ text: words, buttons }, n) => {
          expect(all).toContain(JSON.stringify(`${n}: ${words}`.trim()).slice(1, -1));
          for (let at = 0; at < buttons; at += 1) expect(all).toContain(`:done:${n}:${at}"`);
        });
        // Two neighbours that would fit together are never apart.
        const characters = parts.reduce((sum, { text: words }) => sum + words.length + 6, 0);
        const components = parts.reduce((sum, { buttons }) => sum + buttons + 2, 0);
        expect(bodies.length).toBeLessThanOrEqual(Math.ceil(characters / 1_350) + Math.ceil(components / 15));
      }),
      { numRuns: 60 },
    );
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
