import fc from 'fast-check';
import type { Evidence, FeatureAnswer, Observation, Reading } from '../../../src/identification/evidence.ts';
import { NAMED_TRAITS } from '../../../src/knowledge/trait-words.ts';
import { base, model } from './engine.ts';

const READINGS: readonly Reading[] = NAMED_TRAITS.flatMap((trait) =>
  Object.keys(model.vocabulary[trait].values).map((value) => ({ trait, value })),
);
const WORDS = [
  ...new Set([...base.critters.values()].flatMap(({ know }) => know.toLowerCase().match(/[a-z]{4,}/g) ?? [])),
];
const FEATURES: readonly FeatureAnswer[] = [...base.lookAlikes.values()].flatMap(({ id, a, b, features }) =>
  features.flatMap((_feature, feature) => [a, b].map((looksLike) => ({ pair: id, feature, looksLike }))),
);

const anyReadings = fc.uniqueArray(fc.constantFrom(...READINGS), {
  minLength: 1,
  maxLength: 3,
  selector: ({ trait, value }) => `${trait}=${value}`,
});
const anySize = fc
  .tuple(fc.double({ min: -3, max: 8, noNaN: true }), fc.double({ min: 0.05, max: 2, noNaN: true }))
  .map(([low, width]) => ({ kind: 'size' as const, lowMm: Math.exp(low), highMm: Math.exp(low + width) }));

export const anyObservation: fc.Arbitrary<Observation> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constantFrom('saw', 'saw-not', 'chose'), readings: anyReadings }) },
  { weight: 1, arbitrary: anySize },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('word' as const), word: fc.constantFrom(...WORDS) }) },
);

export const anyFeature = fc.constantFrom(...FEATURES);

/** Whatever a member may tell, sense or no sense. */
export const anyEvidence: fc.Arbitrary<Evidence> = fc.record({
  observations: fc.array(anyObservation, { maxLength: 12 }),
  features: fc.array(anyFeature, { maxLength: 4 }),
  named: fc.array(fc.constantFrom(...base.critters.keys()), { maxLength: 2 }),
  alarm: fc.boolean(),
  hurt: fc.constantFrom<string[]>([], ['any'], ['toxin-palytoxin']),
  context: fc.record(
    {
      near: fc.constantFrom(...base.corals.keys(), 'no-such-coral'),
      since: fc.constantFrom('new rock', 'new coral', 'always here'),
    },
    { requiredKeys: [] },
  ),
});
