import type { PageMember, PageMessage } from '../page-shapes.ts';
import { EmbedView } from './embed-view.tsx';
import { Markdown } from './markdown-view.tsx';
import { MessageParts } from './message-parts.tsx';
import { MoreMenu } from './more-menu.tsx';
import type { EmbedPart, MessagePart } from './parts.ts';
import { Attachments } from './pictures.tsx';
import { useRoom } from './room-view.ts';
import { writeTime } from './times.ts';

const V2 = 1 << 15;

/** Initials of a name, for the circle beside it. */
export const initials = (name: string): string =>
  name
    .split(/\s+/)
    .map((word) => word[0] ?? '')
    .slice(0, 2)
    .join('')
    .toUpperCase();

/** One message with all that belongs to it. */
export function MessageView({ message }: { message: PageMessage }) {
  const { state, me, now, openChannel } = useRoom();
  const author = state.members.find(({ id }) => id === message.authorId);
  const thread = state.channels.find(({ id }) => id === message.threadId);
  const isV2 = (message.flags & V2) !== 0;
  const at = new Date(message.at);
  return (
    <article
      class={`message ${message.private ? 'private' : ''}`}
      aria-label={`Message by ${author?.name ?? 'someone'}`}
    >
      <span class={`circle ${author?.bot ? 'bot' : ''}`} aria-hidden="true">
        {initials(author?.name ?? '?')}
      </span>
      <div class="body">
        <Before message={message} members={state.members} />
        <header>
          <strong>{author?.name ?? 'someone who left'}</strong>
          {author?.bot && <span class="tag">bot</span>}
          {author?.roles.map((role) => (
            <span key={role} class="tag">
              {role}
            </span>
          ))}
          <time class="small" dateTime={message.at} title={writeTime(at, 'F', me, now)}>
            {writeTime(at, 't', me, now)}
          </time>
          {message.edited && <span class="small">edited</span>}
        </header>
        {message.private && <PrivateNote message={message} />}
        {message.thinking && <p class="small">is working on an answer …</p>}
        {message.content !== '' && <Markdown text={message.content} />}
        {message.embeds.map((embed, index) => (
          <EmbedView key={index} embed={embed as EmbedPart} message={message} />
        ))}
        {!isV2 && message.attachments.length > 0 && <Attachments message={message} />}
        <MessageParts parts={message.components as MessagePart[]} message={message} />
        {message.reactions.length > 0 && (
          <p class="small">{message.reactions.map(({ emoji, count }) => `${emoji} ${count}`).join(' · ')}</p>
        )}
        {thread && (
          <button type="button" class="button" onClick={() => openChannel(thread.id)}>
            Go to thread: {thread.name}
          </button>
        )}
      </div>
      <MoreMenu message={message} author={author} />
    </article>
  );
}

/** What the message answers. */
function Before({ message, members }: { message: PageMessage; members: PageMember[] }) {
  const { state } = useRoom();
  const nameOf = (id: string | undefined) => members.find((member) => member.id === id)?.name ?? 'someone';
  if (message.use) {
    const how = message.use.command === null ? 'pressed or chose' : `used ${message.use.command}`;
    return (
      <p class="small before">
        {nameOf(message.use.memberId)} {how}
      </p>
    );
  }
  if (message.replyTo === null) return null;
  const quoted = (text: string) => text.replace(/<@!?(\d+)>/g, (_mark, id: string) => `@${nameOf(id)}`).slice(0, 60);
  const original = state.messages.find(({ id }) => id === message.replyTo);
  return (
    <p class="small before">
      answers {nameOf(original?.authorId)}
      {original ? `: ${quoted(original.content) || 'a card'}` : ''}
    </p>
  );
}

function PrivateNote({ message }: { message: PageMessage }) {
  const { play } = useRoom();
  return (
    <p class="note">
      Only you can see this.
      <button type="button" class="button quiet" onClick={() => void play({ act: 'dismiss', message: message.id })}>
        Dismiss
      </button>
    </p>
  );
}
