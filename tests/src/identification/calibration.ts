import { distinctObservations, NO_EVIDENCE, type Observation } from '../../../src/identification/evidence.ts';
import { valueKey, valuesOf, type Model } from '../../../src/identification/model.ts';
import { posteriorOf } from '../../../src/identification/posterior.ts';
import type { Critter } from '../../../src/knowledge/critter.ts';
import type { KnowledgeBase } from '../../../src/knowledge/knowledge-base.ts';
import { NAMED_TRAITS, type NamedTrait } from '../../../src/knowledge/trait-words.ts';
import { seeded, type Seeded } from './seeded.ts';

// Members as the model takes them to be, written again from its description and not from its tables: a word is right
// with reliability times HURRY, else it is mostly one that people take for the right one, else any word.

const HURRY = 0.75;
const NEAR_SHARE = 0.6;
const SIZE_SPREAD = 0.35;
const LATITUDE = 1.5;
const SMALLEST_MM = 0.02;
const LARGEST_MM = 4000;

export type CalibrationRow = {
  /** The stated probability of the first candidate lies from `from` up to `to`. */
  from: number;
  to: number;
  cases: number;
  /** Mean of what was stated, and the share in which the first candidate was the animal. */
  stated: number;
  observed: number;
};

/** Animals of the base told with noise: how often the first candidate is right, by how probable it was said to be. */
export function calibrationTable(model: Model, base: KnowledgeBase, cases: number, seed: number): CalibrationRow[] {
  const random = seeded(seed);
  const bins = Array.from({ length: 11 }, () => ({ cases: 0, stated: 0, right: 0 }));
  for (let done = 0; done < cases; done += 1) {
    const truth = random.weighted(model.critters, model.prior);
    const observations = tell(model, truth, random);
    const { probabilities } = posteriorOf(model, base, { ...NO_EVIDENCE, observations }, new Map());
    let first = 0;
    for (let index = 1; index < probabilities.length; index += 1)
      if ((probabilities[index] ?? 0) > (probabilities[first] ?? 0)) first = index;
    const stated = probabilities[first] ?? 0;
    const bin = bins[Math.round(stated * 10)];
    if (!bin) throw new RangeError(`a probability of ${stated}`);
    bin.cases += 1;
    bin.stated += stated;
    if (model.critters[first] === truth) bin.right += 1;
  }
  return bins.map((bin, at) => ({
    from: Math.max(0, at / 10 - 0.05),
    to: Math.min(1, at / 10 + 0.05),
    cases: bin.cases,
    stated: bin.stated / bin.cases,
    observed: bin.right / bin.cases,
  }));
}

/** The rows as text, one a line. */
export function calibrationText(rows: readonly CalibrationRow[]): string {
  const percent = (share: number) => (Number.isNaN(share) ? '' : `${(share * 100).toFixed(1)} %`).padStart(8);
  return [
    'stated        cases      mean  observed',
    ...rows.map(
      ({ from, to, cases, stated, observed }) =>
        `${`${Math.round(from * 100)}-${Math.round(to * 100)} %`.padEnd(9)}  ${String(cases).padStart(8)}  ${percent(stated)}  ${percent(observed)}`,
    ),
  ].join('\n');
}

/** What a hurried member says of the animal: three to six traits; undefined stands for one there is no entry for. */
function tell(model: Model, truth: Critter | undefined, random: Seeded): Observation[] {
  const open: (NamedTrait | 'sizeMm')[] = [...NAMED_TRAITS, 'sizeMm'];
  const count = 3 + random.below(4);
  const told: Observation[] = [];
  while (told.length < count) {
    const [trait] = open.splice(random.below(open.length), 1);
    if (trait === undefined) break;
    told.push(
      trait === 'sizeMm'
        ? sayLength(lengthOf(model, truth, random))
        : { kind: 'saw', readings: [{ trait, value: valueOf(model, truth, trait, random) }] },
    );
  }
  return distinctObservations(told);
}

function valueOf(model: Model, truth: Critter | undefined, trait: NamedTrait, random: Seeded): string {
  const { values, reliability } = model.vocabulary[trait];
  const own = truth ? valuesOf(truth, trait) : [];
  const right = reliability * HURRY;
  const turn = random.next();
  if (own.length > 0 && turn < right) return random.pick(own);
  if (own.length > 0 && turn < right + (1 - right) * NEAR_SHARE) {
    const near = values[random.pick(own)]?.near ?? [];
    if (near.length > 0) return random.pick(near);
  }
  return anyValue(model, trait, random);
}

/** A value as often as it is said at all. */
function anyValue(model: Model, trait: NamedTrait, random: Seeded): string {
  const names = Object.keys(model.vocabulary[trait].values);
  const shares = names.map((name) => model.marginal.get(valueKey(trait, name)) ?? 0);
  const sum = shares.reduce((total, share) => total + share, 0);
  return (
    random.weighted(
      names,
      shares.map((share) => share / sum),
    ) ??
    names.at(-1) ??
    ''
  );
}

/** A length in millimetres: of the animal with some spread, or any. Who has no length on record gets another's. */
function lengthOf(model: Model, truth: Critter | undefined, random: Seeded): number {
  const sized = model.critters.filter(({ traits }) => traits.sizeMm);
  let range = truth?.traits.sizeMm;
  while (!range)
    range = random.weighted(
      sized,
      sized.map((each) => model.prior[model.indexOf.get(each.id) ?? 0] ?? 0),
    )?.traits.sizeMm;
  if (!random.chance(model.vocabulary.sizeMm.reliability * HURRY)) return between(SMALLEST_MM, LARGEST_MM, random);
  const [low, high] = range;
  const wide = Math.exp(SIZE_SPREAD / 2);
  return between(low / wide, high * wide, random) * Math.exp(SIZE_SPREAD * random.normal());
}

/** Even on the scale of logarithms. */
const between = (low: number, high: number, random: Seeded) => low * (high / low) ** random.next();

const sayLength = (mm: number): Observation => ({ kind: 'size', lowMm: mm / LATITUDE, highMm: mm * LATITUDE });
