import { z } from 'zod';
import { commandProblems } from './contract-commands.ts';
import { modalProblems } from './contract-modal.ts';
import { isEmpty, messageProblems } from './contract-message.ts';
import type { MessageContext } from './contract-message.ts';
import { loadSpec, specProblems } from './contract-spec.ts';
import type { SchemaName, Spec } from './contract-spec.ts';
import { CommandBody } from './commands.ts';
import { formRefusal } from './form-refusal.ts';
import type { Problem } from './form-refusal.ts';
import { EPHEMERAL, MessageBody, Part } from './message-body.ts';
import { emptyMessage } from './refusal.ts';

export type BodyKind =
  | 'message'
  | 'message-edit'
  | 'callback'
  | 'webhook'
  | 'webhook-edit'
  | 'commands'
  | 'guild-commands'
  | 'direct-channel'
  | 'thread'
  | 'thread-from-message'
  | 'thread-change'
  | 'channel-change';
export type BodyContext = Partial<MessageContext> & { mustSpeak?: boolean };
export type Contract = { check(kind: BodyKind, body: unknown, context?: BodyContext): Promise<void> };

const SCHEMA_OF: Record<Exclude<BodyKind, 'callback'>, SchemaName> = {
  message: 'MessageCreateRequestSchema',
  'message-edit': 'MessageEditRequestPartialSchema',
  webhook: 'IncomingWebhookRequestPartialSchema',
  'webhook-edit': 'IncomingWebhookUpdateRequestPartialSchema',
  commands: 'ApplicationCommandUpdateRequestSchema',
  'guild-commands': 'ApplicationCommandUpdateRequestSchema',
  'direct-channel': 'CreatePrivateChannelRequestSchema',
  thread: 'CreateTextThreadWithoutMessageRequestSchema',
  'thread-from-message': 'CreateTextThreadWithMessageRequestSchema',
  'thread-change': 'UpdateThreadRequestPartialSchema',
  'channel-change': 'UpdateGuildChannelRequestPartialSchema',
};
const CALLBACK_SCHEMA: Record<number, SchemaName> = {
  4: 'CreateMessageInteractionCallbackRequestSchema',
  5: 'CreateMessageInteractionCallbackRequestSchema',
  6: 'UpdateMessageInteractionCallbackRequestSchema',
  7: 'UpdateMessageInteractionCallbackRequestSchema',
  8: 'ApplicationCommandAutocompleteCallbackRequestSchema',
  9: 'ModalInteractionCallbackRequestSchema',
};
const Callback = z.object({ type: z.number(), data: z.unknown().optional() });

/**
 * The contract of the API: every body must fit Discord's published description and the rules that it cannot express.
 * Off, only what the room itself needs to read is checked.
 */
export function createContract(mode: 'strict' | 'off'): Contract {
  if (mode === 'off') return { check: () => Promise.resolve() };
  return {
    async check(kind, body, context = {}) {
      const spec = await loadSpec();
      const problems = [...bySpec(spec, kind, normalise(kind, body)), ...byRule(kind, body, context)];
      if (problems.length) throw formRefusal(problems);
      if (saysNothing(kind, body, context)) throw emptyMessage();
    },
  };
}

function bySpec(spec: Spec, kind: BodyKind, body: unknown): Problem[] {
  if (kind === 'callback') {
    const name = CALLBACK_SCHEMA[Callback.safeParse(body).data?.type ?? 0];
    return name ? specProblems(spec[name], body) : [{ path: ['type'], message: 'this is no kind of response' }];
  }
  const schema = spec[SCHEMA_OF[kind]];
  if (kind !== 'commands' && kind !== 'guild-commands') return specProblems(schema, body ?? {});
  if (!Array.isArray(body)) return [{ path: [], message: 'a list of commands is expected' }];
  return body.flatMap((one, n) =>
    specProblems(schema, one).map(({ path, message }) => ({ path: [n, ...path], message })),
  );
}

function byRule(kind: BodyKind, body: unknown, context: BodyContext): Problem[] {
  switch (kind) {
    case 'commands':
    case 'guild-commands':
      return commandProblems(z.array(CommandBody).safeParse(body).data ?? [], kind === 'guild-commands');
    case 'callback': {
      const { type, data } = Callback.parse(body);
      if (type === 5) return deferralProblems(data);
      if (type === 9)
        return under(
          'data',
          modalProblems(z.object({ components: z.array(Part) }).safeParse(data).data?.components ?? []),
        );
      if (type === 4 || type === 7) return under('data', messageRules('callback', data, context));
      return [];
    }
    case 'message':
    case 'message-edit':
    case 'webhook':
    case 'webhook-edit':
      return messageRules(kind, body, context);
    case 'direct-channel':
    case 'thread':
    case 'thread-from-message':
    case 'thread-change':
    case 'channel-change':
      return [];
  }
}

function messageRules(kind: BodyKind, data: unknown, { files = new Map(), existing }: BodyContext): Problem[] {
  const body = MessageBody.safeParse(data ?? {}).data;
  // What cannot even be read the description has complained about.
  if (!body) return [];
  const problems = messageProblems(body, { files, existing });
  const privateElsewhere = (kind === 'message' || kind === 'message-edit') && ((body.flags ?? 0) & EPHEMERAL) !== 0;
  return privateElsewhere
    ? [...problems, { path: ['flags'], message: 'only answers to interactions can be private' }]
    : problems;
}

function deferralProblems(data: unknown): Problem[] {
  const body = z.record(z.string(), z.unknown()).safeParse(data ?? {}).data ?? {};
  const extra = Object.keys(body).filter((key) => key !== 'flags' && body[key] !== false);
  const flags = z
    .number()
    .catch(0)
    .parse(body['flags'] ?? 0);
  return [
    ...extra.map((key) => ({
      path: ['data', key],
      message: 'a deferred response carries nothing but the private flag',
    })),
    ...(flags & ~EPHEMERAL
      ? [{ path: ['data', 'flags'], message: 'a deferred response may be private and nothing else' }]
      : []),
  ];
}

function saysNothing(kind: BodyKind, raw: unknown, { files = new Map(), existing, mustSpeak }: BodyContext): boolean {
  const callback = kind === 'callback' ? Callback.parse(raw) : null;
  const speaks = kind === 'message' || kind === 'webhook' || mustSpeak === true || callback?.type === 4;
  const edits = existing !== undefined;
  if (!speaks && !edits) return false;
  const body = MessageBody.safeParse((callback ? callback.data : raw) ?? {}).data;
  return body !== undefined && isEmpty(body, { files, existing });
}

const under = (key: string, problems: Problem[]): Problem[] =>
  problems.map(({ path, message }) => ({ path: [key, ...path], message }));

/** Takes out what discord.js always sends, or sends as Discord's documents say, and the description does not know. */
function normalise(kind: BodyKind, body: unknown): unknown {
  const commands = kind === 'commands' || kind === 'guild-commands';
  const spoken = kind === 'callback' || kind === 'webhook' || kind === 'webhook-edit';
  return JSON.parse(JSON.stringify(body ?? {}), (key: string, value: unknown): unknown => {
    if (spoken && (key === 'enforce_nonce' || key === 'tts') && value === false) return undefined;
    if (key === 'animated') return undefined;
    if (commands && key === 'default_member_permissions' && typeof value === 'string') return Number(value);
    if (commands && key === 'nsfw') return undefined;
    if (kind === 'thread-from-message' && key === 'type') return undefined;
    return value;
  });
}
