import { Fragment } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { PageMessage } from '../page-shapes.ts';
import { MessageView } from './message-view.tsx';
import { useRoom } from './room-view.ts';
import { dayOf } from './times.ts';

/** Space above a card that is scrolled to, in pixels. */
const BREATH = 8;
/** How close to the end still counts as reading the end, in pixels. */
const NEAR_END = 160;

/** What was said in the open place, newest last. */
export function Conversation({ messages }: { messages: PageMessage[] }) {
  const { me, state, channel } = useRoom();
  const log = useRef<HTMLDivElement>(null);
  const atEnd = useRef(true);
  const here = state.channels.find(({ id }) => id === channel);
  const last = messages.at(-1);
  /** Where the newest message begins. */
  const newestTop = (box: HTMLElement) =>
    ((box.lastElementChild as HTMLElement | null)?.offsetTop ?? 0) - box.offsetTop - BREATH;
  useLayoutEffect(() => {
    const box = log.current;
    // A card longer than the window is read from its top, not from its end.
    if (box && atEnd.current) box.scrollTo({ top: Math.min(box.scrollHeight - box.clientHeight, newestTop(box)) });
  }, [messages.length, last?.id, last?.thinking]);
  let day = '';
  return (
    <div
      class="log"
      role="log"
      aria-live="polite"
      aria-relevant="additions"
      aria-label={`Conversation in ${here?.name ?? 'this place'}`}
      tabIndex={0}
      ref={log}
      onScroll={({ currentTarget: box }) => {
        const toEnd = box.scrollHeight - box.scrollTop - box.clientHeight;
        atEnd.current = toEnd < NEAR_END || box.scrollTop >= newestTop(box) - BREATH;
      }}
    >
      {messages.length === 0 && <p class="empty">Nobody has said anything here yet.</p>}
      {messages.map((message) => {
        const its = dayOf(new Date(message.at), me);
        const isNew = its !== day;
        day = its;
        return (
          <Fragment key={message.id}>
            {isNew && <p class="day">{its}</p>}
            <MessageView message={message} />
          </Fragment>
        );
      })}
    </div>
  );
}
