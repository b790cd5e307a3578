import { joined, md, mentionOf, type Block, type ButtonView, type Markdown } from '../discord/message-view.ts';
import type { MessageView } from '../discord/message-view.ts';
import { dateOf, dealInWords, leftInWords } from './offer-card.view.ts';
import { OFFER_LASTS_DAYS, RENEWABLE_DAYS, type Offer, type Want } from './offer.ts';

/** Where the card of an offer stands, as a link; nothing before it was posted. */
export function cardLink({
  guildId,
  channelId,
  messageId,
}: Pick<Offer, 'guildId' | 'channelId' | 'messageId'>): Markdown {
  if (!messageId) return md``;
  return { markdown: `[its card](https://discord.com/channels/${guildId}/${channelId}/${messageId})` };
}

/** To the keeper, some days before the end. */
export const endingView = (offer: Offer): MessageView =>
  told(
    'plain',
    [
      md`## Still there? ${offer.details.name}`,
      md`${mentionOf(offer.memberId)}, your offer (${leftInWords(offer)}) ends ${dateOf(offer.expiresAt)}, ${dateOf(offer.expiresAt, 'R')}. ${cardLink(offer)}`,
    ],
    [markedRenewal(offer), { label: 'Withdraw', act: 'frag-withdraw', args: [String(offer.id)] }],
  );

/** To the keeper, at the end. */
export const endedView = (offer: Offer): MessageView =>
  told(
    'plain',
    [
      md`## ${offer.details.name} has ended`,
      md`${mentionOf(offer.memberId)}, your offer is no longer shown. For ${RENEWABLE_DAYS} days one press puts it up again, with everything you wrote.`,
    ],
    [markedRenewal(offer)],
  );

/** To whoever looks for something: it is there. Offers that met a want of theirs, the first first. */
export function metView(memberId: string, offers: readonly Offer[], wants: readonly Want[]): MessageView {
  const shown = offers.slice(0, MOST_SHOWN);
  const words = [...new Set(wants.map((want) => want.words))].join(', ');
  return told(
    'calm',
    [
      md`## What you look for is there`,
      md`${mentionOf(memberId)}, you look for **${words}**. New in the club:`,
      joined(shown.map(offerLine)),
      ...(offers.length > MOST_SHOWN ? [md`And ${offers.length - MOST_SHOWN} more: **/frag find**.`] : []),
      md`-# One message a day at most, none at night. **/frag mine** ends a want.`,
    ],
    shown.map(({ id, left }) => ({
      label: `${left > 0 ? 'I’d like one' : 'Put me in line'}${shown.length > 1 ? `: offer ${id}` : ''}`,
      act: 'frag-promise',
      args: [String(id)],
    })),
  );
}
const MOST_SHOWN = 5;

/** One offer in a list: what, how many, for what, and where its card stands. */
export const offerLine = (offer: Offer): Markdown =>
  md`**${offer.details.name}** (offer ${offer.id}): ${leftInWords(offer)}. ${dealInWords(offer)} ${cardLink(offer)}`;

export const renewButton = ({ id }: Pick<Offer, 'id'>): ButtonView => ({
  label: `Renew ${OFFER_LASTS_DAYS} days`,
  act: 'frag-renew',
  args: [String(id)],
  style: 'primary',
});

/** The same with the end that it is about, so that each of these messages is known again by it. */
const markedRenewal = (offer: Offer): ButtonView => ({
  ...renewButton(offer),
  args: [String(offer.id), String(Math.floor(offer.expiresAt.getTime() / 60_000)), offer.state],
});
/** The custom id on the message about this end of this offer and its state, and on no other. */
export const renewalMark = (offer: Offer): string => `1:frag-renew:${markedRenewal(offer).args.join(':')}`;

const told = (tone: MessageView['tone'], lines: Markdown[], buttons: ButtonView[] = []): MessageView => ({
  audience: 'member',
  tone,
  blocks: [
    ...lines.map((text): Block => ({ kind: 'text', text })),
    ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } satisfies Block] : []),
  ],
});
