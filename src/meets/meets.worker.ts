import type { Database } from 'better-sqlite3';
import type { Paint } from '../discord/painted.ts';
import type { OutboxMessage, Settled } from '../outbox/outbox.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import { quietUntil } from '../swaps/quiet-hours.ts';
import type { WantStore } from '../swaps/want.store.ts';
import type { MemberNameStore } from './member-names.store.ts';
import { listDueAt, meetDue, remindDueAt, type Guest, type HandOver, type Meet, type MeetShown } from './meet.ts';
import { meetPicture } from './meet-picture.ts';
import type { MeetStore } from './meet.store.ts';
import { meetCardView, meetListView, meetOffView, meetReminderView } from './meet.view.ts';
import { directMessage } from './ring-messages.ts';
import type { RingJob, RingJobStore } from './ring-jobs.store.ts';
import type { Planned } from './plan-apart.ts';
import type { Rings } from './rings.worker.ts';

const DAY_MS = 86_400_000;
const dateOf = (at: Date): string => at.toISOString().slice(0, 10);

export type MeetsDeps = {
  db: Database;
  meets: MeetStore;
  jobs: RingJobStore;
  rings: Rings;
  offers: OfferStore;
  wants: WantStore;
  promises: PromiseStore;
  names: MemberNameStore;
  outbox: OutboxStore;
  /** Where a member lives, as far as that is known. */
  zoneOf: (memberId: string) => string | null;
  paint: Paint;
};

/** Meets from the plan to the list of the day. Each step and what is told of it are one transaction. */
export function meetsWorker(deps: MeetsDeps) {
  const { db, meets, jobs, rings, offers, wants, promises, names, outbox, paint } = deps;
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const guestsOf = (meet: Meet): MeetShown['guests'] =>
    meets.guests(meet).map((guest) => ({
      ...guest,
      names: guest.offers.flatMap((id) => {
        const offer = offers.find(id, meet.guildId);
        return offer?.state === 'open' ? [offer.details.name] : [];
      }),
      wants: wants.own(meet.guildId, guest.memberId).length,
    }));

  const show = (meet: Meet, planned: Planned | null): MeetShown => {
    const guests = guestsOf(meet);
    const coming = new Set(guests.map(({ memberId }) => memberId));
    const asked = new Set(rings.open(meet.guildId).flatMap(({ id, state }) => (state === 'proposed' ? [id] : [])));
    const [promised, waiting]: [HandOver[], HandOver[]] = [[], []];
    for (const { giverId, takerId, offerId, state, ringId } of promises.live(meet.guildId)) {
      if (state !== 'promised' || !coming.has(giverId) || !coming.has(takerId)) continue;
      const name = offers.find(offerId, meet.guildId)?.details.name ?? 'piece';
      (ringId !== null && asked.has(ringId) ? waiting : promised).push({ from: giverId, to: takerId, name, offerId });
    }
    return { meet, guests, promised, asked: waiting, possible: planned?.rings ?? [] };
  };

  const refreshCard = (meet: Meet, now: Date): void => {
    const { guildId, channelId, messageId: targetId } = meet;
    if (targetId === null) return;
    const view = meetCardView({ meet, guests: guestsOf(meet) });
    outbox.addEdit({ guildId, topic: `frag-meet/${meet.id}/change`, channelId, targetId, view }, now);
  };

  const post = (
    meet: Meet,
    step: 'card' | 'list',
    view: ReturnType<typeof meetCardView>,
    file: Buffer | null,
    at: Date,
  ): void =>
    void outbox.add({
      key: `frag-meet/${meet.id}/${step}`,
      guildId: meet.guildId,
      topic: `frag-meet/${meet.id}/${step}`,
      act: 'post',
      channelId: meet.channelId,
      fallbackChannelId: null,
      memberId: meet.byId,
      targetId: null,
      title: null,
      view,
      mark: step === 'card' ? `1:frag-meet-come:${meet.id}` : null,
      file,
      late: 'always',
      dueAt: at,
    });
  const tell = (
    meet: Meet,
    what: 'reminder' | 'off',
    memberId: string,
    view: ReturnType<typeof meetCardView>,
    at: Date,
  ) =>
    outbox.add(
      directMessage({
        key: `frag-meet/${meet.id}/${what}/${memberId}`,
        guildId: meet.guildId,
        topic: `frag-meet/${meet.id}/${what}`,
        memberId,
        fallbackChannelId: meet.channelId,
        view,
        mark: null,
        late: 'always',
        dueAt: quietUntil(deps.zoneOf(memberId), at) ?? at,
      }),
    );

  /** Reminds those who come, and has the rings for the meet planned. */
  const remind = (meet: Meet, now: Date): void => {
    if (!jobs.want({ guildId: meet.guildId, key: `meet/${meet.id}`, meetId: meet.id }, now)) return;
    const shown = show(meet, null);
    for (const { memberId } of shown.guests)
      tell(meet, 'reminder', memberId, meetReminderView(shown, memberId), remindDueAt(meet));
  };

  const change = <T>({ id, guildId }: Meet, step: (meet: Meet) => T): T | null =>
    atOnce(() => {
      const meet = meets.find(id, guildId);
      return meet?.state === 'planned' ? step(meet) : null;
    });

  return {
    find: meets.find,
    planned: meets.planned,
    show: async (meet: Meet, now: Date): Promise<MeetShown> =>
      show(meet, await rings.plan(meet.guildId, now, meet, true)),
    /** Plans a meet and has its card put up. */
    add: (added: Omit<Meet, 'id' | 'messageId' | 'state'>): Meet =>
      atOnce(() => {
        const meet = meets.add(added);
        post(meet, 'card', meetCardView({ meet, guests: [] }), null, added.createdAt);
        return meet;
      }),
    /** What a member could bring. */
    offersOf: (guildId: string, memberId: string, now: Date) =>
      offers.open(guildId, now).filter((offer) => offer.memberId === memberId),
    guest: (meet: Meet, memberId: string): Guest | undefined =>
      meets.guests(meet).find((guest) => guest.memberId === memberId),
    /** A member comes, or brings something else. False when the meet is off or over. */
    come: (at: Meet, guest: Guest, now: Date): boolean =>
      change(at, (meet) => {
        meets.come(meet, guest, now);
        refreshCard(meet, now);
        return true;
      }) ?? false,
    stayAway: (at: Meet, memberId: string, now: Date): boolean =>
      change(at, (meet) => {
        const wasComing = meets.stayAway(meet, memberId);
        if (wasComing) refreshCard(meet, now);
        return wasComing;
      }) ?? false,
    /** The meet does not take place: those who come are told, and what waits for an answer ends. */
    callOff: (at: Meet, now: Date): boolean =>
      change(at, (meet) => {
        const off: Meet = { ...meet, state: 'called-off' };
        meets.save(off);
        refreshCard(off, now);
        for (const { memberId } of meets.guests(off)) tell(off, 'off', memberId, meetOffView(off, memberId), now);
        rings.callOff(off, now);
        return true;
      }) ?? false,
    /** Reminders, the list and the end of meets. */
    remindDue(now: Date): void {
      for (const { id, guildId } of meets.heldBy(dateOf(new Date(now.getTime() + DAY_MS))))
        atOnce(() => {
          const meet = meets.find(id, guildId);
          const due = meet && meetDue(meet, now);
          if (!meet || !due) return;
          if (due === 'remind') remind(meet, now);
          else if (due === 'list') jobs.want({ guildId, key: `list/${id}`, meetId: id }, now);
          else {
            meets.save({ ...meet, state: 'over' });
            refreshCard({ ...meet, state: 'over' }, now);
          }
        });
    },
    /** Works out the list of the day with its picture; gives back what puts it up. */
    async list({ meetId, guildId }: RingJob, now: Date): Promise<() => void> {
      const found = meetId === null ? undefined : meets.find(meetId, guildId);
      if (found?.state !== 'planned' || meets.guests(found).length === 0) return () => undefined;
      const shown = show(found, await rings.plan(guildId, now, found, true));
      const picture = meetPicture(shown, names.of(guildId));
      const drawn = picture ? await picture.draw() : null;
      // Everything on the picture is said in words as well, so the list never waits for one that cannot be painted.
      const png = drawn ? await paint(drawn.svg, drawn.width).catch(() => null) : null;
      return () => {
        // Somebody may have called it off meanwhile.
        if (meets.find(found.id, guildId)?.state !== 'planned') return;
        post(found, 'list', meetListView(shown, png && drawn ? drawn.alt : null), png, listDueAt(found));
      };
    },
    /** Hears, inside its transaction, where the card of a meet stands. */
    settled(message: OutboxMessage, outcome: Settled, now: Date): void {
      const [, id] = /^frag-meet\/(\d+)\/card$/.exec(message.topic) ?? [];
      const meet = id === undefined ? undefined : meets.find(Number(id), message.guildId);
      if (!meet || outcome.kind !== 'sent') return;
      const placed = { ...meet, messageId: outcome.messageId };
      meets.save(placed);
      // Somebody may have said that they come while the card waited to be sent.
      if (meets.guests(placed).length > 0 || placed.state !== 'planned') refreshCard(placed, now);
    },
  };
}
export type Meets = ReturnType<typeof meetsWorker>;
