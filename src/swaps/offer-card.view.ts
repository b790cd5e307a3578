import { joined, md, mentionOf, type Block, type ButtonView, type Markdown } from '../discord/message-view.ts';
import type { MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Offer, OfferDetails, SwapPromise } from './offer.ts';
import { settledInWords } from './settled.ts';
import { shortWarnings } from './warnings.ts';

type Books = Pick<KnowledgeBase, 'corals' | 'critters'>;

/** The name under which Discord keeps the photo of a card. */
export type PhotoFile = { name: string; bytes?: Buffer };

/**
 * The card of an offer as the whole club sees it. `promises`: those of this offer. `now` decides whether a piece is
 * called fresh or settled.
 */
export function offerCardView(base: Books, offer: Offer, promises: readonly SwapPromise[], now: Date): MessageView {
  const { state, details, memberId } = offer;
  if (state === 'hidden')
    return card('plain', [
      text(md`## This offer was taken down`),
      text(md`A curator did that. Its keeper can ask why.`),
      buttons(menuOf(offer)),
    ]);
  const title = md`## ${details.name}: ${leftInWords(offer)}`;
  if (state !== 'open')
    return card('plain', [
      text(title),
      text(md`${mentionOf(memberId)} ${state === 'expired' ? 'offered this; its time is over.' : 'took this back.'}`),
      text(joined(mainLines(offer, now)), 1),
      buttons(menuOf(offer)),
    ]);
  return card('calm', [
    text(title),
    ...describedBlocks(base, offer, now),
    ...queueBlocks(offer, promises),
    text(md`-# Offer ${offer.id} · stands until ${dateOf(offer.expiresAt)}, ${dateOf(offer.expiresAt, 'R')}`),
    buttons(
      {
        label: offer.left > 0 ? 'I’d like one' : 'Put me in line',
        act: 'frag-promise',
        args: [String(offer.id)],
        style: 'primary',
      },
      { label: 'Before you take one', act: 'frag-look', args: [String(offer.id)] },
      { label: 'Report', act: 'frag-report', args: [String(offer.id)] },
      menuOf(offer),
    ),
  ]);
}

/** What is said of the pieces: who and for what, how they are, the photo, the mother colony, and what to mind. */
export function describedBlocks(base: Books, offer: Offer, now: Date, photo?: PhotoFile | null): Block[] {
  const { details } = offer;
  const coral = details.coral === null ? undefined : base.corals.get(details.coral);
  const file = photo === undefined ? (details.photoName ? { name: details.photoName } : null) : photo;
  return [
    text(md`${dealInWords(offer)}${coral && coral.name !== details.name ? md` · ${coral.name}` : md``}`),
    text(joined(mainLines(offer, now))),
    ...(file
      ? [{ kind: 'photo', ...file, alt: details.photoAlt ?? `A photo of ${details.name}` } satisfies Block]
      : []),
    text(motherInWords(base, offer), 2),
    // The first is what can hurt people; it is never left out.
    ...shortWarnings(coral).map((words, at) => text(words, at === 0 ? 0 : 3 + at)),
  ];
}

/** "2 of 3 pieces left", "1 piece", "every piece promised", "withdrawn", "ended". */
export function leftInWords({ state, pieces, left }: Pick<Offer, 'state' | 'pieces' | 'left'>): string {
  if (state === 'withdrawn') return 'withdrawn';
  if (state === 'expired') return 'ended';
  if (left === 0) return pieces === 1 ? 'promised' : 'every piece promised';
  return left === pieces ? counted(pieces, 'piece') : `${left} of ${counted(pieces, 'piece')} left`;
}

/** Who offers it, and for what. */
export function dealInWords({ memberId, details: { give, swapFor } }: Pick<Offer, 'memberId' | 'details'>): Markdown {
  const who = mentionOf(memberId);
  if (give) return swapFor === null ? md`${who} **gives it away**` : md`${who} **gives it away** (or: ${swapFor})`;
  return swapFor === null ? md`${who} swaps it, open to anything` : md`${who} swaps it for: **${swapFor}**`;
}

function mainLines({ details }: Offer, now: Date): Markdown[] {
  const settled = settledInWords(details, now);
  const facts = [
    ...(details.size === null ? [] : [md`Size: ${details.size}`]),
    ...(details.colour === null ? [] : [md`Colour: ${details.colour}`]),
    ...(details.light === null ? [] : [md`Light: ${details.light}`]),
    ...(details.flow === null ? [] : [md`Flow: ${details.flow}`]),
  ];
  return [
    settled === null ? md`Not said when it was cut` : md`**${settled}**`,
    ...(facts.length > 0 ? [joined(facts, ' · ')] : []),
    ...(details.special === null ? [] : [md`“${details.special}”`]),
    ...(details.area === null ? [] : [md`Pick-up: ${details.area}`]),
  ];
}

/** What its keeper declares of the mother colony. Nobody has checked it, and the card says whose word it is. */
function motherInWords(base: Books, { memberId, details }: Offer): Markdown {
  const { motherAge, dips } = details;
  const by = details.pestsSeen === null ? md`` : md` (declared by ${mentionOf(memberId)})`;
  return joined([
    ...(motherAge === null ? [] : [md`Mother colony: ${motherAge}`]),
    md`Pests ever seen on the mother: **${pestsInWords(base, details)}**${by}`,
    md`Dips: ${dips ?? 'not said'}`,
  ]);
}

/** "none seen", the names of those that were, or "not said". */
export function pestsInWords({ critters }: Books, { pestsSeen }: Pick<OfferDetails, 'pestsSeen'>): string {
  if (pestsSeen === null) return 'not said';
  if (pestsSeen.length === 0) return 'none seen';
  return pestsSeen.map((id) => critters.get(id)?.name ?? id).join(', ');
}

function queueBlocks({ left }: Offer, promises: readonly SwapPromise[]): Block[] {
  const waiting = promises.filter(({ state }) => state === 'queued').length;
  if (waiting > 0) return [text(md`${counted(waiting, 'member')} in line for the next piece`)];
  return left === 0 ? [text(md`Every piece is promised; the line is empty.`)] : [];
}

const menuOf = ({ id }: Offer): ButtonView => ({ label: 'Keeper’s menu', act: 'frag-offer-menu', args: [String(id)] });
const card = (tone: MessageView['tone'], blocks: Block[]): MessageView => ({
  audience: 'everyone',
  tone,
  blocks,
  foldedNotice: md`-# Shortened to fit. **Before you take one** has the rest.`,
});
const text = (words: Markdown, fold = 0): Block => ({ kind: 'text', text: words, ...(fold > 0 ? { fold } : {}) });
const buttons = (...list: ButtonView[]): Block => ({ kind: 'buttons', buttons: list });
const counted = (count: number, unit: string): string => `${count} ${unit}${count === 1 ? '' : 's'}`;

/** A date as every reader's own clock shows it. */
export const dateOf = (at: Date, style: 'D' | 'R' | 'f' = 'D'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});
