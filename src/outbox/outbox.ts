import { md, type Block, type MessageView } from '../discord/message-view.ts';

/** What is to be done in Discord: a new message, a change of one of ours, or a thread on one of ours. */
export type OutboxAct = 'post' | 'edit' | 'thread';

/**
 * What becomes of a message whose time passed while nothing could be sent: it goes out all the same and says so, it
 * is joined with the other late ones of its member and channel, or it is left out.
 */
export type LatePolicy = 'always' | 'merge' | 'drop';

/** A message that waits to be delivered, as a feature asks for it. */
export type NewOutboxMessage = {
  /** Names the occurrence: adding the same key again adds nothing. */
  key: string;
  guildId: string;
  /** Feature and row that hear of the outcome, such as `opinion/12/opening`. */
  topic: string;
  act: OutboxAct;
  channelId: string;
  /** Where a post goes when its channel does not take it. */
  fallbackChannelId: string | null;
  /** The one member whom it may mention, and who is told when it cannot be delivered. */
  memberId: string | null;
  /** The message that is changed, or that the thread starts at. */
  targetId: string | null;
  /** The name of a thread. */
  title: string | null;
  view: MessageView | null;
  /** A custom id on this message only, by which it is known again; null: a small line with its own id is added. */
  mark: string | null;
  file: Buffer | null;
  late: LatePolicy;
  dueAt: Date;
};

/** A change of a message of ours, to what it should be now. */
export type OutboxEdit = { guildId: string; topic: string; channelId: string; targetId: string; view: MessageView };

export type OutboxMessage = NewOutboxMessage & { id: number; firstTryAt: Date | null; attempts: number };

/** Nothing came of it, or nobody knows. `forAll`: not this message is refused, every one is until then. */
export type Later = { kind: 'later'; retryAfterMs: number | null; why: string; forAll?: true };

/** How a delivery went. `unreachable`: this place will not take it. */
export type DeliveryOutcome =
  | { kind: 'sent'; messageId: string }
  | Later
  | { kind: 'refused'; why: string }
  | { kind: 'unreachable'; why: string; forbidden: boolean }
  | { kind: 'malformed'; why: string };

/** What a feature hears once a message needs no more work. */
export type Settled = { kind: 'sent'; messageId: string } | { kind: 'dead'; why: string };

/** What a look into the channel's history found of a message whose fate is unknown. */
export type LookUpOutcome = { kind: 'found'; messageId: string } | { kind: 'not-there' } | Later;

/** What Discord's own clock says; `silent`: it could not be asked. */
export type DiscordTime = { kind: 'says'; at: Date } | { kind: 'silent'; why: string };

export const LATE_AFTER_MS = 15 * 60_000;
const FIRST_PAUSE_MS = 1_000;
const LONGEST_PAUSE_MS = 5 * 60_000;
/** Discord drops a repeated nonce for "a few minutes"; from here on the history is asked instead. */
const TRUST_NONCE_MS = 60_000;

const DIRECT = 'dm:';

/** The channel id that stands for a direct message to a member; the real one is asked for when it is sent. */
export const directTo = (memberId: string): string => `${DIRECT}${memberId}`;

/** The member whom a direct message goes to; null for a channel of a server. */
export const directMember = (channelId: string): string | null =>
  channelId.startsWith(DIRECT) ? channelId.slice(DIRECT.length) : null;

/** The nonce of a message: the same at every try, so that Discord drops a repeat. */
export const nonceOf = ({ id }: Pick<OutboxMessage, 'id'>): string => id.toString(36);

/** The line by which a message without a mark of its own is known again. */
export const markLineOf = (message: Pick<OutboxMessage, 'id'>): string => `-# ref ${nonceOf(message)}`;

/** When to try again: twice as long after each failure, never before Discord allows it. */
export function retryAt(attempts: number, retryAfterMs: number | null, now: Date): Date {
  const pauseMs = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** Math.min(20, Math.max(0, attempts - 1)));
  return new Date(now.getTime() + Math.max(pauseMs, retryAfterMs ?? 0));
}

/** Whether a post was tried so long ago that only the channel's history can tell what became of it. */
export const isDoubtful = ({ act, firstTryAt }: OutboxMessage, now: Date): boolean =>
  act === 'post' && firstTryAt !== null && now.getTime() - firstTryAt.getTime() > TRUST_NONCE_MS;

/** Whether a message comes later than anybody would call on time; a message tried in time stays on time. */
export const isLate = ({ dueAt, firstTryAt }: Pick<OutboxMessage, 'dueAt' | 'firstTryAt'>, now: Date): boolean =>
  (firstTryAt ?? now).getTime() - dueAt.getTime() > LATE_AFTER_MS;

/** The view as it goes out now: a late one says when it was due. */
export function viewToSend(message: OutboxMessage, now: Date): MessageView | null {
  const { view, act, dueAt, mark } = message;
  if (!view) return null;
  const dueS = Math.floor(dueAt.getTime() / 1000);
  const lines: Block[] = [
    ...(act === 'post' && isLate(message, now)
      ? [
          {
            kind: 'text',
            text: md`-# This comes late: it was due <t:${dueS}:f>, when I could not send.`,
          } satisfies Block,
        ]
      : []),
    ...(act === 'post' && mark === null
      ? [{ kind: 'text', text: { markdown: markLineOf(message) } } satisfies Block]
      : []),
  ];
  return lines.length > 0 ? { ...view, blocks: [...view.blocks, ...lines] } : view;
}

/** A message that could not be delivered, as its member is told of it: the words only, and why. */
export function owedView(view: MessageView | null, why: string | null): MessageView[] {
  if (!view) return [];
  const notice = md`**I could not post this for you** (Discord says: ${why ?? 'no reason'}). An officer can look at my permissions there.`;
  const words = view.blocks.filter(({ kind }) => kind === 'text' || kind === 'rule');
  return [{ ...view, audience: 'member', blocks: [{ kind: 'text', text: notice }, ...words] }];
}
