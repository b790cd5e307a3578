import { describe, expect, test } from 'vitest';
import { ACTORS, ACTS, moved, type Actor, type KeptPromise, type PromiseAct } from '../../../src/promises/promise.ts';
import type { PromiseState } from '../../../src/swaps/offer.ts';

const NOW = new Date('2026-11-25T12:00:00Z');
const DAY_MS = 86_400_000;
const days = (count: number) => new Date(NOW.getTime() + count * DAY_MS);

/** Every situation that a promise can be in. */
type Situation =
  | 'queued'
  | 'promised'
  | 'giver said'
  | 'taker said'
  | 'handed over'
  | 'settled'
  | 'released'
  | 'expired'
  | 'withdrawn';
const SITUATIONS: readonly Situation[] = [
  ...(['queued', 'promised', 'giver said', 'taker said', 'handed over', 'settled', 'released', 'expired'] as const),
  'withdrawn',
];
const STATES: Record<Situation, PromiseState> = {
  queued: 'queued',
  promised: 'promised',
  'giver said': 'promised',
  'taker said': 'promised',
  'handed over': 'handed-over',
  settled: 'handed-over',
  released: 'released',
  expired: 'expired',
  withdrawn: 'withdrawn',
};
const promiseIn = (situation: Situation, given: Partial<KeptPromise> = {}): KeptPromise => ({
  ...{ id: 1, guildId: 'club', offerId: 7, giverId: 'nell', takerId: 'uma', ringId: null, word: null, threadId: null },
  state: STATES[situation],
  until: situation === 'queued' ? null : days(2),
  giverSaid: ['giver said', 'handed over', 'settled'].includes(situation),
  takerSaid: ['taker said', 'handed over'].includes(situation),
  extended: false,
  createdAt: days(-5),
  changedAt: days(-5),
  ...given,
});

/** All that is allowed while the time of a promise is not over, and the state it leads to. Everything else is refused. */
const ALLOWED: readonly [Situation, PromiseAct, readonly Actor[], PromiseState][] = [
  ['queued', 'release', ['giver', 'taker'], 'released'],
  ['queued', 'pass', ['clock'], 'promised'],
  ['queued', 'withdraw', ['offer'], 'withdrawn'],
  ['promised', 'release', ['giver', 'taker'], 'released'],
  ['promised', 'hand-over', ['giver'], 'promised'],
  ['promised', 'receive', ['taker'], 'promised'],
  ['promised', 'extend', ['giver'], 'promised'],
  ['promised', 'withdraw', ['offer'], 'withdrawn'],
  ['giver said', 'receive', ['taker'], 'handed-over'],
  ['giver said', 'object', ['taker'], 'promised'],
  ['taker said', 'hand-over', ['giver'], 'handed-over'],
  ['taker said', 'object', ['giver'], 'promised'],
  ['settled', 'receive', ['taker'], 'handed-over'],
  ['withdrawn', 'return', ['offer'], 'promised'],
];
/** What the clock may do besides, once the time is over; and what was withdrawn has to wait anew. */
const WHEN_OVER: typeof ALLOWED = [
  ...ALLOWED.filter(([from]) => from !== 'withdrawn'),
  ['withdrawn', 'return', ['offer'], 'queued'],
  ['promised', 'expire', ['clock'], 'expired'],
  ['giver said', 'settle', ['clock'], 'handed-over'],
  ['taker said', 'settle', ['clock'], 'handed-over'],
];
const all = SITUATIONS.flatMap((situation) =>
  ACTS.flatMap((act) => ACTORS.map((actor) => ({ situation, act, actor }))),
);

describe('a promise', () => {
  test.each([
    { name: 'before its time is over', until: days(2), table: ALLOWED },
    { name: 'after its time is over', until: days(-1), table: WHEN_OVER },
  ])('moves by these acts and no others: $name', ({ until, table }) => {
    expect(all).toHaveLength(9 * 10 * 5);
    for (const { situation, act, actor } of all) {
      const promise = promiseIn(situation, situation === 'queued' ? {} : { until });
      const row = table.find(([from, what, who]) => from === situation && what === act && who.includes(actor));
      const result = moved(promise, act, actor, NOW);
      const becomes = result.kind === 'moved' ? result.promise.state : result.kind;
      expect(`${situation}, ${act} by ${actor}: ${becomes}`).toBe(
        `${situation}, ${act} by ${actor}: ${row?.[3] ?? 'no'}`,
      );
    }
  });

  test('says why an act does nothing, and a stranger learns nothing but that it is not theirs', () => {
    for (const situation of SITUATIONS)
      for (const act of ACTS)
        expect(moved(promiseIn(situation), act, 'stranger', NOW)).toEqual({ kind: 'no', why: 'not-yours' });
    const why = (situation: Situation, act: PromiseAct, actor: Actor) => {
      const result = moved(promiseIn(situation), act, actor, NOW);
      return result.kind === 'no' ? result.why : result.kind;
    };
    expect(why('giver said', 'release', 'taker')).toBe('said');
    expect(why('giver said', 'withdraw', 'offer')).toBe('said');
    expect(why('giver said', 'object', 'giver')).toBe('nothing-said');
    expect(why('giver said', 'hand-over', 'giver')).toBe('already');
    expect(why('queued', 'hand-over', 'giver')).toBe('waiting');
    expect(why('expired', 'receive', 'taker')).toBe('over');
    expect(why('promised', 'expire', 'clock')).toBe('not-yet');
  });

  test('lasts a week, is extended by a week once, and gives three days to object', () => {
    const step = (promise: KeptPromise, act: PromiseAct, actor: Actor, now = NOW): KeptPromise => {
      const result = moved(promise, act, actor, now);
      if (result.kind === 'no') throw new Error(result.why);
      return result.promise;
    };
    const promised = step(promiseIn('queued'), 'pass', 'clock');
    expect(promised.until).toEqual(days(7));
    const longer = step(promised, 'extend', 'giver', days(3));
    expect(longer.until).toEqual(days(14));
    expect(moved(longer, 'extend', 'giver', days(4))).toEqual({ kind: 'no', why: 'already' });
    const said = step(longer, 'hand-over', 'giver', days(13));
    expect(said.until).toEqual(days(16));
    expect(moved(said, 'settle', 'clock', days(15))).toEqual({ kind: 'no', why: 'not-yet' });
    const objected = step(said, 'object', 'taker', days(15));
    expect(objected).toMatchObject({ giverSaid: false, takerSaid: false, until: days(18), state: 'promised' });
    expect(step(said, 'settle', 'clock', days(16)).state).toBe('handed-over');
  });
});
