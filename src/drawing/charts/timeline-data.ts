// What a timeline is drawn from, checked before anything is drawn.
import { DAY, localTime } from './dates.ts';
import { drawable, plainWords } from './figures.ts';

export type TimelineState = 'done' | 'running' | 'coming' | 'overdue' | 'paused' | 'restarted';
export type TimelineMarkKind = 'sign' | 'reading' | 'moved' | 'death';

export type TimelineLane = {
  name: string;
  kind: 'hold' | 'step';
  /** A `restarted` span is one whose days no longer count. */
  spans: readonly { from: Date; to: Date; state: TimelineState; label?: string }[];
  /** When a step may be done. A window that is `running` is open now. */
  windows?: readonly { earliest: Date; planned: Date; latest: Date; state: TimelineState }[];
  /** The days of a hold as its plan counts them. Without it they are counted from the spans. */
  counted?: { days: number; needed: number };
};

export type TimelineData = {
  title: string;
  /** Minutes that the local time is ahead of UTC; 0 writes the dates of UTC. */
  zoneOffsetMinutes?: number;
  now: Date;
  /** Its local date is day 1. */
  begins: Date;
  ends: Date | null;
  lanes: readonly TimelineLane[];
  marks: readonly { at: Date; kind: TimelineMarkKind; label: string }[];
};

export type Stretch = { from: number; to: number; state: TimelineState; label: string };
export type Window = { earliest: number; planned: number; latest: number; state: TimelineState };
export type Lane = {
  name: string;
  kind: 'hold' | 'step';
  spans: Stretch[];
  windows: Window[];
  counted: { days: number; needed: number } | undefined;
};
export type Mark = { at: number; kind: TimelineMarkKind; label: string };

/** The same with every moment in local milliseconds, and in the order of time. */
export type Timeline = {
  title: string;
  now: number;
  begins: number;
  ends: number | undefined;
  lanes: Lane[];
  /** The names of the lanes that are not drawn. */
  more: string[];
  marks: Mark[];
};

const MOST_LANES = 12;

/** @throws RangeError when there is no lane, a date or number is none, or something ends before it begins. */
export function checkedTimeline(data: TimelineData): Timeline {
  const local = (what: string, at: Date) => localTime(what, at, data.zoneOffsetMinutes ?? 0);
  if (!data.lanes.length) throw new RangeError('a timeline needs a lane');
  const begins = local('begins', data.begins);
  const ends = data.ends ? local('ends', data.ends) : undefined;
  if (ends !== undefined) inOrder('the plan', begins, ends);
  const lanes = data.lanes.map((lane, i): Lane => {
    const { days, needed } = lane.counted ?? { days: 0, needed: 0 };
    if (!(drawable('counted days', days) >= 0 && drawable('needed days', needed) >= 0)) throw new RangeError('days below zero'); // prettier-ignore
    return {
      name: plainWords(lane.name) || `lane ${i + 1}`,
      kind: lane.kind,
      spans: lane.spans
        .map(({ from, to, state, label = '' }) => ({
          from: local('a span', from),
          to: local('a span', to),
          state,
          label: plainWords(label),
        })) // prettier-ignore
        .toSorted((one, other) => one.from - other.from),
      windows: (lane.windows ?? [])
        .map(({ earliest, planned, latest, state }) => ({
          earliest: local('earliest', earliest),
          planned: local('planned', planned),
          latest: local('latest', latest),
          state,
        })) // prettier-ignore
        .toSorted((one, other) => one.planned - other.planned),
      counted: lane.counted,
    };
  });
  for (const { spans, windows } of lanes) {
    for (const { from, to } of spans) inOrder('a span', from, to);
    for (const { earliest, planned, latest } of windows) inOrder('a window', earliest, planned, latest);
  }
  return {
    title: plainWords(data.title) || 'Plan',
    now: local('now', data.now),
    begins,
    ends,
    lanes: lanes.slice(0, MOST_LANES),
    more: lanes.slice(MOST_LANES).map(({ name }) => name),
    marks: data.marks
      .map(({ at, kind, label }) => ({ at: local('a mark', at), kind, label: plainWords(label) }))
      .toSorted((one, other) => one.at - other.at),
  };
}

function inOrder(what: string, ...moments: number[]): void {
  if (moments.some((moment, i) => moment < (moments[i - 1] ?? moment))) throw new RangeError(`${what} ends before it begins`); // prettier-ignore
}

/** The midnight that a local day begins with. */
export const midnight = (local: number) => Math.floor(local / DAY) * DAY;

/** 1 on the local date that the plan begins on. */
export const dayOf = ({ begins }: Pick<Timeline, 'begins'>, local: number) => Math.round((midnight(local) - midnight(begins)) / DAY) + 1; // prettier-ignore

/** The whole days of a hold that count up to now, and those it needs in all. */
export function countedDays({ spans, counted }: Lane, now: number): { days: number; needed: number } {
  if (counted) return counted;
  let [past, all] = [0, 0];
  for (const { from, to, state } of spans) {
    if (state !== 'done' && state !== 'running' && state !== 'coming') continue;
    all += to - from;
    if (state === 'done') past += to - from;
    if (state === 'running') past += Math.min(Math.max(now - from, 0), to - from);
  }
  // Where clocks go forward, a span of whole local days lacks an hour.
  return { days: Math.floor(past / DAY + 1 / 24), needed: Math.round(all / DAY) };
}
