import { z } from 'zod';
import { nothing, ok, readBody, route } from './exchange.ts';
import type { Answer, Exchange, Route, RouteDeps } from './exchange.ts';
import { EPHEMERAL, LOADING, MessageBody } from './message-body.ts';
import { openModalFrom } from './modal-form.ts';
import { formRefusal } from './form-refusal.ts';
import { messagePayload } from './payloads.ts';
import { alreadyAcknowledged, unknownMessage } from './refusal.ts';
import type { LiveInteraction } from './interactions.ts';
import type { WorldMessage } from './world-shapes.ts';

const Callback = z.object({ type: z.number(), data: z.unknown().optional() });
const Choices = z.object({
  choices: z.array(z.object({ name: z.string(), value: z.union([z.string(), z.number()]) })),
});

/** First responses of interactions, and everything that their tokens allow afterwards. */
export function interactionRoutes({ world, writer, interactions, contract }: RouteDeps): Route[] {
  const metadata = (live: LiveInteraction) => ({
    id: live.id,
    type: live.type,
    memberId: live.memberId,
    name: live.name,
  });
  const place = (live: LiveInteraction, ephemeral: boolean) => ({
    channelId: live.channelId,
    viewerId: ephemeral ? live.memberId : null,
    interaction: metadata(live),
    type: live.type === 2 ? 20 : live.sourceId === null ? 0 : 19,
  });

  async function respond(
    live: LiveInteraction,
    type: number,
    data: unknown,
    { body: raw, files }: Exchange,
  ): Promise<WorldMessage | null> {
    const wrong = wrongResponse(live, type);
    if (wrong !== null) throw formRefusal([{ path: ['type'], message: wrong }]);
    const source = live.sourceId === null ? undefined : world.messages.get(live.sourceId);
    await contract.check('callback', raw, { files, existing: type === 7 ? source : undefined });
    // Another response may have come in while this one was checked.
    if (live.state !== 'waiting') throw alreadyAcknowledged();
    switch (type) {
      case 4: {
        const body = readBody(MessageBody, data);
        live.ephemeral = ((body.flags ?? 0) & EPHEMERAL) !== 0;
        const message = writer.create({ body, files }, place(live, live.ephemeral));
        live.originalId = message.id;
        interactions.respond(live, 'answered');
        return message;
      }
      case 5: {
        live.ephemeral = ((readBody(MessageBody, data).flags ?? 0) & EPHEMERAL) !== 0;
        const flags = LOADING | (live.ephemeral ? EPHEMERAL : 0);
        const authorId = world.members.bot.id;
        const message = world.messages.add({ ...place(live, live.ephemeral), authorId, flags });
        live.originalId = message.id;
        interactions.respond(live, 'deferred');
        return message;
      }
      case 6:
      case 7: {
        if (!source) throw unknownMessage();
        if (type === 7) writer.edit(source, { body: readBody(MessageBody, data), files });
        live.originalId = source.id;
        interactions.respond(live, type === 6 ? 'deferred-update' : 'answered');
        return source;
      }
      case 8:
        live.choices = readBody(Choices, data).choices;
        interactions.respond(live, 'choices');
        return null;
      default:
        interactions.openModal(live, openModalFrom(data, live));
        interactions.respond(live, 'modal');
        return null;
    }
  }

  const callback = async (exchange: Exchange): Promise<Answer> => {
    const [id = '', token = ''] = exchange.params;
    const live = interactions.forCallback(id, token);
    if (live.state !== 'waiting') throw alreadyAcknowledged();
    const { type, data } = readBody(Callback, exchange.body);
    const message = await respond(live, type, data, exchange);
    if (exchange.query.get('with_response') !== 'true') return nothing;
    const about = message && {
      response_message_id: message.id,
      response_message_loading: type === 5,
      response_message_ephemeral: message.viewerId !== null,
      channel_id: message.channelId,
    };
    return ok({
      interaction: { id: live.id, type: live.type, ...about },
      resource: { type, ...(message ? { message: messagePayload(world, message) } : {}) },
    });
  };

  /** The message that a token may touch: the original, or one of its follow-ups. */
  const target = (live: LiveInteraction, name = ''): WorldMessage => {
    const message = world.messages.get(name === '@original' ? (live.originalId ?? '') : name);
    const own = message && (message.id === live.originalId || message.interaction?.id === live.id);
    if (!message || !own) throw unknownMessage();
    return message;
  };

  const fill = async (
    live: LiveInteraction,
    message: WorldMessage,
    { body: raw, files }: Exchange,
  ): Promise<Answer> => {
    const loading = (message.flags & LOADING) !== 0;
    await contract.check('webhook-edit', raw, { files, existing: loading ? undefined : message, mustSpeak: loading });
    message.flags &= ~LOADING;
    writer.edit(message, { body: readBody(MessageBody, raw), files }, !loading);
    if (live.state === 'deferred') live.state = 'answered';
    live.markShown();
    return ok(messagePayload(world, message));
  };

  const followUp = async (exchange: Exchange): Promise<Answer> => {
    const live = interactions.forWebhook(exchange.params[1] ?? '');
    const original = world.messages.get(live.originalId ?? '');
    // Right after a deferred response a follow-up fills the placeholder.
    if (live.state === 'deferred' && original) return fill(live, original, exchange);
    await contract.check('webhook', exchange.body, { files: exchange.files });
    const body = readBody(MessageBody, exchange.body);
    const message = writer.create({ body, files: exchange.files }, place(live, ((body.flags ?? 0) & EPHEMERAL) !== 0));
    live.markShown();
    return ok(messagePayload(world, message));
  };

  const open = { auth: false };
  return [
    route('POST', '/interactions/:i/:t/callback', callback, open),
    route('POST', '/webhooks/:a/:t', followUp, open),
    route(
      'GET',
      '/webhooks/:a/:t/messages/:m',
      ({ params }) => ok(messagePayload(world, target(interactions.forWebhook(params[1] ?? ''), params[2]))),
      open,
    ),
    route(
      'PATCH',
      '/webhooks/:a/:t/messages/:m',
      async (exchange) => {
        const live = interactions.forWebhook(exchange.params[1] ?? '');
        return fill(live, target(live, exchange.params[2]), exchange);
      },
      open,
    ),
    route(
      'DELETE',
      '/webhooks/:a/:t/messages/:m',
      ({ params }) => {
        const live = interactions.forWebhook(params[1] ?? '');
        world.messages.remove(target(live, params[2]));
        live.markShown();
        return nothing;
      },
      open,
    ),
  ];
}

/** Why a kind of response does not fit a kind of interaction, or null when it does. */
function wrongResponse(live: LiveInteraction, type: number): string | null {
  if (![4, 5, 6, 7, 8, 9].includes(type)) return `${type} is no kind of response`;
  if ((live.type === 4) !== (type === 8)) return 'autocomplete is answered with choices, and nothing else is';
  if ((type === 6 || type === 7) && live.sourceId === null)
    return 'only a component of a message can update its message';
  if (type === 9 && live.type === 5) return 'a modal cannot answer a modal';
  return null;
}
