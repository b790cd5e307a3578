import type { Database } from 'better-sqlite3';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { KeptPromise } from '../promises/promise.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import type { RingSolver } from '../rings/ring-solver.ts';
import { fits, knownOf } from '../swaps/find.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import { PROMISE_LASTS_DAYS, type Offer } from '../swaps/offer.ts';
import { shortWarnings } from '../swaps/warnings.ts';
import { quietUntil } from '../swaps/quiet-hours.ts';
import type { WantStore } from '../swaps/want.store.ts';
import { clubGraph, pairOf, type ClubSwaps } from './club-graph.ts';
import { answerBefore, dateInWords, type Meet } from './meet.ts';
import type { MeetStore } from './meet.store.ts';
import {
  answer,
  ANSWER_WITHIN_MS,
  follow,
  isIn,
  lessonsOf,
  membersOf,
  partOf,
  runOut,
  type Answered,
  type ArcStands,
  type SwapRing,
} from './ring.ts';
import { planApart, type Planned } from './plan-apart.ts';
import { directMessage, newsKey, ringMark, type RingNews } from './ring-messages.ts';
import type { RingStore } from './ring.store.ts';
import type { RingJobStore } from './ring-jobs.store.ts';
import { agreedView, brokenView, doneView, offView, ringAskView, type OffWhy } from './ring.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';

const DAY_MS = 86_400_000;

export type RingsDeps = {
  db: Database;
  base: KnowledgeBase;
  rings: RingStore;
  jobs: RingJobStore;
  meets: MeetStore;
  offers: OfferStore;
  wants: WantStore;
  promises: PromiseStore;
  outbox: OutboxStore;
  solver: Pick<RingSolver, 'plan'>;
  /** Brings the posted card of an offer up to date. */
  refreshCard: (offer: Pick<Offer, 'id' | 'guildId'>, now: Date) => void;
  /** Where a member lives, as far as that is known. */
  zoneOf: (memberId: string) => string | null;
  /** Tells those of a queue to whom a piece went. */
  passedOn: (next: readonly KeptPromise[], now: Date) => void;
};

/** Rings from the plan to the hand-over. Every step, the promises that it moves and what is told of it are one transaction. */
export function ringsWorker(deps: RingsDeps) {
  const { db, base, rings, jobs, meets, offers, wants, promises, outbox, solver } = deps;
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const swapsOf = (guildId: string, now: Date, meet: Meet | null, onTheSpot = false): ClubSwaps => {
    const lessons = lessonsOf(rings.lessons(guildId, now), now);
    const asked = rings.open(guildId).filter(({ state }) => state === 'proposed');
    return {
      offers: offers.open(guildId, now),
      wants: wants.open(guildId),
      promises: promises.live(guildId),
      blocked: promises.blocked(guildId),
      leftOut: rings.leftOut(guildId),
      refused: lessons.refused,
      // Nobody thinks about two rings at once. Who did not answer can be talked to where they are met.
      resting: new Set([...(onTheSpot ? [] : lessons.resting), ...asked.flatMap(membersOf)]),
      ...(meet ? { among: new Map(meets.guests(meet).map((guest) => [guest.memberId, new Set(guest.offers)])) } : {}),
      fits: (want, offer) => fits(want, offer, base),
    };
  };

  const plan = (guildId: string, now: Date, meet: Meet | null = null, onTheSpot = false): Promise<Planned> => {
    const swaps = swapsOf(guildId, now, meet, onTheSpot);
    const names = new Map(swaps.offers.map(({ id, details }) => [id, details.name]));
    return planApart(
      clubGraph(swaps),
      swaps.blocked,
      (offerId) => names.get(offerId) ?? 'piece',
      (graph) => solver.plan(graph, { seed: seedOf(guildId, now) }),
    );
  };

  const whereOf = ({ meetId, guildId }: SwapRing): Markdown | null => {
    const meet = meetId === null ? undefined : meets.find(meetId, guildId);
    return meet ? md`To be handed over at the meet on **${dateInWords(meet.heldOn)}**: ${meet.place}` : null;
  };
  /** What to mind with the piece that a member gets; the last two, for its arrival, are for later. */
  const careOf = (ring: SwapRing, memberId: string): Markdown[] => {
    const offer = offers.find(partOf(ring, memberId)?.gets.offerId ?? -1, ring.guildId);
    const coral = offer ? knownOf(offer, base).coral : null;
    return shortWarnings(coral === null ? undefined : base.corals.get(coral));
  };
  const askView = (ring: SwapRing, memberId: string): MessageView =>
    ringAskView(ring, memberId, { care: careOf(ring, memberId).slice(0, -2), where: whereOf(ring) });

  /** Nothing that can wait wakes anybody; where nobody knows a member’s hours, those of the plan’s own clock count. */
  const byDay = (memberId: string, now: Date): Date => quietUntil(deps.zoneOf(memberId) ?? 'UTC', now) ?? now;

  const tell = (ring: SwapRing, news: RingNews, memberId: string, view: MessageView, now: Date): void => {
    const own = offers.find(partOf(ring, memberId)?.gives.offerId ?? -1, ring.guildId);
    outbox.add(
      directMessage({
        key: newsKey(ring, news, memberId),
        guildId: ring.guildId,
        topic: `frag-ring/${ring.id}/${news}`,
        memberId,
        fallbackChannelId: own?.channelId ?? null,
        view,
        mark: news === 'ask' ? ringMark(ring, 'frag-ring-no') : null,
        late: 'always',
        dueAt: news === 'agreed' ? now : byDay(memberId, now),
      }),
    );
  };
  const tellAll = (ring: SwapRing, news: RingNews, view: (memberId: string) => MessageView, now: Date): void =>
    membersOf(ring).forEach((memberId) => tell(ring, news, memberId, view(memberId), now));

  /**
   * Brings the questions up to date. One that nobody tried to send is called off when it asks nothing any more.
   *
   * @returns those who were asked.
   */
  const refreshAsks = (ring: SwapRing, now: Date): string[] => {
    const asked: string[] = [];
    for (const memberId of membersOf(ring)) {
      const key = newsKey(ring, 'ask', memberId);
      if (ring.state !== 'proposed' && outbox.callOff(key, ring.guildId, now)) continue;
      asked.push(memberId);
      const sent = outbox.sentAs(key, ring.guildId);
      if (!sent?.messageId) continue;
      const { guildId, id } = ring;
      const edit = { guildId, topic: `frag-ring/${id}/change`, channelId: sent.channelId, targetId: sent.messageId };
      outbox.addEdit({ ...edit, view: askView(ring, memberId) }, now);
    }
    return asked;
  };
  const refreshCards = ({ arcs, guildId }: SwapRing, now: Date): void =>
    arcs.forEach(({ offerId }) => deps.refreshCard({ id: offerId, guildId }, now));
  const promisesOf = ({ id, guildId, arcs }: SwapRing): (KeptPromise | undefined)[] =>
    arcs.map(({ offerId, to }) =>
      promises.of({ id: offerId, guildId }).findLast(({ ringId, takerId }) => ringId === id && takerId === to),
    );

  /** Ends a ring: every piece that it held is free again, all are told once, and the next best is looked for. */
  const dissolve = (ring: SwapRing, why: OffWhy, now: Date): void => {
    rings.save(ring, now);
    for (const promise of promisesOf(ring)) {
      if (promise?.state !== 'promised') continue;
      const result = promises.release(promise, promise.giverId, null, now);
      if (result.kind === 'moved') deps.passedOn(result.next, now);
    }
    refreshCards(ring, now);
    // Who never saw the question need not hear that it is answered, nor who answered it with no.
    for (const memberId of refreshAsks(ring, now))
      if (ring.answers[memberId]?.said !== 'no') tell(ring, 'off', memberId, offView(ring, memberId, why), now);
    jobs.want({ guildId: ring.guildId, key: `after/${ring.id}`, meetId: why === 'meet-off' ? null : ring.meetId }, now);
  };

  const isApart = (ring: SwapRing): boolean => {
    const blocked = promises.blocked(ring.guildId);
    return membersOf(ring).some((one) => membersOf(ring).some((other) => blocked.has(`${one}/${other}`)));
  };

  const followUp = (ring: SwapRing, now: Date): void => {
    const late = runOut(ring, now);
    if (late) return dissolve(late, 'no-answer', now);
    // Two who want nothing to do with each other any more are not brought together.
    if (ring.state === 'proposed' && isApart(ring)) return dissolve({ ...ring, state: 'dissolved' }, 'a-piece', now);
    const next = follow(ring, promisesOf(ring).map(standsAs));
    if (!next) return;
    if (next.state === 'dissolved' && ring.state === 'proposed') return dissolve(next, 'a-piece', now);
    rings.save(next, now);
    if (next.state === 'done') return tellAll(next, 'done', (memberId) => doneView(next, memberId), now);
    tellAll(next, 'broken', (memberId) => brokenView(next, memberId), now);
    jobs.want({ guildId: next.guildId, key: `after/${next.id}`, meetId: next.meetId }, now);
  };

  return {
    /** What could be put to members now; `onTheSpot`: what those who come to a meet could agree on when they meet. */
    plan,
    askView,
    /** Proposed and agreed ones of a club. */
    open: (guildId: string): SwapRing[] => rings.open(guildId),
    find: rings.find,
    openWith: (guildId: string, memberId: string): SwapRing[] =>
      rings.open(guildId).filter((ring) => isIn(ring, memberId)),
    /**
     * Puts planned rings to their members, each only if every piece of it can still be had and held. To be called in a
     * transaction together with what made them due.
     */
    propose(planned: Planned, meet: Meet | null, guildId: string, now: Date): SwapRing[] {
      const fresh = clubGraph(swapsOf(guildId, now, meet));
      const there = new Set(fresh.arcs.map(({ from, to, offerId }) => `${from}/${pairOf({ offerId, to })}`));
      return planned.rings.flatMap((arcs) => {
        if (!arcs.every(({ from, to, offerId }) => there.has(`${from}/${pairOf({ offerId, to })}`))) return [];
        const asked = Math.max(...arcs.map(({ from }) => byDay(from, now).getTime()));
        const until = meet ? answerBefore(meet.heldOn) : new Date(asked + ANSWER_WITHIN_MS);
        const lastsUntil = new Date(until.getTime() + PROMISE_LASTS_DAYS * DAY_MS);
        const ring = rings.add({ guildId, meetId: meet?.id ?? null, arcs, until, createdAt: now });
        const held = arcs.map(({ offerId, from, to }) => ({ offerId, giverId: from, takerId: to }));
        if (!promises.promiseForRing(held, ring.id, lastsUntil, now)) {
          rings.remove(ring);
          return [];
        }
        refreshCards(ring, now);
        tellAll(ring, 'ask', (memberId) => askView(ring, memberId), now);
        return [ring];
      });
    },
    /** Who wanted something and is in no ring counts more the next time. */
    leaveOut({ graph }: Planned, guildId: string): void {
      const served = new Set(rings.open(guildId).flatMap(membersOf));
      for (const memberId of new Set(graph.arcs.map(({ to }) => to)))
        if (!served.has(memberId)) rings.leaveOut(guildId, memberId);
    },
    answer: (guildId: string, ringId: number, memberId: string, said: 'yes' | 'no', now: Date): Answered =>
      atOnce((): Answered => {
        const ring = rings.find(ringId, guildId);
        if (!ring) return { kind: 'closed' };
        const result = answer(ring, memberId, said, now);
        if (result.kind === 'dissolved') dissolve(result.ring, 'a-no', now);
        if (result.kind !== 'waits' && result.kind !== 'agreed') return result;
        // A piece may have gone between the question and this answer.
        if (promisesOf(ring).some((promise) => standsAs(promise) === 'gone')) {
          dissolve({ ...result.ring, state: 'dissolved' }, 'a-piece', now);
          return { kind: 'closed' };
        }
        rings.save(result.ring, now);
        refreshAsks(result.ring, now);
        if (result.kind === 'waits') return result;
        for (const each of membersOf(result.ring)) {
          rings.serve(guildId, each);
          tell(result.ring, 'agreed', each, agreedView(result.ring, each, careOf(ring, each), whereOf(ring)), now);
        }
        return result;
      }),
    /** Ends what waits for an answer, because its meet does not take place. */
    callOff: (meet: Meet, now: Date): void =>
      rings
        .open(meet.guildId)
        .filter(({ meetId, state }) => meetId === meet.id && state === 'proposed')
        .forEach((ring) => dissolve({ ...ring, state: 'dissolved' }, 'meet-off', now)),
    /** Ends rings whose time is over, and follows what became of the promises of the others. */
    keepUp(now: Date): void {
      for (const { id, guildId } of rings.openAnywhere())
        atOnce(() => {
          const ring = rings.find(id, guildId);
          if (ring) followUp(ring, now);
        });
    },
  };
}
export type Rings = ReturnType<typeof ringsWorker>;

function standsAs(promise: KeptPromise | undefined): ArcStands {
  if (promise?.state === 'handed-over') return 'handed-over';
  return promise?.state === 'promised' ? 'promised' : 'gone';
}

/** The same plan all day for the same swaps. */
function seedOf(guildId: string, now: Date): number {
  let seed = Math.floor(now.getTime() / DAY_MS);
  for (const sign of guildId) seed = (seed * 31 + sign.charCodeAt(0)) % 2_147_483_647;
  return seed;
}
