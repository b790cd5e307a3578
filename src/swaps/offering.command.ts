import type { ClubStore } from '../club/club.store.ts';
import {
  md,
  type Answer,
  type FetchView,
  type Markdown,
  type MessageView,
  type Request,
} from '../discord/message-view.ts';
import type { CoralNames } from '../knowledge/coral-names.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { cleanPhoto, MOST_PHOTO_BYTES } from '../opinions/photo.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import { localDate } from '../schedule/local-time.ts';
import { readDraft, type Draft, type ReadDraft } from './draft.ts';
import type { DraftStore } from './draft.store.ts';
import {
  cannotPostView,
  draftGoneView,
  draftTroubleView,
  needsAClubView,
  noted,
  photoTroubleWords,
  postedView,
  previewView,
  tooManyOffersView,
  type Preview,
} from './draft.view.ts';
import { changedView } from './keeper.view.ts';
import type { OfferActStore } from './offer-acts.store.ts';
import type { OfferKeeping } from './offer-keeping.worker.ts';
import type { OfferStore } from './offer.store.ts';
import type { Offer, OfferDetails } from './offer.ts';
import type { WantStore } from './want.store.ts';

/** What offers and wants need. */
export type OfferDeps = {
  base: KnowledgeBase;
  corals: CoralNames;
  clubs: ClubStore;
  offers: OfferStore;
  drafts: DraftStore;
  acts: OfferActStore;
  wants: WantStore;
  keeping: OfferKeeping;
  promises: Pick<PromiseStore, 'of' | 'withMember' | 'blocked'>;
  zoneOf: (memberId: string) => string | null;
};

/** A photo up to this size is sent along with every look at the draft; a larger one would hold up the answer. */
const SHOWN_EACH_TIME_BYTES = 2 * 1024 * 1024;
const MOST_ALT = 300;

/** What a member typed, as an offer keeps it. */
export function readTyped(deps: OfferDeps, draft: Draft, { memberName, now }: Request): ReadDraft {
  const { base, zoneOf } = deps;
  const read = readDraft(draft, { base, today: localDate(now, zoneOf(draft.memberId) ?? 'UTC') });
  return read.kind === 'trouble' ? read : { ...read, details: withAlt(read.details, memberName) };
}

/** What those hear who cannot see the photo: the member's words for it, or what it is. */
function withAlt(details: OfferDetails, memberName: string): OfferDetails {
  if (!details.photoName) return { ...details, photoAlt: null };
  const special = details.special === null ? '' : `: ${details.special.replace(/\s+/g, ' ')}`;
  const made = `A photo from ${memberName} of their ${details.name.toLowerCase()}${special}`;
  return { ...details, photoAlt: (details.photoAlt ?? made).slice(0, MOST_ALT).trim() };
}

/** The next step of a draft: what stands in the way, the photo that is still to be fetched, or the look at the card. */
export function goOn(deps: OfferDeps, draft: Draft, request: Request, replaces = false): Answer {
  const read = readTyped(deps, draft, request);
  if (read.kind === 'trouble') return draftTroubleView(draft, read.troubles);
  if (draft.typed.photoUrl !== '') return fetchPhoto(deps, draft, request);
  return preview(deps, draft, request, replaces);
}

function fetchPhoto(deps: OfferDeps, draft: Draft, request: Request): FetchView {
  const done: Draft = { ...draft, typed: { ...draft.typed, photoUrl: '' } };
  return {
    kind: 'fetch',
    url: draft.typed.photoUrl,
    mostBytes: MOST_PHOTO_BYTES,
    use: (file) => {
      // It may have been posted or thrown away while the photo was on its way.
      if (!deps.drafts.find(draft.id, draft.guildId, draft.memberId)) return draftGoneView();
      deps.drafts.save(done);
      if (file.kind !== 'fetched') return preview(deps, done, request, false, photoTroubleWords(file.kind));
      const clean = cleanPhoto(file.bytes);
      if (clean.kind !== 'clean') return preview(deps, done, request, false, photoTroubleWords(clean.kind));
      deps.drafts.keepPhoto(draft, clean.name, clean.bytes);
      return preview(deps, { ...done, photoName: clean.name }, request, false);
    },
  };
}

function preview(
  deps: OfferDeps,
  draft: Draft,
  request: Request,
  replaces: boolean,
  photoTrouble: Markdown | null = null,
): MessageView {
  const read = readTyped(deps, draft, request);
  if (read.kind === 'trouble') return draftTroubleView(draft, read.troubles);
  const offer = asOffer(deps, draft, read, request.now);
  const view = previewView(deps.base, { draft, offer, photo: photoOf(deps, draft), photoTrouble }, request.now);
  return replaces ? { ...view, replaces: true } : view;
}

function photoOf({ drafts, offers }: OfferDeps, draft: Draft): Preview['photo'] {
  if (draft.offerId !== null) return offers.find(draft.offerId, draft.guildId)?.details.photoName ? 'kept' : null;
  const bytes = draft.photoName === null ? null : drafts.photo(draft);
  if (!bytes || draft.photoName === null) return null;
  return bytes.length > SHOWN_EACH_TIME_BYTES ? 'kept' : { name: draft.photoName, bytes };
}

/** Where an offer goes: the club's channel for swaps, else where it was begun. */
const channelFor = ({ clubs }: OfferDeps, { guildId, channelId }: Pick<Draft, 'guildId' | 'channelId'>): string =>
  clubs.of(guildId).settings.swapChannelId ?? channelId;

/** A draft as the offer that it would be. */
function asOffer(
  deps: OfferDeps,
  draft: Draft,
  { pieces, details }: Extract<ReadDraft, { kind: 'read' }>,
  now: Date,
): Offer {
  const { guildId, memberId, offerId } = draft;
  const old = offerId === null ? undefined : deps.offers.find(offerId, guildId);
  const left = Math.max(0, pieces - (old ? old.pieces - old.left : 0));
  return {
    ...{ id: old?.id ?? 0, guildId, memberId, messageId: null, state: 'open', pieces, left, details },
    ...{ channelId: channelFor(deps, draft), createdAt: now, expiresAt: now, remindedAt: null },
  };
}

const ALWAYS = ['View Channel', 'Read Message History'];

/** Why nothing can be posted where it was asked; null where it can, or where the club has a channel for it. */
export function hindrance(
  { clubs }: OfferDeps,
  { guildId, channelId, place }: Request,
  hasPhoto: boolean,
): MessageView | null {
  if (guildId === null || channelId === null || !place) return needsAClubView();
  const { swapChannelId } = clubs.of(guildId).settings;
  if (swapChannelId !== null && swapChannelId !== channelId) return null;
  const write = place.kind === 'thread' ? 'Send Messages in Threads' : 'Send Messages';
  const lacks = [...ALWAYS, write, ...(hasPhoto ? ['Attach Files'] : [])].filter((name) => place.lacks.includes(name));
  return lacks.length > 0 ? cannotPostView(lacks) : null;
}

/** **Post it**, or **Save it** for an offer that stands already. */
export function putUp(deps: OfferDeps, draft: Draft, request: Request): Answer {
  const read = readTyped(deps, draft, request);
  if (read.kind === 'trouble') return draftTroubleView(draft, read.troubles);
  const { now } = request;
  if (draft.offerId !== null) {
    const changed = deps.keeping.change(draft, read, now);
    if (changed.kind === 'gone') return draftGoneView();
    return changed.kind === 'taken' ? tooFewView(changed.taken) : { ...changedView(changed.offer), replaces: true };
  }
  const hindered = hindrance(deps, { ...request, channelId: draft.channelId }, draft.photoName !== null);
  if (hindered && request.channelId === draft.channelId) return hindered;
  const posted = deps.keeping.post(draft, read, channelFor(deps, draft), now);
  switch (posted.kind) {
    case 'posted':
      return postedView(posted.offer);
    case 'gone':
      return draftGoneView();
    case 'too-many':
      return tooManyOffersView();
  }
}

/** An offer cannot have fewer pieces than were promised or given. */
export const tooFewView = (taken: number): MessageView =>
  noted(
    'More are promised than that',
    md`${taken} ${taken === 1 ? 'piece is' : 'pieces are'} promised or handed over, so there are at least ${taken}. Nothing was changed.`,
  );
