import { md, mentionOf, type Block, type FormView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Coral } from '../knowledge/coral.ts';
import type { Offer } from '../swaps/offer.ts';
import type { Refusal } from './promise.ts';
import {
  arrivalWords,
  buttonsFor,
  moment,
  ordinal,
  standing,
  titleOf,
  type Role,
  type ShownPromise,
} from './promise-words.ts';

export const WORD_FIELD = 'word';
export const MOST_WORD = 200;

const text = (markdown: Markdown): Block => ({ kind: 'text', text: markdown });

export const saysView = (title: string, ...lines: Markdown[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [text(md`## ${title}`), ...lines.map(text)],
});

const buttonBlock = (shown: ShownPromise, role: Role, token: string): Block[] => {
  const buttons = buttonsFor(shown, role, token);
  return buttons.length > 0 ? [{ kind: 'buttons', buttons }] : [];
};

/** A promise as one of its two sees it, with what they may do. `first` says what has just happened. */
export function promiseView(
  shown: ShownPromise,
  role: Role,
  coral: Coral | undefined,
  first?: Markdown,
  token = 'answer',
): MessageView {
  const { promise } = shown;
  const hasArrived = role === 'taker' && (promise.takerSaid || promise.state === 'handed-over');
  return {
    audience: 'member',
    tone: hasArrived ? 'watch' : 'plain',
    blocks: [
      text(md`## ${titleOf(shown, role)}`),
      ...(first ? [text(first)] : []),
      text(standing(shown, role)),
      ...(hasArrived ? [text(arrivalWords(shown, coral))] : []),
      ...buttonBlock(shown, role, token),
      ...(hasArrived && promise.state !== 'handed-over'
        ? [
            {
              kind: 'buttons',
              buttons: [
                {
                  label: 'Start its quarantine',
                  act: 'frag-arrival',
                  args: [String(promise.id), 'early'],
                  style: 'primary',
                },
              ],
            } satisfies Block,
          ]
        : []),
    ],
  };
}

/** What the taker reads after the press. */
export function pressedView(shown: ShownPromise, isNew: boolean, coral: Coral | undefined): MessageView {
  const { promise, place } = shown;
  if (promise.state === 'queued') {
    const first = isNew ? md`You are noted.` : md`You pressed before: you are still **${ordinal(place ?? 1)}**.`;
    return promiseView(shown, 'taker', coral, first);
  }
  const told = isNew
    ? md`${mentionOf(promise.giverId)} was told. Agree where and when: **Open a thread**, or write to them.`
    : md`It is promised to you already.`;
  return promiseView(shown, 'taker', coral, told, isNew ? 'promised-now' : 'answer');
}

export const ownView = (): MessageView => saysView('Those are yours', md`**/frag promises** shows who waits for them.`);

export const closedView = (): MessageView =>
  saysView('This offer is closed', md`Nothing was promised. **/frag find** shows what is offered now.`);

export const goneView = ({ details }: Offer): MessageView =>
  saysView(
    'All of them have found a home',
    md`None of **${details.name}** is left to wait for. **/frag want** tells you when somebody offers one.`,
  );

/** Says nothing of a block to the one who was blocked. */
/** A piece that is kept for a ring changes hands only when all of the ring said yes. */
export const ringAskedView = (): MessageView =>
  saysView(
    'The ring has not answered yet',
    md`This piece is kept for a ring. Hand it over when all of them said yes; I tell you then. Nothing was noted.`,
  );

export const cannotView = (): MessageView => saysView('Not just now', md`This piece cannot be promised just now.`);

export const youBlockedView = (memberId: string): MessageView =>
  saysView(
    'You blocked this member',
    md`Nothing is promised between you and ${mentionOf(memberId)}. **/frag unblock** ends that.`,
  );

export const noOfferView = (typed?: string): MessageView =>
  saysView(
    'I don’t know that offer',
    typed === undefined
      ? md`It may be gone. **/frag find** shows what is offered now.`
      : md`I read “${typed.slice(0, 60)}”. Choose one from the list while you type.`,
  );

export const needsAClubView = (): MessageView =>
  saysView('Only in a club', md`Use this in a channel of your club’s server.`);

export const notYoursView = (): MessageView =>
  saysView(
    'That is between two others',
    md`Only the two whose promise it is can press that. To get a piece yourself, press **I’d like one** on its card.`,
  );

export const noPromiseView = (): MessageView =>
  saysView(
    'Nothing is promised there',
    md`You have no promise and no place in the queue for it. **/frag promises** shows what you have.`,
  );

const WHY: Record<Refusal | 'gone', string> = {
  'not-yours': 'Only the other of you two can do that.',
  over: 'It is over: nothing was changed.',
  waiting: 'It still waits in the queue, so there is nothing to hand over yet.',
  already: 'You did that before; once is enough.',
  said: 'One of you has said that it changed hands. If that is not so, say that first.',
  'nothing-said': 'Nobody says that it changed hands.',
  'not-yet': 'It is not time for that yet.',
  gone: 'I no longer find that promise.',
};
export const refusedView = (why: Refusal | 'gone', shown?: ShownPromise, role?: Role): MessageView => {
  const first = md`${WHY[why]}`;
  return shown && role ? promiseView(shown, role, undefined, first) : saysView('That cannot be done now', first);
};

/** Everybody may let go; a word is kind, and optional. */
export const releaseForm = ({ promise, offer }: ShownPromise, role: Role): FormView => ({
  kind: 'form',
  act: 'frag-released',
  args: [String(promise.id)],
  title: promise.state === 'queued' ? 'Leave the queue?' : `Release ${offer.details.name}`.slice(0, 45),
  fields: [
    {
      kind: 'line',
      name: WORD_FIELD,
      label: 'A word, if you like',
      description: `${role === 'giver' ? 'The taker' : 'The giver'} reads it. Sending frees the piece; closing changes nothing.`,
      required: false,
      mostCharacters: MOST_WORD,
      placeholder: 'Sorry, my tank has no room this month',
    },
  ],
});

/** All that a member gives and takes just now. */
export function promisesView(list: readonly { shown: ShownPromise; role: Role }[], noted: number): MessageView {
  const missed = noted === 1 ? 'One hand-over is' : `${noted} hand-overs are`;
  const foot =
    noted > 0
      ? [md`-# ${missed} noted as missed between you and another; only the two of you and the curators see that.`]
      : [];
  if (list.length === 0)
    return saysView(
      'Nothing is promised just now',
      md`Press **I’d like one** on a card, or look with **/frag find**.`,
      ...foot,
    );
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Your promises`),
      ...list
        .slice(0, MOST_LISTED)
        .map(({ shown, role }, at) => text(md`**${at + 1}. ${titleOf(shown, role)}.** ${standing(shown, role)}`)),
      ...(list.length > MOST_LISTED ? [text(md`-# And ${list.length - MOST_LISTED} more.`)] : []),
      {
        kind: 'select',
        act: 'frag-open',
        args: [],
        placeholder: 'Open one of them',
        options: list.slice(0, MOST_LISTED).map(({ shown, role }, at) => ({
          label: `${at + 1}. ${role === 'giver' ? 'You give' : 'You get'}: ${shown.offer.details.name}`.slice(0, 100),
          value: String(shown.promise.id),
          description: shown.promise.state === 'queued' ? `${ordinal(shown.place ?? 1)} in the queue` : 'promised',
        })),
      },
      ...foot.map(text),
    ],
  };
}
const MOST_LISTED = 20;

/** Hand-overs in numbers; nothing else is kept for others to read. */
export const recordView = (
  memberId: string,
  isOwn: boolean,
  record: { given: number; received: number },
): MessageView => {
  const pieces = (count: number) => (count === 1 ? '1 piece' : `${count} pieces`);
  const { given, received } = record;
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(isOwn ? md`## Your hand-overs` : md`## Hand-overs of ${mentionOf(memberId)}`),
      text(
        given + received === 0
          ? md`None so far. Everybody begins somewhere.`
          : md`Given: **${pieces(given)}**. Received: **${pieces(received)}**.`,
      ),
      text(md`-# Counted when both said so, or one did and the other did not object.`),
    ],
  };
};

export const blockedView = (memberId: string, running: number): MessageView =>
  saysView(
    'Blocked',
    md`You and ${mentionOf(memberId)} are never matched, and neither can ask for the other’s pieces. They are not told.`,
    ...(running > 0
      ? [
          md`${running === 1 ? 'One promise runs' : `${running} promises run`} between you and stays until one of you lets go: **/frag promises**.`,
        ]
      : []),
    md`-# **/frag unblock** takes it back.`,
  );

export const unblockedView = (memberId: string, was: boolean): MessageView =>
  was
    ? saysView('Unblocked', md`You and ${mentionOf(memberId)} can be matched again.`)
    : saysView('Nothing to take back', md`You had not blocked ${mentionOf(memberId)}.`);

export const threadView = (threadId: string | null): MessageView =>
  threadId === null
    ? saysView(
        'The thread is coming',
        md`I open it under the card and call you both there. If Discord does not let me, I tell you.`,
      )
    : saysView('Your thread', md`You two talk here: ${{ markdown: `<#${threadId.replace(/\D/g, '')}>` }}`);

export const noThreadView = (
  { giverId, takerId }: { giverId: string; takerId: string },
  memberId: string,
): MessageView =>
  saysView(
    'No thread here',
    md`I cannot open a thread for this card. Write to ${mentionOf(memberId === giverId ? takerId : giverId)} directly: press their name.`,
  );

/** Kept for the two and the curators; nobody is punished. */
export const noShowNoted = (until: Date | null): Markdown =>
  until === null
    ? md`Noted, for you two and the curators only.`
    : md`Noted, for you two and the curators only. Things happen: ask them first. The promise stands until ${moment(until)}; you may release it now.`;
