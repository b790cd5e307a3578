import { z } from 'zod';
import { FLOWS } from '../knowledge/coral-words.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { readCutDate } from './cut-date.ts';
import { coralNamed, coralSaid } from './find-names.ts';
import { HEALS_IN_DAYS, LIGHTS, MOST_PIECES, type OfferDetails } from './offer.ts';

const typed = z.string().default('');

/** What a member typed and chose so far, letter by letter, so that nothing of it is lost when something cannot be read. */
export const Typed = z.object({
  coral: typed,
  pieces: typed,
  cut: typed,
  healsIn: typed,
  size: typed,
  area: typed,
  special: typed,
  swapFor: typed,
  /** Dips and the age of the mother, in one field. */
  care: typed,
  light: typed,
  flow: typed,
  colour: typed,
  give: z.boolean().default(false),
  pests: z.array(z.string()).nullable().default(null),
  /** A photo that is still to be fetched, and what it shows in its member's words. */
  photoUrl: typed,
  photoAlt: typed,
});
export type Typed = z.infer<typeof Typed>;
export type TypedField = Exclude<keyof Typed, 'give' | 'pests' | 'photoUrl' | 'photoAlt'>;

/** An offer that is not posted yet, or a change of one that is. */
export type Draft = {
  id: number;
  guildId: string;
  memberId: string;
  /** Where it was begun. */
  channelId: string;
  /** The offer that it changes; null for a new one. */
  offerId: number | null;
  typed: Typed;
  photoName: string | null;
};

/** What could not be used: which field, and what is expected there. */
export type DraftTrouble = { field: TypedField; says: string };
export type ReadDraft =
  { kind: 'read'; pieces: number; details: OfferDetails } | { kind: 'trouble'; troubles: DraftTrouble[] };

export type DraftReader = { base: KnowledgeBase; today: string };

export const MOST = { name: 60, special: 300, size: 40, colour: 40, swapFor: 200, area: 60, care: 160 } as const;
const MOST_DIPS = 120;
const MOST_AGE = 40;
const MOST_HEALS_DAYS = 120;

/** Everything as an offer keeps it, or everything that stands in the way. */
export function readDraft(draft: Pick<Draft, 'typed' | 'photoName'>, reader: DraftReader): ReadDraft {
  const { typed: given } = draft;
  const pieces = wholeIn(given.pieces, 1);
  const heals = wholeIn(given.healsIn, HEALS_IN_DAYS);
  const cut = given.cut.trim() === '' ? null : readCutDate(given.cut, reader.today);
  const troubles: DraftTrouble[] = [];
  const trouble = (field: TypedField, says: string) => void troubles.push({ field, says });
  if (said(given.coral, MOST.name) === null) trouble('coral', 'Say which coral it is.');
  if (pieces === null || pieces < 1 || pieces > MOST_PIECES)
    trouble('pieces', `I read “${given.pieces}” pieces. Write a whole number from 1 to ${MOST_PIECES}.`);
  if (cut && cut.kind !== 'on') trouble('cut', `I read “${given.cut}”. ${CUT_SAYS[cut.kind]}`);
  if (heals === null || heals < 0 || heals > MOST_HEALS_DAYS)
    trouble('healsIn', `I read “${given.healsIn}” days to heal. Write a whole number from 0 to ${MOST_HEALS_DAYS}.`);
  if (troubles.length > 0 || pieces === null || heals === null) return { kind: 'trouble', troubles };
  const { dips, motherAge } = careIn(given.care);
  const light = LIGHTS.find((each) => each === given.light) ?? null;
  const flow = FLOWS.find((each) => each === given.flow) ?? null;
  return {
    kind: 'read',
    pieces,
    details: {
      ...namedIn(given.coral, reader),
      special: said(given.special, MOST.special, true),
      size: said(given.size, MOST.size),
      cutOn: cut?.kind === 'on' ? cut.date : null,
      healsInDays: heals,
      light,
      flow,
      colour: said(given.colour, MOST.colour),
      motherAge,
      pestsSeen: given.pests,
      dips,
      swapFor: said(given.swapFor, MOST.swapFor),
      give: given.give,
      area: said(given.area, MOST.area),
      photoAlt: said(given.photoAlt, 300),
      photoName: draft.photoName,
    },
  };
}

const CUT_SAYS = {
  unreadable: 'Write when it was cut: “last week”, “3 weeks ago”, “1 Nov” or 2026-11-01.',
  ahead: 'That day is still to come: write when it was cut, or leave it empty until it is.',
  'long-ago': 'That is more than five years ago; for an old colony leave it empty.',
} as const;

/** The coral of what was typed, an id or words, and the name under which it is listed: the member's own words count. */
export function namedIn(text: string, { base }: Pick<DraftReader, 'base'>) {
  const words = said(text, MOST.name) ?? '';
  const chosen = base.corals.get(words);
  if (chosen) return { coral: words, name: chosen.name };
  const id = coralIn(base, words);
  const own = id === null ? undefined : base.corals.get(id)?.name;
  const isItsName = own !== undefined && normaliseName(own) === normaliseName(words);
  return { coral: id, name: isItsName ? own : capitalised(words) };
}

/** The coral that words name, as a whole or somewhere in them; short names such as "zoas" count as words of their own. */
export const coralIn = (base: KnowledgeBase, words: string): string | null =>
  coralSaid(base, words) ??
  words
    .split(/[^\p{L}]+/u)
    .filter((word) => word.length === 3 || word.length === 4)
    .map((word) => coralNamed(base, word))
    .find((id) => id !== null) ??
  null;

/** A capital may be longer than its letter. */
const capitalised = (words: string): string => (words.charAt(0).toUpperCase() + words.slice(1)).slice(0, MOST.name);

/** What goes back into the form when a posted offer is changed. */
export function typedFrom({ pieces, details }: { pieces: number; details: OfferDetails }): Typed {
  const mother = details.motherAge === null ? [] : [`mother ${details.motherAge}`];
  return {
    coral: details.name,
    pieces: String(pieces),
    cut: details.cutOn ?? '',
    healsIn: String(details.healsInDays),
    size: details.size ?? '',
    area: details.area ?? '',
    special: details.special ?? '',
    swapFor: details.swapFor ?? '',
    care: [...(details.dips === null ? [] : [details.dips]), ...mother].join('; '),
    light: details.light ?? '',
    flow: details.flow ?? '',
    colour: details.colour ?? '',
    give: details.give,
    pests: details.pestsSeen,
    photoUrl: '',
    photoAlt: details.photoAlt ?? '',
  };
}

/** "Iodine dip twice; mother six years": which part is which. A part too long for an age stands with the dips. */
function careIn(text: string): Pick<OfferDetails, 'dips' | 'motherAge'> {
  const parts = text
    .split(/[;\n]|,(?=\s*mother)|(?<=mother[^,;]*),/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const isAge = (part: string) =>
    /\bmother\b|\byears?\b|\bmonths?\b|\bold\b/i.test(part) && part.length <= MOST_AGE + 8;
  const age = parts.find(isAge);
  const dips = parts.filter((part) => part !== age).join('; ');
  const bare = age?.replace(/^(?:the )?mother(?: colony)?(?: is|:)?\s*/i, '') ?? '';
  return { dips: said(dips, MOST_DIPS), motherAge: said(bare, MOST_AGE) };
}

function wholeIn(text: string, empty: number): number | null {
  const plain = text.normalize('NFKC').trim();
  if (plain === '') return empty;
  return /^-?\d{1,9}$/.test(plain) ? Number(plain) : null;
}

/** What was said, on one line unless it tells a story; null for nothing. */
const said = (text: string, most: number, mayBreak = false): string | null => {
  const lines = text.toWellFormed().replace(/\n{3,}/g, '\n\n');
  const plain = (mayBreak ? lines : lines.replace(/\s+/g, ' ')).trim().slice(0, most).trim();
  return plain === '' ? null : plain;
};
