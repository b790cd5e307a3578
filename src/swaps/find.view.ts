import { joined, md, mentionOf, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts'; // prettier-ignore
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { filterArgs, type FindFilter } from './find-filter.ts';
import type { Found } from './find-index.ts';
import { isSettled, LATE } from './find-match.ts';
import type { Near } from './find-near.ts';
import { bookmarkArg, type Bookmark, type Page } from './find-page.ts';
import { describedBlocks, leftInWords } from './offer-card.view.ts';
import type { Offer } from './offer.ts';
import { settledInWords } from './settled.ts';

export type Turning = { mark: number; day: string };
type Shown = { filter: FindFilter; page: Page; turning: Turning; askerId: string; now: Date };

const text = (words: Markdown, fold = 0): Block => ({ kind: 'text', text: words, ...(fold > 0 ? { fold } : {}) });
const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** A page of what was found. */
export function findView({ filter, page, turning, askerId, now }: Shown): MessageView {
  const { shown, before, after, gone } = page;
  const total = before + shown.length + after;
  const lines = shown.map((one, at) => text(offerLine(one, before + at + 1, { askerId, now, day: turning.day })));
  const firstDry = shown.findIndex(({ offer, tier }) => offer.left === 0 && tier < LATE);
  const firstLate = shown.findIndex(({ tier }) => tier === LATE);
  if (firstLate >= 0) lines.splice(firstLate, 0, text(md`**Came in while you looked**`));
  if (firstDry >= 0) lines.splice(firstDry, 0, text(md`**All promised, queue open** (a promise can fall through):`));
  return {
    audience: 'member',
    tone: 'calm',
    blocks: [
      text(md`## ${counted(total, 'offer')}: ${filterInWords(filter)}`),
      ...(gone ? [text(md`-# One that you saw has gone meanwhile: taken back, or its time was over.`)] : []),
      ...(shown.length === 0 ? [text(md`That was the end of the list.`)] : lines),
      ...(shown.length > 0 ? [lookSelect(filter, page, turning)] : []),
      ...pageButtons(filter, page, turning),
      text(md`-# ${whereInList(page)}Members you blocked, or who blocked you, are left out.`, 1),
    ],
  };
}

function whereInList({ shown, before, after }: Page): string {
  if (before + after === 0 || shown.length === 0) return '';
  return `${before + 1} to ${before + shown.length} of ${before + shown.length + after}. `;
}

type Reader = { askerId: string; now: Date; day: string };

/** What it is, how many are left, how it is, whose it is, where, and the way to its card. */
function offerLine({ offer }: Found, number: number, { askerId, now, day }: Reader): Markdown {
  const { details, memberId } = offer;
  const facts = [
    md`${leftInWords(offer)}`,
    md`${settledWords(offer, now, day)}`,
    ...(details.give ? [md`given away`] : []),
    ...(details.colour === null ? [] : [md`${details.colour}`]),
  ];
  const where = [
    memberId === askerId ? md`yours` : md`by ${mentionOf(memberId)}`,
    ...(details.area === null ? [] : [md`${details.area}`]),
    cardLink(offer),
  ];
  return md`**${number} · ${details.name}**: ${joined(facts, ', ')}\n${joined(where, ' · ')}`;
}

function settledWords({ details }: Offer, now: Date, day: string): string {
  const words = settledInWords(details, now);
  if (words === null) return 'cut: not said';
  return isSettled(details, day) ? 'settled' : words.slice(0, 1).toLowerCase() + words.slice(1);
}

const digits = (id: string) => id.replace(/\D/g, '');

/** A link to the posted card, or the command that shows it where it was not posted yet. */
export function cardLink({ id, guildId, channelId, messageId }: Offer): Markdown {
  if (messageId === null) return md`**/frag look offer: ${id}**`;
  const url = `https://discord.com/channels/${digits(guildId)}/${digits(channelId)}/${digits(messageId)}`;
  return { markdown: `[open its card](${url})` };
}

function lookSelect(filter: FindFilter, { shown }: Page, turning: Turning): Block {
  const [first] = shown;
  return {
    kind: 'select',
    act: 'frag-find-one',
    // The list comes back where it was: the page that begins with the first one shown.
    args: [first ? bookmarkArg({ ...turning, way: 'from', tier: first.tier, id: first.offer.id }) : '', ...filterArgs(filter)], // prettier-ignore
    placeholder: 'Look at one',
    options: shown.map(({ offer }) => ({
      label: offer.details.name.slice(0, 100),
      value: String(offer.id),
      description: [leftInWords(offer), offer.details.colour, offer.details.area].filter(Boolean).join(' · ').slice(0, 100), // prettier-ignore
    })),
  };
}

function pageButtons(filter: FindFilter, { shown, before, after }: Page, turning: Turning): Block[] {
  const [first, last] = [shown[0], shown.at(-1)];
  const to = (label: string, way: Bookmark['way'], one: Found, style?: ButtonView['style']): ButtonView => ({
    label,
    act: 'frag-find',
    args: [bookmarkArg({ ...turning, way, tier: one.tier, id: one.offer.id }), ...filterArgs(filter)],
    ...(style ? { style } : {}),
  });
  const buttons: ButtonView[] = [
    ...(first && before > 0 ? [to('Back', 'before', first)] : []),
    ...(last && after > 0 ? [to('More', 'after', last, 'primary')] : []),
    // A promise that fell through, or an offer that was changed, may have moved up meanwhile.
    ...(after === 0 && before > 0 || shown.length === 0 ? [{ label: 'From the start', act: 'frag-find', args: ['', ...filterArgs(filter)] }] : []), // prettier-ignore
  ];
  return buttons.length > 0 ? [{ kind: 'buttons', buttons }] : [];
}

/** "torch, settled, given away", or "everything on offer". */
export function filterInWords({ text: words, light, growth, kind, area, settled, free }: FindFilter): string {
  const parts = [
    words,
    kind,
    growth,
    light && `${light} light`,
    area && `near ${area}`,
    settled && 'settled',
    free && 'given away',
  ].filter(Boolean);
  return parts.length > 0 ? parts.join(', ') : 'everything on offer';
}

const NEAR = {
  choices: 'The same without the other choices',
  growth: 'Near to it: grows alike',
  kind: 'Near to it: the same sort of animal',
} as const;

/** What somebody is told when nothing matches: what comes near, and that the bot can watch for them. */
export function nothingFoundView(
  filter: FindFilter,
  near: Near | null,
  { askerId, now, day }: Reader,
  want: readonly string[] | null,
): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Nobody offers that now: ${filterInWords(filter)}`),
      ...(near
        ? [
            text(md`**${NEAR[near.by]}**`),
            ...near.found.map((one, at) => text(offerLine(one, at + 1, { askerId, now, day }))),
          ]
        : [text(md`Nothing on offer comes near it either. **/frag find** alone lists everything.`)]),
      ...(want
        ? [
            text(md`Shall I watch for it? **Keep an eye out** puts it on your wants; **/frag want** does the same.`),
            { kind: 'buttons', buttons: [{ label: 'Keep an eye out', act: 'frag-want-add', args: want, style: 'primary' }] } satisfies Block, // prettier-ignore
          ]
        : []),
      text(md`-# Members you blocked, or who blocked you, are left out.`),
    ],
  };
}

/** One offer for whoever found it. Its photo stands on the card in the channel. */
export function foundOfferView(
  base: Pick<KnowledgeBase, 'corals' | 'critters'>,
  offer: Offer,
  { askerId, now, back }: { askerId: string; now: Date; back: readonly string[] },
): MessageView {
  const { id, memberId, left, details } = offer;
  const own = memberId === askerId;
  const promise: ButtonView = { label: left > 0 ? 'I’d like one' : 'Put me in line', act: 'frag-promise', args: [String(id)], style: 'primary' }; // prettier-ignore
  return {
    audience: 'member',
    tone: 'calm',
    replaces: true,
    blocks: [
      text(md`## ${details.name}: ${leftInWords(offer)}`),
      ...describedBlocks(base, offer, now, null),
      text(md`-# Offer ${id} · ${details.photoAlt === null ? md`` : md`photo on its card: `}${cardLink(offer)}${own ? md` · yours` : md``}`), // prettier-ignore
      {
        kind: 'buttons',
        buttons: [...(own ? [] : [promise]), { label: 'Back to the list', act: 'frag-find', args: back }],
      },
    ],
  };
}

/** The offer that was chosen is not there any more. */
export const foundGoneView = (back: readonly string[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  replaces: true,
  blocks: [
    text(md`## That one has just gone`),
    text(md`It was taken back, or its time was over, while you looked. The rest of the list is still there.`),
    { kind: 'buttons', buttons: [{ label: 'Back to the list', act: 'frag-find', args: back, style: 'primary' }] },
  ],
});

export const findNeedsAClub = (): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [text(md`## Only in a club`), text(md`Use this in a channel of your club’s server.`)],
});
