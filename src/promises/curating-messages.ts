import { md, mentionOf, type Markdown, type MessageView } from '../discord/message-view.ts';
import { directTo, type NewOutboxMessage } from '../outbox/outbox.ts';
import type { Offer } from '../swaps/offer.ts';
import type { CuratorAct, Report } from './curated.ts';

// What keepers and reporters hear of curators. Only directly: who takes no messages reads it at their next use of the bot.

const told = (
  key: string,
  offer: Offer,
  memberId: string,
  title: string,
  words: readonly Markdown[],
  now: Date,
): NewOutboxMessage => {
  const view: MessageView = {
    audience: 'member',
    tone: 'plain',
    blocks: [{ kind: 'text', text: md`## ${title}` }, ...words.map((text) => ({ kind: 'text', text }) as const)],
  };
  return {
    key,
    guildId: offer.guildId,
    topic: `curated/${offer.id}/told`,
    act: 'post',
    channelId: directTo(memberId),
    fallbackChannelId: null,
    memberId,
    targetId: null,
    title: null,
    view,
    mark: null,
    file: null,
    late: 'always',
    dueAt: now,
  };
};

export type Done = { act: CuratorAct | 'undo'; reason: string; actId: number; into?: Offer };

export function ownerMessage(offer: Offer, { act, reason, actId, into }: Done, now: Date): NewOutboxMessage {
  const key = `curated/${actId}/${act === 'undo' ? 'undone' : 'done'}`;
  const why = act === 'undo' ? md`It was done for this reason: “${reason}”` : md`Their reason: “${reason}”`;
  return told(
    key,
    offer,
    offer.memberId,
    `Your offer ${offer.id}: ${TITLES[act]}`,
    [doneWords(offer, act, into), why],
    now,
  );
}

const TITLES: Record<Done['act'], string> = {
  hide: 'taken down',
  show: 'back',
  map: 'its coral was set',
  merge: 'joined with another of yours',
  edit: 'its words were changed',
  undo: 'as it was before',
};

function doneWords({ details }: Offer, act: Done['act'], into: Offer | undefined): Markdown {
  switch (act) {
    case 'hide':
      return md`A curator took **${details.name}** down. Nobody can ask for a piece while it is down; what you promised stays, and so does the queue. Ask a curator when it is put right.`;
    case 'show':
      return md`**${details.name}** stands in the list again, with its queue.`;
    case 'map':
      return md`**${details.name}** is listed under its coral now, so that it is found and says what to mind.`;
    case 'merge':
      return md`**${details.name}** was joined with your offer ${into?.id ?? ''}. All pieces, promises and places in the queue are there.`;
    case 'edit':
      return md`It reads now: **${details.name}**${details.special === null ? md`` : md`. ${details.special}`}`;
    case 'undo':
      return md`What a curator did to **${details.name}** was taken back.`;
  }
}

export const reporterMessage = ({ id, byId }: Report, offer: Offer, how: string, now: Date): NewOutboxMessage =>
  told(
    `curated/report/${id}`,
    offer,
    byId,
    'Your report was looked at',
    [
      md`Offer ${offer.id}, **${offer.details.name}**: ${how}`,
      md`Thank you, ${mentionOf(byId)}. The keeper is not told who reported it.`,
    ],
    now,
  );
