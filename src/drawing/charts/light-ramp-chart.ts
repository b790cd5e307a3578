// A light ramp: steps from today's light to the target, and where more light is not for everyone.
import type { Theme } from '../ink.ts';
import type { Plate } from '../page.ts';
import { CHART_WIDTH, chartSheet, SIDE, TITLE, type ChartSheet, type Room } from './chart-sheet.ts';
import { atMost, counted, drawable, inFigures } from './figures.ts';
import { edge, hatching, rule } from './marks.ts';
import { drawSteps, labelBetween, labelEnds, type Level } from './step-line.ts';
import { evenly, valueAxis } from './value-axis.ts';

export type LightStep = { fromDay: number; toDay: number; par: number };
export type LightRamp = {
  /** In the order of their days; both days count. */
  steps: readonly LightStep[];
  /** µmol/m²/s, as everything here. */
  target: number;
  /** What is enough for high-light stony corals. */
  enough: number;
  /** From here on more light is for experienced keepers. */
  cautionFrom: number;
};

const UNIT = 'µmol/m²/s';
const PLOT = 470;
const ENOUGH = 'enough for high-light stony corals';
const EXPERIENCED = 'experienced keepers only';

/** Draws a ramp. @throws RangeError when there is no step, days are out of order, or a number is none. */
export function lightRampChart(ramp: LightRamp, theme: Theme = 'light'): Plate {
  const { steps, target, enough, cautionFrom } = checked(ramp);
  const sheet = chartSheet(theme);
  const { ink } = sheet;
  const [first, last] = ends(steps);
  const title = `Light: ${inFigures(first.par)} to ${inFigures(last.par)} ${UNIT}`;
  const titled = sheet.paragraph(title, 20 + TITLE, { size: TITLE, weight: 'semibold' });
  const lasting = `${counted(last.toDay - first.fromDay + 1, 'day')}; percent of the target of ${inFigures(target)}`;
  const top = sheet.paragraph(lasting, titled, { fill: ink.quiet }) + 2;
  const bottom = top + PLOT;

  const highest = Math.max(target, ...steps.map(({ par }) => par));
  const shaded = showsCaution(ramp, highest);
  const ceiling = Math.max(highest * 1.18, enough * 1.18, shaded ? cautionFrom * 1.2 : 0);
  const axis = valueAxis([0, ceiling], top, bottom, SIDE + 76);
  const room: Room = { left: axis.left, right: CHART_WIDTH - SIDE, top, bottom };
  const days = evenly([first.fromDay, last.toDay + 1], [room.left, room.right]);

  const cautionY = axis.y(cautionFrom);
  if (shaded) sheet.draw(hatching({ ...room, bottom: cautionY }, ink.caution) + rule([room.left, cautionY], [room.right, cautionY], ink.caution, 4)); // prettier-ignore
  for (const { value, words } of axis.marks) {
    sheet.draw(rule([room.left, axis.y(value)], [room.right, axis.y(value)], ink.rule));
    sheet.write(words, { x: room.left - 12, y: axis.y(value) + 9, align: 'end' }, { fill: ink.quiet });
  }
  const enoughY = axis.y(enough);
  sheet.draw(edge(room, enoughY, ink));
  sheet.draw(rule([room.left, bottom], [room.right, bottom], ink.quiet, 3));

  const levels = (words: (step: LightStep) => string) => steps.map((step): Level => ({ left: days(step.fromDay), right: days(step.toDay + 1), y: axis.y(step.par), words: words(step) })); // prettier-ignore
  const percents = levels(({ par }) => `${Math.round((par / target) * 100)} %`);
  const lights = levels(({ par }) => inFigures(par));
  const sets = [{ levels: percents, side: 'above' }, { levels: lights, side: 'below' }] as const; // prettier-ignore
  drawSteps(sheet, percents);
  for (const set of sets) labelEnds(sheet, set, room);
  const ofLines = (y: number): { x: number; y: number; align: 'start' | 'end' }[] => [
    { x: room.left + 12, y: y - 18, align: 'start' },
    { x: room.left + 12, y: y + 36, align: 'start' },
    { x: room.right - 8, y: y - 18, align: 'end' },
    { x: room.right - 8, y: y + 36, align: 'end' },
  ];
  const enoughWords = `${inFigures(enough)}: ${ENOUGH}`;
  const said = sheet.writeIfFree(enoughWords, ofLines(enoughY), room);
  const cautionWords = `from ${inFigures(cautionFrom)}: ${EXPERIENCED}`;
  const warned = shaded && sheet.writeIfFree(cautionWords, ofLines(cautionY), room);
  labelBetween(sheet, sets, room);
  let y = weeks(sheet, steps, room, days);
  if (!said) y = sheet.paragraph(`Dashed line, ${enoughWords}.`, y);
  if (shaded && !warned) y = sheet.paragraph(`Hatched, ${cautionWords}.`, y);
  return sheet.plate(y - 8, inWords(ramp, shaded));
}

/** A ramp that stays well below what is enough says nothing of what lies far above. */
function showsCaution({ enough, cautionFrom }: LightRamp, highest: number): boolean {
  return highest >= enough * 0.7 || highest >= cautionFrom * 0.7;
}

/** The names of the steps below the axis: weeks where the steps are weeks, days where they are not. */
function weeks(sheet: ChartSheet, steps: readonly LightStep[], room: Room, days: (day: number) => number): number {
  const { ink } = sheet;
  const [{ fromDay: start }] = ends(steps);
  const weekly = steps.every(({ fromDay }) => (fromDay - start) % 7 === 0);
  const y = room.bottom + 40;
  const below: Room = { left: 0, right: CHART_WIDTH, top: room.bottom, bottom: room.bottom + 54 };
  sheet.write(weekly ? 'week' : 'day', { x: SIDE, y }, { fill: ink.quiet });
  const every = Math.ceil(steps.length / 14);
  steps.forEach(({ fromDay, toDay }, i) => {
    if (i % every) return;
    const number = String(weekly ? (fromDay - start) / 7 + 1 : fromDay);
    const [left, right] = [days(fromDay), days(toDay + 1)];
    const x = weekly && every === 1 ? (left + right) / 2 : left + 4;
    if (
      sheet.writeIfFree(
        number,
        [
          { x, y, align: 'middle' },
          { x: left + 14, y, align: 'middle' },
        ],
        below,
        { fill: ink.quiet },
      )
    )
      // prettier-ignore
      sheet.draw(rule([left, room.bottom], [left, room.bottom + 12], ink.quiet, 3));
  });
  return room.bottom + 84;
}

function inWords({ steps, target, enough, cautionFrom }: LightRamp, shaded: boolean): string[] {
  const shown = steps.length > 12 ? [...steps.slice(0, 8), ...steps.slice(-1)] : steps;
  const list = shown.map(({ fromDay, toDay, par }) => `${inFigures(par)} (${Math.round((par / target) * 100)} %) on days ${fromDay} to ${toDay}`); // prettier-ignore
  const [first, last] = ends(steps);
  return [
    `Chart of a light ramp from ${inFigures(first.par)} to ${inFigures(last.par)} ${UNIT}, target ${inFigures(target)}, in ${counted(steps.length, 'step')}: ${atMost(list.join('; '), 640)}${steps.length > 12 ? ' (steps between left out here)' : ''}.`, // prettier-ignore
    `A dashed line at ${inFigures(enough)}: ${ENOUGH}.`,
    shaded ? `Hatched from ${inFigures(cautionFrom)} up: ${EXPERIENCED}.` : '',
  ];
}

function checked(ramp: LightRamp): LightRamp {
  const { steps, target, enough, cautionFrom } = ramp;
  if (!steps.length) throw new RangeError('a light ramp needs a step');
  for (const [what, value] of [['target', target], ['enough', enough], ['cautionFrom', cautionFrom]] as const) if (!(drawable(what, value) > 0)) throw new RangeError(`${what} must be above zero`); // prettier-ignore
  let day = -Infinity;
  for (const { fromDay, toDay, par } of steps) {
    if (drawable('fromDay', fromDay) <= day || drawable('toDay', toDay) < fromDay) throw new RangeError('steps out of order'); // prettier-ignore
    if (drawable('par', par) < 0) throw new RangeError('par is below zero');
    day = toDay;
  }
  return ramp;
}

function ends(steps: readonly LightStep[]): [LightStep, LightStep] {
  const [first, last] = [steps[0], steps.at(-1)];
  if (!first || !last) throw new RangeError('a light ramp needs a step');
  return [first, last];
}
