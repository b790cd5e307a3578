import type { Block, MessageView } from '../discord/message-view.ts';
import { isLate, type OutboxMessage } from './outbox.ts';

/** Late messages that become one: the first carries the others. */
export type Joined = { carrier: OutboxMessage; others: OutboxMessage[] };

/** What one message takes, less what the lines about being late and the mark need. */
const MOST_TEXT = 3_600;
const MOST_PARTS = 34;

/**
 * Joins late messages that allow it. Messages of different members, servers or channels are never joined, and no more
 * are joined than one message can show whole: what does not fit makes another one.
 */
export function joinLate(waiting: readonly OutboxMessage[], now: Date): Joined[] {
  const places = new Map<string, OutboxMessage[]>();
  for (const message of waiting) {
    if (message.firstTryAt !== null || !isLate(message, now) || !canBeJoined(message)) continue;
    const { guildId, channelId, fallbackChannelId, memberId } = message;
    const place = [guildId, channelId, fallbackChannelId, memberId].join('/');
    places.set(place, [...(places.get(place) ?? []), message]);
  }
  return [...places.values()]
    .flatMap(fittingGroups)
    .flatMap(([carrier, ...others]) => (carrier && others.length > 0 ? [{ carrier, others }] : []));
}

/** A file belongs to its own message. */
const canBeJoined = ({ late, act, memberId, file }: OutboxMessage): boolean =>
  late === 'merge' && act === 'post' && memberId !== null && file === null;

function fittingGroups(messages: readonly OutboxMessage[]): OutboxMessage[][] {
  const groups: OutboxMessage[][] = [];
  let blocks: Block[] = [];
  for (const message of messages) {
    const own = message.view?.blocks ?? [];
    const together = compact([...blocks, ...own]);
    const group = groups.at(-1);
    if (group && fits(together)) {
      group.push(message);
      blocks = together;
    } else {
      groups.push([message]);
      blocks = [...own];
    }
  }
  return groups;
}

/** Several late messages as one, in the order in which they were due; ruled off from each other if there is room. */
export function mergedView(views: readonly MessageView[]): MessageView {
  const [first] = views;
  if (!first) throw new RangeError('there is nothing to merge');
  const rule: Block = { kind: 'rule' };
  const ruled = views.flatMap(({ blocks }, at) => (at === 0 ? [...blocks] : [rule, ...blocks]));
  return { ...first, blocks: fits(ruled) ? ruled : compact(views.flatMap(({ blocks }) => blocks)) };
}

const fits = (blocks: readonly Block[]): boolean => textOf(blocks) <= MOST_TEXT && partsOf(blocks) <= MOST_PARTS;

const textOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, block) => sum + (block.kind === 'text' ? block.text.markdown.length : 0), 0);

/** How many of Discord's components the blocks become. */
const partsOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, block) => {
    if (block.kind === 'buttons') return sum + block.buttons.length + Math.ceil(block.buttons.length / 5);
    return sum + (block.kind === 'text' || block.kind === 'rule' ? 1 : 2);
  }, 0);

/** Without rules, and with texts that follow each other as one: all the words, in fewer components. */
function compact(blocks: readonly Block[]): Block[] {
  const out: Block[] = [];
  for (const block of blocks) {
    const last = out.at(-1);
    if (block.kind === 'rule') continue;
    if (block.kind === 'text' && last?.kind === 'text')
      out[out.length - 1] = { kind: 'text', text: { markdown: `${last.text.markdown}\n${block.text.markdown}` } };
    else out.push(block);
  }
  return out;
}
