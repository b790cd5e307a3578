import type { Critter } from '../knowledge/critter.ts';
import { isGrave } from '../knowledge/look-up.ts';

/** What the bot can advise, from the least careful to the most. */
export const ACTS = ['keep', 'watch', 'ask', 'remove', 'urgent'] as const;
export type Act = (typeof ACTS)[number];

/** How much harm an entry can do: its verdict, and beyond it what can harm a person gravely. */
export const SEVERITIES = ['keep', 'watch', 'remove', 'urgent', 'grave'] as const;
export type Severity = (typeof SEVERITIES)[number];

/**
 * The harm of an act when the truth has a severity, in one scale: 1 is a useful animal watched for nothing, 100 a
 * person in danger. A judgement of our own (common practice, no source); what holds the engine together is its shape:
 * from one act to the next more careful one, harm grows less the worse the truth is. So a worse truth never makes a
 * less careful act the best one.
 */
const HARM: Record<Act, Record<Severity, number>> = {
  keep: { keep: 0, watch: 2.5, remove: 14, urgent: 60, grave: 220 },
  watch: { keep: 1, watch: 0.5, remove: 7, urgent: 35, grave: 130 },
  ask: { keep: 4, watch: 3, remove: 4, urgent: 12, grave: 30 },
  remove: { keep: 8, watch: 6, remove: 1, urgent: 8, grave: 24 },
  urgent: { keep: 20, watch: 15, remove: 8, urgent: 0, grave: 0 },
};
/** Something unknown is as often harmless as not: its harm is that of a mixture. */
const UNKNOWN: Record<Severity, number> = { keep: 0.55, watch: 0.25, remove: 0.12, urgent: 0.06, grave: 0.02 };

export const harmOf = (act: Act, severity: Severity): number => HARM[act][severity];

/** The severity of an entry. */
export function severityOf(critter: Critter): Severity {
  if (isGrave(critter) && critter.humanHazards.length > 0 && critter.verdict === 'urgent') return 'grave';
  return critter.verdict;
}

/** Expected harm of every act, given the probability of each severity and of something unknown. */
export function expectedHarms(weights: Readonly<Record<Severity, number>>, nothing: number): Record<Act, number> {
  const harms = { keep: 0, watch: 0, ask: 0, remove: 0, urgent: 0 };
  for (const act of ACTS)
    for (const severity of SEVERITIES)
      harms[act] += (weights[severity] + nothing * UNKNOWN[severity]) * harmOf(act, severity);
  return harms;
}

/** The act with the least expected harm; of two equals the more careful one. */
export function leastHarm(harms: Readonly<Record<Act, number>>): { act: Act; harm: number } {
  let best: { act: Act; harm: number } = { act: 'keep', harm: harms.keep };
  for (const act of ACTS) if (harms[act] <= best.harm) best = { act, harm: harms[act] };
  return best;
}

/** How the probability is spread over severities. */
export function severityWeights(
  severities: readonly Severity[],
  probabilities: Float64Array,
): Record<Severity, number> {
  const weights: Record<Severity, number> = { keep: 0, watch: 0, remove: 0, urgent: 0, grave: 0 };
  severities.forEach((severity, index) => {
    weights[severity] += probabilities[index] ?? 0;
  });
  return weights;
}

/** A name is put forward from this probability on. */
const LIKELY = 0.5;
const CAUTION: Record<Act, number> = { keep: 0, watch: 1, ask: 2, remove: 3, urgent: 4 };

/**
 * The act that is said: the one with the least harm, "watch it" where "leave it" may not be said, and "ask" while no
 * name is likely. A doubtful name never lowers what the named animal itself asks for.
 */
export function actToSay(least: Act, first: number, verdict: Exclude<Act, 'ask'>, mayLeave: boolean): Act {
  const act = least === 'keep' && !mayLeave ? 'watch' : least;
  if (first < LIKELY || act === 'ask') return 'ask';
  return act !== 'keep' && CAUTION[verdict] > CAUTION[act] ? verdict : act;
}
