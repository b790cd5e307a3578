import { useEffect, useRef, useState } from 'preact/hooks';
import type { PageMessage, PageState } from '../page-shapes.ts';

/** How many messages each place holds that the acting member has not had on screen. Places start as read. */
export function useUnread(state: PageState | null, channel: string): ReadonlyMap<string, number> {
  // Read up to this message, for each member and place.
  const read = useRef(new Map<string, bigint>());
  const started = useRef(0n);
  const [counts, setCounts] = useState<ReadonlyMap<string, number>>(new Map());
  useEffect(() => {
    if (!state) return;
    const newest = state.messages.reduce((most, { id }) => (BigInt(id) > most ? BigInt(id) : most), 0n);
    if (started.current === 0n) started.current = newest;
    read.current.set(`${state.acting} ${channel}`, newest);
    const me = state.members.find(({ name }) => name === state.acting)?.id;
    const isUnread = (message: PageMessage) =>
      message.authorId !== me &&
      BigInt(message.id) > (read.current.get(`${state.acting} ${message.channelId}`) ?? started.current);
    const next = new Map<string, number>();
    for (const message of state.messages.filter(isUnread))
      next.set(message.channelId, (next.get(message.channelId) ?? 0) + 1);
    setCounts(next);
  }, [state, channel]);
  return counts;
}
