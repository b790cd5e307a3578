/** A meet at which members swap. */
export type Meet = {
  id: number;
  guildId: string;
  byId: string;
  channelId: string;
  messageId: string | null;
  /** Local date. */
  heldOn: string;
  place: string;
  state: 'planned' | 'called-off' | 'over';
  createdAt: Date;
};

/** Who comes, and the offers that they bring. */
export type Guest = { memberId: string; offers: readonly number[] };

/** One piece that changes hands, or would. */
export type HandOver = { from: string; to: string; name: string; offerId: number };

/** A meet and all that is said of it. */
export type MeetShown = {
  meet: Meet;
  guests: readonly (Guest & { names: readonly string[]; wants: number })[];
  /** Promised between two who come. */
  promised: readonly HandOver[];
  /** Asked for, and not answered by all yet. */
  asked: readonly HandOver[];
  /** Rings that could be closed among those who come, with pieces that nobody was promised. */
  possible: readonly (readonly HandOver[])[];
};

export const MOST_PLACE = 80;
const DAY_MS = 86_400_000;
/** Reminders of the day before, and the list of the day, come from these hours on, UTC. */
export const REMIND_FROM_HOUR = 8;
export const LIST_FROM_HOUR = 6;

const instant = (date: string, hour: number): number => Date.parse(`${date}T${String(hour).padStart(2, '0')}:00:00Z`);

/** One planned at short notice gives members this long to say that they come. */
const SHORT_NOTICE_MS = 3_600_000;

type Timed = Pick<Meet, 'heldOn' | 'createdAt'>;
const notBefore = (at: number, { createdAt }: Timed): Date =>
  new Date(Math.max(at, createdAt.getTime() + SHORT_NOTICE_MS));
/** When those who come are reminded, on the day before. */
export const remindDueAt = (meet: Timed): Date => notBefore(instant(meet.heldOn, REMIND_FROM_HOUR) - DAY_MS, meet);
/** When the list of the day goes out. */
export const listDueAt = (meet: Timed): Date => notBefore(instant(meet.heldOn, LIST_FROM_HOUR), meet);
/** Until when a ring for a meet may be answered: in the morning, before its list goes out. */
export const answerBefore = (heldOn: string): Date => new Date(instant(heldOn, LIST_FROM_HOUR) - 60_000);

/** What is due for a meet at a moment. */
export function meetDue(
  meet: Pick<Meet, 'heldOn' | 'state' | 'createdAt'>,
  now: Date,
): 'remind' | 'list' | 'over' | null {
  if (meet.state !== 'planned') return null;
  if (now.getTime() >= instant(meet.heldOn, 0) + 1.5 * DAY_MS) return 'over';
  if (now >= listDueAt(meet)) return 'list';
  return now >= remindDueAt(meet) ? 'remind' : null;
}

/** "Saturday 12 December 2026". */
export const dateInWords = (date: string): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' })
    .format(new Date(`${date}T12:00:00Z`))
    .replace(',', '');

/** Hand-overs in the order in which they are read: giver by giver. */
export const inListOrder = (list: readonly HandOver[]): HandOver[] =>
  [...list].sort(
    (one, other) => compare(one.from, other.from) || compare(one.to, other.to) || one.offerId - other.offerId,
  );
const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);
