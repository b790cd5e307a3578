import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { readConfig, tokenProblem } from '../../src/config.ts';

/** Built like a token, and none: its first part spells 18 digits. */
const TOKEN = `${Buffer.from('100000000000000001').toString('base64url')}.Gabcde.${'a1B2c3D4'.repeat(5)}`;
const GUILD = '123456789012345678';

const problemsOf = (env: Record<string, string>): string[] => {
  const read = readConfig(env);
  return read.ok ? [] : read.problems;
};
const configOf = (env: Record<string, string>) => {
  const read = readConfig(env);
  if (!read.ok) throw new Error(read.problems.join('\n'));
  return read.config;
};

describe('what is read', () => {
  const DEFAULTS = { dataFolder: 'data', onlyGuilds: [], mentions: true, logLevel: 'info', roomPort: 4870 };

  test('nothing set: the practice room, with every default', () => {
    expect(configOf({})).toEqual(DEFAULTS);
  });

  test('keys set to nothing count as not set, and other keys do not matter', () => {
    const env = {
      DATA_DIR: '',
      GUILD_ID: '',
      ONLY_GUILDS: '',
      MENTIONS: '',
      LOG_LEVEL: '',
      ROOM_PORT: '',
      HEALTH_PORT: '',
    };
    expect(configOf({ ...env, DISCORD_API: '', PATH: '/bin', HOME: '/root' })).toEqual(DEFAULTS);
  });

  test('everything set', () => {
    expect(
      configOf({
        DISCORD_TOKEN: TOKEN,
        DATA_DIR: '/srv/reef',
        GUILD_ID: GUILD,
        ONLY_GUILDS: `${GUILD}, 223456789012345678  323456789012345678`,
        MENTIONS: 'off',
        LOG_LEVEL: 'debug',
        ROOM_PORT: '0',
        HEALTH_PORT: '8080',
        DISCORD_API: 'http://127.0.0.1:4000/api',
      }),
    ).toEqual({
      token: TOKEN,
      dataFolder: '/srv/reef',
      guildId: GUILD,
      onlyGuilds: [GUILD, '223456789012345678', '323456789012345678'],
      mentions: false,
      logLevel: 'debug',
      roomPort: 0,
      healthPort: 8080,
      apiUrl: 'http://127.0.0.1:4000/api',
    });
  });

  test('a token from a file, without the line end behind it', () => {
    expect(configOf({ DISCORD_TOKEN_FILE: fileWith(`${TOKEN}\n`) }).token).toBe(TOKEN);
    expect(configOf({ DISCORD_TOKEN: ` ${TOKEN} ` }).token).toBe(TOKEN);
  });

  test('the file goes before the variable', () => {
    expect(configOf({ DISCORD_TOKEN_FILE: fileWith(TOKEN), DISCORD_TOKEN: 'changeme' }).token).toBe(TOKEN);
  });
});

describe('what cannot be used', () => {
  const wrong = {
    DISCORD_TOKEN: 'changeme',
    GUILD_ID: 'my server',
    ONLY_GUILDS: `${GUILD} 12`,
    MENTIONS: 'yes',
    LOG_LEVEL: 'loud',
    ROOM_PORT: '70000',
    HEALTH_PORT: 'x',
    DISCORD_API: 'file:///etc/passwd',
  };

  test('is told all at once, each by the name of its variable', () => {
    const names = problemsOf(wrong).map((problem) => problem.split(':')[0]);
    expect(new Set(names)).toEqual(new Set(Object.keys(wrong)));
  });

  test.each([
    [{ MENTIONS: 'yes' }, 'MENTIONS: came "yes", expected on or off'],
    [{ LOG_LEVEL: 'loud' }, 'LOG_LEVEL: came "loud", expected debug, info, warn or error'],
    [{ ROOM_PORT: '70000' }, 'ROOM_PORT: came "70000", expected a port number from 0 to 65535'],
    [{ ROOM_PORT: '80.5' }, 'ROOM_PORT: came "80.5", expected a port number from 0 to 65535'],
    [{ HEALTH_PORT: '-1' }, 'HEALTH_PORT: came "-1", expected a port number from 0 to 65535'],
    [{ DISCORD_API: 'ftp://x.org' }, 'DISCORD_API: came "ftp://x.org", expected an http address'],
  ])('%j', (env, problem) => {
    expect(problemsOf(env)).toEqual([problem]);
  });

  test('a server id says where to find one', () => {
    expect(problemsOf({ GUILD_ID: 'club' })).toEqual([
      expect.stringMatching(/^GUILD_ID: came "club", expected .*Copy Server ID/),
    ]);
    expect(problemsOf({ ONLY_GUILDS: 'club' })[0]).toMatch(/^ONLY_GUILDS: .*Copy Server ID/);
  });

  test('a token file that is not there, empty, or holds something else', () => {
    expect(problemsOf({ DISCORD_TOKEN_FILE: '/no/such' })).toEqual([
      expect.stringMatching(/^DISCORD_TOKEN_FILE: .*cannot be read .*check the path/),
    ]);
    expect(problemsOf({ DISCORD_TOKEN_FILE: fileWith('\n') })).toEqual([
      expect.stringMatching(/^DISCORD_TOKEN_FILE: is set but empty/),
    ]);
    expect(problemsOf({ DISCORD_TOKEN_FILE: fileWith('hello') })[0]).toMatch(/^DISCORD_TOKEN_FILE: has 5 characters/);
  });
});

describe('a token that is none', () => {
  test.each([
    ['empty', '', /set but empty.*practice room/],
    ['spaces', '   ', /set but empty/],
    ['a placeholder', 'your-token-here', /placeholder/],
    ['another placeholder', 'changeme', /placeholder/],
    ['the client secret', 'A7f-kQ2_Zc9LmN4pW8rT1vB3sD5gH6jK', /client secret/],
    ['with Bot in front', `Bot ${TOKEN}`, /starts with the word "Bot"/],
    ['the application id', '123456789012345678', /application id/],
    ['cut short', TOKEN.slice(0, 40), /has 40 characters and is not built like a bot token/],
    ['in quotes', `"${TOKEN}"`, /not built like a bot token/],
    ['two parts', TOKEN.split('.').slice(0, 2).join('.'), /not built like a bot token/],
    ['a first part that is no id', `${'x'.repeat(24)}.Gabcde.${'a'.repeat(38)}`, /not built like a bot token/],
  ])('%s gets its own words', (_what, token, words) => {
    const problems = problemsOf({ DISCORD_TOKEN: token });
    expect(problems).toEqual([expect.stringMatching(words)]);
    expect(problems[0]).toMatch(/^DISCORD_TOKEN: /);
  });

  test('a whole one has no problem', () => {
    expect(tokenProblem(TOKEN)).toBeNull();
  });
});

describe('a token is never repeated', () => {
  const VARIABLES = [
    'DISCORD_TOKEN',
    'DISCORD_TOKEN_FILE',
    'GUILD_ID',
    'ONLY_GUILDS',
    'MENTIONS',
    'LOG_LEVEL',
    'ROOM_PORT',
    'HEALTH_PORT',
    'DISCORD_API',
  ];
  const secrets = [
    TOKEN,
    `Bot ${TOKEN}`,
    `"${TOKEN}"`,
    `${TOKEN}x`,
    TOKEN.slice(0, 50),
    'A7f-kQ2_Zc9LmN4pW8rT1vB3sD5gH6jK',
  ];

  test.each(VARIABLES)('whole, broken or misplaced in %s', (name) => {
    for (const secret of secrets) {
      const said = problemsOf({ [name]: secret, LOG_LEVEL: name === 'LOG_LEVEL' ? secret : 'loud' }).join('\n');
      expect(said).not.toBe('');
      for (const part of secret.split('.').filter((piece) => piece.length > 5)) expect(said).not.toContain(part);
    }
  });
});

/** A file of that text that goes when the test ends. */
function fileWith(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'token-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const file = join(folder, 'token');
  writeFileSync(file, text);
  return file;
}
