import { joined, md, mentionOf, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Coral } from '../knowledge/coral.ts';
import { directTo, type NewOutboxMessage } from '../outbox/outbox.ts';
import { OBJECT_WITHIN_DAYS } from './promise.ts';
import { arrivalWords, buttonsFor, moment, standing, type Role, type ShownPromise } from './promise-words.ts';

// What the two of a promise are told, as the outbox is asked to send it. Each is named by the promise, what happened
// and when, so that neither a restart nor a second look tells it twice.

/** What happened, as one of the two hears of it. */
export type Told =
  | 'promised'
  | 'passed'
  | 'released'
  | 'expired'
  | 'ending'
  | 'said'
  | 'agreed'
  | 'settled'
  | 'not-so'
  | 'extended'
  | 'withdrawn'
  | 'back'
  | 'no-thread';

export const topicOf = (promiseId: number, step: string): string => `promise/${promiseId}/${step}`;

/** What a topic says; null when it is not one of a promise. */
export function readTopic(topic: string): { promiseId: number; step: string } | null {
  const [, id, step] = /^promise\/(\d+)\/([a-z-]+)$/.exec(topic) ?? [];
  return id && step ? { promiseId: Number(id), step } : null;
}

const blank = { targetId: null, title: null, mark: null, file: null, late: 'always' } as const;

/** A direct message to one of the two; where they take none, it goes to the channel of the card and calls them. */
export function toldMessage(
  shown: ShownPromise,
  told: Told,
  role: Role,
  coral: Coral | undefined,
  now: Date,
): NewOutboxMessage {
  const { promise, offer } = shown;
  const { id, guildId } = promise;
  const memberId = role === 'giver' ? promise.giverId : promise.takerId;
  const token = `${told}-${Math.floor(now.getTime() / 1000).toString(36)}`;
  const [first] = buttonsFor(shown, role, token);
  return {
    ...blank,
    key: `promise/${id}/${told}/${now.getTime()}/${role}`,
    guildId,
    topic: topicOf(id, 'told'),
    act: 'post',
    channelId: directTo(memberId),
    fallbackChannelId: offer.channelId,
    memberId,
    view: toldView(shown, told, role, coral, token),
    mark: first && first.args.includes(token) ? `1:${first.act}:${first.args.join(':')}` : null,
    dueAt: now,
  };
}

function toldView(shown: ShownPromise, told: Told, role: Role, coral: Coral | undefined, token: string): MessageView {
  const { promise, offer } = shown;
  const memberId = role === 'giver' ? promise.giverId : promise.takerId;
  const hasArrived = role === 'taker' && promise.state === 'handed-over';
  const buttons = buttonsFor(shown, role, token);
  const text = (markdown: Markdown): Block => ({ kind: 'text', text: markdown });
  return {
    audience: 'member',
    tone: hasArrived ? 'watch' : told === 'promised' || told === 'passed' ? 'calm' : 'plain',
    calls: memberId,
    blocks: [
      text(
        md`## ${offer.details.name}: ${told === 'passed' && role === 'giver' ? 'the next in the queue has it' : TITLES[told]}`,
      ),
      text(joined([mentionOf(memberId), toldWords(shown, told, role)], ' · ')),
      ...(told === 'ending' || told === 'not-so' || told === 'extended' ? [text(standing(shown, role))] : []),
      ...(hasArrived ? [text(arrivalWords(shown, coral))] : []),
      ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } satisfies Block] : []),
    ],
  };
}

const TITLES: Record<Told, string> = {
  promised: 'somebody would like one',
  passed: 'one is promised to you',
  released: 'let go',
  expired: 'its time is over',
  ending: 'one day left',
  said: 'handed over?',
  agreed: 'handed over',
  settled: 'handed over',
  'not-so': 'not handed over yet',
  extended: 'a week longer',
  withdrawn: 'the offer was withdrawn',
  back: 'the offer is back',
  'no-thread': 'no thread',
};

function toldWords({ promise, offer }: ShownPromise, told: Told, role: Role): Markdown {
  const { until, word, giverId, takerId, state } = promise;
  const other = mentionOf(role === 'giver' ? takerId : giverId);
  const by = until === null ? md`` : md` until ${moment(until)}, ${moment(until, 'R')}`;
  const said = word === null ? md`` : md` Their word: “${word}”`;
  switch (told) {
    case 'promised':
      return md`It is promised to ${other}${by}. ${offer.left === 0 ? 'That was the last piece; who asks now waits in a queue.' : `${offer.left} of ${offer.pieces} ${offer.left === 1 ? 'is' : 'are'} left.`} Agree where and when.`;
    case 'passed':
      return role === 'taker'
        ? md`A piece came free and it is your turn: ${other} keeps it for you${by}. Agree where and when. No room any more? Release it, and the next one has it.`
        : md`A piece came free and went on to ${other}: promised${by}.`;
    case 'released':
      return role === 'taker' && state === 'released'
        ? md`${other} cannot give it to you after all.${said} You may ask again.`
        : md`${other} lets it go.${said}`;
    case 'expired':
      return role === 'taker'
        ? md`It was not handed over in time, so it is free again. You may ask again.`
        : md`It was not handed over to ${other} in time, so it is free again.`;
    case 'ending':
      return role === 'giver' ? md`Nothing was handed over yet.` : md`You do not have it yet.`;
    case 'said':
      return md`${other} says that ${role === 'taker' ? 'you have it' : 'they have it'}. Is that so? Without a word from you it counts as handed over in ${OBJECT_WITHIN_DAYS} days${until === null ? md`` : md`, ${moment(until)}`}.`;
    case 'agreed':
      return md`You both say so. Thank you: that is how corals travel.`;
    case 'settled':
      return md`One of you said so ${OBJECT_WITHIN_DAYS} days ago and the other did not object, so it counts as handed over.`;
    case 'not-so':
      return md`${other} says that it has not changed hands.`;
    case 'extended':
      return md`${other} gives it a week more.`;
    case 'withdrawn':
      return md`${other} withdrew the offer, so ${until === null ? 'your place in the queue' : 'the promise'} is over. **/frag want** tells you when somebody else offers one.`;
    case 'back':
      return state === 'promised'
        ? md`${other} offers it again, and your promise stands as before.`
        : md`${other} offers it again, and you have your place in the queue as before.`;
    case 'no-thread':
      return md`Discord did not let me open a thread. Write to ${other} directly: press their name.`;
  }
}

/** A thread on the card. All promises of one card share it, since Discord allows one. */
export const threadMessage = ({ promise, offer }: ShownPromise, now: Date): NewOutboxMessage => ({
  ...blank,
  key: `promise/${promise.id}/thread/${now.getTime()}`,
  guildId: promise.guildId,
  topic: topicOf(promise.id, 'thread'),
  act: 'thread',
  channelId: offer.channelId,
  fallbackChannelId: null,
  memberId: null,
  targetId: offer.messageId,
  title: `Hand-over: ${offer.details.name}`.slice(0, 100),
  view: null,
  dueAt: now,
});

/** The first words in the thread. A message calls one member, so each of the two gets their own. */
export function helloMessages({ promise, offer }: ShownPromise, threadId: string, now: Date): NewOutboxMessage[] {
  const { id, guildId, giverId, takerId, until } = promise;
  const by = until === null ? md`` : md` It is kept until ${moment(until)}.`;
  const hello = (role: Role, memberId: string, words: Markdown): NewOutboxMessage => ({
    ...blank,
    key: `promise/${id}/hello/${threadId}/${role}`,
    guildId,
    topic: topicOf(id, 'told'),
    act: 'post',
    channelId: threadId,
    fallbackChannelId: directTo(memberId),
    memberId,
    view: { audience: 'everyone', tone: 'plain', calls: memberId, blocks: [{ kind: 'text', text: words }] },
    dueAt: now,
  });
  return [
    hello(
      'giver',
      giverId,
      md`${mentionOf(giverId)}, one of your **${offer.details.name}** is promised to ${mentionOf(takerId)}.${by} When and where suits you? No addresses here: everybody can read along.`,
    ),
    hello(
      'taker',
      takerId,
      md`${mentionOf(takerId)}, say what suits you, and bring a bag, a towel and a box that keeps warm.`,
    ),
  ];
}
