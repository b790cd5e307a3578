import type { Coral } from '../knowledge/coral.ts';
import { FLOWS, type REACHES } from '../knowledge/coral-words.ts';

/** The far end of each class of reach, mm; `very-long` has none, so what is left there is a guess on the safe side. */
const REACH_MM: Readonly<Record<(typeof REACHES)[number], number>> = { none: 0, short: 20, medium: 60, long: 150, 'very-long': 250 }; // prettier-ignore
/** For growth, and because nobody measures to the millimetre. Common practice, no source. */
const MARGIN_MM = 30;
/** Bare ground around one that creeps. Common practice, no source. */
const CREEPS_CM = 8;
/** Further apart than this two corals are no neighbours. */
const MOST_APART_CM = 30;
/** Less light in common than this is a place that nobody finds. */
const LEAST_SHARED_PAR = 20;

export const WARNINGS = ['kills-most', 'chemical', 'island', 'flow', 'palytoxin', 'sweepers'] as const;
export type NeighbourWarning = (typeof WARNINGS)[number];

export type Neighbour =
  | { kind: 'may'; apartCm: number; par: readonly [number, number]; warnings: readonly NeighbourWarning[] }
  | { kind: 'may-not'; why: 'light' | 'flow' | 'placement' | 'room' | 'kills-most' | 'chemical' | 'expert' };

type Reaching = Pick<Coral, 'reach' | 'containment'>;

/** How far apart two corals stand so that neither reaches the other: both reaches and a margin, up to whole centimetres. */
export function apartCm(one: Reaching, other: Reaching): number {
  const reaching = Math.ceil((REACH_MM[one.reach] + REACH_MM[other.reach] + MARGIN_MM) / 10);
  return one.containment || other.containment ? Math.max(reaching, CREEPS_CM) : reaching;
}

/** Whether a coral can stand beside another one, how far off, and what to mind. */
export function neighbourOf(asked: Coral, other: Coral): Neighbour {
  const low = Math.max(asked.lightPar[0], other.lightPar[0]);
  const high = Math.min(asked.lightPar[1], other.lightPar[1]);
  if (high - low < LEAST_SHARED_PAR) return { kind: 'may-not', why: 'light' };
  const flows = Math.abs(FLOWS.indexOf(asked.flow) - FLOWS.indexOf(other.flow));
  if (flows > 1) return { kind: 'may-not', why: 'flow' };
  if (!standTogether(asked, other)) return { kind: 'may-not', why: 'placement' };
  if (other.strength === 'kills-most') return { kind: 'may-not', why: 'kills-most' };
  if (poisons(other, asked) || poisons(asked, other)) return { kind: 'may-not', why: 'chemical' };
  if (other.feeding === 'expert-only' || other.careFlags.includes('expert-only')) return { kind: 'may-not', why: 'expert' }; // prettier-ignore
  const apart = apartCm(asked, other);
  if (apart > MOST_APART_CM) return { kind: 'may-not', why: 'room' };
  const warnings = WARNINGS.filter((warning) => {
    if (warning === 'kills-most') return asked.strength === 'kills-most';
    if (warning === 'chemical') return asked.chemical || other.chemical;
    if (warning === 'island') return other.containment;
    if (warning === 'flow') return flows === 1;
    if (warning === 'palytoxin') return other.palytoxin;
    return other.careFlags.includes('sweepers');
  });
  return { kind: 'may', apartCm: apart, par: [low, high], warnings };
}

function standTogether({ placement: one }: Coral, { placement: other }: Coral): boolean {
  if (one === 'hang' || other === 'hang') return one === other;
  return one === other || one === 'either' || other === 'either';
}

const HARD = new Set(['stony', 'octocoral-stony', 'hydrocoral']);
/** Chemistry of soft corals reaches stony ones through the water. */
const poisons = (one: Coral, other: Coral): boolean => one.chemical && HARD.has(other.kind);
