import { unitNamed } from '../../shared/units/tables.ts';
import { usualUnit } from '../calculators/units-in-words.ts';
import type { Block, DrawnPicture } from '../discord/message-view.ts';
import { fittedLine } from './fitted-line.ts';
import { measuredAs } from './measured.ts';
import type { ReadingStory } from './reading-story.ts';
import { shownInWords } from './shown-in-words.ts';
import type { Tank, TankUnits } from './tank.ts';
import { errorOf } from './what-it-shows.ts';

/** The chart of one parameter. All that is on it stands in the words beside it too. */
export const storyPicture = (story: ReadingStory, tank: Tank): Extract<Block, { kind: 'picture' }> => ({
  kind: 'picture',
  name: 'readings.png',
  draw: () => drawStory(story, tank),
});

/** Draws the readings with their line, doses and water changes, in the units of the tank. */
export async function drawStory({ parameter, course, shown, last }: ReadingStory, tank: Tank): Promise<DrawnPicture> {
  const { consumptionChart, drawnChart } = await import('../drawing/charts/charts.ts');
  const { name: unit, of } = scaleOf(parameter, tank.units);
  const kitError = errorOf(parameter, last) ?? 0;
  const told = shown.kind === 'consumption' && shown.consumption.kind === 'told' ? shown.consumption : null;
  const fit = told ? fittedLine(course, told.perDay, kitError) : null;
  const { target } = parameter;
  // Of a few readings nobody can say which one is wrong.
  const chart = consumptionChart({
    name: `${tank.name}: ${parameter.name}`,
    unit,
    readings: course.readings.map(({ at, value }, index) => ({
      at,
      value: of(value),
      ...(told?.by === 'spread' && fit?.isFarOff[index] ? { isOutlier: true } : {}),
    })),
    kitError: Math.abs(of(last.value + kitError) - of(last.value)),
    doses: course.doses.map(({ at, rise }) => ({ at, rise: of(last.value + rise) - of(last.value) })),
    changes: course.changes.map(({ at }) => ({ at })),
    ...(fit
      ? {
          line: fit.stretches.map((each) => ({
            ...each,
            valueAtFrom: of(each.valueAtFrom),
            valueAtTo: of(each.valueAtTo),
          })),
        }
      : {}),
    ...(target ? { target: { low: of(target.low), high: of(target.high) } } : {}),
    consumptionInWords: shownInWords(parameter, shown, course, tank.units),
  });
  return drawnChart(chart);
}

/** The unit in which a tank's owner reads a parameter, and its values in it. */
function scaleOf(
  parameter: ReadingStory['parameter'],
  units: TankUnits,
): { name: string; of: (value: number) => number } {
  const as = measuredAs(parameter);
  const id = as ? usualUnit(as.quantity, units) : null;
  if (!as || id === null) return { name: parameter.unit, of: (value) => value };
  const unit = unitNamed(as.quantity, id, { gallon: 'US gal' });
  // Relations of meters do not reach everywhere; what cannot be said in them is said as it is kept.
  return { name: unit.id, of: (value) => (Number.isNaN(unit.fromSi(value)) ? value : unit.fromSi(value)) };
}
