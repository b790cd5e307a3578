import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { Evidence, FeatureAnswer, Observation } from './evidence.ts';
import { misfitOf, misfitOfFeature } from './misfit.ts';
import type { Model, Ratios } from './model.ts';
import { SEVERITIES, severityOf, type Severity } from './harm.ts';

/** Whether leaving this one alone could end badly. */
export const isHarmful = (critter: Critter) =>
  critter.verdict === 'remove' || critter.verdict === 'urgent' || isGrave(critter);

/** A harmful look-alike this far below the first candidate counts as ruled out by what was seen. */
const RULED_OUT = 1 / 400;
const GRAVE_RULED_OUT = 1 / 3000;
/** "Leave it" is not said while all that is harmful together is more probable than this, nor with too much unknown. */
const HARMFUL_LEFT = 0.01;
const UNKNOWN_LEFT = 0.12;
/** Nor is it said of a name less probable than this. */
const SURE_ENOUGH_TO_LEAVE = 0.8;
/** What must be left against a harmful animal once the worst misfit is struck out: six times likelier not to be it. */
const SECOND_MISFIT = Math.log(6);

/** What an entry's double could do. */
type Double = { other: Critter; index: number; ratio: number; pair: LookAlike; isDanger: boolean };

/** What is at stake in a base, worked out once: how bad each entry is, and which harmful doubles each harmless one has. */
export type Stakes = {
  severities: readonly Severity[];
  /** The same as places in `SEVERITIES`. */
  severityAt: Uint8Array;
  isHarmful: Uint8Array;
  harmful: Uint16Array;
  doublesAt: readonly (readonly Double[])[];
};

const known = new WeakMap<readonly Critter[], Stakes>();

export function stakesOf(model: Model, base: KnowledgeBase): Stakes {
  const { critters } = model;
  let stakes = known.get(critters);
  if (!stakes) {
    const harmful = critters.flatMap((critter, index) => (isHarmful(critter) ? [index] : []));
    const severities = critters.map(severityOf);
    stakes = {
      severities,
      severityAt: Uint8Array.from(severities, (severity) => SEVERITIES.indexOf(severity)),
      isHarmful: Uint8Array.from(critters, (critter) => Number(isHarmful(critter))),
      harmful: Uint16Array.from(harmful),
      doublesAt: critters.map((critter) => doublesOf(model, base, critter)),
    };
    known.set(critters, stakes);
  }
  return stakes;
}

function doublesOf(model: Model, base: KnowledgeBase, critter: Critter): Double[] {
  if (critter.verdict !== 'keep') return [];
  return (base.lookAlikesOf.get(critter.id) ?? []).flatMap((pair) => {
    const other = base.critters.get(pair.a === critter.id ? pair.b : pair.a);
    const isDanger = pair.danger !== undefined && pair.danger === other?.id;
    if (!other || (!isHarmful(other) && !isDanger)) return [];
    const ratio = isGrave(other) ? GRAVE_RULED_OUT : RULED_OUT;
    return [{ other, index: model.indexOf.get(other.id) ?? -1, ratio, pair, isDanger }];
  });
}

/** Harmful doubles of an entry that what was seen does not rule out, given the weights of all entries. */
export function doublesLeft(
  { doublesAt }: Stakes,
  critters: readonly Critter[],
  top: number,
  weightOf: (index: number) => number,
  features: readonly FeatureAnswer[],
): Critter[] {
  return (doublesAt[top] ?? []).flatMap(({ other, index, ratio, pair, isDanger }) =>
    weightOf(index) < ratio * weightOf(top) || (isDanger && wasCleared(pair, critters[top], features)) ? [] : [other],
  );
}

const wasCleared = (pair: LookAlike, critter: Critter | undefined, features: readonly FeatureAnswer[]) =>
  features.some(
    (answer) => answer.pair === pair.id && answer.looksLike === critter?.id && pair.features[answer.feature]?.clears,
  );

/** What speaks against each entry: all misfits together, and the most that one slip could have brought about. */
export type Against = { sum: Float64Array; worst: Float64Array };

/** A typed word is struck out only as far as a neighbouring word would reach: nobody types "worm" of a crab by a slip. */
const TYPED_SLIP = 2.5;

/**
 * The misfits of all that was seen. What is said of one trait is one piece of evidence, however often it is said: the
 * same slip of the eye is behind all of it. A button can be pressed by mistake whatever it says.
 */
export function againstOf(model: Model, base: KnowledgeBase, { observations, features }: Evidence): Against {
  const byMatter = new Map<string, { misfit: Ratios; slip: number }>();
  const add = (matter: string, misfit: Ratios, slip: number) => {
    const earlier = byMatter.get(matter);
    byMatter.set(matter, {
      misfit: earlier ? earlier.misfit.map((each, index) => Math.max(each, misfit[index] ?? 0)) : misfit,
      slip: Math.max(earlier?.slip ?? 0, slip),
    });
  };
  for (const observation of observations)
    if (observation.kind !== 'word')
      add(
        matterOf(observation),
        misfitOf(model, observation),
        observation.kind === 'saw' || observation.kind === 'saw-not' ? TYPED_SLIP : Infinity,
      );
  for (const answer of features)
    add(`${answer.pair}#${answer.feature}`, misfitOfFeature(model, base, answer), Infinity);
  const sum = new Float64Array(model.critters.length);
  const worst = new Float64Array(model.critters.length);
  for (const { misfit, slip } of byMatter.values())
    for (let index = 0; index < sum.length; index += 1) {
      const each = misfit[index] ?? 0;
      sum[index] = (sum[index] ?? 0) + each;
      worst[index] = Math.max(worst[index] ?? 0, Math.min(each, slip));
    }
  return { sum, worst };
}

/** Whoever takes something for a shell errs about the shape of the shell as well. */
function matterOf(observation: Exclude<Observation, { kind: 'word' }>): string {
  if (observation.kind === 'size') return 'size';
  const trait = observation.readings[0]?.trait ?? '';
  return trait === 'shellShape' ? 'shell' : trait;
}

/** Harmful entries that one wrong answer alone could have hidden: without their worst misfit little speaks against them. */
export const oneSlipAway = ({ harmful }: Stakes, { sum, worst }: Against): number[] =>
  [...harmful].filter((index) => (sum[index] ?? 0) - (worst[index] ?? 0) < SECOND_MISFIT);

/** The same question after one more answer, as yes or no. */
export function isOneSlipAway({ harmful }: Stakes, { sum, worst }: Against, misfit: Ratios | null): boolean {
  for (const index of harmful) {
    const more = misfit?.[index] ?? 0;
    if ((sum[index] ?? 0) + more - Math.max(worst[index] ?? 0, more) < SECOND_MISFIT) return true;
  }
  return false;
}

/** Whether the odds by themselves allow "leave it". */
export const oddsAllowLeaving = (first: number, harmful: number, nothing: number) =>
  first >= SURE_ENOUGH_TO_LEAVE && harmful <= HARMFUL_LEFT && nothing <= UNKNOWN_LEFT;
