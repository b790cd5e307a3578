import type { Critter } from '../knowledge/critter.ts';
import type { FirstAid } from '../knowledge/first-aid.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';

/** First-aid rows are shown in this order: what kills soonest stands first. */
const ORDER = [
  'venomous-bite',
  'venomous-harpoon',
  'toxin-palytoxin',
  'eye-splash',
  'sting-serious',
  'spines',
  'sting-mild',
  'toxic-if-eaten',
  'irritant-bristles',
  'bite-pinch',
  'cut',
  'irritant',
  'aerosol-toxin',
  'wound-infection',
] as const;

/** Hazards that leave a wound: the line on infected wounds goes with them. */
const WOUNDS: ReadonlySet<string> = new Set([
  'venomous-bite',
  'venomous-harpoon',
  'spines',
  'irritant-bristles',
  'bite-pinch',
  'cut',
]);

/** Hazards for which people come before any word about the tank. */
const GRAVE: ReadonlySet<string> = new Set(['venomous-bite', 'venomous-harpoon', 'toxin-palytoxin', 'sting-serious']);

/**
 * The hazards of a critter in the order in which help is given.
 *
 * The spines of stars and urchins get hot water, so their row goes before the sting rows, which speak of
 * anemones and jellyfish.
 */
export function hazardsInOrder({ humanHazards, group }: Critter): string[] {
  const rank = (hazard: string) => {
    if (hazard === 'spines' && group.startsWith('echinoderm')) return -1;
    const at = ORDER.findIndex((known) => known === hazard);
    return at < 0 ? ORDER.length : at;
  };
  return [...humanHazards].sort((one, other) => rank(one) - rank(other));
}

/** The first-aid rows for a critter, most urgent first. */
export function firstAidFor(base: KnowledgeBase, critter: Critter): FirstAid[] {
  return hazardsInOrder(critter).flatMap((hazard) => base.firstAid.get(hazard) ?? []);
}

/** Whether one of its hazards leaves a wound, which can get infected later. */
export const leavesWound = ({ humanHazards }: Critter) => humanHazards.some((hazard) => WOUNDS.has(hazard));

/** Whether help for people belongs above everything else on its card. */
export const peopleFirst = ({ humanHazards, verdict }: Critter) =>
  humanHazards.some((hazard) => GRAVE.has(hazard)) || (verdict === 'urgent' && humanHazards.length > 0);
