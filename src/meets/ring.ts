import { pairOf } from './club-graph.ts';

export const RING_STATES = ['proposed', 'agreed', 'dissolved', 'done'] as const;
export type RingState = (typeof RING_STATES)[number];

/** One piece of a ring: who gives it to whom, and what it is called. */
export type RingArc = { offerId: number; from: string; to: string; name: string };

/** What a member said to a ring; `silent`: nothing, until it was too late. */
export type Said = { said: 'yes' | 'no' | 'silent'; at: number };

/** A ring as it is put to its members: each gives one piece and gets one. */
export type SwapRing = {
  id: number;
  guildId: string;
  /** The meet at which it is to be handed over. */
  meetId: number | null;
  state: RingState;
  /** In the order of the ring: who gets a piece gives the next. */
  arcs: readonly RingArc[];
  answers: Readonly<Record<string, Said>>;
  /** Until when it may be answered. */
  until: Date;
  createdAt: Date;
};

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
export const ANSWER_WITHIN_MS = 48 * HOUR_MS;
/** A no is remembered this long for the pieces that it was said to. */
export const NO_LASTS_DAYS = 30;
/** Who did not answer is left alone this long. */
export const RESTS_DAYS = 7;

export const membersOf = ({ arcs }: Pick<SwapRing, 'arcs'>): string[] => arcs.map(({ from }) => from);
export const isIn = (ring: Pick<SwapRing, 'arcs'>, memberId: string): boolean => membersOf(ring).includes(memberId);
/** What a member of a ring gives, and what they get. */
export function partOf({ arcs }: Pick<SwapRing, 'arcs'>, memberId: string): { gives: RingArc; gets: RingArc } | null {
  const gives = arcs.find(({ from }) => from === memberId);
  const gets = arcs.find(({ to }) => to === memberId);
  return gives && gets ? { gives, gets } : null;
}
export const saidYes = ({ answers, ...ring }: Pick<SwapRing, 'arcs' | 'answers'>): string[] =>
  membersOf(ring).filter((id) => answers[id]?.said === 'yes');

/**
 * Puts arcs in the order of their ring, whoever is named first comes first.
 *
 * @returns null when they are no ring of two to four, each member giving one piece and getting one.
 */
export function inRingOrder(arcs: readonly RingArc[]): RingArc[] | null {
  const from = new Map(arcs.map((arc) => [arc.from, arc]));
  if (arcs.length < 2 || arcs.length > 4 || from.size !== arcs.length) return null;
  const ordered: RingArc[] = [];
  let next = arcs[0];
  while (next && !ordered.includes(next)) {
    ordered.push(next);
    next = from.get(next.to);
  }
  return next === arcs[0] && ordered.length === arcs.length ? ordered : null;
}

/** What an answer made of a ring. */
export type Answered =
  { kind: 'waits' | 'agreed' | 'dissolved'; ring: SwapRing } | { kind: 'not-in-it' | 'closed' | 'too-late' | 'same' };

/** A member answers. A yes may still become a no while others think; one no dissolves the ring. */
export function answer(ring: SwapRing, memberId: string, said: 'yes' | 'no', now: Date): Answered {
  if (!isIn(ring, memberId)) return { kind: 'not-in-it' };
  if (ring.state !== 'proposed') return { kind: 'closed' };
  if (now >= ring.until) return { kind: 'too-late' };
  if (ring.answers[memberId]?.said === said) return { kind: 'same' };
  const answers = { ...ring.answers, [memberId]: { said, at: now.getTime() } };
  if (said === 'no') return { kind: 'dissolved', ring: { ...ring, answers, state: 'dissolved' } };
  const answered = { ...ring, answers };
  const all = saidYes(answered).length === ring.arcs.length;
  return all ? { kind: 'agreed', ring: { ...answered, state: 'agreed' } } : { kind: 'waits', ring: answered };
}

/** A ring whose time is over without every yes: who said nothing is noted as silent. Null while it may be answered. */
export function runOut(ring: SwapRing, now: Date): SwapRing | null {
  if (ring.state !== 'proposed' || now < ring.until) return null;
  const silent: Said = { said: 'silent', at: now.getTime() };
  const answers = Object.fromEntries(membersOf(ring).map((id) => [id, ring.answers[id] ?? silent]));
  return { ...ring, answers, state: 'dissolved' };
}

/** How the promise of one arc stands. */
export type ArcStands = 'promised' | 'handed-over' | 'gone';

/** What became of a ring by what happened to its promises; null when nothing changed. */
export function follow(ring: SwapRing, stands: readonly ArcStands[]): SwapRing | null {
  if (ring.state !== 'proposed' && ring.state !== 'agreed') return null;
  if (stands.some((each) => each === 'gone')) return { ...ring, state: 'dissolved' };
  const isHandedOver = ring.state === 'agreed' && stands.every((each) => each === 'handed-over');
  return isHandedOver ? { ...ring, state: 'done' } : null;
}

/** What dissolved rings teach: pieces that are not to be put to the same member again, and who is left alone for now. */
export function lessonsOf(
  rings: readonly SwapRing[],
  now: Date,
): { refused: ReadonlySet<string>; resting: ReadonlySet<string> } {
  const [refused, resting] = [new Set<string>(), new Set<string>()];
  for (const ring of rings)
    for (const [memberId, { said, at }] of Object.entries(ring.answers)) {
      const days = (now.getTime() - at) / DAY_MS;
      const part = partOf(ring, memberId);
      if (said === 'no' && part && days < NO_LASTS_DAYS)
        for (const arc of [part.gets, part.gives]) refused.add(pairOf(arc));
      if (said === 'silent' && days < RESTS_DAYS) resting.add(memberId);
    }
  return { refused, resting };
}
