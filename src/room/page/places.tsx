import type { PageChannel } from '../page-shapes.ts';
import { useRoom } from './room-view.ts';

/** The places of the club: channels with their threads, and direct messages. */
export function Places({ unread }: { unread: ReadonlyMap<string, number> }) {
  const { state, me } = useRoom();
  const channels = state.channels.filter(({ kind }) => kind === 'channel');
  const direct = state.channels.filter(({ kind }) => kind === 'direct');
  return (
    <nav aria-label="Places">
      <h2>Places</h2>
      <ul>
        {channels.map((channel) => (
          <li key={channel.id}>
            <PlaceButton channel={channel} unread={unread} />
            <Threads parent={channel.id} unread={unread} />
          </li>
        ))}
      </ul>
      <h2>Direct messages</h2>
      {direct.length === 0 && <p class="small">None for {me.name} yet.</p>}
      <ul>
        {direct.map((channel) => (
          <li key={channel.id}>
            <PlaceButton channel={channel} unread={unread} />
          </li>
        ))}
      </ul>
      {me.dmClosed && <p class="small">{me.name} has closed direct messages.</p>}
    </nav>
  );
}

function Threads({ parent, unread }: { parent: string; unread: ReadonlyMap<string, number> }) {
  const { state } = useRoom();
  const threads = state.channels.filter(({ parentId }) => parentId === parent);
  if (threads.length === 0) return null;
  return (
    <ul class="threads">
      {threads.map((thread) => (
        <li key={thread.id}>
          <PlaceButton channel={thread} unread={unread} />
        </li>
      ))}
    </ul>
  );
}

function PlaceButton({ channel, unread }: { channel: PageChannel; unread: ReadonlyMap<string, number> }) {
  const room = useRoom();
  const count = unread.get(channel.id) ?? 0;
  return (
    <button
      type="button"
      class="place"
      aria-current={room.channel === channel.id ? 'page' : undefined}
      onClick={() => room.openChannel(channel.id)}
    >
      <span>
        {placeName(channel)}
        {channel.closed && <span class="small"> closed</span>}
      </span>
      {count > 0 && <span class="count">{count} new</span>}
    </button>
  );
}

/** The name of a place with what kind it is. */
export const placeName = ({ kind, name }: PageChannel): string => (kind === 'channel' ? `#${name}` : name);
