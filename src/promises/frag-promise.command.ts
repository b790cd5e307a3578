import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import { md, type Answer, type Choice, type GivenMember, type Request } from '../discord/message-view.ts';
import type { Offer } from '../swaps/offer.ts';
import { offerChoices, offerMeant } from './offer-option.ts';
import { actorOf, type KeptPromise } from './promise.ts';
import { noteNoShow, openThread, press, standView, take, type Party, type PromiseDeps } from './promise.command.ts';
import * as view from './promise.view.ts';
import type { Role } from './promise-words.ts';

const Member = z.custom<GivenMember>(
  (value) => typeof value === 'object' && value !== null && 'id' in value && 'isBot' in value,
);

const OFFER: OptionSpec = { name: 'offer', description: 'Which offer', required: true, autocomplete: true };
const WITH: OptionSpec = {
  kind: 'member',
  name: 'with',
  description: 'The other of you two, where several have one of it',
  required: false,
};
const DOES = [
  'ask for one',
  'show',
  'release',
  'a week longer',
  'open a thread',
  'did not come',
  'came after all',
  'not handed over',
] as const;

const isLive = ({ state }: KeptPromise) => state === 'queued' || state === 'promised';

/** `/frag promise | promises | handed | block | unblock | record`. */
export function promiseCommands(deps: PromiseDeps): AnyCommand[] {
  const { promises, offers } = deps;

  /** Offers that a member has to do with, the newest first. */
  const mine = (guildId: string, memberId: string): Offer[] => {
    const ids = new Set(promises.withMember(guildId, memberId).map(({ offerId }) => offerId));
    return [...ids].reverse().flatMap((id) => offers.find(id, guildId) ?? []);
  };
  const known = (guildId: string, memberId: string, now: Date): Offer[] => {
    const own = mine(guildId, memberId);
    const ids = new Set(own.map(({ id }) => id));
    return [...own, ...offers.open(guildId, now).filter(({ id, memberId: by }) => !ids.has(id) && by !== memberId)];
  };
  const suggest = (typed: string, { guildId, memberId, now }: Request, ownOnly: boolean): Choice[] =>
    guildId === null ? [] : offerChoices(ownOnly ? mine(guildId, memberId) : known(guildId, memberId, now), typed);

  /** The promise that is meant: the live one of this offer, else the newest. */
  const onOwn = (
    offer: Offer,
    withWhom: string | undefined,
    request: Request,
    run: (party: Party) => Answer,
  ): Answer => {
    const { memberId } = request;
    const between = promises
      .of(offer)
      .filter((each) => actorOf(each, memberId) !== 'stranger')
      .filter((each) => withWhom === undefined || each.giverId === withWhom || each.takerId === withWhom);
    const promised = between.filter(({ state }) => state === 'promised');
    const live = promised.length > 0 ? promised : between.filter(isLive);
    if (live.length > 1)
      return view.promisesView(
        live.map((promise) => shownTo(promise, memberId)),
        0,
      );
    const promise = live[0] ?? between.at(-1);
    return promise ? run({ promise, role: roleOf(promise, memberId) }) : view.noPromiseView();
  };
  const roleOf = (promise: KeptPromise, memberId: string): Role => (promise.giverId === memberId ? 'giver' : 'taker');
  const shownTo = (promise: KeptPromise, memberId: string) => ({
    shown: deps.happens.shown(promise, memberId),
    role: roleOf(promise, memberId),
  });
  const onOffer = (typed: string, request: Request, run: (offer: Offer) => Answer): Answer => {
    const { guildId, memberId, now } = request;
    if (guildId === null) return view.needsAClubView();
    const offer = offerMeant(known(guildId, memberId, now), typed) ?? offers.find(Number(typed), guildId);
    return offer ? run(offer) : view.noOfferView(typed);
  };
  const onMember =
    (run: (member: GivenMember, guildId: string, request: Request) => Answer) =>
    ({ member }: { member: GivenMember }, request: Request): Answer => {
      if (request.guildId === null) return view.needsAClubView();
      if (member.id === request.memberId) return view.saysView('That is you', md`Name another member.`);
      if (member.isBot) return view.saysView('That is a bot', md`Name a member.`);
      return run(member, request.guildId, request);
    };
  const MEMBER: OptionSpec = { kind: 'member', name: 'member', description: 'Whom', required: true };

  return [
    defineCommand({
      name: 'frag promise',
      description: 'Ask for one of a listing, or act on what is promised',
      options: [
        OFFER,
        { name: 'do', description: 'What to do; left out: ask for one', required: false, choices: DOES },
        WITH,
        {
          name: 'word',
          description: 'A word to the other, with release',
          required: false,
          mostCharacters: view.MOST_WORD,
        },
      ],
      input: z.object({
        offer: z.string().trim().min(1).max(100),
        do: z.enum(DOES).default('ask for one'),
        with: Member.optional(),
        word: z.string().trim().max(view.MOST_WORD).optional(),
      }),
      run: ({ offer: typed, do: what, with: other, word }, request) =>
        onOffer(typed, request, (offer) => {
          if (what === 'ask for one') return press(deps, offer, request);
          return onOwn(offer, other?.id, request, (party): Answer => {
            switch (what) {
              case 'show':
                return standView(deps, party, request);
              case 'release':
                return take(deps, party, 'release', request, { word: word === undefined || word === '' ? null : word });
              case 'a week longer':
                return take(deps, party, 'extend', request);
              case 'open a thread':
                return openThread(deps, party, request);
              case 'not handed over':
                return take(deps, party, 'object', request);
              case 'did not come':
              case 'came after all':
                return noteNoShow(deps, party, what === 'came after all', request);
            }
          });
        }),
      suggest: (option, typed, request) => (option === 'offer' ? suggest(typed, request, false) : []),
    }),
    defineCommand({
      name: 'frag promises',
      description: 'What is promised to you and by you, and where you wait',
      options: [],
      input: z.object({}),
      run: (_input, { guildId, memberId }) => {
        if (guildId === null) return view.needsAClubView();
        const all = promises.withMember(guildId, memberId);
        const own = new Set(all.map(({ id }) => id));
        const missed = new Set(
          promises.blocks.noShows(guildId).flatMap(({ promiseId }) => (own.has(promiseId) ? [promiseId] : [])),
        );
        return view.promisesView(
          all.filter(isLive).map((promise) => shownTo(promise, memberId)),
          missed.size,
        );
      },
    }),
    defineCommand({
      name: 'frag handed',
      description: 'A piece changed hands: say so, giver or taker',
      options: [OFFER, WITH],
      input: z.object({ offer: z.string().trim().min(1).max(100), with: Member.optional() }),
      run: ({ offer: typed, with: other }, request) =>
        onOffer(typed, request, (offer) =>
          onOwn(offer, other?.id, request, (party) =>
            take(deps, party, party.role === 'giver' ? 'hand-over' : 'receive', request),
          ),
        ),
      suggest: (option, typed, request) => (option === 'offer' ? suggest(typed, request, true) : []),
    }),
    defineCommand({
      name: 'frag block',
      description: 'Never be matched with a member; they are not told',
      options: [MEMBER],
      input: z.object({ member: Member }),
      run: onMember((member, guildId, { memberId, now }) => {
        promises.blocks.block(guildId, memberId, member.id, now);
        const between = promises
          .withMember(guildId, memberId)
          .filter(({ state, giverId, takerId }) => state === 'promised' && [giverId, takerId].includes(member.id));
        return view.blockedView(member.id, between.length);
      }),
    }),
    defineCommand({
      name: 'frag unblock',
      description: 'Takes a block back',
      options: [MEMBER],
      input: z.object({ member: Member }),
      run: onMember((member, guildId, { memberId, now }) => {
        const was = promises.blocks.unblock(guildId, memberId, member.id);
        // A piece may have waited for somebody whom the block held back.
        const held = promises
          .live(guildId)
          .filter(({ giverId, takerId }) => [giverId, takerId].every((id) => id === memberId || id === member.id));
        for (const { offerId: id } of was ? held : []) deps.happens.offerChanged({ id, guildId }, now);
        return view.unblockedView(member.id, was);
      }),
    }),
    defineCommand({
      name: 'frag record',
      description: 'How many pieces somebody gave and received',
      options: [{ ...MEMBER, required: false, description: 'Whose; left out: yours' }],
      input: z.object({ member: Member.optional() }),
      run: ({ member }, { guildId, memberId }) =>
        guildId === null
          ? view.needsAClubView()
          : view.recordView(
              member?.id ?? memberId,
              (member?.id ?? memberId) === memberId,
              promises.record(guildId, member?.id ?? memberId),
            ),
    }),
  ];
}
