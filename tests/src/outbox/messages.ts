import type { MessageView } from '../../../src/discord/message-view.ts';
import type { NewOutboxMessage, OutboxMessage } from '../../../src/outbox/outbox.ts';

export const NOON = new Date('2026-11-25T12:00:00Z');
export const after = (ms: number) => new Date(NOON.getTime() + ms);
export const MINUTE_MS = 60_000;

export const saying = (words: string): MessageView => ({
  audience: 'everyone',
  tone: 'plain',
  blocks: [{ kind: 'text', text: { markdown: words } }],
});

/** A message as a feature would ask for it. */
export const newMessage = (change: Partial<NewOutboxMessage> = {}): NewOutboxMessage => ({
  key: 'chore/1/2026-11-25',
  guildId: 'guild',
  topic: 'chore/1',
  act: 'post',
  channelId: 'channel',
  fallbackChannelId: null,
  memberId: 'ana',
  targetId: null,
  title: null,
  view: saying('clean the skimmer cup'),
  mark: null,
  file: null,
  late: 'always',
  dueAt: NOON,
  ...change,
});

export const waiting = (change: Partial<OutboxMessage> = {}): OutboxMessage => ({
  ...newMessage(),
  id: 1,
  firstTryAt: null,
  attempts: 0,
  ...change,
});
