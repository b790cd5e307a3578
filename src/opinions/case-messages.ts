import type { MessageView } from '../discord/message-view.ts';
import type { NewOutboxMessage, OutboxEdit } from '../outbox/outbox.ts';
import { ballotView, noticeView, openingView, type CaseShown } from './case.view.ts';
import type { Case, Closed } from './opinion.ts';

// The messages of a case, as the outbox is asked to send them. Each is named by its case and what it is.

export const TOPIC = 'opinion';
const STEPS = ['opening', 'thread', 'ballot', 'notice', 'change'] as const;
export type Step = (typeof STEPS)[number];

export const topicOf = ({ id }: Case, step: Step) => `${TOPIC}/${id}/${step}`;
/** What a topic says; null when it is not one of ours. */
export function readTopic(topic: string): { caseId: number; step: Step } | null {
  const [, id, step] = /^opinion\/(\d+)\/([a-z]+)$/.exec(topic) ?? [];
  const known = STEPS.find((each) => each === step);
  return id && known ? { caseId: Number(id), step: known } : null;
}

export const noticeKey = ({ id, closings }: Case) => `${TOPIC}/${id}/closed/${closings}`;

/** Where votes are cast: the thread, or the channel when there is none. */
export const ballotChannel = ({ threadId, channelId }: Case): string => threadId ?? channelId;

const blank = {
  fallbackChannelId: null,
  memberId: null,
  targetId: null,
  title: null,
  view: null,
  mark: null,
  file: null,
  late: 'always',
} as const;

export const openingMessage = (shown: CaseShown, photo: Buffer | null): NewOutboxMessage => ({
  ...blank,
  key: topicOf(shown.opinion, 'opening'),
  topic: topicOf(shown.opinion, 'opening'),
  guildId: shown.opinion.guildId,
  act: 'post',
  channelId: shown.opinion.channelId,
  memberId: shown.opinion.askerId,
  view: openingView(shown),
  file: photo,
  dueAt: shown.opinion.openedAt,
});

export const threadMessage = (opinion: Case, now: Date): NewOutboxMessage => ({
  ...blank,
  key: topicOf(opinion, 'thread'),
  topic: topicOf(opinion, 'thread'),
  guildId: opinion.guildId,
  act: 'thread',
  channelId: opinion.channelId,
  targetId: opinion.messageId,
  title: `Second opinion ${opinion.id}: pest or harmless?`,
  dueAt: now,
});

export const ballotMessage = (shown: CaseShown, now: Date): NewOutboxMessage => ({
  ...blank,
  key: topicOf(shown.opinion, 'ballot'),
  topic: topicOf(shown.opinion, 'ballot'),
  guildId: shown.opinion.guildId,
  act: 'post',
  channelId: ballotChannel(shown.opinion),
  fallbackChannelId: shown.opinion.threadId === null ? null : shown.opinion.channelId,
  memberId: shown.opinion.askerId,
  view: ballotView(shown),
  // This button is on the message whether voting is open or closed.
  mark: `1:opinion-settle:${shown.opinion.id}`,
  dueAt: now,
});

export const noticeMessage = (shown: CaseShown, closed: Closed, dueAt: Date): NewOutboxMessage => ({
  ...blank,
  key: noticeKey(shown.opinion),
  topic: topicOf(shown.opinion, 'notice'),
  guildId: shown.opinion.guildId,
  act: 'post',
  channelId: ballotChannel(shown.opinion),
  fallbackChannelId: shown.opinion.threadId === null ? null : shown.opinion.channelId,
  memberId: shown.opinion.askerId,
  view: noticeView(shown, closed),
  dueAt,
});

/** The changes that bring the messages of a case up to date; one that was never posted, or was deleted, has none. */
export const changesOf = (shown: CaseShown): OutboxEdit[] => [
  ...edit(shown, shown.opinion.channelId, shown.opinion.messageId, openingView(shown)),
  ...ballotChange(shown),
];

export const ballotChange = (shown: CaseShown): OutboxEdit[] =>
  edit(shown, ballotChannel(shown.opinion), shown.opinion.ballotMessageId, ballotView(shown));

function edit({ opinion }: CaseShown, channelId: string, targetId: string | null, view: MessageView): OutboxEdit[] {
  return targetId ? [{ guildId: opinion.guildId, topic: topicOf(opinion, 'change'), channelId, targetId, view }] : [];
}
