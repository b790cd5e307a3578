import type { Course } from './what-it-shows.ts';

const DAY_MS = 86_400_000;

/** A stretch between two events on which the value falls evenly. */
export type FittedStretch = { from: Date; to: Date; valueAtFrom: number; valueAtTo: number };
/** What the water should have held, and which readings stand far off it. */
export type Fit = { stretches: readonly FittedStretch[]; isFarOff: readonly boolean[] };

/** So many kit errors off the line are no chance any more. */
const FAR = 3;

/** A value that depends on the unknown beginning: `share` of it is left, and `rest` came and went since. */
type Linear = { share: number; rest: number };
const at = ({ share, rest }: Linear, begin: number) => share * begin + rest;

type Piece = {
  from: number;
  to: number;
  atFrom: Linear;
  atTo: Linear;
  readings: { index: number; value: number; linear: Linear }[];
};

/**
 * The line that a consumption of `perDay` draws through a course: through the middle of its readings, up at each dose and
 * towards the new water at each change. A change of unknown water begins the line anew.
 */
export function fittedLine({ readings, doses, changes }: Course, perDay: number, kitError: number): Fit {
  const end = readings.at(-1)?.at.getTime() ?? 0;
  const events = [...doses, ...changes]
    .filter((event) => event.at.getTime() < end)
    .sort((one, other) => one.at.getTime() - other.at.getTime());
  const runs: Piece[][] = [[]];
  let now: Linear = { share: 1, rest: 0 };
  const begins = readings[0]?.at.getTime() ?? 0;
  let from = begins;
  let isAtBeginning = true;
  const advance = (to: number) => {
    const after = (ms: number): Linear => ({ ...now, rest: now.rest - (perDay * (ms - from)) / DAY_MS });
    runs.at(-1)?.push({
      from,
      to,
      atFrom: now,
      atTo: after(to),
      readings: readings.flatMap((reading, index) => {
        const ms = reading.at.getTime();
        // What happened at the moment of a reading came after it.
        const isFirst = ms === begins && from === begins && isAtBeginning;
        return isFirst || (ms > from && ms <= to) ? [{ index, value: reading.value, linear: after(ms) }] : [];
      }),
    });
    now = after(to);
    from = to;
    isAtBeginning = false;
  };
  for (const event of events) {
    advance(event.at.getTime());
    if ('rise' in event) now = { ...now, rest: now.rest + event.rise };
    else if (event.newWater === null) {
      runs.push([]);
      now = { share: 1, rest: 0 };
    } else {
      const { share, newWater } = event;
      now = { share: now.share * (1 - share), rest: now.rest * (1 - share) + share * newWater };
    }
  }
  advance(end);
  return drawnThrough(runs, readings.length, kitError);
}

function drawnThrough(runs: readonly (readonly Piece[])[], count: number, kitError: number): Fit {
  const isFarOff = Array.from({ length: count }, () => false);
  const stretches = runs.flatMap((pieces) => {
    const inside = pieces.flatMap((piece) => piece.readings);
    const begins = inside
      .filter(({ linear }) => linear.share > 0)
      .map(({ value, linear }) => (value - linear.rest) / linear.share)
      .sort((one, other) => one - other);
    const begin = median(begins);
    if (begin === null) return [];
    for (const { index, value, linear } of inside)
      isFarOff[index] = kitError > 0 && Math.abs(value - at(linear, begin)) > FAR * kitError;
    return pieces
      .filter((piece) => piece.to > piece.from)
      .map(({ from, to, atFrom, atTo }) => ({
        from: new Date(from),
        to: new Date(to),
        valueAtFrom: at(atFrom, begin),
        valueAtTo: at(atTo, begin),
      }));
  });
  return { stretches, isFarOff };
}

function median(sorted: readonly number[]): number | null {
  const middle = (sorted.length - 1) / 2;
  const [low, high] = [sorted[Math.floor(middle)], sorted[Math.ceil(middle)]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}
