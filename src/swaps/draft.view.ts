import { joined, md, type Block, type ButtonView, type Markdown, type SelectOption } from '../discord/message-view.ts';
import type { MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { CleanPhoto } from '../opinions/photo.ts';
import type { Draft, DraftTrouble } from './draft.ts';
import { dateOf, describedBlocks, leftInWords, type PhotoFile } from './offer-card.view.ts';
import { MOST_OFFERS, OFFER_LASTS_DAYS, type Offer, type OfferDetails } from './offer.ts';

type Books = Pick<KnowledgeBase, 'corals' | 'critters'>;

/** "none" in the list of pests: the keeper looked and saw none. */
export const NONE_SEEN = 'none';
/** Where the coral is not in the books, so many pests that live on most corals are offered. */
const MOST_PESTS = 12;

/** What stands in the way, with a way back to the form that holds everything. */
export function draftTroubleView({ id }: Draft, troubles: readonly DraftTrouble[]): MessageView {
  const fields = troubles.map(({ field }) => field).join('.');
  return {
    audience: 'member',
    tone: 'watch',
    blocks: [
      text(md`## One thing I could not use`),
      ...troubles.map(({ says }) => text(md`${says}`)),
      text(md`Nothing is posted yet, and everything you gave is kept.`),
      buttons(
        { label: 'Try again', act: 'frag-draft-again', args: [String(id), fields], style: 'primary' },
        throwAway(id),
      ),
    ],
  };
}

export type Preview = {
  draft: Draft;
  offer: Offer;
  /** The photo with its bytes; `kept`: it is too large to be shown at every press, or it stands on the card already. */
  photo: PhotoFile | 'kept' | null;
  photoTrouble: Markdown | null;
};

/** The card as it will look, privately, with the question about pests and what can be done now. */
export function previewView(base: Books, { draft, offer, photo, photoTrouble }: Preview, now: Date): MessageView {
  const { id, offerId } = draft;
  const file = photo === 'kept' ? null : photo;
  const isNew = offerId === null;
  const change: ButtonView = { label: 'Change', act: 'frag-draft-change', args: [String(id)] };
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(
        md`-# ${isNew ? 'A first look, for you only. Nothing is posted yet.' : 'As it will be. Nothing is changed yet.'}`,
      ),
      text(md`## ${offer.details.name}: ${leftInWords(offer)}`),
      ...(photoTrouble ? [text(photoTrouble)] : []),
      ...(photo === 'kept' ? [text(md`-# Your photo is kept and stands on the card.`)] : []),
      ...describedBlocks(base, offer, now, file),
      { kind: 'rule' },
      ...(isNew
        ? [text(md`It goes up in ${{ markdown: `<#${offer.channelId}>` }} for ${OFFER_LASTS_DAYS} days.`)]
        : []),
      pestSelect(base, draft, offer.details),
      elseSelect(draft),
      buttons(
        { label: isNew ? 'Post it' : 'Save it', act: 'frag-draft-post', args: [String(id)], style: 'primary' },
        change,
        ...(isNew
          ? [{ label: photo ? 'Another photo' : 'Add a photo', act: 'frag-draft-photo', args: [String(id)] }]
          : []),
        throwAway(id),
      ),
    ],
    foldedNotice: md`-# Shortened to fit; the card says all of it.`,
  };
}

/** One press a pest: what was chosen is marked, and chosen again it is taken back. */
function pestSelect(base: Books, { id }: Draft, details: OfferDetails): Block {
  const seen = details.pestsSeen;
  const mark = (isChosen: boolean, words: string) => `${isChosen ? '✓ ' : ''}${words}`;
  const pests = pestsToAskOf(base, details).flatMap((pest): SelectOption[] => {
    const name = base.critters.get(pest)?.name;
    return name === undefined ? [] : [{ label: mark(seen?.includes(pest) ?? false, name), value: pest }];
  });
  return {
    kind: 'select',
    act: 'frag-draft-pest',
    args: [String(id)],
    placeholder: 'Pests ever seen on the mother colony?',
    options: [{ label: mark(seen?.length === 0, 'None seen'), value: NONE_SEEN }, ...pests],
  };
}

/** Pests that a coral is known to have; of one that is not in the books, those that most corals can have. */
export function pestsToAskOf(
  { corals }: Books,
  { coral, pestsSeen }: Pick<OfferDetails, 'coral' | 'pestsSeen'>,
): string[] {
  const known = coral === null ? undefined : corals.get(coral)?.pests;
  if (known) return [...new Set([...known, ...(pestsSeen ?? [])])];
  const counts = new Map<string, number>();
  for (const { pests } of corals.values()) for (const pest of pests) counts.set(pest, (counts.get(pest) ?? 0) + 1);
  const common = [...counts].sort(([, one], [, other]) => other - one).map(([pest]) => pest);
  return [...new Set([...(pestsSeen ?? []), ...common])].slice(0, MOST_PESTS);
}

const elseSelect = ({ id, typed, offerId }: Draft): Block => ({
  kind: 'select',
  act: 'frag-draft-other',
  args: [String(id)],
  placeholder: 'Change something else…',
  options: [
    { label: typed.give ? 'Swap it instead' : 'Give it away', value: 'give' },
    { label: 'When it was cut', value: 'cut' },
    { label: 'How many pieces', value: 'pieces' },
    { label: 'Light', value: 'light' },
    { label: 'Flow', value: 'flow' },
    { label: 'Colour', value: 'colour' },
    { label: 'Days until it is settled', value: 'healsIn' },
    ...(offerId === null ? [{ label: 'Which coral it is', value: 'coral' }] : []),
  ],
});

/** The receipt of a posted offer. */
export const postedView = ({ details, channelId, expiresAt }: Offer): MessageView => ({
  audience: 'member',
  tone: 'calm',
  replaces: true,
  blocks: [
    text(md`## Posted: ${details.name}`),
    text(
      joined([
        md`It stands in ${{ markdown: `<#${channelId}>` }} until ${dateOf(expiresAt)}. I remind you before that.`,
        md`When somebody would like one, you hear of it directly.`,
      ]),
    ),
    buttons({ label: 'My offers', act: 'frag-mine', args: ['0'] }),
    text(md`-# **/frag mine** has all of yours, **/frag edit** and **/frag withdraw** change it.`),
  ],
});

/** A photo that cannot be used; the rest of the offer goes on without it. */
export function photoTroubleWords(
  kind: Exclude<CleanPhoto['kind'], 'clean'> | 'not-to-be-had' | 'too-large',
): Markdown {
  const why = {
    'other-kind': 'I take JPEG, PNG and WebP; a screenshot of it will do.',
    damaged: 'Its file is damaged. Send it again, or a screenshot of it.',
    'not-to-be-had': 'Discord did not hand it over.',
    'too-large': 'I take photos up to 10 MB; a screenshot of it is smaller.',
  }[kind];
  return md`**Without the photo for now.** ${why} **Add a photo** takes another one.`;
}

export const draftGoneView = (): MessageView =>
  noted(
    'That one is gone',
    md`It was posted, or thrown away. **/frag mine** shows your offers, **/frag offer** begins a new one.`,
  );
export const thrownAwayView = (): MessageView => ({
  ...noted('Thrown away', md`Nothing was posted. **/frag offer** begins a new one.`),
  replaces: true,
});
export const tooManyOffersView = (): MessageView =>
  noted(
    'That is a lot of offers',
    md`${MOST_OFFERS} may stand at once. Withdraw one with **/frag mine**; this one is kept until then, and **/frag edit** goes on with it.`,
  );
export const needsAClubView = (): MessageView =>
  noted('Swaps belong to a club', md`Use this in a channel of your club’s server: here there is nobody to swap with.`);
export const cannotPostView = (lacks: readonly string[]): MessageView =>
  noted(
    'I may not post here',
    md`I lack **${lacks.join(', ')}** in this channel. An officer can grant it in the channel’s settings, or send **/club settings swap-here:yes** where offers shall stand. Nothing was posted.`,
  );

/** A private answer with one heading. */
export const noted = (heading: string, ...lines: Markdown[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [text(md`## ${heading}`), ...lines.map((line) => text(line))],
});

const throwAway = (id: number): ButtonView => ({
  label: 'Throw away',
  act: 'frag-draft-drop',
  args: [String(id)],
  style: 'danger',
});
const text = (words: Markdown): Block => ({ kind: 'text', text: words });
const buttons = (...list: ButtonView[]): Block => ({ kind: 'buttons', buttons: list });
