import {
  DiscordAPIError,
  RateLimitError,
  RESTEvents,
  Routes,
  type REST,
  type RawFile,
  type ResponseLike,
} from 'discord.js';
import { REST as Rest } from 'discord.js';
import { z } from 'zod';
import { directMember, markLineOf, nonceOf, viewToSend } from '../outbox/outbox.ts';
import type { DeliveryOutcome, DiscordTime, Later, LookUpOutcome, OutboxMessage } from '../outbox/outbox.ts';
import type { Block } from './message-view.ts';
import { render } from './render.ts';

const UNKNOWN_MESSAGE = 10008;
const THREAD_THERE_ALREADY = 160004;
/** A closed thread, and a member who takes no direct messages or left. */
const UNREACHABLE: ReadonlySet<unknown> = new Set([50083, 50007, 50278]);
const ARCHIVE_AFTER_MINUTES = 4_320;
const PAGE = 100;
/** Direct channels whose ids are remembered. */
const MOST_DIRECT = 5_000;
const MOST_PAGES = 50;
const EPOCH_MS = 1_420_070_400_000;
/** Our clock and Discord's may differ by this much. */
const CLOCK_SKEW_MS = 120_000;

const Made = z.object({ id: z.string() });
const Listed = z.array(z.looseObject({ id: z.string(), author: z.looseObject({ id: z.string() }) }));

/**
 * A REST client for deliveries. It tries nothing again by itself and waits for no limit: when to try again is the
 * outbox's to say, and every try of a message carries the same nonce.
 */
export function createDeliveryRest(token: string, apiUrl?: string): () => REST {
  const rest = new Rest({
    version: '10',
    retries: 0,
    timeout: 10_000,
    rejectOnRateLimit: () => true,
    ...(apiUrl ? { api: apiUrl } : {}),
  });
  // After a 401 the client forgets its token, so it is given anew each time.
  return () => rest.setToken(token);
}

/** Does what the outbox asks for, and says how it went. Nothing here throws. */
export function createDelivery(rest: () => REST, botId: string) {
  const direct = new Map<string, string>();
  /** The message with its real channel: Discord opens one for a direct message, the same one each time. */
  const placed = async (message: OutboxMessage): Promise<OutboxMessage> => {
    const memberId = directMember(message.channelId);
    if (memberId === null) return message;
    const known = direct.get(memberId);
    const channelId =
      known ?? Made.parse(await rest().post(Routes.userChannels(), { body: { recipient_id: memberId } })).id;
    if (direct.size >= MOST_DIRECT) direct.clear();
    direct.set(memberId, channelId);
    return { ...message, channelId };
  };
  return {
    async deliver(message: OutboxMessage, now: Date): Promise<DeliveryOutcome> {
      try {
        return { kind: 'sent', messageId: await carryOut(rest(), await placed(message), now) };
      } catch (error) {
        return outcomeOf(error, message);
      }
    },
    async lookUp(message: OutboxMessage): Promise<LookUpOutcome> {
      try {
        return await searchHistory(rest(), botId, await placed(message));
      } catch (error) {
        // Where nothing can be read nothing can be found: then a repeat is the smaller harm.
        return error instanceof DiscordAPIError ? { kind: 'not-there' } : laterFor(error);
      }
    },
  };
}

/** Asks Discord for its time, which every answer carries, a refusal too. Never throws. */
export async function askDiscordTime(rest: REST): Promise<DiscordTime> {
  let said: string | null = null;
  const hear = (_request: unknown, response: ResponseLike) => void (said = response.headers.get('date'));
  rest.on(RESTEvents.Response, hear);
  let why = 'its answer carried no time';
  try {
    await rest.get(Routes.gateway(), { auth: false });
  } catch (error) {
    why = error instanceof Error ? error.message : String(error);
  } finally {
    rest.off(RESTEvents.Response, hear);
  }
  const at = new Date(said ?? NaN);
  return Number.isNaN(at.getTime()) ? { kind: 'silent', why } : { kind: 'says', at };
}

async function carryOut(rest: REST, message: OutboxMessage, now: Date): Promise<string> {
  const { act, channelId, targetId, title } = message;
  if (act === 'thread') {
    const body = { name: (title ?? 'Second opinion').slice(0, 100), auto_archive_duration: ARCHIVE_AFTER_MINUTES };
    return Made.parse(await rest.post(Routes.threads(channelId, targetId ?? undefined), { body })).id;
  }
  const { body, files } = payloadOf(message, now);
  if (act === 'edit')
    return Made.parse(await rest.patch(Routes.channelMessage(channelId, targetId ?? ''), { body, files })).id;
  const nonce = { nonce: nonceOf(message), enforce_nonce: true };
  return Made.parse(await rest.post(Routes.channelMessages(channelId), { body: { ...body, ...nonce }, files })).id;
}

function payloadOf(message: OutboxMessage, now: Date): { body: object; files: RawFile[] } {
  const view = viewToSend(message, now);
  if (!view) throw new RangeError(`outbox message ${message.id} has nothing to say`);
  const withFile = (block: Block): Block =>
    block.kind === 'photo' && message.file ? { ...block, bytes: message.file } : block;
  const { components, flags, files } = render({ ...view, audience: 'everyone', blocks: view.blocks.map(withFile) });
  const users = message.memberId === null || message.act !== 'post' ? [] : [message.memberId];
  return {
    body: {
      components,
      flags,
      allowed_mentions: { parse: [], users },
      ...(files.length > 0
        ? { attachments: files.map(({ name, description }, id) => ({ id: String(id), filename: name, description })) }
        : {}),
    },
    files: files.map(({ attachment, name }) => ({ data: attachment, name })),
  };
}

function outcomeOf(error: unknown, message: OutboxMessage): DeliveryOutcome {
  const why = error instanceof Error ? error.message : String(error);
  if (error instanceof DiscordAPIError) return refusalOf(error, message, why);
  // A view of ours that cannot be rendered stays so; a connection that broke does not.
  return error instanceof RangeError || error instanceof z.ZodError ? { kind: 'malformed', why } : laterFor(error);
}

function laterFor(error: unknown): Later {
  const why = error instanceof Error ? error.message : String(error);
  if (!(error instanceof RateLimitError)) return { kind: 'later', retryAfterMs: null, why };
  return { kind: 'later', retryAfterMs: error.retryAfter, why, ...(error.global ? { forAll: true } : {}) };
}

function refusalOf({ status, code }: DiscordAPIError, message: OutboxMessage, why: string): DeliveryOutcome {
  // A repeated nonce whose first message was deleted since; a change of a message that is gone; a thread that is there.
  if (code === UNKNOWN_MESSAGE && (message.act === 'edit' || (message.act === 'post' && message.attempts > 0)))
    return { kind: 'sent', messageId: '' };
  if (code === THREAD_THERE_ALREADY) return { kind: 'sent', messageId: message.targetId ?? '' };
  if (status === 401) return { kind: 'refused', why };
  if (status === 403 || status === 404 || UNREACHABLE.has(code))
    return { kind: 'unreachable', why, forbidden: status === 403 };
  return status === 429 ? { kind: 'later', retryAfterMs: null, why } : { kind: 'malformed', why };
}

/** Pages through what was said since the first try, looking for our own mark. */
async function searchHistory(rest: REST, botId: string, message: OutboxMessage): Promise<LookUpOutcome> {
  let after = snowflakeBefore(message.firstTryAt ?? message.dueAt);
  for (let page = 0; page < MOST_PAGES; page += 1) {
    const query = new URLSearchParams({ after, limit: String(PAGE) });
    const listed = Listed.parse(await rest.get(Routes.channelMessages(message.channelId), { query }));
    const found = listed.find((one) => one.author.id === botId && hasMark(one, message));
    if (found) return { kind: 'found', messageId: found.id };
    if (listed.length < PAGE) return { kind: 'not-there' };
    after = listed.reduce((most, { id }) => (BigInt(id) > BigInt(most) ? id : most), after);
  }
  return { kind: 'not-there' };
}

const snowflakeBefore = (instant: Date): string =>
  String(BigInt(Math.max(0, instant.getTime() - CLOCK_SKEW_MS - EPOCH_MS)) << 22n);

/** Whether a message holds our custom id, or the small line with our id, anywhere in its components. */
function hasMark(part: unknown, message: OutboxMessage): boolean {
  if (typeof part !== 'object' || part === null) return false;
  if (message.mark !== null && Reflect.get(part, 'custom_id') === message.mark) return true;
  const content: unknown = Reflect.get(part, 'content');
  if (message.mark === null && typeof content === 'string' && content.split('\n').includes(markLineOf(message)))
    return true;
  return Object.values(part).some((inner) => hasMark(inner, message));
}
