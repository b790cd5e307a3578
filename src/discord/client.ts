import { Client, DiscordAPIError, Events, GatewayIntentBits, Options, type REST } from 'discord.js';
import { REST as Rest } from 'discord.js';

export type ClientOptions = { apiUrl?: string; mentions: boolean };

/**
 * A client that asks for no privileged intent: `Guilds`, and `GuildMessages` only while mentions are answered.
 *
 * Caches hold what an answer needs and nothing of what members wrote.
 */
export function createClient({ apiUrl, mentions }: ClientOptions): Client {
  return new Client({
    intents: mentions ? [GatewayIntentBits.Guilds, GatewayIntentBits.GuildMessages] : [GatewayIntentBits.Guilds],
    allowedMentions: { parse: [], repliedUser: false },
    // render.ts builds components with Discord's own key names, so there is nothing to rename, key by key, on every send.
    jsonTransformer: (part: unknown) => part,
    rest: { ...(apiUrl ? { api: apiUrl } : {}), timeout: 10_000 },
    makeCache: Options.cacheWithLimits({
      ...Options.DefaultMakeCacheSettings,
      MessageManager: 0,
      PresenceManager: 0,
      ReactionManager: 0,
      GuildMemberManager: { maxSize: 0, keepOverLimit: (member) => member.id === member.client.user.id },
      UserManager: { maxSize: 200, keepOverLimit: (user) => user.id === user.client.user.id },
    }),
  });
}

/** A REST client outside of a session, for registering commands and for trying a token. */
export function createRest(token: string, apiUrl?: string): REST {
  return new Rest({ version: '10', retries: 1, timeout: 10_000, ...(apiUrl ? { api: apiUrl } : {}) }).setToken(token);
}

export type LoginProblem = { kind: 'refused' | 'unreachable' | 'intents' | 'no-access' | 'other'; message: string };

/** Why a login failed, in words that say what to do. The token never appears. */
export function loginProblem(error: unknown, apiUrl = 'https://discord.com/api'): LoginProblem {
  const text = error instanceof Error ? error.message : String(error);
  const code = error instanceof Error ? causeCode(error) : undefined;
  const host = new URL(apiUrl).host;
  if (
    (error instanceof DiscordAPIError && error.status === 401) ||
    /TokenInvalid|invalid token/i.test(`${code} ${text}`) ||
    code === 'TokenInvalid'
  )
    return {
      kind: 'refused',
      message:
        'Discord refused the token in DISCORD_TOKEN. It was reset, or it belongs to a deleted application. In the Developer Portal open your application, Bot, Reset Token, and put the new one in.',
    };
  if (/disallowed intents/i.test(text))
    return {
      kind: 'intents',
      message:
        'Discord refused the intents. The bot asks for Guilds and Guild Messages only; both need no approval. Check that the token belongs to a bot application.',
    };
  if (
    code &&
    /^(ECONNREFUSED|ECONNRESET|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|UND_ERR_\w+|AbortError)$/.test(
      code,
    )
  )
    return {
      kind: 'unreachable',
      message: `Discord cannot be reached at ${host} (${code}). Check the network, the name service and the firewall; the bot needs outgoing HTTPS.`,
    };
  if (error instanceof LoginTimeout)
    return {
      kind: 'unreachable',
      message: `Discord at ${host} took the token but did not finish the login within a minute.`,
    };
  const status = error instanceof Error ? Number(Reflect.get(error, 'status')) : NaN;
  if (status >= 500 || status === 429)
    return {
      kind: 'unreachable',
      message: `Discord at ${host} is not able to answer at the moment (status ${status}).`,
    };
  if (status === 403)
    return {
      kind: 'no-access',
      message: `Discord does not let the bot register its commands (${text}). Look at GUILD_ID: it must be a server that the bot was invited to, with the scope applications.commands. Correct it, or remove the line to register everywhere.`,
    };
  if (error instanceof Error && error.name === 'AbortError')
    return {
      kind: 'unreachable',
      message: `Discord at ${host} did not answer within 10 seconds. Check the network and the firewall.`,
    };
  return { kind: 'other', message: `The login failed: ${text}` };
}

function causeCode(error: Error): string | undefined {
  for (let at: unknown = error; at instanceof Error; at = at.cause) {
    const code: unknown = Reflect.get(at, 'code');
    if (typeof code === 'string') return code;
    const inner: unknown = Reflect.get(at, 'errors');
    if (Array.isArray(inner) && inner[0] instanceof Error) {
      const innerCode: unknown = Reflect.get(inner[0], 'code');
      if (typeof innerCode === 'string') return innerCode;
    }
  }
  return undefined;
}

/** A gateway that takes this long to say READY is not going to. */
const LONGEST_LOGIN_MS = 60_000;

/** Resolves when the client is ready; rejects when the login fails, takes over a minute, or is called off. */
export async function logIn(client: Client, token: string, signal?: AbortSignal): Promise<Client<true>> {
  const ready = new Promise<Client<true>>((resolve, reject) => {
    const late = setTimeout(() => reject(new LoginTimeout()), LONGEST_LOGIN_MS);
    const calledOff = () => {
      clearTimeout(late);
      reject(new LoginCalledOff());
    };
    client.once(Events.ClientReady, (it) => {
      clearTimeout(late);
      signal?.removeEventListener('abort', calledOff);
      resolve(it);
    });
    if (signal?.aborted) calledOff();
    else signal?.addEventListener('abort', calledOff, { once: true });
    client.login(token).catch((error: unknown) => {
      clearTimeout(late);
      reject(error instanceof Error ? error : new Error(String(error)));
    });
  });
  return ready;
}

/** Discord took the token but never said that it was ready. */
export class LoginTimeout extends Error {}
/** The program was told to stop while it was logging in. */
export class LoginCalledOff extends Error {}
