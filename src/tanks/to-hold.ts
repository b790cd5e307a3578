import { doseFor } from '../../shared/dose.ts';
import { IONS, type Ion } from '../../shared/reagent.ts';
import { saltCreep, twoPartDaily } from '../../shared/two-part.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Tank } from './tank.ts';
import type { Shown } from './what-it-shows.ts';

const MONTH_DAYS = 30;
/** Less salt a month than this is lost in the reading of any meter. */
const CREEP_WORTH_SAYING_G_PER_KG = 0.1;

type Base = Pick<KnowledgeBase, 'parameters' | 'reagents'>;

/**
 * What a day's use asks for, so that the value stays where it is; empty where nothing is known to be used up, or no reagent
 * makes up for it. Alkalinity takes its calcium along, since skeletons do.
 */
export function toHoldInWords(
  base: Base,
  { netVolumeL: volumeL, units }: Tank,
  parameter: Parameter,
  shown: Shown,
): string {
  if (shown.kind !== 'consumption' || shown.consumption.kind !== 'told' || shown.consumption.perDay <= 0) return '';
  const { perDay } = shown.consumption;
  const reagent = usualFor(base, parameter);
  if (!reagent) return '';
  if (parameter.id === 'alkalinity') return twoParts(base, reagent, volumeL, perDay, units);
  const ion = IONS.find((each): each is Ion => each === parameter.species);
  if (!ion) return '';
  const dose = doseFor({ formula: reagent.formula, volumeL, ion, riseMgPerL: perDay });
  return dose.kind === 'dose'
    ? `To hold it: about ${inUnits(dose.massG, 'mass', units)} ${reagent.name.toLowerCase()} a day.`
    : '';
}

function twoParts(
  base: Base,
  alkalinity: Reagent,
  volumeL: number,
  useDkhPerDay: number,
  units: Tank['units'],
): string {
  const calcium = usualFor(base, base.parameters.get('calcium'));
  if (!calcium) return '';
  const both = twoPartDaily({
    volumeL,
    useDkhPerDay,
    alkalinityFormula: alkalinity.formula,
    calciumFormula: calcium.formula,
  });
  if (both.kind !== 'two-part') return '';
  const [base1, base2] = [both.alkalinityMassGPerDay, both.calciumMassGPerDay].map((g) => inUnits(g, 'mass', units));
  const creep = saltCreep({ useDkhPerDay, days: MONTH_DAYS });
  const salt =
    creep.kind === 'creep' && creep.salinityRiseGPerKg >= CREEP_WORTH_SAYING_G_PER_KG
      ? ` That leaves salt behind: salinity creeps up by about ${creep.salinityRiseGPerKg.toFixed(1)} ppt in a month, less what water changes carry away.`
      : '';
  return `To hold it: about ${base1 ?? ''} ${alkalinity.name.toLowerCase()} a day, and well apart from it ${base2 ?? ''} ${calcium.name.toLowerCase()}, if corals and other skeletons use it.${salt}`;
}

type Reagent = NonNullable<ReturnType<Base['reagents']['get']>>;

const usualFor = ({ reagents }: Base, parameter: Parameter | undefined): Reagent | undefined =>
  parameter?.raisedBy.flatMap((id) => reagents.get(id) ?? [])[0];
