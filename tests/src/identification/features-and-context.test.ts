import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { featureRatios } from '../../../src/identification/posterior.ts';
import { SEED } from '../../set-up-hostile.ts';
import { anyFeature } from './any-evidence.ts';
import { base, evidence, identifier, model, probabilityOf } from './engine.ts';

const RUNS = { numRuns: 300, seed: SEED };

describe('a telling feature', () => {
  const dangers = [...base.lookAlikes.values()].flatMap((pair) =>
    pair.danger === undefined
      ? []
      : pair.features.map((feature, at) => ({ pair, feature, at, danger: pair.danger ?? '' })),
  );

  test('speaks of its two animals only, and more for the one it was like', () => {
    fc.assert(
      fc.property(anyFeature, (answer) => {
        const pair = base.lookAlikes.get(answer.pair);
        const ratios = featureRatios(model, base, answer);
        const spoken = model.critters.filter((_critter, index) => ratios[index] !== 1).map(({ id }) => id);
        expect([pair?.a, pair?.b]).toEqual(expect.arrayContaining(spoken));
        if (spoken.length > 0) expect(ratios[model.indexOf.get(answer.looksLike) ?? -1]).toBeGreaterThan(1);
      }),
      RUNS,
    );
  });

  test('acquits a danger only where it is marked as clearing', () => {
    expect(dangers.filter(({ feature }) => feature.clears).length).toBeGreaterThan(10);
    expect(dangers.filter(({ feature }) => !feature.clears).length).toBeGreaterThan(10);
    for (const { pair, feature, at, danger } of dangers) {
      const harmless = pair.a === danger ? pair.b : pair.a;
      const ratios = featureRatios(model, base, { pair: pair.id, feature: at, looksLike: harmless });
      const ofDanger = ratios[model.indexOf.get(danger) ?? -1];
      if (feature.clears) expect(ofDanger).toBeLessThan(0.5);
      else expect(ratios.every((ratio) => ratio === 1)).toBe(true);
    }
  });

  test('convicts a danger by its sign, clearing or not', () => {
    for (const { pair, at, danger } of dangers) {
      const ratios = featureRatios(model, base, { pair: pair.id, feature: at, looksLike: danger });
      expect(ratios[model.indexOf.get(danger) ?? -1]).toBeGreaterThan(1.5);
    }
  });

  test('answered both ways says nothing, however often', () => {
    fc.assert(
      fc.property(anyFeature, fc.integer({ min: 1, max: 3 }), (answer, times) => {
        const pair = base.lookAlikes.get(answer.pair);
        const contrary = { ...answer, looksLike: pair?.a === answer.looksLike ? pair.b : (pair?.a ?? '') };
        const features = [...Array.from({ length: times }, () => answer), contrary, answer];
        const { probabilities, nothing } = identifier.identify(evidence({ features })).posterior;
        const unseen = identifier.identify(evidence({})).posterior;
        expect([...probabilities, nothing]).toEqual([...unseen.probabilities, unseen.nothing]);
      }),
      RUNS,
    );
  });

  test('of a pair that is gone, or of a third animal, says nothing', () => {
    const [pair] = base.lookAlikes.values();
    for (const answer of [
      { pair: 'gone--away', feature: 0, looksLike: 'gone' },
      { pair: pair?.id ?? '', feature: 9, looksLike: pair?.a ?? '' },
      { pair: pair?.id ?? '', feature: 0, looksLike: 'no-such-animal' },
    ])
      expect(featureRatios(model, base, answer).every((ratio) => ratio === 1)).toBe(true);
  });
});

describe('what is around', () => {
  const withPests = [...base.corals.values()].filter(({ pests }) => pests.length > 0);

  test('a coral raises its own pests', () => {
    expect(withPests.length).toBeGreaterThan(5);
    for (const { id, pests } of withPests) {
      const near = identifier.identify(evidence({ context: { near: id } }));
      const alone = identifier.identify(evidence({}));
      for (const pest of pests) expect(probabilityOf(near, pest)).toBeGreaterThan(1.5 * probabilityOf(alone, pest));
    }
  });

  test('a name let fall is a hint, and no verdict', () => {
    const named = identifier.identify(evidence({ named: ['bobbit-worm'] }));
    const alone = identifier.identify(evidence({}));
    expect(probabilityOf(named, 'bobbit-worm')).toBeGreaterThan(3 * probabilityOf(alone, 'bobbit-worm'));
    expect(probabilityOf(named, 'bobbit-worm')).toBeLessThan(0.1);
  });
});
