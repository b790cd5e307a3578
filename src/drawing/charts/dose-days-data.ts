// What a chart of dose days is drawn from, checked before anything is drawn.
import { localTime } from './dates.ts';
import { drawable, drawableSpan, plainWords, type Span } from './figures.ts';

export type DoseDaysData = {
  parameters: readonly DosedParameter[];
  /** `day` counts from 1; several doses may fall on one day. */
  doses: readonly { day: number; reagent: string; amountInWords: string }[];
  /** The date of day 1, with the minutes that the local time is ahead of UTC. Without it days are only counted. */
  dates?: { firstDay: Date; zoneOffsetMinutes?: number };
};

export type DosedParameter = {
  name: string;
  unit: string;
  start: number;
  target: number;
  /** The span that counts as on target, where there is one. */
  band?: Span;
  /** The value expected when each day is over, day 1 first. */
  afterEachDay: readonly number[];
  capPerDay: number;
};

/** One reagent, with its amounts in the order of their first day. */
export type ReagentDays = { reagent: string; days: number[]; amounts: { inWords: string; days: number[] }[] };

export type DoseDays = {
  parameters: readonly DosedParameter[];
  reagents: ReagentDays[];
  count: number;
  /** Local milliseconds of day 1. */
  firstDay: number | undefined;
};

const MOST_DAYS = 400;

/** @throws RangeError when there is nothing to draw, or a number, day or date cannot be drawn. */
export function checkedDoseDays({ parameters, doses, dates }: DoseDaysData): DoseDays {
  const count = Math.max(0, ...parameters.map(({ afterEachDay }) => afterEachDay.length));
  if (count < 1) throw new RangeError('a chart of dose days needs a parameter with a day');
  if (count > MOST_DAYS) throw new RangeError(`${count} days are more than can be drawn`);
  for (const { start, target, band, afterEachDay, capPerDay } of parameters) {
    for (const value of [start, target, capPerDay, ...afterEachDay]) drawable('a value', value);
    if (band) drawableSpan('the band', band);
  }
  for (const { day } of doses)
    if (!(Number.isInteger(day) && day >= 1 && day <= count)) throw new RangeError(`day ${day} of ${count}`);
  return {
    parameters: parameters.map((one) => ({ ...one, name: plainWords(one.name), unit: plainWords(one.unit) })),
    reagents: byReagent(doses),
    count,
    firstDay: dates && localTime('day 1', dates.firstDay, dates.zoneOffsetMinutes ?? 0),
  };
}

function byReagent(doses: DoseDaysData['doses']): ReagentDays[] {
  const reagents = new Map<string, Map<number, string[]>>();
  for (const { day, reagent, amountInWords } of doses.toSorted((one, other) => one.day - other.day)) {
    const days = reagents.get(plainWords(reagent)) ?? new Map<number, string[]>();
    reagents.set(plainWords(reagent), days.set(day, [...(days.get(day) ?? []), plainWords(amountInWords)]));
  }
  return [...reagents].map(([reagent, days]) => {
    // What goes in on one day is said together, so that "a day" stays true.
    const amounts = new Map<string, number[]>();
    for (const [day, parts] of days) amounts.set(parts.join(' and '), [...(amounts.get(parts.join(' and ')) ?? []), day]); // prettier-ignore
    return { reagent, days: [...days.keys()], amounts: [...amounts].map(([inWords, on]) => ({ inWords, days: on })) };
  });
}

/** Days that follow each other as one stretch. */
export function stretches(days: readonly number[]): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  for (const day of days) {
    const last = found.at(-1);
    if (last && day <= last.to + 1) last.to = day;
    else found.push({ from: day, to: day });
  }
  return found;
}
