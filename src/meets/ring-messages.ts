import type { MessageView } from '../discord/message-view.ts';
import { directTo, type NewOutboxMessage } from '../outbox/outbox.ts';
import type { SwapRing } from './ring.ts';

// The messages of rings and meets, as the outbox is asked to send them.

/** What a member of a ring is told of it; each once. */
export type RingNews = 'ask' | 'agreed' | 'off' | 'broken' | 'done';

export const newsKey = ({ id }: Pick<SwapRing, 'id'>, news: RingNews, memberId: string): string =>
  `frag-ring/${id}/${news}/${memberId}`;

export const ringMark = ({ guildId, id }: Pick<SwapRing, 'guildId' | 'id'>, act: string): string =>
  `1:${act}:${guildId}:${id}`;

/** A direct message; where that is closed it goes to the channel in which the member’s own offer stands. */
export function directMessage(
  message: Pick<NewOutboxMessage, 'key' | 'guildId' | 'topic' | 'fallbackChannelId' | 'mark' | 'late'> & {
    memberId: string;
    view: MessageView;
    dueAt: Date;
  },
): NewOutboxMessage {
  const { memberId, view } = message;
  return {
    ...message,
    act: 'post',
    channelId: directTo(memberId),
    targetId: null,
    title: null,
    view: { ...view, calls: memberId },
    file: null,
  };
}
