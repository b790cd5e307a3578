import type { JointPlan, Planned } from '../../shared/joint-plan-model.ts';
import { unitNamed } from '../../shared/units/tables.ts';
import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { DosedParameter } from '../drawing/charts/charts.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { parameterOf } from '../water/known.ts';
import { doseInWords, lower, type Named } from './plan-words.ts';
import type { AskedPlan } from './plan.view.ts';

/** From so many days on a picture says more than the list. */
const WORTH_DRAWING = 3;

/** The days of a plan as a chart; everything on it stands in the words too. Null where it is over too soon. */
export function planPicture(
  base: Pick<KnowledgeBase, 'parameters'>,
  { input }: AskedPlan,
  { days }: JointPlan,
  rising: readonly Planned[],
  named: Named,
): Extract<Block, { kind: 'picture' }> | null {
  if (days.length < WORTH_DRAWING) return null;
  const parameters = rising.map((planned): DosedParameter => {
    const { name, target: band } = parameterOf(base, planned);
    const { unit, shown } = scaleOf(planned, named.units);
    const [start = NaN, target = NaN] =
      planned === 'salinity'
        ? [input.practicalSalinity, input.targetSalinity]
        : [input.levels[planned]?.now, input.levels[planned]?.target];
    return {
      name,
      unit,
      start: shown(start),
      target: shown(target),
      afterEachDay: days.map(({ after }) => shown(after[planned] ?? NaN)),
      capPerDay: shown(input.rules[planned].riseADay),
      ...(band ? { band: { low: shown(band.low), high: shown(band.high) } } : {}),
    };
  });
  const doses = days.flatMap(({ day, doses: ofDay }) =>
    ofDay.map((dose) => {
      const reagent = named.reagents.get(dose.reagentId)?.name ?? dose.reagentId;
      // The chart writes the name beside the amount.
      const [amount = ''] = doseInWords(dose, named).split(` ${lower(reagent)}`);
      return { day, reagent, amountInWords: amount.replace(/ of your$/, ' of stock') };
    }),
  );
  const draw = async (): Promise<DrawnPicture> => {
    const { doseDaysChart, drawnChart } = await import('../drawing/charts/charts.ts');
    return drawnChart(doseDaysChart({ parameters, doses }));
  };
  return { kind: 'picture', name: 'plan.png', draw };
}

/** Salinity is drawn in ppt: rises of specific gravity say nothing to anybody. */
function scaleOf(planned: Planned, units: TankUnits): { unit: string; shown: (value: number) => number } {
  if (planned === 'alkalinity')
    return {
      unit: units.alkalinity,
      shown: unitNamed('alkalinity', units.alkalinity, { gallon: 'US gal' }).fromSi,
    };
  return { unit: planned === 'salinity' ? 'ppt' : 'mg/L', shown: (value) => value };
}
