import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct, type OptionSpec } from '../discord/command.ts';
import type { Answer, Choice, Request } from '../discord/message-view.ts';
import { offerChoices, offerMeant } from '../promises/offer-option.ts';
import { namedIn, typedFrom } from './draft.ts';
import { draftForm } from './draft-form.view.ts';
import { needsAClubView } from './draft.view.ts';
import {
  keeperView,
  lookView,
  mineView,
  MINE_ON_A_PAGE,
  noneOpenView,
  noSuchOfferView,
  notKeeperView,
  overView,
  renewedView,
  sureView,
  undoneView,
  withdrawnView,
} from './keeper.view.ts';
import { goOn, type OfferDeps } from './offering.command.ts';
import { RENEWABLE_DAYS, type Offer } from './offer.ts';
import { endWant, wantChoices, wantMeant } from './want.command.ts';

const DAY_MS = 86_400_000;

/** What a member has to do with: what is over for good is left out. */
const listed = ({ offers, acts }: OfferDeps, guildId: string, memberId: string, now: Date): Offer[] =>
  offers.own(guildId, memberId).filter((offer) => {
    const { state, expiresAt, messageId } = offer;
    if (state === 'withdrawn') return messageId === null && acts.last(offer) === undefined;
    return state !== 'expired' || expiresAt.getTime() + RENEWABLE_DAYS * DAY_MS > now.getTime();
  });

function mine(deps: OfferDeps, { guildId, memberId, now }: Request, page = 0): Answer {
  if (guildId === null) return needsAClubView();
  const offers = listed(deps, guildId, memberId, now).toReversed();
  const last = deps.drafts.last(guildId, memberId);
  const isThere = page >= 0 && page * MINE_ON_A_PAGE < offers.length;
  return mineView({
    offers,
    memberId,
    page: isThere ? page : 0,
    wants: deps.wants.own(guildId, memberId),
    promises: deps.promises
      .withMember(guildId, memberId)
      .filter(({ state }) => state === 'promised' || state === 'queued'),
    nameOf: (id) => deps.offers.find(id, guildId)?.details.name ?? `offer ${id}`,
    draft: last ? { id: last.id, name: namedIn(last.typed.coral, deps).name } : null,
  });
}

const card = (deps: OfferDeps, offer: Offer): Answer =>
  keeperView(offer, deps.promises.of(offer), deps.acts.last(offer) !== undefined);

/** The form of an offer that stands: a draft that changes it. */
function edit(deps: OfferDeps, offer: Offer, { channelId, now }: Request): Answer {
  if (offer.state === 'hidden') return renewedView({ kind: 'hidden' });
  if (offer.state === 'withdrawn') return overView();
  const { id: offerId, guildId, memberId } = offer;
  return draftForm(
    deps.drafts.add(
      { guildId, memberId, channelId: channelId ?? offer.channelId, offerId, typed: typedFrom(offer) },
      now,
    ),
  );
}

function withdraw({ keeping }: OfferDeps, offer: Offer, isSure: boolean, now: Date): Answer {
  const result = keeping.withdraw(offer, isSure, now);
  switch (result.kind) {
    case 'withdrawn':
      return withdrawnView(result.offer, result.told.length);
    case 'ask':
      return sureView(offer, result.live);
    case 'over':
      return overView();
  }
}

const offerOption = (description: string, required = true): OptionSpec => ({
  name: 'offer',
  description,
  required,
  autocomplete: true,
  mostCharacters: 100,
});

/** `/frag mine`, `edit`, `renew`, `withdraw`, `undo` and `look`: the ways that every button has by typing, too. */
export function keeperCommands(deps: OfferDeps): AnyCommand[] {
  const own = (request: Request): Offer[] =>
    request.guildId === null ? [] : listed(deps, request.guildId, request.memberId, request.now).toReversed();
  const open = ({ guildId, now }: Request): Offer[] => (guildId === null ? [] : deps.offers.open(guildId, now));
  const onOwn = (name: string, description: string, run: (offer: Offer, request: Request) => Answer): AnyCommand =>
    defineCommand({
      name: `frag ${name}`,
      description,
      options: [offerOption('Which of your offers')],
      input: z.object({ offer: z.string() }),
      run: ({ offer: typed }, request) => {
        if (request.guildId === null) return needsAClubView();
        const offer = offerMeant(own(request), typed);
        return offer ? run(offer, request) : noSuchOfferView();
      },
      suggest: (_option, typed, request) => offerChoices(own(request), typed),
    });
  return [
    defineCommand({
      name: 'frag mine',
      description: 'Your swaps: what you offer, look for, promised and were promised',
      options: [],
      input: z.object({}),
      run: (_input, request) => mine(deps, request),
    }),
    defineCommand({
      name: 'frag edit',
      description: 'Change what an offer says; without one, go on with what you began',
      options: [offerOption('Which of your offers', false)],
      input: z.object({ offer: z.string().optional() }),
      run: ({ offer: typed }, request) => {
        const { guildId, memberId } = request;
        if (guildId === null) return needsAClubView();
        const draft = typed === undefined ? deps.drafts.last(guildId, memberId) : undefined;
        if (draft) return goOn(deps, draft, request);
        const offer = offerMeant(own(request), typed ?? '');
        return offer ? edit(deps, offer, request) : noSuchOfferView();
      },
      suggest: (_option, typed, request) => offerChoices(own(request), typed),
    }),
    onOwn('renew', 'Let an offer stand for 45 more days, or put one up again that has ended', (offer, { now }) =>
      renewedView(deps.keeping.renew(offer, now)),
    ),
    withdrawCommand(deps, own),
    defineCommand({
      name: 'frag undo',
      description: 'Take back the last thing you did to an offer: a change, a renewal, a withdrawal',
      options: [],
      input: z.object({}),
      run: (_input, { guildId, memberId, now }) => {
        if (guildId === null) return needsAClubView();
        const id = deps.acts.lastOffer(guildId, memberId);
        const offer = id === undefined ? undefined : deps.offers.find(id, guildId);
        return undoneView(offer ? deps.keeping.undo(offer, now) : { kind: 'nothing' });
      },
    }),
    defineCommand({
      name: 'frag look',
      description: 'Before you take one: what an offered coral needs and what to mind',
      options: [offerOption('Which offer of the club')],
      input: z.object({ offer: z.string() }),
      run: ({ offer: typed }, request) => {
        if (request.guildId === null) return needsAClubView();
        const offer = offerMeant(open(request), typed);
        return offer ? lookView(deps.base, offer, request.now) : noneOpenView();
      },
      suggest: (_option, typed, request) => offerChoices(open(request), typed),
    }),
  ];
}

/** It ends a want as well: whoever looks for a word of theirs need not know which list it stands in. */
const withdrawCommand = (deps: OfferDeps, own: (request: Request) => Offer[]): AnyCommand =>
  defineCommand({
    name: 'frag withdraw',
    description: 'Take an offer back, or end something that you look for',
    options: [
      offerOption('Which of your offers, or of what you look for'),
      { name: 'sure', description: 'Yes: even where somebody was promised a piece', required: false, choices: ['yes'] },
    ],
    input: z.object({ offer: z.string(), sure: z.literal('yes').optional() }),
    run: ({ offer: typed, sure }, request) => {
      if (request.guildId === null) return needsAClubView();
      const offer = offerMeant(own(request), typed);
      if (offer) return withdraw(deps, offer, sure === 'yes', request.now);
      const want = wantMeant(deps.wants.own(request.guildId, request.memberId), typed);
      return want ? endWant(deps, want) : noSuchOfferView();
    },
    suggest: (_option, typed, request): Choice[] => {
      const wants = request.guildId === null ? [] : deps.wants.own(request.guildId, request.memberId);
      return [...offerChoices(own(request), typed), ...wantChoices(wants, typed)].slice(0, 25);
    },
  });

/** The buttons of one's own offers, on the card, in the list and in direct messages. */
export function keeperButtons(deps: OfferDeps): ButtonAct[] {
  const onOwn = (name: string, run: (offer: Offer, request: Request) => Answer): ButtonAct => ({
    act: name,
    run: ([id], request, chosen = []) => {
      const offer = deps.offers.findAnywhere(Number(chosen[0] ?? id));
      if (!offer || (request.guildId !== null && offer.guildId !== request.guildId)) return noSuchOfferView();
      return offer.memberId === request.memberId ? run(offer, request) : notKeeperView(offer);
    },
  });
  return [
    { act: 'frag-mine', run: ([page], request) => mine(deps, request, Number(page)) },
    {
      act: 'frag-look',
      run: ([id], request) => {
        const offer = deps.offers.findAnywhere(Number(id));
        const isHere = request.guildId === null || offer?.guildId === request.guildId;
        return offer && isHere && offer.state !== 'hidden' ? lookView(deps.base, offer, request.now) : overView();
      },
    },
    onOwn('frag-offer-menu', (offer) => card(deps, offer)),
    onOwn('frag-edit', (offer, request) => edit(deps, offer, request)),
    onOwn('frag-renew', (offer, { now }) => renewedView(deps.keeping.renew(offer, now))),
    onOwn('frag-withdraw', (offer, { now }) => withdraw(deps, offer, false, now)),
    onOwn('frag-withdraw-sure', (offer, { now }) => withdraw(deps, offer, true, now)),
    onOwn('frag-undo', (offer, { now }) => undoneView(deps.keeping.undo(offer, now))),
  ];
}
