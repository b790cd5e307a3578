import { z } from 'zod';
import { FLOWS } from '../knowledge/coral-words.ts';

/** How much light a coral stands in, in words that everybody can say without a meter; micromoles stand in knowledge/corals. */
export const LIGHTS = ['low', 'medium', 'high'] as const;

const words = (most: number) => z.string().trim().min(1).max(most);

/** What a member says of the pieces that they offer. */
export const OfferDetails = z.strictObject({
  /** An entry of knowledge/corals; null while only free words are known. */
  coral: z.string().nullable(),
  /** As it is listed: the member's own words, or the name of the entry. */
  name: words(60),
  /** What makes it special: colour, growth, its story. */
  special: words(300).nullable(),
  /** In words: "3 cm", "two heads". */
  size: words(40).nullable(),
  /** Local date of the cut; null: not cut, or nobody knows. */
  cutOn: z.iso.date().nullable(),
  /** Days after the cut from which the member calls it settled. */
  healsInDays: z.int().min(0).max(120),
  light: z.enum(LIGHTS).nullable(),
  flow: z.enum(FLOWS).nullable(),
  colour: words(40).nullable(),
  /** In words: "six years". */
  motherAge: words(40).nullable(),
  /** Critters of the knowledge base that were seen on the mother colony, as declared; null: not said. */
  pestsSeen: z.array(z.string()).max(20).nullable(),
  /** Dips done, in words, as declared. */
  dips: words(120).nullable(),
  /** Swap for what; null with `give`: it is given away. */
  swapFor: words(200).nullable(),
  give: z.boolean(),
  /** Where it can be picked up, in words. */
  area: words(60).nullable(),
  photoAlt: words(300).nullable(),
  /** The file of its photo on the posted card; absent without one. */
  photoName: z.string().max(20).nullable().optional(),
});
export type OfferDetails = z.infer<typeof OfferDetails>;

export const OFFER_STATES = ['open', 'withdrawn', 'expired', 'hidden'] as const;
export type OfferState = (typeof OFFER_STATES)[number];

/** Pieces of one coral that a member offers. */
export type Offer = {
  id: number;
  guildId: string;
  memberId: string;
  /** Where its card stands, and the card; null before it was posted. */
  channelId: string;
  messageId: string | null;
  state: OfferState;
  /** How many there were at first. What is left follows from the promises. */
  pieces: number;
  /** Pieces that nobody was promised or given. */
  left: number;
  details: OfferDetails;
  createdAt: Date;
  expiresAt: Date;
  /** When its member was last reminded that it ends. */
  remindedAt: Date | null;
};

/** What a member looks for: a coral, everything of one kind or growth form, or words. */
export type Want = {
  id: number;
  guildId: string;
  memberId: string;
  /** An entry of knowledge/corals. */
  coral: string | null;
  /** "stony", "soft" … or a growth form: anything of this group. */
  group: string | null;
  /** As it was said. */
  words: string;
  /** How far they would drive, km; null: not said. */
  driveKm: number | null;
  createdAt: Date;
};

export const PROMISE_STATES = ['queued', 'promised', 'handed-over', 'released', 'expired', 'withdrawn'] as const;
export type PromiseState = (typeof PROMISE_STATES)[number];

/** One piece between two members, from the press to the hand-over. */
export type SwapPromise = {
  id: number;
  guildId: string;
  offerId: number;
  giverId: string;
  takerId: string;
  state: PromiseState;
  /** The ring that it is a part of. */
  ringId: number | null;
  /** Until when a promise stands without a hand-over. */
  until: Date | null;
  giverSaid: boolean;
  takerSaid: boolean;
  /** Why it was released. */
  word: string | null;
  threadId: string | null;
  createdAt: Date;
};

export const MOST_OFFERS = 40;
export const MOST_WANTS = 40;
export const MOST_PIECES = 50;
export const OFFER_LASTS_DAYS = 45;
export const REMIND_BEFORE_DAYS = 5;
/** For so long after its end an offer can be put up again. */
export const RENEWABLE_DAYS = 30;
export const HEALS_IN_DAYS = 14;
export const PROMISE_LASTS_DAYS = 7;
