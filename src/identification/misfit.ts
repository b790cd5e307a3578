import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { FeatureAnswer, Observation } from './evidence.ts';
import { sizeLikelihood, sizeNoise, valueKey, type Model, type Ratios } from './model.ts';

/**
 * How badly one observation fits each entry by itself: 0 where the entry shows just that, else the natural logarithm
 * of how much likelier what it shows best would have been. Unlike a likelihood ratio it owes nothing to how often an
 * animal is met, nor to how much its entry lists, so a true answer is a misfit of 0 for the animal it is true of.
 */
export function misfitOf(model: Model, observation: Observation): Ratios {
  if (observation.kind === 'size') return sizeMisfit(model, observation.lowMm, observation.highMm);
  const misfit = new Float64Array(model.critters.length);
  // That a description lacks one of the member's words contradicts nothing.
  if (observation.kind === 'word') return misfit;
  const table = model.misfit[observation.kind];
  const columns = observation.readings.flatMap(({ trait, value }) => table.get(valueKey(trait, value)) ?? []);
  // Any of the readings may be what was meant: the one that fits best counts.
  columns.forEach((column, at) => {
    for (let index = 0; index < misfit.length; index += 1)
      misfit[index] = at === 0 ? (column[index] ?? 0) : Math.min(misfit[index] ?? 0, column[index] ?? 0);
  });
  return misfit;
}

/** A look at a telling feature contradicts the animal it does not look like. */
const FEATURE_MISFIT = 2;

/** The entry that a look speaks against; a danger only where the feature may clear it. */
export function misfitOfFeature(
  model: Model,
  base: KnowledgeBase,
  { pair: id, feature, looksLike }: FeatureAnswer,
): Ratios {
  const misfit = new Float64Array(model.critters.length);
  const pair = base.lookAlikes.get(id);
  const asked = pair?.features[feature];
  if (!pair || !asked || (looksLike !== pair.a && looksLike !== pair.b)) return misfit;
  const other = looksLike === pair.a ? pair.b : pair.a;
  const at = model.indexOf.get(other);
  if (at !== undefined && (pair.danger !== other || asked.clears)) misfit[at] = FEATURE_MISFIT;
  return misfit;
}

function sizeMisfit(model: Model, lowMm: number, highMm: number): Ratios {
  const { reliability } = model.size;
  const noise = (1 - reliability) * sizeNoise(lowMm, highMm);
  const half = Math.sqrt(highMm / lowMm);
  return Float64Array.from(model.critters, ({ traits: { sizeMm } }) => {
    if (!sizeMm || (sizeMm[0] <= highMm && lowMm <= sizeMm[1])) return 0;
    const middle = Math.sqrt(sizeMm[0] * sizeMm[1]);
    const best = reliability * sizeLikelihood(sizeMm, middle / half, middle * half) + noise;
    return Math.max(0, Math.log(best / (reliability * sizeLikelihood(sizeMm, lowMm, highMm) + noise)));
  });
}
