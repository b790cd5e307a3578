import { readFileSync } from 'node:fs';
import { z } from 'zod';

/** What the program needs to know from outside. Every key is explained in deploy/example.env. */
export type Config = {
  /** Absent: the practice room opens. */
  token?: string;
  dataFolder: string;
  /** Register commands for this server only; absent: everywhere. */
  guildId?: string;
  /** Servers the bot stays in; empty: all. */
  onlyGuilds: string[];
  /** Whether a plain mention of the bot is answered; off, the bot sees no messages at all. */
  mentions: boolean;
  logLevel: 'debug' | 'info' | 'warn' | 'error';
  roomPort: number;
  /** Health endpoint; absent: none. */
  healthPort?: number;
  /** Only for the practice room and tests: another address of the Discord API. */
  apiUrl?: string;
};

export type ConfigResult = { ok: true; config: Config } | { ok: false; problems: string[] };

const port = z.coerce.number().int().min(0).max(65535);
const snowflake = z.string().regex(/^\d{17,20}$/, 'a server id of 17 to 20 digits');
const onOff = z.enum(['on', 'off']).transform((value) => value === 'on');

const Environment = z.object({
  DATA_DIR: z.string().min(1).default('data'),
  GUILD_ID: snowflake.optional(),
  ONLY_GUILDS: z
    .string()
    .transform((list) => list.split(/[\s,]+/).filter(Boolean))
    .pipe(z.array(snowflake))
    .default([]),
  MENTIONS: onOff.default(true),
  LOG_LEVEL: z.enum(['debug', 'info', 'warn', 'error']).default('info'),
  ROOM_PORT: port.default(4870),
  HEALTH_PORT: port.optional(),
  DISCORD_API: z.url({ protocol: /^https?$/ }).optional(),
});

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * Reads the environment once and reports every problem at once, by variable name. A token is never printed.
 *
 * `DISCORD_TOKEN_FILE` names a file that holds the token, for hosts that keep secrets out of the environment.
 */
export function readConfig(env: Environment): ConfigResult {
  const problems: string[] = [];
  const token = readToken(env, problems);
  const parsed = Environment.safeParse(withoutEmpty(env));
  if (!parsed.success) {
    for (const { path, message } of parsed.error.issues) {
      const name = String(path[0]);
      problems.push(`${name}: came ${shown(env[name])}, expected ${expectationOf(name, message)}`);
    }
  }
  if (!parsed.success || problems.length > 0) return { ok: false, problems };
  const { data } = parsed;
  return {
    ok: true,
    config: {
      ...(token ? { token } : {}),
      dataFolder: data.DATA_DIR,
      ...(data.GUILD_ID ? { guildId: data.GUILD_ID } : {}),
      onlyGuilds: data.ONLY_GUILDS,
      mentions: data.MENTIONS,
      logLevel: data.LOG_LEVEL,
      roomPort: data.ROOM_PORT,
      ...(data.HEALTH_PORT === undefined ? {} : { healthPort: data.HEALTH_PORT }),
      ...(data.DISCORD_API ? { apiUrl: data.DISCORD_API } : {}),
    },
  };
}

/** A value as it came; a long one, which may be a token in the wrong line, only by its length. */
const shown = (value = '') => (value.length > 20 ? `${value.length} characters` : JSON.stringify(value));

function expectationOf(name: string, message: string): string {
  switch (name) {
    case 'MENTIONS':
      return 'on or off';
    case 'LOG_LEVEL':
      return 'debug, info, warn or error';
    case 'ROOM_PORT':
    case 'HEALTH_PORT':
      return 'a port number from 0 to 65535';
    case 'DISCORD_API':
      return 'an http address';
    case 'GUILD_ID':
    case 'ONLY_GUILDS':
      return 'server ids of 17 to 20 digits (Developer Mode, right-click the server, Copy Server ID)';
    default:
      return message;
  }
}

/** Keys set to nothing count as not set; only an empty token is a mistake worth a word. */
const withoutEmpty = (env: Environment) => Object.fromEntries(Object.entries(env).filter(([, value]) => value !== ''));

function readToken(env: Environment, problems: string[]): string | undefined {
  const file = env.DISCORD_TOKEN_FILE;
  let token = env.DISCORD_TOKEN;
  let name = 'DISCORD_TOKEN';
  if (file) {
    name = 'DISCORD_TOKEN_FILE';
    try {
      token = readFileSync(file, 'utf8');
    } catch {
      problems.push(
        `DISCORD_TOKEN_FILE: came a path that cannot be read (${shown(file)}), expected a file with the bot token; check the path and its permissions`,
      );
      return undefined;
    }
  }
  if (token === undefined) return undefined;
  const problem = tokenProblem(token.trim());
  if (problem) problems.push(`${name}: ${problem}`);
  return token.trim();
}

/** What is wrong with a token's shape, in words that never repeat it; null when it looks like one. */
export function tokenProblem(token: string): string | null {
  const where = 'in the Developer Portal open your application, Bot, Reset Token, and copy the whole token';
  if (token === '') return `is set but empty; ${where}, or remove the line to open the practice room`;
  if (/your|token|here|changeme|xxx|example/i.test(token) && !token.includes('.'))
    return `still holds a placeholder; ${where}`;
  if (/^Bot\s/i.test(token)) return 'starts with the word "Bot"; leave that word out';
  if (/^[\w-]{32}$/.test(token))
    return `looks like the client secret (32 characters without dots), expected the bot token; ${where}`;
  if (/^\d{17,20}$/.test(token)) return `looks like an application id, expected the bot token; ${where}`;
  const [id = ''] = token.split('.');
  const decoded = Buffer.from(id, 'base64').toString('latin1');
  if (!/^[\w-]{20,}\.[\w-]{5,}\.[\w-]{20,}$/.test(token) || !/^\d{17,20}$/.test(decoded))
    return `has ${token.length} characters and is not built like a bot token (three parts joined by dots); ${where}`;
  return null;
}
