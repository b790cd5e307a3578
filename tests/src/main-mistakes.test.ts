import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { freePort, roomForPrograms, startProgram, temporaryFolder, TOKEN } from '../set-up-program.ts';

const EX_CONFIG = 78;

describe('a token that cannot be one is told from the others, and never repeated', () => {
  test.each([
    ['an empty one', '', /DISCORD_TOKEN: is set but empty/],
    [
      'a malformed one',
      'abc.def.ghi-secret-part',
      /DISCORD_TOKEN: has 23 characters and is not built like a bot token/,
    ],
    ['a client secret', 'aB3_'.repeat(8), /DISCORD_TOKEN: looks like the client secret/],
    ['an application id', '100000000000000001', /DISCORD_TOKEN: looks like an application id/],
    ['a placeholder', 'paste-your-token-here', /DISCORD_TOKEN: still holds a placeholder/],
    ['one with the word Bot', `Bot ${TOKEN}`, /DISCORD_TOKEN: starts with the word "Bot"/],
    ['one with its id broken', `abcdefghijklmnopqrstuvwx.abcdef.${'s'.repeat(27)}`, /is not built like a bot token/],
  ])('%s', async (_what, token, message) => {
    const program = startProgram({ DISCORD_TOKEN: token });
    expect(await program.end()).toMatchObject({ code: EX_CONFIG });
    expect(program.printed()).toMatch(message);
    expect(program.printed()).toMatch(/^The configuration cannot be used:\n/);
    expect(program.printed()).not.toMatch(/\n\s+at /);
    if (token) expect(program.printed()).not.toContain(token);
  });
});

test.each(['DISCORD_TOKEN_FILE', 'GUILD_ID', 'ONLY_GUILDS', 'MENTIONS', 'LOG_LEVEL', 'ROOM_PORT', 'DISCORD_API'])(
  'a token that was put into %s by mistake is not repeated either',
  async (name) => {
    const program = startProgram({ DISCORD_TOKEN: TOKEN, [name]: TOKEN });
    expect(await program.end()).toMatchObject({ code: EX_CONFIG });
    expect(program.printed()).toContain(`${name}: came `);
    expect(program.printed()).not.toContain(TOKEN);
  },
);

test('all mistakes are told at once, each with what came and what was expected', async () => {
  const program = startProgram({
    DISCORD_TOKEN: '',
    GUILD_ID: 'club',
    ONLY_GUILDS: '12 100000000000000001',
    MENTIONS: 'yes',
    LOG_LEVEL: 'loud',
    ROOM_PORT: '99999',
    HEALTH_PORT: '-1',
    DISCORD_API: 'ftp://example.org',
  });
  expect(await program.end()).toMatchObject({ code: EX_CONFIG });
  const lines = program.printed().trim().split('\n');
  expect(lines[0]).toBe('The configuration cannot be used:');
  expect(lines.slice(1)).toEqual([
    expect.stringMatching(/^ {2}DISCORD_TOKEN: is set but empty/),
    '  GUILD_ID: came "club", expected server ids of 17 to 20 digits (Developer Mode, right-click the server, Copy Server ID)',
    expect.stringMatching(/^ {2}ONLY_GUILDS: came 21 characters, expected server ids/),
    '  MENTIONS: came "yes", expected on or off',
    '  LOG_LEVEL: came "loud", expected debug, info, warn or error',
    '  ROOM_PORT: came "99999", expected a port number from 0 to 65535',
    '  HEALTH_PORT: came "-1", expected a port number from 0 to 65535',
    '  DISCORD_API: came "ftp://example.org", expected an http address',
  ]);
});

test('a token that Discord refuses ends the program with what to do', async () => {
  const room = await roomForPrograms({ acceptsToken: () => false });
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl });
  expect(await program.end()).toMatchObject({ code: EX_CONFIG });
  expect(program.printed()).toMatch(/Discord refused the token in DISCORD_TOKEN/);
  expect(program.printed()).not.toContain(TOKEN);
  expect(program.printed()).not.toMatch(/\n\s+at /);
});

test('a token in a file works, and a file that is not there is named', async () => {
  const room = await roomForPrograms();
  const file = join(temporaryFolder(), 'token');
  writeFileSync(file, `${TOKEN}\n`);
  const program = startProgram({ DISCORD_TOKEN_FILE: file, DISCORD_API: room.apiUrl });
  await program.until(/Ready in 1 servers/);
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
  expect(program.printed()).not.toContain(TOKEN);
  const missing = startProgram({ DISCORD_TOKEN_FILE: '/nowhere/token', DISCORD_API: room.apiUrl });
  expect(await missing.end()).toMatchObject({ code: EX_CONFIG });
  expect(missing.printed()).toContain('DISCORD_TOKEN_FILE: came a path that cannot be read ("/nowhere/token")');
});

test('an API that cannot be reached is told, tried again, and does not keep it from stopping', async () => {
  const port = await freePort();
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: `http://127.0.0.1:${port}/api` });
  await program.until(/Trying again in 5 s/);
  expect(program.printed()).toContain(`Discord cannot be reached at 127.0.0.1:${port} (ECONNREFUSED)`);
  const { code, ms } = await program.end('SIGTERM');
  expect(code).toBe(0);
  expect(ms).toBeLessThan(5_000);
  expect(program.printed()).not.toContain(TOKEN);
});

test('an API that comes back is found by the next try', async () => {
  const port = await freePort();
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DISCORD_API: `http://127.0.0.1:${port}/api` });
  await program.until(/Trying again in 5 s/);
  const room = await roomForPrograms({ port });
  await program.until(/Ready in 1 servers/);
  expect(room.gateway.connected()).toBe(true);
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
}, 20_000);

test('a data folder that is a file is told with how to mend it', async () => {
  const file = join(temporaryFolder(), 'data');
  writeFileSync(file, '');
  const program = startProgram({ DISCORD_TOKEN: TOKEN, DATA_DIR: file });
  expect(await program.end()).toMatchObject({ code: EX_CONFIG });
  expect(program.printed()).toMatch(/^DATA_DIR: the folder .* cannot be written by user/);
  expect(program.printed()).not.toMatch(/\n\s+at /);
});
