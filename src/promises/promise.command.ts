import type { ButtonAct, FormAct } from '../discord/command.ts';
import { md, type Answer, type Markdown, type MessageView, type Request } from '../discord/message-view.ts';
import { askForArrival } from '../quarantine/arrival.command.ts';
import type { QuarantineDeps } from '../quarantine/which.command.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Offer } from '../swaps/offer.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import { actorOf, type KeptPromise, type PromiseAct } from './promise.ts';
import type { PromiseStore } from './promise.store.ts';
import * as view from './promise.view.ts';
import type { Role } from './promise-words.ts';
import type { Promises } from './promises.worker.ts';

export type PromiseDeps = {
  base: Pick<KnowledgeBase, 'corals' | 'critters'>;
  offers: OfferStore;
  promises: PromiseStore;
  happens: Promises;
  quarantining: QuarantineDeps;
};

/** A member who stands on one side of a promise. */
export type Party = { promise: KeptPromise; role: Role };

/** The answer to an act: in a direct message it takes the place of the one that was pressed. */
const answered = (answer: MessageView, { guildId }: Request): MessageView =>
  guildId === null ? { ...answer, replaces: true } : answer;

/** How a promise stands for one of its two, after what has just happened. */
export function standView(
  { happens }: PromiseDeps,
  { promise, role }: Party,
  request: Request,
  first?: Markdown,
): MessageView {
  const shown = happens.shown(promise, request.memberId);
  return answered(view.promiseView(shown, role, happens.coralOf(shown.offer), first), request);
}

/** The press on "I’d like one", from the card or by its command. */
export function press(deps: PromiseDeps, offer: Offer, { memberId, now }: Request): MessageView {
  const { happens, promises } = deps;
  const result = happens.press(offer, memberId, now);
  switch (result.kind) {
    case 'own':
      return view.ownView();
    case 'closed':
      return view.closedView();
    case 'gone':
      return view.goneView(offer);
    case 'blocked':
      return promises.blocks.by(offer.guildId, memberId).includes(offer.memberId)
        ? view.youBlockedView(offer.memberId)
        : view.cannotView();
    case 'promised':
    case 'queued':
    case 'already': {
      const shown = happens.shown(result.promise, memberId);
      return view.pressedView(shown, result.kind !== 'already', happens.coralOf(shown.offer));
    }
  }
}

/** One act of one of the two, and how it then stands. */
export function take(
  deps: PromiseDeps,
  party: Party,
  act: PromiseAct,
  request: Request,
  { word = null, first }: { word?: string | null; first?: Markdown } = {},
): MessageView {
  const { happens } = deps;
  const changesHands = act === 'hand-over' || act === 'receive';
  if (changesHands && happens.shown(party.promise).ringAsked) return view.ringAskedView();
  const result = happens.act(party.promise, act, request.memberId, request.now, word);
  if (result.kind === 'moved') return standView(deps, { ...party, promise: result.promise }, request, first);
  const shown = happens.shown(deps.promises.findAnywhere(party.promise.id) ?? party.promise, request.memberId);
  return answered(view.refusedView(result.why, shown, party.role), request);
}

export function openThread(deps: PromiseDeps, { promise }: Party, { memberId, now }: Request): MessageView {
  const opened = deps.happens.openThread(promise, now);
  if (opened.kind === 'none') return view.noThreadView(promise, memberId);
  return view.threadView(opened.kind === 'there' ? opened.threadId : null);
}

/** Noted for the two and the curators: the other is not told, and nothing follows from it. */
export function noteNoShow(deps: PromiseDeps, party: Party, came: boolean, request: Request): MessageView {
  const { promise } = party;
  const { blocks } = deps.promises;
  if (came) blocks.takeBackNoShow(promise, request.memberId);
  else if (promise.state === 'queued' || promise.state === 'handed-over')
    return standView(deps, party, request, md`Nobody was expected: nothing was noted.`);
  else blocks.noteNoShow(promise, request.memberId, request.now);
  const until = promise.state === 'promised' ? promise.until : null;
  return standView(deps, party, request, came ? md`Good. The note is gone.` : view.noShowNoted(until));
}

function startQuarantine({ base, happens, quarantining }: PromiseDeps, { promise, role }: Party, now: Date): Answer {
  if (role !== 'taker' || !(promise.takerSaid || promise.state === 'handed-over'))
    return view.saysView('Not yet', md`Its quarantine starts once you have it: press **I have it** first.`);
  const { offer } = happens.shown(promise);
  const coral = happens.coralOf(offer);
  const pests = (offer.details.pestsSeen ?? []).flatMap((id) => base.critters.get(id)?.name ?? []);
  const { guildId, takerId: memberId } = promise;
  const words = [...(coral ? [coral.name, ...coral.hobbyNames] : []), ...pests];
  return askForArrival(
    quarantining,
    { guildId, channelId: offer.channelId, memberId, name: offer.details.name, words },
    now,
  );
}

/** The two of a promise, wherever they press; anybody else is told so. */
export function partyOf(
  { promises }: PromiseDeps,
  id: string | undefined,
  { guildId, memberId }: Request,
): Party | MessageView {
  const promise = promises.findAnywhere(Number(id));
  if (!promise || (guildId !== null && promise.guildId !== guildId)) return view.noPromiseView();
  const role = actorOf(promise, memberId);
  return role === 'giver' || role === 'taker' ? { promise, role } : view.notYoursView();
}

/** The buttons of cards and promises. Each checks for itself who may press it. */
export function promiseButtons(deps: PromiseDeps): ButtonAct[] {
  const { offers } = deps;
  const onOwn = (act: string, run: (party: Party, request: Request) => Answer): ButtonAct => ({
    act,
    run: ([id], request, chosen = []) => {
      const party = partyOf(deps, chosen[0] ?? id, request);
      return 'role' in party ? run(party, request) : party;
    },
  });
  const taking = (act: string, what: PromiseAct, first?: Markdown) =>
    onOwn(act, (party, request) => take(deps, party, what, request, first ? { first } : {}));
  return [
    {
      act: 'frag-promise',
      run: ([id], request) => {
        const offer = offers.findAnywhere(Number(id));
        const isElsewhere = request.guildId !== null && offer?.guildId !== request.guildId;
        if (!offer || isElsewhere) return view.noOfferView();
        // From a direct message only somebody who had to do with this offer can press it.
        const isKnown = deps.promises.of(offer).some(({ takerId }) => takerId === request.memberId);
        return request.guildId === null && !isKnown ? view.noOfferView() : press(deps, offer, request);
      },
    },
    onOwn('frag-open', (party, request) => standView(deps, party, request)),
    onOwn('frag-release', (party, request) => {
      const shown = deps.happens.shown(party.promise, request.memberId);
      const { state, giverSaid, takerSaid } = party.promise;
      const isLive = state === 'queued' || (state === 'promised' && !giverSaid && !takerSaid);
      return isLive
        ? view.releaseForm(shown, party.role)
        : view.refusedView(state === 'promised' ? 'said' : 'over', shown, party.role);
    }),
    taking('frag-handed', 'hand-over'),
    taking('frag-have', 'receive'),
    taking('frag-not-so', 'object', md`Noted: it has not changed hands. The other was told.`),
    taking('frag-extend', 'extend', md`A week longer. The other was told.`),
    onOwn('frag-thread', (party, request) => openThread(deps, party, request)),
    onOwn('frag-no-show', (party, request) => noteNoShow(deps, party, false, request)),
    onOwn('frag-came', (party, request) => noteNoShow(deps, party, true, request)),
    onOwn('frag-arrival', (party, { now }) => startQuarantine(deps, party, now)),
  ];
}

/** The form that lets go with a word. */
export const promiseForms = (deps: PromiseDeps): FormAct[] => [
  {
    act: 'frag-released',
    run: ([id], filled, request) => {
      const party = partyOf(deps, id, request);
      if (!('role' in party)) return party;
      const word = (filled[view.WORD_FIELD] ?? '').trim().slice(0, view.MOST_WORD);
      return take(deps, party, 'release', request, { word: word === '' ? null : word });
    },
  },
];
