import { joined, md, mentionOf, type Block, type ButtonView, type Markdown, type MessageView, type SelectOption } from '../discord/message-view.ts'; // prettier-ignore
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { noted } from './draft.view.ts';
import { dateOf, describedBlocks, leftInWords } from './offer-card.view.ts';
import { MOST_OFFERS, RENEWABLE_DAYS, type Offer, type SwapPromise, type Want } from './offer.ts';
import type { Renewed, Undone } from './keeper-acts.ts';
import { cardLink, renewButton } from './told.view.ts';
import { wholeWarnings } from './warnings.ts';

type Books = Pick<KnowledgeBase, 'corals' | 'critters'>;

/** Offers on one page of a member's list: one message shows them whole. */
export const MINE_ON_A_PAGE = 10;

export type Mine = {
  offers: readonly Offer[];
  page: number;
  wants: readonly Want[];
  promises: readonly SwapPromise[];
  nameOf: (offerId: number) => string;
  memberId: string;
  /** What was begun and neither posted nor thrown away. */
  draft: { id: number; name: string } | null;
};

/** Everything of a member's: what they offer, look for, promised and were promised. */
export function mineView({ offers, page, wants, promises, nameOf, memberId, draft }: Mine): MessageView {
  const from = page * MINE_ON_A_PAGE;
  const shown = offers.slice(from, from + MINE_ON_A_PAGE);
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Your swaps`),
      text(
        offers.length === 0
          ? md`**You offer** nothing yet. **/frag offer** begins with choosing a coral.`
          : joined([md`**You offer:**`, ...shown.map(offerLine)]),
      ),
      ...(shown.length > 0 ? [select('frag-offer-menu', 'Open one of your offers', shown.map(offerOption))] : []),
      text(
        wants.length === 0
          ? md`**You look for** nothing. **/frag want** tells you when somebody has it.`
          : joined([md`**You look for:**`, ...wants.slice(0, MOST_SHOWN).map(wantLine)]),
        1,
      ),
      ...(wants.length > 0 ? [select('frag-want-end', 'End something that you look for', wants.map(wantOption))] : []),
      ...(promises.length > 0
        ? [
            text(
              joined([
                md`**Promised:**`,
                ...promises.slice(0, MOST_SHOWN).map((each) => promiseLine(each, nameOf, memberId)),
                md`-# **/frag promises** hands them over or lets them go.`,
              ]),
              2,
            ),
          ]
        : []),
      buttons(
        ...(draft ? [{ label: `Go on with ${draft.name}`, act: 'frag-draft-show', args: [String(draft.id)] }] : []),
        ...(page > 0 ? [pageButton('Before', page - 1)] : []),
        ...(offers.length > from + MINE_ON_A_PAGE ? [pageButton('More', page + 1)] : []),
      ),
    ],
  };
}
const MOST_SHOWN = 12;
const pageButton = (label: string, page: number): ButtonView => ({ label, act: 'frag-mine', args: [String(page)] });

const offerLine = (offer: Offer): Markdown =>
  md`- ${offer.details.name} (offer ${offer.id}): ${stateInWords(offer)}. ${cardLink(offer)}`;

function stateInWords(offer: Offer): Markdown {
  switch (offer.state) {
    case 'open':
      return md`${leftInWords(offer)}, until ${dateOf(offer.expiresAt)}`;
    case 'expired':
      return md`ended ${dateOf(offer.expiresAt, 'R')}; one press puts it up again`;
    case 'withdrawn':
      return md`withdrawn`;
    case 'hidden':
      return md`taken down by a curator`;
  }
}
const offerOption = (offer: Offer): SelectOption => ({
  label: offer.details.name,
  value: String(offer.id),
  description: `Offer ${offer.id}: ${leftInWords(offer)}`,
});
const wantLine = ({ words, driveKm }: Want): Markdown =>
  md`- ${words}${driveKm === null ? md`` : md`, up to ${driveKm} km away`}`;
const wantOption = ({ id, words }: Want): SelectOption => ({ label: words, value: String(id) });

function promiseLine(
  { offerId, giverId, takerId, state }: SwapPromise,
  nameOf: Mine['nameOf'],
  memberId: string,
): Markdown {
  const gives = giverId === memberId;
  const how = state === 'promised' ? md`promised` : md`in line`;
  const name = nameOf(offerId);
  return gives ? md`- ${name} to ${mentionOf(takerId)}: ${how}` : md`- ${name} from ${mentionOf(giverId)}: ${how}`;
}

/** One's own offer with what can be done to it. */
export function keeperView(offer: Offer, promises: readonly SwapPromise[], canUndo: boolean): MessageView {
  const live = promises.filter(({ state }) => state === 'promised' || state === 'queued');
  const id = [String(offer.id)];
  const stands = offer.state === 'open' || offer.state === 'expired';
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Your offer ${offer.id}: ${offer.details.name}`),
      text(md`${stateInWords(offer)}. ${cardLink(offer)}`),
      ...(live.length > 0
        ? [text(joined(live.map(({ takerId, state }) => md`- ${mentionOf(takerId)}: ${state === 'promised' ? 'promised a piece' : 'in line'}`)))] // prettier-ignore
        : []),
      ...(offer.state === 'hidden' ? [text(md`Ask a curator why. What you wrote is kept.`)] : []),
      buttons(
        ...(stands ? [{ label: 'Edit', act: 'frag-edit', args: id }, renewButton(offer)] : []),
        ...(offer.state === 'withdrawn' && offer.messageId === null ? [renewButton(offer)] : []),
        ...(stands
          ? [{ label: 'Withdraw', act: 'frag-withdraw', args: id, style: 'danger' } satisfies ButtonView]
          : []),
        ...(canUndo ? [undoButton(offer.id)] : []),
      ),
      text(md`-# The same by typing: **/frag edit**, **/frag renew**, **/frag withdraw**, **/frag undo**.`),
    ],
  };
}

/** For whoever presses the menu on another member's card. */
export const notKeeperView = ({ memberId, details }: Offer): MessageView =>
  noted(
    'That is its keeper’s menu',
    md`${mentionOf(memberId)} offers **${details.name}**. **I’d like one** on the card is for you; **/frag mine** shows what is yours.`,
  );

export const noSuchOfferView = (): MessageView =>
  noted('I find no such offer of yours', md`Choose it from the list while you type, or open it with **/frag mine**.`);

export const noneOpenView = (): MessageView =>
  noted('Nobody offers that now', md`Choose it from the list while you type. **/frag want** tells you when one comes.`);

export const changedView = (offer: Offer): MessageView =>
  withButtons(noted(`Saved: ${offer.details.name}`, md`Its card follows. ${cardLink(offer)}`), [undoButton(offer.id)]);

export function renewedView(result: Renewed): MessageView {
  switch (result.kind) {
    case 'renewed':
      return withButtons(
        noted(
          `Renewed: ${result.offer.details.name}`,
          md`It stands until ${dateOf(result.offer.expiresAt)}. ${cardLink(result.offer)}`,
        ),
        [undoButton(result.offer.id)],
      );
    case 'too-many':
      return noted(
        'That is a lot of offers',
        md`${MOST_OFFERS} may stand at once. Withdraw one first. Nothing was changed.`,
      );
    case 'too-late':
      return noted(
        'It ended too long ago',
        md`An offer can be put up again for ${RENEWABLE_DAYS} days. **/frag offer** begins a new one.`,
      );
    case 'hidden':
      return noted('A curator took it down', md`Ask a curator why. What you wrote is kept.`);
    case 'withdrawn':
      return noted('You withdrew it', md`**/frag undo** takes that back; **/frag offer** begins a new one.`);
  }
}

/** Before others lose what they were promised. */
export const sureView = (offer: Offer, live: readonly SwapPromise[]): MessageView =>
  withButtons(
    {
      ...noted(
        `Withdraw ${offer.details.name}?`,
        joined(live.map(({ takerId, state }) => md`- ${mentionOf(takerId)} ${state === 'promised' ? 'was promised a piece' : 'is in line'}`)), // prettier-ignore
        md`They lose it, and I tell each of them. Nothing has changed yet.`,
        md`-# By typing: **/frag withdraw** with **sure:yes**.`,
      ),
      tone: 'watch',
    },
    [
      { label: 'Withdraw it all the same', act: 'frag-withdraw-sure', args: [String(offer.id)], style: 'danger' },
      { label: 'Keep it', act: 'frag-offer-menu', args: [String(offer.id)] },
    ],
  );

export const withdrawnView = (offer: Offer, told: number): MessageView =>
  withButtons(
    noted(
      `Withdrawn: ${offer.details.name}`,
      md`Nobody is offered it any more. ${told === 0 ? '' : told === 1 ? 'One member who waited is told.' : `${told} members who waited are told.`}`,
    ),
    [undoButton(offer.id)],
  );
export const overView = (): MessageView =>
  noted('It is off already', md`That offer stands no more. **/frag mine** shows what does.`);

export function undoneView(result: Undone): MessageView {
  switch (result.kind) {
    case 'undone': {
      const { what, offer, live } = result;
      const done = { edit: 'your change', renew: 'the renewal', withdraw: 'the withdrawal' }[what];
      const back = what === 'withdraw' && live.length > 0 ? ' Whoever waited has it back and is told.' : '';
      return noted(`Taken back: ${offer.details.name}`, md`I took back ${done}.${back} Now: ${stateInWords(offer)}.`);
    }
    case 'nothing':
      return noted(
        'There is nothing to take back',
        md`Nothing of yours was changed last, or a curator did something since.`,
      );
    case 'too-many':
      return noted(
        'That is a lot of offers',
        md`${MOST_OFFERS} may stand at once. Withdraw one first. Nothing was changed.`,
      );
    case 'taken':
      return noted(
        'More are promised than there were',
        md`${result.taken} are promised or handed over by now. Nothing was changed.`,
      );
  }
}

/** An offer with everything that the books say, for whoever thinks of taking a piece. */
export function lookView(base: Books, offer: Offer, now: Date): MessageView {
  const coral = offer.details.coral === null ? undefined : base.corals.get(offer.details.coral);
  const described = describedBlocks(base, offer, now, null).slice(0, 2);
  return {
    audience: 'member',
    tone: coral?.palytoxin ? 'watch' : 'plain',
    blocks: [
      text(md`## Before you take one: ${offer.details.name}`),
      ...wholeWarnings(coral).map((words, at) => text(words, at)),
      { kind: 'rule' },
      ...described,
      text(md`${cardLink(offer)}`),
      ...(offer.state === 'open'
        ? [buttons({ label: offer.left > 0 ? 'I’d like one' : 'Put me in line', act: 'frag-promise', args: [String(offer.id)], style: 'primary' })] // prettier-ignore
        : []),
    ],
  };
}

const undoButton = (id: number): ButtonView => ({ label: 'Undo', act: 'frag-undo', args: [String(id)] });
export const withButtons = (view: MessageView, list: readonly ButtonView[]): MessageView => ({
  ...view,
  blocks: [...view.blocks, { kind: 'buttons', buttons: list }],
});
const text = (words: Markdown, fold = 0): Block => ({ kind: 'text', text: words, ...(fold > 0 ? { fold } : {}) });
const buttons = (...list: ButtonView[]): Block => ({ kind: 'buttons', buttons: list });
const select = (act: string, placeholder: string, options: readonly SelectOption[]): Block => ({
  kind: 'select',
  act,
  args: [],
  placeholder,
  options,
});
