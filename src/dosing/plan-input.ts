import {
  PLANNED,
  type JointPlanInput,
  type Reading,
  type Planned,
  type PlanRule,
} from '../../shared/joint-plan-model.ts';
import { limewaterStrength } from '../../shared/limewater.ts';
import { bringsPerGram } from '../../shared/reagent.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import { givenFigure, known, middle, parameterOf } from '../water/known.ts';
import type { AtHand } from './plan-reagents.ts';
import type { Span } from './plan-span.ts';

type Known = Pick<KnowledgeBase, 'parameters' | 'reagents'>;

export const isPlanned = (word: string): word is Planned => PLANNED.some((planned) => planned === word);
/** The values with a target of their own. Salinity alone may be known without one. */
export const TESTED = ['alkalinity', 'calcium', 'magnesium'] as const;
export type Tested = (typeof TESTED)[number];
export const isTested = (planned: Planned): planned is Tested => planned !== 'salinity';

/** Where a value shall go when only its reading was given: up to what keepers aim for, or nowhere. */
export function targetFor({ target, id }: Parameter, now: number): number | null {
  if (!target) throw new RangeError(`knowledge/parameters/${id}.yaml has no target`);
  return now < target.low ? middle(target) : null;
}

/** How the knowledge base lets each value be moved. */
export function rulesOf(base: Known): Record<Planned, PlanRule> {
  const rule = (id: Planned): PlanRule => {
    const parameter = parameterOf(base, id);
    const { after, apart } = parameter;
    return {
      riseADay: givenFigure(parameter, 'riseADay').low,
      after: after.filter(isPlanned),
      ...(apart ? { apart: { from: apart.from.filter(isPlanned), minutes: apart.minutes.high } } : {}),
    };
  };
  return {
    salinity: rule('salinity'),
    magnesium: rule('magnesium'),
    alkalinity: rule('alkalinity'),
    calcium: rule('calcium'),
  };
}

/** Dosed as limewater in the place of what evaporates, so no more of it fits into a day. */
export const isLimewater = ({ formula }: Pick<Reagent, 'formula'>): boolean => formula === 'Ca(OH)2';
const LIMEWATER_C = 25;

/** Share of the water that is taken to evaporate in a day where nobody measured it, in per cent. */
export const evaporationADay = (base: Known): number => known(base, 'evaporation', 'open-top').low;

/** Saturated limewater at room temperature, as a stock of which only so much fits into a day. */
function asLimewater(base: Known, volumeL: number) {
  const strength = limewaterStrength({ temperatureC: LIMEWATER_C });
  if (strength.kind !== 'limewater') throw new RangeError('limewater at 25 °C lies outside of its own range');
  const { hydroxideGPerL } = strength;
  return { stockGPerL: hydroxideGPerL, mostGADay: ((volumeL * evaporationADay(base)) / 100) * hydroxideGPerL };
}

export type PlanWater = { volumeL: number; practicalSalinity: number; temperatureC: number };

/** The model of what was asked. */
export function planInput(
  base: Known,
  water: PlanWater,
  spans: Partial<Record<Planned, Span>>,
  reagents: readonly AtHand[],
): JointPlanInput {
  const { salinity } = spans;
  return {
    volumeL: water.volumeL,
    temperatureC: water.temperatureC,
    practicalSalinity: salinity?.now ?? water.practicalSalinity,
    ...(salinity && salinity.target !== null ? { targetSalinity: salinity.target } : {}),
    levels: levelsOf(base, spans),
    rules: rulesOf(base),
    reagents: reagents.map(({ reagent, stockGPerL }) => ({
      id: reagent.id,
      raises: reagent.raises.filter(isPlanned),
      brings: bringsPerGram(reagent.formula),
      ...(stockGPerL === null ? {} : { stockGPerL }),
      ...(isLimewater(reagent) ? asLimewater(base, water.volumeL) : {}),
    })),
  };
}

function levelsOf(base: Known, spans: Partial<Record<Planned, Span>>): JointPlanInput['levels'] {
  const levels: Partial<Record<Tested, Reading>> = {};
  for (const tested of TESTED) {
    const span = spans[tested];
    if (!span) continue;
    const { now } = span;
    const target = span.target ?? targetFor(parameterOf(base, tested), now);
    levels[tested] = { now, ...(target === null ? {} : { target }) };
  }
  return levels;
}

/** The values that have to rise, in the order of a day. */
export const risingOf = ({
  levels,
  practicalSalinity,
  targetSalinity,
}: Pick<JointPlanInput, 'levels' | 'practicalSalinity' | 'targetSalinity'>): Planned[] =>
  PLANNED.filter((planned) => {
    if (planned === 'salinity') return targetSalinity !== undefined && targetSalinity > practicalSalinity;
    const level = levels[planned];
    return level?.target !== undefined && level.target > level.now;
  });
