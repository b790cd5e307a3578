import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Evidence, Observation } from '../../../src/identification/evidence.ts';
import { explain } from '../../../src/identification/explain.ts';
import { buildModel, valueKey, valuesOf } from '../../../src/identification/model.ts';
import { observationRatios, withRatios, type Posterior } from '../../../src/identification/posterior.ts';
import { NAMED_TRAITS } from '../../../src/knowledge/trait-words.ts';
import { SEED } from '../../set-up-hostile.ts';
import { anyEvidence, anyObservation } from './any-evidence.ts';
import { base, evidence, identifier, model } from './engine.ts';

const RUNS = { numRuns: 300, seed: SEED };
const posteriorOf = (given: Evidence): Posterior => identifier.identify(given).posterior;
const numbersOf = ({ probabilities, nothing }: Pick<Posterior, 'probabilities' | 'nothing'>) => [
  ...probabilities,
  nothing,
];
/** The same things in another order, some of them told again. */
const reordered = <T>(items: readonly T[]) =>
  fc
    .tuple(fc.shuffledSubarray([...items], { minLength: items.length }), fc.subarray([...items]))
    .map(([all, again]) => [...again, ...all, ...again]);
const toldAgain = (given: Evidence): fc.Arbitrary<Evidence> =>
  fc
    .tuple(reordered(given.observations), reordered(given.features), reordered(given.named))
    .map(([observations, features, named]) => ({ ...given, observations, features, named }));

describe('the posterior', () => {
  test('is made of finite probabilities that sum to 1 with "nothing we have an entry for"', () => {
    fc.assert(
      fc.property(anyEvidence, (given) => {
        const numbers = numbersOf(posteriorOf(given));
        expect(numbers).toHaveLength(model.critters.length + 1);
        expect(numbers.every((each) => Number.isFinite(each) && each >= 0)).toBe(true);
        expect(numbers.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 9);
      }),
      RUNS,
    );
  });

  test('stays so under evidence without end', () => {
    const all = NAMED_TRAITS.flatMap((trait) =>
      Object.keys(model.vocabulary[trait].values).flatMap((value): Observation[] => [
        { kind: 'saw', readings: [{ trait, value }] },
        { kind: 'saw-not', readings: [{ trait, value }] },
        { kind: 'chose', readings: [{ trait, value }] },
      ]),
    );
    const numbers = numbersOf(posteriorOf(evidence({ observations: all })));
    expect(numbers.every((each) => Number.isFinite(each) && each >= 0)).toBe(true);
    expect(numbers.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 9);
  });

  test('does not depend on the order of the evidence, nor on how often it is told', () => {
    const pairs = anyEvidence.chain((given) => toldAgain(given).map((again) => ({ given, again })));
    fc.assert(
      fc.property(pairs, ({ given, again }) => {
        expect(numbersOf(posteriorOf(again))).toEqual(numbersOf(posteriorOf(given)));
      }),
      RUNS,
    );
  });

  test('does not depend on the member’s own words for the same thing, nor on the order of its readings', () => {
    fc.assert(
      fc.property(fc.array(anyObservation, { maxLength: 6 }), (observations) => {
        const otherwise = observations.map((each): Observation =>
          'readings' in each ? { ...each, readings: each.readings.toReversed(), said: 'some words' } : each,
        );
        const told = numbersOf(posteriorOf(evidence({ observations: [...observations, ...otherwise] })));
        const once = numbersOf(posteriorOf(evidence({ observations })));
        told.forEach((each, index) => expect(each).toBeCloseTo(once[index] ?? NaN, 12));
      }),
      RUNS,
    );
  });

  test('without evidence is the prior', () => {
    const { probabilities, nothing } = posteriorOf(evidence({}));
    expect(nothing).toBeCloseTo(model.vocabulary.prior.nothingWeKnow, 12);
    probabilities.forEach((each, index) => expect(each).toBeCloseTo(model.prior[index] ?? NaN, 12));
    const often = model.critters.find(({ howOftenMet }) => howOftenMet === 'very-common');
    const rare = model.critters.find(({ howOftenMet }) => howOftenMet === 'rare');
    const { 'very-common': high, rare: low } = model.vocabulary.prior.howOftenMet;
    const odds = (id = '') => probabilities[model.indexOf.get(id) ?? -1] ?? NaN;
    expect(odds(often?.id) / odds(rare?.id)).toBeCloseTo((high ?? NaN) / (low ?? NaN), 6);
  });

  test('grows by one more observation as if all had been weighed at once', () => {
    fc.assert(
      fc.property(anyEvidence, anyObservation, (given, more) => {
        const known = posteriorOf(given);
        fc.pre(!known.contributions.some(({ key }) => key === keyOf(more)));
        const stepwise = withRatios(known, observationRatios(model, more));
        const atOnce = numbersOf(posteriorOf({ ...given, observations: [...given.observations, more] }));
        numbersOf(stepwise).forEach((each, index) => expect(each).toBeCloseTo(atOnce[index] ?? NaN, 9));
      }),
      RUNS,
    );
  });

  const keyOf = (observation: Observation) =>
    posteriorOf(evidence({ observations: [observation] })).contributions[0]?.key;
});

describe('what an entry does not say', () => {
  test.each([...NAMED_TRAITS])('changes nothing: %s', (trait) => {
    const silent = model.critters.flatMap((critter, index) => (valuesOf(critter, trait).length === 0 ? [index] : []));
    const values = Object.keys(model.vocabulary[trait].values);
    expect(values.length).toBeGreaterThan(1);
    for (const value of values)
      for (const kind of ['saw', 'saw-not', 'chose'] as const) {
        const ratios = observationRatios(model, { kind, readings: [{ trait, value }] });
        expect(silent.filter((index) => ratios[index] !== 1)).toEqual([]);
        expect(ratios.every((each) => each > 0 && Number.isFinite(each))).toBe(true);
      }
  });

  test('changes nothing: a length', () => {
    const [first, ...others] = base.critters.values();
    if (!first) throw new Error('the base is empty');
    const traits = { ...first.traits };
    delete traits.sizeMm;
    const critters = new Map([{ ...first, traits }, ...others].map((each) => [each.id, each]));
    const unsized = buildModel({ ...base, critters }, model.vocabulary);
    for (const [lowMm, highMm] of [
      [0.01, 0.1],
      [20, 40],
      [500, 5000],
    ] as const) {
      const ratios = observationRatios(unsized, { kind: 'size', lowMm, highMm });
      expect(ratios[0]).toBe(1);
      expect(ratios.slice(1).some((each) => each !== 1)).toBe(true);
    }
  });

  test('and what nobody has a word for changes nothing for anybody', () => {
    const strange: Observation[] = [
      { kind: 'word', word: 'zzyzx' },
      { kind: 'saw', readings: [{ trait: 'colour', value: 'no-such-colour' }] },
    ];
    expect(numbersOf(posteriorOf(evidence({ observations: strange })))).toEqual(numbersOf(posteriorOf(evidence({}))));
  });

  test('while what it says counts for it, and the contrary against it', () => {
    for (const trait of NAMED_TRAITS)
      for (const [index, critter] of model.critters.entries())
        for (const value of valuesOf(critter, trait)) {
          const alone = valuesOf(critter, trait).length === 1;
          const rare = (model.marginal.get(valueKey(trait, value)) ?? 1) < 0.25;
          const saw = observationRatios(model, { kind: 'saw', readings: [{ trait, value }] })[index] ?? NaN;
          const not = observationRatios(model, { kind: 'saw-not', readings: [{ trait, value }] })[index] ?? NaN;
          if (alone && rare) expect(saw).toBeGreaterThan(1);
          if (alone) expect(not).toBeLessThan(1);
        }
  });
});

describe('"nothing we have an entry for"', () => {
  test('rises when what was seen fits no entry', () => {
    const fitting = misfits();
    const { nothing, contributions } = posteriorOf(evidence({ observations: fitting }));
    expect(contributions).toHaveLength(fitting.length);
    for (const { id } of model.critters)
      expect(explain(model, posteriorOf(evidence({ observations: fitting })), id).score).toBeLessThan(
        explain(model, posteriorOf(evidence({})), id).score + 1e-9,
      );
    expect(nothing).toBeGreaterThan(2 * model.nothing);
  });

  test('falls when what was seen fits one well', () => {
    const critter = base.critters.get('aiptasia');
    const all = NAMED_TRAITS.flatMap((trait) =>
      critter
        ? valuesOf(critter, trait)
            .slice(0, 1)
            .map((value) => ({ trait, value }))
        : [],
    );
    const told = evidence({ observations: all.map((reading) => ({ kind: 'saw', readings: [reading] })) });
    expect(posteriorOf(told).nothing).toBeLessThan(model.nothing / 10);
    expect(identifier.identify(told).decision.candidates[0]?.critter).toBe(critter);
  });

  /** Values, one a trait, so put together that every entry has as few of them as can be. */
  function misfits(): Observation[] {
    const scores = new Float64Array(model.critters.length);
    const highest = (ratios: Float64Array) =>
      ratios.reduce((most, ratio, index) => Math.max(most, (scores[index] ?? 0) + Math.log(ratio)), -Infinity);
    return (
      ['bodyForm', 'shell', 'colour', 'moves', 'whereSeen', 'texture', 'appendages', 'bodyForm', 'moves'] as const
    ).flatMap((trait) => {
      const options = Object.keys(model.vocabulary[trait].values).map((value): Observation => ({
        kind: 'saw',
        readings: [{ trait, value }],
      }));
      const [best] = options
        .map((observation) => ({ observation, ratios: observationRatios(model, observation) }))
        .sort((one, other) => highest(one.ratios) - highest(other.ratios));
      best?.ratios.forEach((ratio, index) => (scores[index] = (scores[index] ?? 0) + Math.log(ratio)));
      return best ? [best.observation] : [];
    });
  }
});

describe('the explanation', () => {
  test('adds up to the score, and scores differ by the log odds of the posterior', () => {
    fc.assert(
      fc.property(anyEvidence, (given) => {
        const posterior = posteriorOf(given);
        const all = model.critters.map(({ id }) => explain(model, posterior, id));
        for (const { logPrior, reasons, score } of all) {
          expect(reasons).toHaveLength(posterior.contributions.length);
          expect(reasons.reduce((sum, { logRatio }) => sum + logRatio, logPrior)).toBeCloseTo(score, 9);
        }
        const [first] = all;
        const p0 = posterior.probabilities[0] ?? NaN;
        all.forEach(({ score }, index) => {
          const p = posterior.probabilities[index] ?? NaN;
          if (p > 1e-290 && p0 > 1e-290)
            expect(score - (first?.score ?? NaN)).toBeCloseTo(Math.log(p) - Math.log(p0), 6);
        });
        if (posterior.nothing > 1e-290 && p0 > 1e-290)
          expect((first?.score ?? NaN) - Math.log(model.nothing)).toBeCloseTo(
            Math.log(p0) - Math.log(posterior.nothing),
            6,
          );
      }),
      { ...RUNS, numRuns: 60 },
    );
  });
});
