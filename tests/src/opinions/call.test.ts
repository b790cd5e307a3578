import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  callOf,
  reliabilityOf,
  verdictByVote,
  weightOf,
  type CallPrior,
  type WeighedBallot,
} from '../../../src/opinions/call.ts';
import { VERDICTS, withBallot, type Verdict } from '../../../src/opinions/opinion.ts';

const ENTRIES = [
  { id: 'aiptasia', pest: 1 },
  { id: 'majano', pest: 1 },
  { id: 'hydroid', pest: 0.5 },
  { id: 'feather-duster', pest: 0 },
];
const priorOf = (weights: readonly number[]): CallPrior => {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const [nothing = 0, ...rest] = weights.map((weight) => weight / sum);
  return { nothing, entries: ENTRIES.map((entry, at) => ({ ...entry, probability: rest[at] ?? 0 })) };
};
const EVEN = priorOf([1, 1, 1, 1, 2]);
const NEW = { right: 0, wrong: 0 };
const ballot = (memberId: string, verdict: Verdict, change: Partial<WeighedBallot> = {}): WeighedBallot => ({
  memberId,
  verdict,
  entry: null,
  isCurator: false,
  record: NEW,
  ...change,
});

const anyPrior = fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }).map(priorOf);
const anyRecord = fc.record({ right: fc.nat(40), wrong: fc.nat(40) });
const anyBallot = fc.record<WeighedBallot>({
  memberId: fc.integer({ min: 1, max: 30 }).map(String),
  verdict: fc.constantFrom(...VERDICTS),
  entry: fc.constantFrom(null, ...ENTRIES.map(({ id }) => id)),
  isCurator: fc.boolean(),
  record: anyRecord,
});
const anyBallots = fc.uniqueArray(anyBallot, { selector: ({ memberId }) => memberId, maxLength: 12 });

describe('the call', () => {
  test('is three probabilities that sum to 1', () => {
    fc.assert(
      fc.property(anyPrior, anyBallots, (prior, ballots) => {
        const { pest, harmless, unknown, entries } = callOf(prior, ballots, 'ana');
        for (const each of [pest, harmless, unknown, ...entries.map(({ probability }) => probability)]) {
          expect(each).toBeGreaterThanOrEqual(0);
          expect(each).toBeLessThanOrEqual(1);
        }
        expect(pest + harmless + unknown).toBeCloseTo(1, 12);
      }),
    );
  });

  test('does not depend on the order of ballots', () => {
    fc.assert(
      fc.property(
        anyPrior,
        anyBallots.chain((ballots) =>
          fc.tuple(fc.constant(ballots), fc.shuffledSubarray(ballots, { minLength: ballots.length })),
        ),
        (prior, [ballots, shuffled]) => {
          expect(callOf(prior, shuffled, 'ana')).toEqual(callOf(prior, ballots, 'ana'));
        },
      ),
    );
  });

  test('is what it was when a ballot is changed and changed back', () => {
    fc.assert(
      fc.property(anyPrior, anyBallots, fc.constantFrom(...VERDICTS), (prior, ballots, other) => {
        const [first] = ballots;
        if (!first) return;
        const changed = withBallot(ballots, { ...first, verdict: other, entry: null });
        const back = withBallot(changed, first).map((each) => ({ ...each, record: NEW }));
        const before = ballots.map((each) => ({ ...each, record: NEW }));
        expect(callOf(prior, back, 'ana')).toEqual(callOf(prior, before, 'ana'));
      }),
    );
  });

  test('passes over the vote of the asker', () => {
    fc.assert(
      fc.property(anyPrior, anyBallots, anyBallot, (prior, ballots, own) => {
        const withOwn = [...ballots, { ...own, memberId: 'ana' }];
        expect(callOf(prior, withOwn, 'ana')).toEqual(callOf(prior, ballots, 'ana'));
      }),
    );
  });

  test('starts from the bot’s own posterior', () => {
    fc.assert(
      fc.property(anyPrior, (prior) => {
        const { pest, unknown, sureness } = callOf(prior, [], 'ana');
        const own = prior.entries.reduce((sum, entry) => sum + entry.pest * entry.probability, 0);
        expect(pest).toBeCloseTo(own, 10);
        expect(unknown).toBeCloseTo(prior.nothing, 10);
        expect(sureness).toBe('nobody');
      }),
    );
  });

  test('moves with a vote by its weight in log-odds', () => {
    // By hand: a new member is right 2 times in 3, so odds double: pest 2/5·√2 : harmless 2/5 ÷ √2 = 2 : 1.
    const flat = priorOf([1, 1, 1, 0.000001, 2]);
    const { pest, harmless } = callOf(flat, [ballot('ben', 'pest')], 'ana');
    expect(pest / harmless).toBeCloseTo(2, 4);
  });
});

describe('a voter who is more often right', () => {
  test('never counts less', () => {
    fc.assert(
      fc.property(
        anyPrior,
        anyBallots,
        anyRecord,
        fc.constantFrom('pest', 'harmless'),
        fc.nat(20),
        (prior, ballots, record, verdict, more) => {
          const others = ballots.filter(({ memberId }) => memberId !== '99');
          const share = (right: number) => {
            const call = callOf(prior, [...others, ballot('99', verdict, { record: { ...record, right } })], 'ana');
            return verdict === 'pest' ? call.pest : call.harmless;
          };
          expect(share(record.right + more)).toBeGreaterThanOrEqual(share(record.right) - 1e-12);
        },
      ),
    );
  });

  test('starts at 2 in 3, a curator at 8 in 9', () => {
    expect(reliabilityOf(NEW, false)).toBeCloseTo(2 / 3, 12);
    expect(reliabilityOf(NEW, true)).toBeCloseTo(8 / 9, 12);
    expect(reliabilityOf({ right: 7, wrong: 0 }, false)).toBeCloseTo(9 / 10, 12);
  });

  test('and one who is mostly wrong counts nothing, not the other way round', () => {
    expect(weightOf({ right: 0, wrong: 30 }, false)).toBe(0);
    const call = callOf(EVEN, [ballot('ben', 'pest', { record: { right: 0, wrong: 30 } })], 'ana');
    expect(call.pest).toBeCloseTo(callOf(EVEN, [], 'ana').pest, 12);
  });
});

describe('a named entry', () => {
  test('rises when it agrees with its ballot, and not when it contradicts it', () => {
    const shareOf = (id: string, ballots: WeighedBallot[]) =>
      callOf(EVEN, ballots, 'ana').entries.find((entry) => entry.id === id)?.probability ?? 0;
    const plain = shareOf('majano', [ballot('ben', 'pest')]);
    expect(shareOf('majano', [ballot('ben', 'pest', { entry: 'majano' })])).toBeGreaterThan(plain);
    expect(callOf(EVEN, [ballot('ben', 'pest', { entry: 'feather-duster' })], 'ana')).toEqual(
      callOf(EVEN, [ballot('ben', 'pest')], 'ana'),
    );
  });
});

describe('in words', () => {
  const many = (count: number, verdict: Verdict, isCurator = false) =>
    Array.from({ length: count }, (_, at) => ballot(`${verdict}${at}`, verdict, { isCurator }));

  test.each([
    ['nobody', 'cannot-tell', []],
    ['fairly-sure', 'pest', many(6, 'pest')],
    ['fairly-sure', 'harmless', many(3, 'harmless', true)],
    ['leaning', 'pest', many(3, 'pest')],
    ['divided', 'cannot-tell', [...many(2, 'pest'), ...many(2, 'harmless')]],
    ['cannot-tell', 'cannot-tell', many(9, 'cannot-tell', true)],
  ] as const)('%s, %s', (sureness, verdict, ballots) => {
    expect(callOf(EVEN, ballots, 'ana')).toMatchObject({ sureness, verdict });
  });

  test('the club never leans where none of its votes point', () => {
    const surelyHarmless = priorOf([1, 0.1, 0.1, 0.1, 60]);
    expect(callOf(surelyHarmless, [ballot('ben', 'pest')], 'ana').sureness).toBe('divided');
    fc.assert(
      fc.property(anyPrior, anyBallots, (prior, ballots) => {
        const { sureness, verdict } = callOf(prior, ballots, 'ana');
        if (sureness === 'fairly-sure' || sureness === 'leaning')
          expect(ballots.some((each) => each.verdict === verdict)).toBe(true);
      }),
    );
  });

  test('one member is not the club, whatever the words say; two are, or a curator', () => {
    const surelyPest = priorOf([1, 60, 0.1, 0.1, 0.1]);
    const sureness = (ballots: WeighedBallot[]) => callOf(surelyPest, ballots, 'ana').sureness;
    expect(sureness(many(1, 'pest'))).toBe('leaning');
    expect(sureness(many(2, 'pest'))).toBe('fairly-sure');
    expect(sureness(many(1, 'pest', true))).toBe('fairly-sure');
  });

  test('a vote alone closes as harmless only when the club is fairly sure and nothing dangerous is possible', () => {
    fc.assert(
      fc.property(anyPrior, anyBallots, fc.boolean(), (prior, ballots, isDangerPossible) => {
        const call = callOf(prior, ballots, 'ana');
        if (verdictByVote(call, isDangerPossible) !== 'harmless') return;
        expect(isDangerPossible).toBe(false);
        expect(call.sureness).toBe('fairly-sure');
        expect(call.harmless).toBeGreaterThanOrEqual(0.95);
      }),
      { numRuns: 1_000 },
    );
    expect(verdictByVote(callOf(EVEN, many(3, 'harmless', true), 'ana'), false)).toBe('harmless');
    expect(verdictByVote(callOf(EVEN, many(3, 'harmless', true), 'ana'), true)).toBe('cannot-tell');
    expect(verdictByVote(callOf(EVEN, many(6, 'pest'), 'ana'), true)).toBe('pest');
  });
});
