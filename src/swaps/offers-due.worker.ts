import type { Database } from 'better-sqlite3';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { MessageView } from '../discord/message-view.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { directTo } from '../outbox/outbox.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import { fits } from './find.ts';
import type { OfferCards } from './offer-cards.worker.ts';
import type { OfferStore } from './offer.store.ts';
import { REMIND_BEFORE_DAYS, type Offer } from './offer.ts';
import { newsDueAt, quietUntil } from './quiet-hours.ts';
import { endedView, endingView, metView, renewalMark } from './told.view.ts';
import type { NewsOf, WantNewsStore } from './want-news.store.ts';
import type { WantStore } from './want.store.ts';

const BATCH = 200;
const MOST_BATCHES = 100;
const DAY_MS = 86_400_000;

export type OffersDueDeps = {
  db: Database;
  base: KnowledgeBase;
  offers: OfferStore;
  wants: WantStore;
  news: WantNewsStore;
  outbox: OutboxStore;
  cards: OfferCards;
  promises: Pick<PromiseStore, 'blocked'>;
  zoneOf: (memberId: string) => string | null;
};

/** What time does to offers: a word before the end, the end, and the news for those who look for something. */
export function offersDue({ db, base, offers, wants, news, outbox, cards, promises, zoneOf }: OffersDueDeps) {
  const write = (
    to: { guildId: string; memberId: string },
    key: string,
    topic: string,
    view: MessageView,
    dueAt: Date,
    mark: string | null,
  ) =>
    outbox.add({
      ...{ key, topic, view, dueAt, mark, guildId: to.guildId, memberId: to.memberId },
      ...{ act: 'post', channelId: directTo(to.memberId), fallbackChannelId: null },
      ...{ targetId: null, title: null, file: null, late: 'merge' },
    });

  const remind = (offer: Offer, now: Date): void => {
    offers.save({ ...offer, remindedAt: now }, now);
    const key = `frag/ending/${offer.id}/${offer.expiresAt.getTime()}`;
    write(offer, key, `frag/${offer.id}/ending`, endingView(offer), now, renewalMark(offer));
  };

  const end = (offer: Offer, now: Date): void => {
    const ended: Offer = { ...offer, state: 'expired' };
    offers.save(ended, now);
    cards.refresh(ended, now);
    const key = `frag/ended/${offer.id}/${offer.expiresAt.getTime()}`;
    write(offer, key, `frag/${offer.id}/ended`, endedView(ended), now, renewalMark(ended));
  };

  /** What is still to be had of what a member was to hear; what was taken or withdrawn meanwhile is left out. */
  const standing = (to: NewsOf, now: Date): Offer[] => {
    const apart = promises.blocked(to.guildId);
    return news.offersFor(to).flatMap((id) => {
      const offer = offers.find(id, to.guildId);
      const isThere = offer?.state === 'open' && offer.expiresAt > now && offer.left > 0;
      return isThere && !apart.has(`${to.memberId}/${offer.memberId}`) ? [offer] : [];
    });
  };

  const tell = (to: NewsOf, now: Date): void => {
    const last = news.lastTold(to.memberId);
    const soonest = last !== null && now.getTime() - last.getTime() < DAY_MS ? newsDueAt(last, null, now) : now;
    const at = quietUntil(zoneOf(to.memberId), soonest) ?? soonest;
    if (at > now) return news.postpone(to, at);
    const there = standing(to, now);
    const met = wants.own(to.guildId, to.memberId).filter((want) => there.some((offer) => fits(want, offer, base)));
    const wanted = there.filter((offer) => met.some((want) => fits(want, offer, base)));
    const [first] = wanted;
    // What came to nothing is no message, and does not count as one.
    if (!first) return news.drop(to);
    news.told(to, now);
    const key = `frag/met/${first.id}/${to.memberId}`;
    write(to, key, `frag/${first.id}/met`, metView(to.memberId, wanted, met), now, null);
  };

  const each = <T>(due: () => T[], work: (one: T) => void): void => {
    for (let batches = 0; batches < MOST_BATCHES; batches += 1) {
      const found = due();
      if (found.length === 0) return;
      for (const one of found) db.transaction(() => work(one)).immediate();
    }
  };

  return {
    /** Turns what is due into messages, each step in one transaction with its message. */
    fireDue(now: Date): void {
      each(
        () => offers.ending(now, BATCH),
        (offer) => end(offer, now),
      );
      const by = new Date(now.getTime() + REMIND_BEFORE_DAYS * DAY_MS);
      each(
        () => offers.toRemind(now, by, BATCH),
        (offer) => remind(offer, now),
      );
      each(
        () => offers.settling(now, BATCH),
        (offer) => {
          offers.save(offer, now);
          cards.refresh(offer, now);
        },
      );
      each(
        () => news.due(now, BATCH),
        (to) => tell(to, now),
      );
    },
  };
}
