import type { Critter } from '../knowledge/critter.ts';
import { buildProseWords, type ProseWords } from './prose-words.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { TraitVocabulary } from '../knowledge/trait-vocabulary.ts';
import { NAMED_TRAITS, type NamedTrait } from '../knowledge/trait-words.ts';

/** What a look-up table of likelihood ratios holds for each entry, in the order of `critters`. */
export type Ratios = Float64Array;

/** Everything that can be worked out before anybody describes anything. */
export type Model = {
  critters: readonly Critter[];
  indexOf: ReadonlyMap<string, number>;
  vocabulary: TraitVocabulary;
  /** Odds of meeting each entry, summing to 1 - `nothing`. */
  prior: Float64Array;
  /** Probability that it is something there is no entry for. */
  nothing: number;
  /** P(said | entry) ÷ P(said), for a value seen and for a value said not to be there. */
  saw: ReadonlyMap<string, Ratios>;
  /** The same for an option picked from a list. */
  chose: ReadonlyMap<string, Ratios>;
  sawNot: ReadonlyMap<string, Ratios>;
  /** How badly each of these fits each entry by itself; see `misfit.ts`. */
  misfit: Record<'saw' | 'chose' | 'saw-not', ReadonlyMap<string, Ratios>>;
  /** How likely it is that a member names this value of the trait, over all entries. */
  marginal: ReadonlyMap<string, number>;
  size: { reliability: number; marginal: (lowMm: number, highMm: number) => number };
  prose: ProseWords;
};

/**
 * Members hurry, and words of one sentence hang together; each counts for less than its reliability alone would
 * give it. With this factor stated probabilities hold on descriptions that people wrote, not only on simulated ones.
 */
const HURRY = 0.75;
/** The share of wrong words that go to a value which people take for the right one. */
const NEAR_SHARE = 0.6;
/** Keeps a value that hardly any entry has from being infinitely telling. */
const LEAST_MARGINAL = 0.01;
/** Traits of which an animal has all listed values at once; of the others it shows one at a time. */
const ALL_AT_ONCE: ReadonlySet<NamedTrait> = new Set(['segments', 'shell', 'appendages', 'evidence']);

export const valueKey = (trait: NamedTrait, value: string) => `${trait}=${value}`;

/** The values an entry has for a trait; empty when it says nothing about it. */
export function valuesOf({ traits }: Critter, trait: NamedTrait): readonly string[] {
  const value = traits[trait];
  if (value === undefined) return [];
  if (typeof value === 'boolean') return [value ? 'yes' : 'no'];
  if (value === 'unsure') return [];
  return typeof value === 'string' ? [value] : value;
}

/**
 * Tables for a base and a vocabulary. Pure; about 3,000 values times the number of entries, some milliseconds.
 *
 * A member who sees entry e and speaks of trait t names one of e's values with the trait's reliability r, a value
 * that people take for it with most of what is left, and any value as often as it is named at all with the rest:
 * P(v | e) = r·[v ∈ e]/|e| + ν·near(v, e) + (1 − r − ν)·m(v). An entry that says nothing about t has P = m(v).
 */
export function buildModel(base: KnowledgeBase, vocabulary: TraitVocabulary): Model {
  const critters = [...base.critters.values()];
  const { nothingWeKnow, howOftenMet } = vocabulary.prior;
  const odds = critters.map((critter) => howOftenMet[critter.howOftenMet] ?? 1);
  const sum = odds.reduce((total, each) => total + each, 0);
  const prior = Float64Array.from(odds, (each) => (each / sum) * (1 - nothingWeKnow));
  const saw = new Map<string, Ratios>();
  const sawNot = new Map<string, Ratios>();
  const chose = new Map<string, Ratios>();
  const marginal = new Map<string, number>();
  const misfit = {
    saw: new Map<string, Ratios>(),
    chose: new Map<string, Ratios>(),
    'saw-not': new Map<string, Ratios>(),
  };
  const tables = { saw, sawNot, chose, marginal, misfit };
  for (const trait of NAMED_TRAITS) addTrait(critters, vocabulary, prior, trait, tables);
  const reliability = vocabulary.sizeMm.reliability * HURRY;
  return {
    critters,
    indexOf: new Map(critters.map(({ id }, index) => [id, index])),
    vocabulary,
    prior,
    nothing: nothingWeKnow,
    saw,
    sawNot,
    chose,
    misfit,
    marginal,
    size: { reliability, marginal: sizeMarginal(critters, prior, reliability) },
    prose: buildProseWords(base, critters, prior),
  };
}

type Tables = {
  saw: Map<string, Ratios>;
  sawNot: Map<string, Ratios>;
  chose: Map<string, Ratios>;
  marginal: Map<string, number>;
  misfit: Record<'saw' | 'chose' | 'saw-not', Map<string, Ratios>>;
};

function addTrait(
  critters: readonly Critter[],
  vocabulary: TraitVocabulary,
  prior: Float64Array,
  trait: NamedTrait,
  tables: Tables,
): void {
  const { values, reliability } = vocabulary[trait];
  const names = Object.keys(values);
  const owned = critters.map((critter) => valuesOf(critter, trait));
  const known = owned.reduce((total, list, index) => total + (list.length > 0 ? (prior[index] ?? 0) : 0), 0);
  for (const name of names) {
    const named = owned.reduce(
      (total, list, index) => total + (list.includes(name) ? (prior[index] ?? 0) / list.length : 0),
      0,
    );
    tables.marginal.set(valueKey(trait, name), Math.max(LEAST_MARGINAL, known > 0 ? named / known : LEAST_MARGINAL));
  }
  const nearOf = (value: string) => values[value]?.near ?? [];
  for (const name of names) {
    const m = tables.marginal.get(valueKey(trait, name)) ?? LEAST_MARGINAL;
    const over = (probability: (list: readonly string[]) => number, whole: number) =>
      Float64Array.from(owned, (list) => (list.length === 0 ? 1 : probability(list) / whole));
    const named = (list: readonly string[], r: number) => namedProbability(name, list, r, m, nearOf);
    tables.saw.set(
      valueKey(trait, name),
      over((list) => named(list, reliability * HURRY), m),
    );
    tables.chose.set(
      valueKey(trait, name),
      over((list) => named(list, reliability), m),
    );
    const isThere = (list: readonly string[]) =>
      list.includes(name) ? (reliability * HURRY) / (ALL_AT_ONCE.has(trait) ? 1 : list.length) : 0;
    const isNotThere = over((list) => 1 - isThere(list) - (1 - reliability * HURRY) * m, 1 - m);
    tables.sawNot.set(valueKey(trait, name), isNotThere);
    tables.misfit['saw-not'].set(
      valueKey(trait, name),
      isNotThere.map((ratio) => Math.max(0, -Math.log(ratio))),
    );
  }
  const keys = names.map((name) => ({ name, key: valueKey(trait, name) }));
  for (const kind of ['saw', 'chose'] as const) addMisfit(owned, keys, tables, kind);
}

/** For each value and entry: ln( P(the value the entry shows best) / P(this value) ), 0 for what the entry shows. */
function addMisfit(
  owned: readonly (readonly string[])[],
  keys: readonly { name: string; key: string }[],
  tables: Tables,
  kind: 'saw' | 'chose',
): void {
  const columns = keys.map(({ key }) =>
    (tables[kind].get(key) ?? new Float64Array()).map((ratio) => ratio * (tables.marginal.get(key) ?? 0)),
  );
  const best = owned.map((_each, index) => Math.max(...columns.map((column) => column[index] ?? 0)));
  keys.forEach(({ name, key }, at) => {
    const fits = (list: readonly string[]) => list.length === 0 || list.includes(name);
    tables.misfit[kind].set(
      key,
      Float64Array.from(owned, (list, index) =>
        fits(list) ? 0 : Math.log((best[index] ?? 1) / (columns[at]?.[index] ?? 1)),
      ),
    );
  });
}

/** P(somebody names `name` | an animal with these values): right, taken for a near one, or any word at all. */
function namedProbability(
  name: string,
  list: readonly string[],
  reliability: number,
  marginal: number,
  nearOf: (value: string) => readonly string[],
): number {
  const own = list.includes(name) ? reliability / list.length : 0;
  let near = 0;
  let withNear = 0;
  for (const value of list) {
    const neighbours = nearOf(value);
    if (neighbours.length === 0) continue;
    withNear += 1 / list.length;
    if (neighbours.includes(name)) near += 1 / (neighbours.length * list.length);
  }
  const nearShare = (1 - reliability) * NEAR_SHARE;
  return own + nearShare * near + (1 - reliability - nearShare * withNear) * marginal;
}

/** How a said length spreads about the true one, as a standard deviation of its natural logarithm. */
const SIZE_SPREAD = 0.35;
const SMALLEST_MM = 0.02;
const LARGEST_MM = 4000;

/** P(a member says a length in the span | the entry's own range), by lengths on a logarithmic scale. */
export function sizeLikelihood([low, high]: readonly [number, number], lowMm: number, highMm: number): number {
  const [a, b] = [Math.log(low) - SIZE_SPREAD / 2, Math.log(high) + SIZE_SPREAD / 2];
  const steps = 8;
  let sum = 0;
  for (let step = 0; step < steps; step += 1) {
    const truth = a + ((step + 0.5) / steps) * (b - a);
    sum += normalCdf((Math.log(highMm) - truth) / SIZE_SPREAD) - normalCdf((Math.log(lowMm) - truth) / SIZE_SPREAD);
  }
  return sum / steps;
}

/** P(a member says a length in the span) if nothing were known: even over the whole logarithmic scale. */
export const sizeNoise = (lowMm: number, highMm: number) =>
  Math.max(1e-6, (Math.log(highMm) - Math.log(lowMm)) / (Math.log(LARGEST_MM) - Math.log(SMALLEST_MM)));

function sizeMarginal(
  critters: readonly Critter[],
  prior: Float64Array,
  reliability: number,
): Model['size']['marginal'] {
  const known = critters
    .map(({ traits }, index) => ({ range: traits.sizeMm, weight: prior[index] ?? 0 }))
    .filter(({ range }) => range);
  const total = known.reduce((sum, { weight }) => sum + weight, 0);
  return (lowMm, highMm) =>
    known.reduce(
      (sum, { range, weight }) => sum + (range ? (weight / total) * sizeLikelihood(range, lowMm, highMm) : 0),
      0,
    ) *
      reliability +
    (1 - reliability) * sizeNoise(lowMm, highMm);
}

/** The standard normal distribution function. Source: Abramowitz & Stegun 1964, 26.2.17; error below 7.5e-8. */
function normalCdf(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const tail =
    (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return x >= 0 ? 1 - tail : tail;
}
