import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  ACTS,
  expectedHarms,
  harmOf,
  leastHarm,
  SEVERITIES,
  severityOf,
  severityWeights,
  type Act,
  type Severity,
} from '../../../src/identification/harm.ts';
import { SEED } from '../../set-up-hostile.ts';
import { base } from './engine.ts';

const RUNS = { numRuns: 5_000, seed: SEED };
const care = (act: Act) => ACTS.indexOf(act);

/** A posterior over a handful of animals: their probabilities, and what is left for "nothing". */
const anySpread = fc
  .tuple(
    fc.array(fc.tuple(fc.double({ min: 0, max: 12, noNaN: true }), fc.constantFrom(...SEVERITIES)), {
      minLength: 1,
      maxLength: 12,
    }),
    fc.double({ min: 0, max: 8, noNaN: true }),
  )
  .map(([animals, unknown]) => {
    const weights = animals.map(([log]) => Math.exp(log));
    const sum = weights.reduce((total, each) => total + each, Math.exp(unknown) - 1);
    return {
      severities: animals.map(([, severity]) => severity),
      probabilities: Float64Array.from(weights, (each) => each / sum),
      nothing: (Math.exp(unknown) - 1) / sum,
    };
  });

const actOf = (severities: readonly Severity[], probabilities: Float64Array, nothing: number) =>
  leastHarm(expectedHarms(severityWeights(severities, probabilities), nothing)).act;

describe('harm', () => {
  test('grows less from one act to the next more careful one the worse the truth is', () => {
    for (const [at, act] of ACTS.slice(1).entries()) {
      const steps = SEVERITIES.map((severity) => harmOf(act, severity) - harmOf(ACTS[at] ?? 'keep', severity));
      expect(steps).toEqual(steps.toSorted((one, other) => other - one));
    }
  });

  test('is least for the act that fits, and none where nothing was done wrong', () => {
    const fitting = { keep: 'keep', watch: 'watch', remove: 'remove', urgent: 'urgent', grave: 'urgent' } as const;
    for (const severity of SEVERITIES) {
      const least = Math.min(...ACTS.map((act) => harmOf(act, severity)));
      expect(harmOf(fitting[severity], severity)).toBe(least);
    }
    expect(harmOf('keep', 'keep')).toBe(0);
    expect(harmOf('urgent', 'grave')).toBe(0);
  });

  test('of a worse truth is never less when nothing is done', () => {
    for (const act of ['keep', 'watch'] as const) {
      const harms = SEVERITIES.slice(1).map((severity) => harmOf(act, severity));
      expect(harms).toEqual(harms.toSorted((one, other) => one - other));
    }
  });
});

describe('the act with the least harm', () => {
  test('is never less careful when one animal is worse', () => {
    const raised = anySpread.chain((spread) =>
      fc
        .tuple(fc.nat(spread.severities.length - 1), fc.integer({ min: 1, max: SEVERITIES.length - 1 }))
        .map(([at, by]) => ({ spread, at, by })),
    );
    let changed = 0;
    fc.assert(
      fc.property(raised, ({ spread: { severities, probabilities, nothing }, at, by }) => {
        const worse = severities.with(at, severityAbove(severities[at] ?? 'keep', by));
        const before = care(actOf(severities, probabilities, nothing));
        const after = care(actOf(worse, probabilities, nothing));
        if (after > before) changed += 1;
        expect(after).toBeGreaterThanOrEqual(before);
      }),
      RUNS,
    );
    expect(changed).toBeGreaterThan(RUNS.numRuns / 20);
  });

  test('has no more harm than any other, and is the most careful of equals', () => {
    fc.assert(
      fc.property(anySpread, ({ severities, probabilities, nothing }) => {
        const harms = expectedHarms(severityWeights(severities, probabilities), nothing);
        const { act, harm } = leastHarm(harms);
        for (const other of ACTS) {
          expect(harms[other]).toBeGreaterThanOrEqual(harm);
          if (care(other) > care(act)) expect(harms[other]).toBeGreaterThan(harm);
        }
      }),
      RUNS,
    );
    expect(leastHarm({ keep: 1, watch: 1, ask: 1, remove: 1, urgent: 2 }).act).toBe('remove');
  });

  test('is every act for some posterior', () => {
    const sure = (severity: Severity) => actOf([severity], Float64Array.of(1), 0);
    expect(SEVERITIES.map(sure)).toEqual(['keep', 'watch', 'remove', 'urgent', 'urgent']);
    expect(actOf(['keep', 'remove'], Float64Array.of(0.45, 0.55), 0)).toBe('ask');
    expect(actOf([], new Float64Array(), 1)).toBe('ask');
  });

  test('is "urgent" long before a grave danger is certain', () => {
    expect(actOf(['keep', 'grave'], Float64Array.of(0.6, 0.4), 0)).toBe('urgent');
    expect(actOf(['keep', 'grave'], Float64Array.of(0.97, 0.03), 0)).not.toBe('keep');
  });

  const severityAbove = (severity: Severity, by: number) =>
    SEVERITIES[Math.min(SEVERITIES.length - 1, SEVERITIES.indexOf(severity) + by)] ?? 'grave';
});

test('an entry is as severe as its verdict, and grave where it is urgent and can hurt a person', () => {
  const grave = [...base.critters.values()].filter((critter) => severityOf(critter) === 'grave');
  expect(grave.length).toBeGreaterThan(5);
  for (const critter of grave) {
    expect(critter.verdict).toBe('urgent');
    expect(critter.humanHazards.length).toBeGreaterThan(0);
  }
  for (const critter of base.critters.values())
    if (!grave.includes(critter)) expect(severityOf(critter)).toBe(critter.verdict);
});
