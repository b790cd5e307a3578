// A chart of readings in words, for people who do not see it.
import type { ConsumptionCourse } from './consumption-data.ts';
import { dateInWords, daysInWords } from './dates.ts';
import { atMost, counted, extent, inFigures, spanInWords } from './figures.ts';

/** The sentences; together they stay below 1,000 characters. */
export function consumptionInWords(course: ConsumptionCourse): string[] {
  const { name, unit, readings, doses, changes, lines, target, kitError } = course;
  const kept = readings.filter(({ isOutlier }) => !isOutlier);
  const left = readings.filter(({ isOutlier }) => isOutlier);
  const [first, last] = [readings[0], readings.at(-1)];
  const when = first && last ? (readings.length > 1 ? `from ${dateInWords(first.at)} to ${dateInWords(last.at)}` : `on ${dateInWords(first.at)}`) : ''; // prettier-ignore
  const [low, high] = extent((kept.length ? kept : readings).map(({ value }) => value));
  return [
    `Chart of ${atMost(name, 80)} in ${atMost(unit, 30)}: ${counted(readings.length, 'reading')} ${when}.`,
    first && last && readings.length > 1 ? `First ${inFigures(first.value)}, last ${inFigures(last.value)}, lowest ${inFigures(low)}, highest ${inFigures(high)}.` : `It reads ${inFigures(high)}.`, // prettier-ignore
    kitError > 0 ? `The test kit may be off by ${inFigures(kitError)} either way.` : '',
    atMost(sentence(course.inWords), 240),
    ...(lines.length === 1 ? lines.map(({ from, to, valueAtFrom, valueAtTo }) => `The fitted line goes from ${inFigures(valueAtFrom)} on ${dateInWords(from)} to ${inFigures(valueAtTo)} on ${dateInWords(to)}.`) : []), // prettier-ignore
    lines.length > 1 ? `${lines.length} fitted lines, one for each stretch between doses and changes.` : '',
    target ? `Target ${spanInWords(target)}.` : '',
    doses.length ? `${counted(doses.length, 'dose')} of ${risesInWords(doses)}: ${daysInWords(doses.map(({ at }) => at), 6)}.` : '', // prettier-ignore
    changes.length ? `${counted(changes.length, 'water change')}: ${daysInWords(changes, 6)}.` : '',
    left.length ? `Left out of the line: ${left.slice(0, 4).map(({ at, value }) => `${inFigures(value)} on ${dateInWords(at)}`).join(', ')}${left.length > 4 ? ` and ${left.length - 4} more` : ''}.` : '', // prettier-ignore
  ];
}

/** "+0.5", or "+0.4 to +0.6" */
export function risesInWords(doses: ConsumptionCourse['doses']): string {
  const ends = extent(doses.map(({ rise }) => rise)).map((rise) => (rise < 0 ? '' : '+') + inFigures(rise));
  return [...new Set(ends)].join(' to ');
}

const sentence = (words: string) => (!words || /[.!?]$/.test(words) ? words : `${words}.`);
