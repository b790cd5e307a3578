import { unitNamed } from '../../shared/units/tables.ts';
import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { TankUnits } from '../tanks/tank.ts';
import type { SingleDose, SingleDoseInput } from './single-dose.ts';

type Found = Extract<SingleDose, { kind: 'dose' }>;

/** From so many days on a picture says more than the list. */
const WORTH_DRAWING = 3;

/** The days of a dose as a chart, everything on it stands in the words too; null where it is over too soon. */
export function dosePicture(
  { parameter, reagent, now, target }: SingleDoseInput,
  found: Found,
  portion: string,
  units: TankUnits,
): Extract<Block, { kind: 'picture' }> | null {
  const { days, risePerDay, capPerDay } = found;
  if (days < WORTH_DRAWING) return null;
  const isAlkalinity = parameter.id === 'alkalinity';
  const unit = isAlkalinity ? units.alkalinity : parameter.unit;
  const shown = isAlkalinity
    ? unitNamed('alkalinity', units.alkalinity, { gallon: 'US gal' }).fromSi
    : (value: number) => value;
  const draw = async (): Promise<DrawnPicture> => {
    const { doseDaysChart, drawnChart } = await import('../drawing/charts/charts.ts');
    return drawnChart(
      doseDaysChart({
        parameters: [
          {
            name: parameter.name,
            unit,
            start: shown(now),
            target: shown(target),
            afterEachDay: Array.from({ length: days }, (_, day) => shown(now + risePerDay * (day + 1))),
            capPerDay: shown(capPerDay),
            ...(parameter.target
              ? { band: { low: shown(parameter.target.low), high: shown(parameter.target.high) } }
              : {}),
          },
        ],
        doses: Array.from({ length: days }, (_, day) => ({
          day: day + 1,
          reagent: reagent.name,
          amountInWords: portion,
        })),
      }),
    );
  };
  return { kind: 'picture', name: 'dose-days.png', draw };
}
