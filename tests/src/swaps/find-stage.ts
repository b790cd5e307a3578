import { findFilter } from '../../../src/swaps/find-filter.ts';
import type { Offer, OfferDetails, Want } from '../../../src/swaps/offer.ts';

export const NOW = new Date('2026-11-29T12:00:00Z');
export const TODAY = '2026-11-29';
const DAY_MS = 86_400_000;

const DETAILS: OfferDetails = {
  coral: null,
  name: 'something',
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
};

/** An open offer of Nell. */
export const offerOf = (details: Partial<OfferDetails>, rest: Partial<Offer> = {}): Offer => ({
  id: 1,
  guildId: '7',
  memberId: '100',
  channelId: '70',
  messageId: null,
  state: 'open',
  pieces: 2,
  left: 2,
  createdAt: NOW,
  expiresAt: new Date(NOW.getTime() + 45 * DAY_MS),
  remindedAt: null,
  ...rest,
  details: { ...DETAILS, ...details },
});

/** What Uma looks for. */
export const wantOf = (want: Partial<Want>): Want => ({
  id: 1,
  guildId: '7',
  memberId: '200',
  coral: null,
  group: null,
  words: 'something',
  driveKm: null,
  createdAt: NOW,
  ...want,
});

export { findFilter };
