// Dose days in words: the lines above the blocks, and the text for people who do not see the chart.
import { dateInWords, DAY } from './dates.ts';
import { stretches, type DoseDays, type DosedParameter, type ReagentDays } from './dose-days-data.ts';
import { atMost, counted, inFigures, spanInWords } from './figures.ts';

/** More different amounts than this are not listed. */
const MOST_AMOUNTS = 4;
const MOST_STRETCHES = 4;

/** "days 1 to 4 and 6" */
export function daysOf(days: readonly number[]): string {
  const all = stretches(days).flatMap(({ from, to }) => (to === from + 1 ? [{ from, to: from }, { from: to, to }] : [{ from, to }])); // prettier-ignore
  const most = all.length > MOST_STRETCHES + 1 ? MOST_STRETCHES : all.length;
  const shown = all.slice(0, most).map(({ from, to }) => (to > from ? `${from} to ${to}` : String(from)));
  const left = all.slice(most).reduce((sum, { from, to }) => sum + to - from + 1, 0);
  const last = left ? `${left} more` : shown.length > 1 ? shown.pop() : undefined;
  return `${days.length > 1 ? 'days' : 'day'} ${shown.join(', ')}${last ? ` and ${last}` : ''}`;
}

/** "12.3 g a day on days 1 to 4; 8 g on day 5" */
export function amountsOf({ amounts }: ReagentDays): string {
  const shown = amounts.slice(0, MOST_AMOUNTS).map(({ inWords, days }) => `${inWords} ${days.length > 1 ? 'a day ' : ''}on ${daysOf(days)}`); // prettier-ignore
  const left = amounts.length - MOST_AMOUNTS;
  return [...shown, ...(left > 0 ? [`${left} more ${left > 1 ? 'amounts' : 'amount'} after that`] : [])].join('; ');
}

/** "7.1 to 8.6 dKH, at most 0.5 a day" */
export function wayOf({ start, target, unit, capPerDay }: DosedParameter, written = inFigures): string {
  return `${written(start)} to ${written(target)} ${unit}, at most ${inFigures(capPerDay)} a day`;
}

/** "12 Nov 2026 to 16 Nov 2026" */
export function lastingInWords({ count, firstDay }: DoseDays, written: (local: number) => string): string {
  if (firstDay === undefined) return '';
  const last = firstDay + (count - 1) * DAY;
  return count > 1 ? `${written(firstDay)} to ${written(last)}` : written(firstDay);
}

/** The sentences; together they stay below 1,000 characters in all but the longest plans. */
export function doseDaysInWords(plan: DoseDays): string[] {
  const when = lastingInWords(plan, dateInWords);
  const room = 440 / plan.parameters.length;
  return [
    `Chart of a dose plan for ${counted(plan.count, 'day')}${when ? `, ${when}` : ''}.`,
    ...plan.parameters.map((one) => {
      const { afterEachDay: after, band } = one;
      const listed = after.length > 7 ? [...after.slice(0, 5), ...after.slice(-1)] : after;
      const values = listed.map(inFigures).join(', ');
      const list = after.length > 7 ? `${values.replace(/, ([^ ]+)$/, ' … $1')}` : values;
      return atMost(`${one.name}: ${wayOf(one)}; after each day ${list}${band ? `; target span ${spanInWords(band)}` : ''}.`, room); // prettier-ignore
    }),
    ...plan.reagents.map((one) => `${one.reagent}: ${amountsOf(one)}.`),
  ];
}
