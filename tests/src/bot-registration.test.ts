import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import { createAbilities } from '../../src/commands.ts';
import { createRest } from '../../src/discord/client.ts';
import { definitionsOf } from '../../src/discord/definitions.ts';
import { registerCommands } from '../../src/discord/register.ts';
import type { Room } from '../../src/room/open-room.ts';
import { built } from '../set-up-build.ts';
import { knowledge, named, openClub, openRoomWithBot, titleOf } from '../set-up-club.ts';

const writes = (room: Room) =>
  room.requests.all().filter(({ method, path }) => method !== 'GET' && /commands/.test(path));
const NOTHING = { added: [], changed: [], removed: [], unchanged: [] };
const definitions = () => {
  const { all, entries } = createAbilities(knowledge());
  return definitionsOf(all, entries);
};
const critterIn = ({ commands }: Room['world']) => commands.all().find(({ name }) => name === 'critter')!;
/** Every command of ours, by name. */
const ours = () => definitions().map(({ name }) => name);
const others = () => ours().filter((name) => name !== 'critter');

test('the first start writes the commands, the second one nothing', async () => {
  const { room, bot, restart } = await openClub();
  expect(bot().registration).toEqual({ ...NOTHING, added: ours() });
  expect(writes(room).map(({ method }) => method)).toEqual(['PUT']);
  room.requests.clear();
  await restart();
  expect(bot().registration).toEqual({ ...NOTHING, unchanged: ours() });
  expect(writes(room)).toEqual([]);
});

test.each<[string, (room: Room) => void]>([
  ['a description', ({ world }) => world.commands.put({ ...critterIn(world), description: 'Old words' }, null)],
  [
    'a description of a subcommand',
    ({ world }) => {
      const critter = critterIn(world);
      const options = critter.options!.map((sub, at) => (at === 0 ? { ...sub, description: 'Old words' } : sub));
      world.commands.put({ ...critter, options }, null);
    },
  ],
  [
    'the length that an option takes',
    ({ world }) => {
      const critter = critterIn(world);
      const options = critter.options!.map((sub) => ({
        ...sub,
        options: sub.options!.map((option) => ({ ...option, max_length: 50 })),
      }));
      world.commands.put({ ...critter, options }, null);
    },
  ],
  [
    'a subcommand that is gone',
    ({ world }) => {
      const critter = critterIn(world);
      world.commands.put({ ...critter, options: critter.options!.slice(1) }, null);
    },
  ],
  ['where it can be used', ({ world }) => world.commands.put({ ...critterIn(world), contexts: [0] }, null)],
])('%s that differs is written, once', async (_what, change) => {
  const { room, bot, restart } = await openClub();
  change(room);
  room.requests.clear();
  await restart();
  expect(bot().registration).toEqual({ ...NOTHING, changed: ['critter'], unchanged: others() });
  expect(writes(room).map(({ method }) => method)).toEqual(['PUT']);
  room.requests.clear();
  await restart();
  expect(writes(room)).toEqual([]);
  expect((await room.actor('Ana').slash('critter name', named('aiptasia'))).replies).toHaveLength(1);
});

test('a command that is no longer ours is taken away', async () => {
  const { room, bot, restart } = await openClub();
  room.world.commands.put({ name: 'old', description: 'Old' }, null);
  await restart();
  expect(bot().registration).toEqual({ ...NOTHING, removed: ['old'], unchanged: ours() });
  expect(room.world.commands.all().map(({ name }) => name)).toEqual(ours());
});

test('a dry run says what would change and writes nothing', async () => {
  const { room } = await openRoomWithBot();
  room.world.commands.replace([{ name: 'old', description: 'Old' }], null);
  room.requests.clear();
  const rest = createRest('practice', room.apiUrl);
  const scope = { kind: 'global' } as const;
  const dry = await registerCommands(rest, room.world.applicationId, definitions(), scope, { dryRun: true });
  expect(dry).toEqual({ ...NOTHING, added: ours(), removed: ['old'] });
  expect(writes(room)).toEqual([]);
  expect(room.world.commands.all().map(({ name }) => name)).toEqual(['old']);
});

test('for one server: no contexts, second start writes nothing, and it answers there', async () => {
  const { room, bot } = await openRoomWithBot();
  const scope = { kind: 'guild', guildId: room.world.guild.id } as const;
  room.world.commands.replace([], null);
  room.requests.clear();
  const rest = createRest('practice', room.apiUrl);
  const register = () => registerCommands(rest, bot.client.application.id, definitions(), scope);
  expect(await register()).toEqual({ ...NOTHING, added: ours() });
  expect(await register()).toEqual({ ...NOTHING, unchanged: ours() });
  expect(writes(room)).toHaveLength(1);
  const { replies } = await room.actor('Ana').slash('critter name', named('aiptasia'));
  expect(replies.map(titleOf)).toEqual(['Aiptasia (glass anemone) — Take it out']);
});

test('the register program: dry run, writing, nothing left to do, a refused token', async () => {
  const { room } = await openRoomWithBot({ acceptsToken: (token) => !token.endsWith('r'.repeat(27)) });
  room.world.commands.replace([], null);
  room.requests.clear();
  const token = (last: string) =>
    `${Buffer.from('100000000000000001').toString('base64url')}.abcdef.${last.repeat(27)}`;
  const list = ours()
    .map((name) => (name.includes(' ') ? name : `/${name}`))
    .join(', ');
  const register = async (args: string[], last = 'a') => {
    const env = { PATH: process.env['PATH'], DISCORD_TOKEN: token(last), DISCORD_API: room.apiUrl };
    return promisify(execFile)(process.execPath, [built('register.js'), ...args], { env });
  };
  expect((await register(['--dry-run'])).stdout).toBe(
    `Commands everywhere (dry run, nothing written):\n  added: ${list}\n`,
  );
  expect(writes(room)).toEqual([]);
  expect((await register([])).stdout).toBe(`Commands everywhere:\n  added: ${list}\n`);
  expect((await register([])).stdout).toBe(`Commands everywhere:\n  unchanged: ${list}\n`);
  expect(writes(room)).toHaveLength(1);
  const refused = await register([], 'r').catch((error: unknown) => error);
  expect(refused).toMatchObject({ stdout: '', stderr: expect.stringContaining('Discord refused the token') });
  expect(JSON.stringify(refused)).not.toContain(token('r'));
});
