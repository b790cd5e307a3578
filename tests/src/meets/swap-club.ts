import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { meetStore } from '../../../src/meets/meet.store.ts';
import { ringJobStore } from '../../../src/meets/ring-jobs.store.ts';
import { ringPlanner } from '../../../src/meets/ring-planner.worker.ts';
import { ringStore } from '../../../src/meets/ring.store.ts';
import { ringsWorker } from '../../../src/meets/rings.worker.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { planRings } from '../../../src/rings/plan-rings.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import { type Offer, type OfferDetails, type Want } from '../../../src/swaps/offer.ts';
import { wantStore } from '../../../src/swaps/want.store.ts';
import { knowledge } from '../../set-up-club.ts';

export const GUILD = '7001';
export const NOON = new Date('2026-12-01T12:00:00Z');
export const DAY_MS = 86_400_000;
export const later = (days: number, from: Date = NOON): Date => new Date(from.getTime() + days * DAY_MS);

export const details = (name: string, more: Partial<OfferDetails> = {}): OfferDetails => ({
  coral: null,
  name,
  special: null,
  size: null,
  cutOn: null,
  healsInDays: 14,
  light: null,
  flow: null,
  colour: null,
  motherAge: null,
  pestsSeen: null,
  dips: null,
  swapFor: null,
  give: false,
  area: null,
  photoAlt: null,
  ...more,
});

export const offerOf = (id: number, memberId: string, name: string, more: Partial<Offer> = {}): Offer => ({
  id,
  guildId: GUILD,
  memberId,
  channelId: '1',
  messageId: null,
  state: 'open',
  pieces: 1,
  left: 1,
  details: details(name),
  createdAt: NOON,
  expiresAt: later(45),
  remindedAt: null,
  ...more,
});
export const wantOf = (id: number, memberId: string, words: string, more: Partial<Want> = {}): Want => ({
  id,
  guildId: GUILD,
  memberId,
  coral: null,
  group: null,
  words,
  driveKm: null,
  createdAt: NOON,
  ...more,
});

/** The stores and the work on rings over a database of its own, with the real plan, worked out in this thread. */
export function swapClub(db = openTemporaryDatabase().db) {
  const [offers, wants, promises, outbox] = [offerStore(db), wantStore(db), promiseStore(db), outboxStore(db)];
  const [rings, jobs, meets] = [ringStore(db), ringJobStore(db), meetStore(db)];
  const work = ringsWorker({
    ...{ db, base: knowledge(), rings, jobs, meets, offers, wants, promises, outbox },
    solver: { plan: (graph, setting) => Promise.resolve(planRings(graph, setting)) },
    refreshCard: () => undefined,
    passedOn: () => undefined,
    zoneOf: () => null,
  });
  const planner = ringPlanner({ db, jobs, meets, rings: work, others: {} });
  return {
    ...{ db, offers, wants, promises, outbox, rings, jobs, meets, work, planner },
    offer: (memberId: string, name: string, pieces = 1): Offer =>
      offers.add(
        { guildId: GUILD, memberId, channelId: '1', pieces, details: details(name), expiresAt: later(45) },
        NOON,
      ),
    want: (memberId: string, words: string): Want => wants.add({ ...wantOf(0, memberId, words) }),
    /** The direct messages that wait, as "member: title". */
    told: (now: Date = later(60)): string[] =>
      outbox.pending(now, 500).flatMap(({ act, memberId, view }) => {
        const [first] = view?.blocks ?? [];
        return act === 'post' && first?.kind === 'text'
          ? [`${memberId}: ${first.text.markdown.replace('## ', '')}`]
          : [];
      }),
    /** Delivers what is due. */
    deliver(now: Date): void {
      for (const { id } of outbox.pending(now, 500)) {
        outbox.tried(id, now);
        outbox.sent(id, `m${id}`, now);
      }
    },
    /** Everything that is kept of offers and promises, to tell whether something is as it was before. */
    pieces: () =>
      db
        .prepare(
          `SELECT swap_offers.id, pieces, (SELECT count(*) FROM swap_promises WHERE offer_id = swap_offers.id
           AND swap_promises.state IN ('promised', 'handed-over')) AS taken,
           (SELECT group_concat(taker_id) FROM swap_promises WHERE offer_id = swap_offers.id
            AND swap_promises.state = 'queued') AS queue FROM swap_offers ORDER BY id`,
        )
        .all(),
  };
}
export type SwapClub = ReturnType<typeof swapClub>;

/** Members who each offer what the one before wants, so that all of them are one ring. */
export function ringOf(club: SwapClub, members: readonly string[]): void {
  const corals = ['torch', 'zoanthid', 'xenia', 'toadstool'];
  members.forEach((member, at) => {
    club.offer(member, `${member} ${corals[at]}`);
    club.want(members[(at + 1) % members.length] ?? '', `${member} ${corals[at]}`);
  });
}
