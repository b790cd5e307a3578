import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { OutboxMessage, Settled } from '../outbox/outbox.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { offerCardView } from './offer-card.view.ts';
import type { Offer, SwapPromise } from './offer.ts';
import type { OfferStore } from './offer.store.ts';

export type OfferCardsDeps = {
  base: Pick<KnowledgeBase, 'corals' | 'critters'>;
  offers: OfferStore;
  outbox: OutboxStore;
  promisesOf: (offer: Pick<Offer, 'id' | 'guildId'>) => SwapPromise[];
};

/** `fallback`: the channel that is tried where the offer's own does not take it. */
type Posting = { photo: Buffer | null; fallback: string | null; again?: boolean };

/** The cards of offers where the club sees them: how they are posted, and how they are kept up to date. */
export function offerCards({ base, offers, outbox, promisesOf }: OfferCardsDeps) {
  const viewOf = (offer: Offer, now: Date) => offerCardView(base, offer, promisesOf(offer), now);

  /** Brings the posted card up to what is known now. Does nothing for one that was not posted yet: it is compared then. */
  const refresh = ({ id, guildId }: Pick<Offer, 'id' | 'guildId'>, now: Date): void => {
    const offer = offers.find(id, guildId);
    if (!offer?.messageId) return;
    const { channelId, messageId: targetId } = offer;
    outbox.addEdit({ guildId, topic: `frag/${id}/change`, channelId, targetId, view: viewOf(offer, now) }, now);
  };

  return {
    refresh,
    viewOf,
    /** Puts the card up, once for each offer unless it is to go up `again`. */
    post(offer: Offer, { photo, fallback, again = false }: Posting, now: Date): void {
      outbox.add({
        key: again ? `frag/offer/${offer.id}/${now.getTime()}` : `frag/offer/${offer.id}`,
        guildId: offer.guildId,
        topic: `frag/${offer.id}/card`,
        act: 'post',
        channelId: offer.channelId,
        fallbackChannelId: fallback === offer.channelId ? null : fallback,
        memberId: offer.memberId,
        targetId: null,
        title: null,
        view: viewOf(offer, now),
        mark: `1:frag-offer-menu:${offer.id}`,
        file: photo,
        late: 'always',
        dueAt: now,
      });
    },
    /** Hears, inside its transaction, that the message of a card needs no more work. */
    settled(message: OutboxMessage, outcome: Settled, now: Date): void {
      const [, id] = /^frag\/(\d+)\/card$/.exec(message.topic) ?? [];
      const offer = id === undefined ? undefined : offers.find(Number(id), message.guildId);
      if (!offer) return;
      if (outcome.kind === 'sent') {
        offers.save({ ...offer, channelId: message.channelId, messageId: outcome.messageId }, now);
        // It may have changed while it waited to be sent.
        if (JSON.stringify(message.view) !== JSON.stringify(viewOf(offer, now))) refresh(offer, now);
      } else if (offer.state === 'open') offers.save({ ...offer, state: 'withdrawn' }, now);
    },
  };
}
export type OfferCards = ReturnType<typeof offerCards>;
