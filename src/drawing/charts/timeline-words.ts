// A timeline in words: the line beside each lane, and the text for people who do not see the picture.
import { dateInWords, dayInWords } from './dates.ts';
import { atMost, counted, inFigures } from './figures.ts';
import { countedDays, dayOf, midnight, type Lane, type Mark, type Stretch, type Timeline, type TimelineMarkKind, type TimelineState, type Window } from './timeline-data.ts'; // prettier-ignore

/** How many characters the whole text may have, and of them those about marks. */
const [ROOM, ROOM_OF_MARKS] = [990, 240];

/** Of a stretch of time. */
export const STATE_WORDS: Record<TimelineState, string> = {
  done: 'done',
  running: 'running',
  coming: 'coming',
  overdue: 'overdue',
  paused: 'paused',
  restarted: 'not counted',
};

/** Of the window of a step. */
export const WINDOW_WORDS: Record<TimelineState, string> = { ...STATE_WORDS, running: 'open now', restarted: 'to be done again' }; // prettier-ignore

const KIND_WORDS: Record<TimelineMarkKind, [string, string]> = {
  death: ['death', 'deaths'],
  sign: ['sign', 'signs'],
  moved: ['moved', 'moved'],
  reading: ['reading', 'readings'],
};
/** What matters most comes first where there is no room for all. */
export const KINDS = ['death', 'sign', 'moved', 'reading'] as const satisfies readonly TimelineMarkKind[];

export const kindInWords = (kind: TimelineMarkKind, count = 1) => KIND_WORDS[kind][count === 1 ? 0 : 1];

/** "08:05" */
export const clockInWords = (local: number) => new Date(local).toISOString().slice(11, 16);

/** "28 Nov to 27 Dec; today is day 12" */
export function whenInWords(timeline: Timeline, written = dayInWords): string {
  const { begins, ends, now } = timeline;
  const day = dayOf(timeline, now);
  const today = day < 1 ? `begins in ${counted(1 - day, 'day')}` : `today is day ${inFigures(day)}`;
  if (ends === undefined) return `From ${written(begins)}, no end yet; ${today}`;
  return written(begins) === written(ends) ? `${written(begins)}; ${today}` : `${written(begins)} to ${written(ends)}; ${today}`; // prettier-ignore
}

/** How a lane stands: "12 of 30 days counted, running", "2 of 4 done, next 4 Dec, 08:00 to 20:00". */
export function laneInWords(lane: Lane, now: number): string {
  if (!lane.spans.length && !lane.windows.length && !lane.counted) return 'no date yet';
  if (lane.kind === 'step' && lane.windows.length) return windowsInWords(lane.windows);
  const state = stateOf(lane.spans, now);
  if (lane.kind === 'step') {
    const span = lane.spans.find((each) => each.state === state);
    return span ? `${STATE_WORDS[state]}, ${between(span.from, span.to)}` : STATE_WORDS[state];
  }
  const { days, needed } = countedDays(lane, now);
  const first = lane.spans[0];
  if (state === 'coming' && days === 0 && first) return `${counted(needed, 'day')}, from ${dayInWords(first.from)}`;
  const again = lane.spans.findLast((span) => span.state === 'restarted');
  const tail = again && state === 'running' ? `restarted ${dayInWords(again.to)}` : STATE_WORDS[state];
  return `${inFigures(days)} of ${counted(needed, 'day')} counted, ${tail}`;
}

/** How a lane stands now. What is overdue comes before everything else. */
function stateOf(spans: readonly Stretch[], now: number): TimelineState {
  if (spans.some(({ state }) => state === 'overdue')) return 'overdue';
  const current = spans.findLast(({ from, to }) => from <= now && now < to);
  if (current && current.state !== 'restarted') return current.state;
  const open = spans.find(({ to, state }) => state === 'running' || state === 'coming' || (state === 'paused' && to > now)); // prettier-ignore
  return open?.state ?? spans.at(-1)?.state ?? 'running';
}

function windowsInWords(windows: readonly Window[]): string {
  const done = windows.filter(({ state }) => state === 'done').length;
  // What is late or open now is not to be missed because something before it was put off.
  const first = (...states: TimelineState[]) => windows.find(({ state }) => states.includes(state));
  const next = first('overdue') ?? first('running') ?? first('coming', 'paused', 'restarted');
  const all = windows.length > 1 ? `${done} of ${windows.length} done` : '';
  if (!next) return all || `done, planned ${dayInWords(windows[0]?.planned ?? 0)}`;
  const { earliest, latest, state } = next;
  const open: Record<TimelineState, string> = {
    done: '',
    overdue: `overdue since ${dayInWords(latest)}, ${clockInWords(latest)}`,
    running: `open now, until ${dayInWords(latest)}, ${clockInWords(latest)}`,
    coming: `${all ? 'next ' : 'coming, '}${between(earliest, latest)}`,
    paused: 'paused',
    restarted: 'to be done again',
  };
  return [all, open[state]].filter(Boolean).join(', ');
}

/** "4 Dec, 08:00 to 20:00", or "4 Dec to 6 Dec". */
function between(from: number, to: number): string {
  if (from === to) return `${dayInWords(from)}, ${clockInWords(from)}`;
  if (midnight(from) === midnight(to)) return `${dayInWords(from)}, ${clockInWords(from)} to ${clockInWords(to)}`;
  return `${dayInWords(from)} to ${dayInWords(to)}`;
}

/** "17 Dec, day 20, sign: white spots" */
export function markInWords(timeline: Timeline, { at, kind, label }: Mark): string {
  const day = dayOf(timeline, at);
  const when = [dayInWords(at), day > 0 ? `day ${inFigures(day)}` : '', kindInWords(kind)].filter(Boolean).join(', ');
  return label ? `${when}: ${atMost(label, 90)}` : when;
}

/** The marks that matter most, in the order of time, and how many are left out. */
export function chosenMarks(marks: readonly Mark[], most: number): { shown: Mark[]; left: number } {
  const ranked = marks.toSorted((one, other) => KINDS.indexOf(one.kind) - KINDS.indexOf(other.kind));
  const chosen = new Set(ranked.slice(0, most));
  return { shown: marks.filter((mark) => chosen.has(mark)), left: Math.max(0, marks.length - most) };
}

/** "and 3 more: feeding, light, return" */
export const moreInWords = (names: readonly string[]) => `and ${names.length} more: ${names.map((name) => atMost(name, 40)).join(', ')}`; // prettier-ignore

/** The sentences; together they stay below 1,000 characters. */
export function timelineInWords(timeline: Timeline): string[] {
  const { title, lanes, more, marks, now } = timeline;
  const before = [`Chart of a plan: ${atMost(title, 90)}.`, `${whenInWords(timeline, dateInWords)}, ${dateInWords(now)}.`]; // prettier-ignore
  const { shown, left } = chosenMarks(marks, 5);
  const after = [
    more.length ? atMost(`${moreInWords(more).replace('and', 'And')}.`, 80) : '',
    ...within(ROOM_OF_MARKS, shown.map((mark) => `${markInWords(timeline, mark)}.`)), // prettier-ignore
    left ? `${counted(left, 'more mark')}.` : '',
  ];
  const plain = lanes.map((lane) => `${atMost(lane.name, 40)}: ${laneInWords(lane, now)}.`);
  const whole = plain.map((words, i) => `${words.slice(0, -1)}${lanes[i] ? stretchesInWords(lanes[i]) : ''}.`);
  const room = ROOM - lengthOf([...before, ...after]);
  // The bars of all lanes, or of none.
  return [...before, ...(lengthOf(whole) <= room ? whole : within(room, plain)), ...after];
}

const lengthOf = (all: readonly string[]) => all.reduce((sum, { length }) => sum + length + 1, 0);

/** Sentences that are cut, each alike, only where they are too long together. */
function within(room: number, all: readonly string[]): readonly string[] {
  return lengthOf(all) <= room ? all : all.map((words) => atMost(words, Math.floor(room / all.length) - 1));
}

/** What the bars and brackets show beyond the line of the lane. */
function stretchesInWords({ kind, spans, windows }: Lane): string {
  // The line of a step with a single stretch has said it already.
  if (kind === 'step' && spans.length === 1 && !spans[0]?.label && !windows.length) return '';
  const bars = spans.map(({ from, to, state, label }) => `${label ? `${label}, ` : ''}${STATE_WORDS[state]} ${between(from, to)}`); // prettier-ignore
  const brackets = windows.map(({ planned, state }) => `planned ${dayInWords(planned)}, ${WINDOW_WORDS[state]}`);
  const all = [...bars, ...brackets];
  return all.length ? ` (${all.join('; ')})` : '';
}
