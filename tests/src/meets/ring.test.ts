import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  answer,
  follow,
  inRingOrder,
  lessonsOf,
  membersOf,
  runOut,
  saidYes,
  type ArcStands,
  type RingArc,
  type SwapRing,
} from '../../../src/meets/ring.ts';
import { later, NOON } from './swap-club.ts';

const NAMES = ['nell', 'bo', 'uma', 'olu'];
const arcsOf = (count: number): RingArc[] =>
  NAMES.slice(0, count).map((from, at) => ({
    offerId: at + 1,
    from,
    to: NAMES[(at + 1) % count] ?? '',
    name: 'torch',
  }));
const ringOf = (count: number): SwapRing => ({
  id: 1,
  guildId: '7001',
  meetId: null,
  state: 'proposed',
  arcs: arcsOf(count),
  answers: {},
  until: later(2),
  createdAt: NOON,
});

type Act = { kind: 'answer'; who: string; said: 'yes' | 'no' } | { kind: 'time'; days: number };
const anAct = fc.oneof(
  fc.record({ kind: fc.constant('answer' as const), who: fc.constantFrom(...NAMES, 'tom'), said: fc.constantFrom('yes' as const, 'yes' as const, 'no' as const) }), // prettier-ignore
  fc.record({ kind: fc.constant('time' as const), days: fc.double({ min: 0, max: 1.5, noNaN: true }) }),
);

function play(count: number, acts: readonly Act[]): SwapRing[] {
  let [ring, now] = [ringOf(count), NOON];
  const seen = [ring];
  for (const act of acts) {
    if (act.kind === 'time') {
      now = later(act.days, now);
      ring = runOut(ring, now) ?? ring;
    } else {
      const result = answer(ring, act.who, act.said, now);
      if ('ring' in result) ring = result.ring;
    }
    seen.push(ring);
  }
  return seen;
}

describe('a ring', () => {
  test('is agreed exactly when all in it said yes, and never half', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 4 }), fc.array(anAct, { maxLength: 14 }), (count, acts) => {
        for (const ring of play(count, acts)) {
          const yes = saidYes(ring).length;
          if (ring.state === 'agreed') expect(yes).toBe(count);
          if (ring.state === 'proposed') expect(yes).toBeLessThan(count);
          if (ring.state === 'dissolved') expect(yes).toBeLessThan(count);
          expect(Object.keys(ring.answers).every((who) => membersOf(ring).includes(who))).toBe(true);
        }
      }),
    );
  });

  test('that is agreed or dissolved stays so, whatever is said to it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 4 }), fc.array(anAct, { maxLength: 20 }), (count, acts) => {
        const states = play(count, acts).map(({ state }) => state);
        const end = states.findIndex((state) => state !== 'proposed');
        if (end >= 0) expect(new Set(states.slice(end)).size).toBe(1);
      }),
    );
  });

  test('is dissolved by one no, also by one that was a yes before', () => {
    const yes = answer(ringOf(3), 'bo', 'yes', NOON);
    expect(yes.kind).toBe('waits');
    if (yes.kind !== 'waits') return;
    expect(answer(yes.ring, 'bo', 'yes', NOON).kind).toBe('same');
    expect(answer(yes.ring, 'bo', 'no', NOON)).toMatchObject({ kind: 'dissolved', ring: { state: 'dissolved' } });
  });

  test('takes no answer from outside, and none when its time is over', () => {
    expect(answer(ringOf(2), 'tom', 'yes', NOON).kind).toBe('not-in-it');
    expect(answer(ringOf(2), 'bo', 'yes', later(2)).kind).toBe('too-late');
    expect(runOut(ringOf(2), later(1.9))).toBeNull();
    expect(runOut(ringOf(2), later(2))?.answers['bo']?.said).toBe('silent');
  });

  test('is done when every piece was handed over, and not before', () => {
    const agreed: SwapRing = { ...ringOf(3), state: 'agreed' };
    const stands = fc.array(fc.constantFrom<ArcStands>('promised', 'handed-over', 'gone'), { minLength: 3, maxLength: 3 }); // prettier-ignore
    fc.assert(
      fc.property(stands, (list) => {
        const state = follow(agreed, list)?.state ?? 'agreed';
        const expected = list.includes('gone') ? 'dissolved' : list.includes('promised') ? 'agreed' : 'done';
        expect(state).toBe(expected);
        expect(follow({ ...agreed, state: 'done' }, list)).toBeNull();
      }),
    );
  });
});

describe('the order of a ring', () => {
  test('is found whatever way its pieces come', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }).chain((count) => fc.shuffledSubarray(arcsOf(count), { minLength: count })),
        (arcs) => {
          // prettier-ignore
          const ordered = inRingOrder(arcs);
          expect(ordered).toHaveLength(arcs.length);
          ordered?.forEach((arc, at) => expect(ordered[(at + 1) % arcs.length]?.from).toBe(arc.to));
        },
      ),
    );
  });

  test.each<[string, RingArc[]]>([
    ['one piece', arcsOf(2).slice(0, 1)],
    ['an open chain', arcsOf(4).slice(0, 3)],
    ['two rings', [...arcsOf(2), { offerId: 8, from: 'x', to: 'y', name: 'z' }, { offerId: 9, from: 'y', to: 'x', name: 'z' }]], // prettier-ignore
    ['one who gives twice', [...arcsOf(2), { offerId: 8, from: 'nell', to: 'bo', name: 'z' }]],
  ])('is none for %s', (_what, arcs) => expect(inRingOrder(arcs)).toBeNull());
});

describe('what a ring that came apart teaches', () => {
  const dissolved = (said: 'no' | 'silent'): SwapRing => ({
    ...ringOf(3),
    state: 'dissolved',
    answers: { bo: { said, at: NOON.getTime() }, uma: { said: 'yes', at: NOON.getTime() } },
  });

  test('a no counts thirty days for both pieces of who said it, and for nobody else’s', () => {
    expect([...lessonsOf([dissolved('no')], later(29)).refused].sort()).toEqual(['1/bo', '2/uma']);
    expect(lessonsOf([dissolved('no')], later(30)).refused.size).toBe(0);
    expect(lessonsOf([dissolved('no')], NOON).resting.size).toBe(0);
  });

  test('silence gives a week’s rest to who was silent', () => {
    expect([...lessonsOf([dissolved('silent')], later(6)).resting]).toEqual(['bo']);
    expect(lessonsOf([dissolved('silent')], later(7)).resting.size).toBe(0);
    expect(lessonsOf([dissolved('silent')], NOON).refused.size).toBe(0);
  });
});
