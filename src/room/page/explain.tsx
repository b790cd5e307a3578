import { limitsUsed } from './limits.ts';
import { useRoom } from './room-view.ts';

/** Behind a message: the JSON as it was sent, and how much of Discord's limits it uses. */
export function Explain({ messageId }: { messageId: string | null }) {
  const { state, explain } = useRoom();
  const fromBot = state.messages.filter(({ authorId }) => authorId === state.botId);
  const message = state.messages.find(({ id }) => id === messageId) ?? fromBot.at(-1);
  if (!message) return <p>Choose “Look behind this message” in the More menu of a message.</p>;
  const { content, components, embeds, attachments, flags } = message;
  const at = fromBot.indexOf(message);
  const step = (by: number, label: string) => {
    const next = fromBot[at + by];
    return (
      <button type="button" class="button" disabled={at === -1 || !next} onClick={() => next && explain(next.id)}>
        {label}
      </button>
    );
  };
  const lines = limitsUsed(message);
  return (
    <>
      <p>
        {messageId === message.id ? 'The chosen message' : 'The newest message of the bot'}
        {at === -1 ? '' : `, ${at + 1} of ${fromBot.length} by the bot`}.
      </p>
      <div class="row">
        {step(-1, 'Earlier')}
        {step(1, 'Later')}
      </div>
      <h3>Limits used</h3>
      {lines.length === 0 && <p class="small">Nothing that is limited.</p>}
      <ul class="plain">
        {lines.map(({ name, used, most }) => (
          <li key={name}>
            {name}: {used} of {most}
          </li>
        ))}
      </ul>
      <h3>As it was sent</h3>
      <pre tabIndex={0} class="json">
        {JSON.stringify({ flags, content, components, embeds, attachments }, null, 2)}
      </pre>
    </>
  );
}
