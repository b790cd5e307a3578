// What a chart of readings is drawn from, checked before anything is drawn.
import { drawable, drawableSpan, plainWords, type Span } from './figures.ts';
import { localTime } from './dates.ts';

export type FittedLine = { from: Date; to: Date; valueAtFrom: number; valueAtTo: number };

export type ConsumptionData = {
  name: string;
  unit: string;
  readings: readonly { at: Date; value: number; isOutlier?: boolean }[];
  /** What a test may be off by, either way, in `unit`. */
  kitError: number;
  doses: readonly { at: Date; rise: number }[];
  changes: readonly { at: Date }[];
  /** One fitted line, or one for each stretch between doses and changes. */
  line?: FittedLine | readonly FittedLine[];
  target?: Span;
  /** One sentence: what was used a day, and how sure that is. */
  consumptionInWords: string;
  /** Minutes that the local time is ahead of UTC; 0 writes the dates of UTC. */
  zoneOffsetMinutes?: number;
};

/** The same with every moment in local milliseconds. */
export type ConsumptionCourse = {
  name: string;
  unit: string;
  readings: { at: number; value: number; isOutlier: boolean }[];
  kitError: number;
  doses: { at: number; rise: number }[];
  changes: number[];
  lines: { from: number; to: number; valueAtFrom: number; valueAtTo: number }[];
  target: Span | undefined;
  inWords: string;
  /** Every moment that has to be in the picture. */
  moments: number[];
};

/** @throws RangeError when there is no reading, or a number or date cannot be drawn. */
export function checkedCourse(data: ConsumptionData): ConsumptionCourse {
  const local = (what: string, at: Date) => localTime(what, at, data.zoneOffsetMinutes ?? 0);
  if (!data.readings.length) throw new RangeError('a chart of readings needs a reading');
  if (drawable('kitError', data.kitError) < 0) throw new RangeError('kitError is below zero');
  const readings = data.readings
    .map(({ at, value, isOutlier = false }) => ({
      at: local('a reading', at),
      value: drawable('a reading', value),
      isOutlier,
    })) // prettier-ignore
    .toSorted((one, other) => one.at - other.at);
  const doses = data.doses.map(({ at, rise }) => ({ at: local('a dose', at), rise: drawable('a dose', rise) }));
  const changes = data.changes.map(({ at }) => local('a water change', at));
  const lines = linesOf(data.line).map(({ from, to, valueAtFrom, valueAtTo }) => {
    const line = { from: local('the line', from), to: local('the line', to) };
    if (line.from > line.to) throw new RangeError('the line ends before it begins');
    return { ...line, valueAtFrom: drawable('the line', valueAtFrom), valueAtTo: drawable('the line', valueAtTo) };
  });
  return {
    name: plainWords(data.name),
    unit: plainWords(data.unit),
    readings,
    kitError: data.kitError,
    doses,
    changes,
    lines,
    target: data.target && drawableSpan('target', data.target),
    inWords: plainWords(data.consumptionInWords),
    moments: [...readings.map(({ at }) => at), ...doses.map(({ at }) => at), ...changes, ...lines.flatMap(({ from, to }) => [from, to])], // prettier-ignore
  };
}

function linesOf(line: ConsumptionData['line']): readonly FittedLine[] {
  if (!line) return [];
  return 'from' in line ? [line] : line;
}
