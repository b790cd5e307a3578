import { expect, test } from 'vitest';
import { named, titleOf } from '../set-up-club.ts';
import { freePort, roomForPrograms, startProgram, temporaryFolder, TOKEN } from '../set-up-program.ts';

const READY = /Ready in 1 servers with \d+ entries\.\nInvite: \S+\n/;
const CUT_OFF = 'the last run was cut off';

async function club() {
  const room = await roomForPrograms();
  const folder = temporaryFolder();
  const env = { DISCORD_TOKEN: TOKEN, DISCORD_API: room.apiUrl, DATA_DIR: folder };
  return { room, folder, start: (more: Record<string, string> = {}) => startProgram({ ...env, ...more }) };
}

test('it starts, answers, and ends on SIGTERM with 0; the next start has nothing to report', async () => {
  const { room, start } = await club();
  const first = start();
  await first.until(READY);
  const ana = room.actor('Ana');
  const { replies } = await ana.slash('critter name', named('bristle worm'));
  expect(titleOf(replies[0]!)).toBe('Common scavenging bristle worm — Leave it');
  const { code, ms } = await first.end('SIGTERM');
  expect(code).toBe(0);
  expect(ms).toBeLessThan(5_000);
  expect(room.gateway.connected()).toBe(false);
  const second = start();
  await second.until(READY);
  expect(titleOf((await ana.press('Whole entry')).replies[0]!)).toContain('the whole entry');
  expect(await second.end('SIGINT')).toMatchObject({ code: 0 });
  expect(first.printed() + second.printed()).not.toContain(CUT_OFF);
  expect(first.printed() + second.printed()).not.toContain(TOKEN);
});

test('the invitation asks for six permissions and none more', async () => {
  const { room, start } = await club();
  const program = start();
  const printed = await program.until(READY);
  const invite = new URL(/Invite: (\S+)/.exec(printed)![1]!);
  expect(invite.searchParams.get('client_id')).toBe(room.world.applicationId);
  expect(invite.searchParams.get('scope')?.split(' ').toSorted()).toEqual(['applications.commands', 'bot']);
  // View Channel, Send Messages, Attach Files, Read Message History, Create Public Threads, Send Messages in Threads.
  const bits = (1n << 10n) | (1n << 11n) | (1n << 15n) | (1n << 16n) | (1n << 35n) | (1n << 38n);
  expect(invite.searchParams.get('permissions')).toBe(String(bits));
});

test('after kill -9 the next start reports the cut-off run and works; the one after it is silent again', async () => {
  const { room, start } = await club();
  const killed = start();
  await killed.until(READY);
  expect(await killed.end('SIGKILL')).toMatchObject({ code: null, signal: 'SIGKILL' });
  const next = start();
  await next.until(READY);
  expect(next.printed()).toContain(CUT_OFF);
  const { replies } = await room.actor('Ana').slash('critter name', named('aiptasia'));
  expect(titleOf(replies[0]!)).toBe('Aiptasia (glass anemone) — Take it out');
  expect(await next.end('SIGTERM')).toMatchObject({ code: 0 });
  const last = start();
  await last.until(READY);
  expect(last.printed()).not.toContain(CUT_OFF);
});

test('a second bot on one data folder stops with 78 and says why; the first goes on', async () => {
  const { room, folder, start } = await club();
  const first = start();
  await first.until(READY);
  const second = start();
  expect(await second.end()).toMatchObject({ code: 78 });
  expect(second.printed()).toBe(
    `Another bot is running on the data folder ${folder}. Two would answer and remind twice, so this one stops. Stop the other one, or set DATA_DIR to another folder.\n`,
  );
  const { replies } = await room.actor('Ana').slash('critter name', named('aiptasia'));
  expect(replies).toHaveLength(1);
  expect(room.gateway.counts.identifies).toBe(1);
  expect(await first.end('SIGTERM')).toMatchObject({ code: 0 });
});

test('the folder is free again after a kill -9', async () => {
  const { start } = await club();
  const killed = start();
  await killed.until(READY);
  await killed.end('SIGKILL');
  const next = start();
  await next.until(READY);
  expect(await next.end('SIGTERM')).toMatchObject({ code: 0 });
});

test('what members write and what they are told stays out of the log', async () => {
  const { room, start } = await club();
  const program = start({ LOG_LEVEL: 'debug' });
  await program.until(READY);
  room.actor('Petra', { name: 'Petra', dmClosed: true });
  room.world.setBotPermissions('ask', { deny: ['SendMessages'] });
  await room.quiet(60);
  room.world.messages.add({
    channelId: room.world.mainChannel().id,
    authorId: room.world.members.named('Petra')!.id,
    content: `<@${room.world.members.bot.id}> my secret bristle worm`,
    mentionIds: [room.world.members.bot.id],
  });
  await program.until(/a mention could not be answered/);
  room.faults.add({ match: /callback$/, kind: 'forbidden', when: 'before-commit', times: 1 });
  const { replies } = await room.actor('Ana').slash('critter name', named('secret aiptasia'));
  expect(replies[0]!.text).toContain('Something went wrong on my side');
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
  expect(program.printed()).not.toMatch(/secret|aiptasia|bristle|Petra/i);
});

test('for one server the commands are registered there only', async () => {
  const { room, start } = await club();
  const program = start({ GUILD_ID: room.world.guild.id, MENTIONS: 'off' });
  await program.until(READY);
  const homes = room.world.commands.all().map(({ guildId }) => guildId);
  expect(homes.length).toBeGreaterThan(0);
  expect(new Set(homes)).toEqual(new Set([room.world.guild.id]));
  expect((await room.actor('Ana').slash('critter name', named('aiptasia'))).replies).toHaveLength(1);
});

test('the health endpoint says alive and ready, on this machine only', async () => {
  const { start } = await club();
  const port = await freePort();
  const program = start({ HEALTH_PORT: String(port) });
  await program.until(READY);
  const status = async (path: string) => (await fetch(`http://127.0.0.1:${port}${path}`)).status;
  expect([await status('/healthz'), await status('/readyz'), await status('/')]).toEqual([200, 200, 404]);
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
});

test('while Discord cannot be reached the program is alive and not ready', async () => {
  const port = await freePort();
  const program = startProgram({ DISCORD_TOKEN: TOKEN, HEALTH_PORT: String(port) });
  await program.until(/Trying again/);
  const status = async (path: string) => (await fetch(`http://127.0.0.1:${port}${path}`)).status;
  expect([await status('/healthz'), await status('/readyz')]).toEqual([200, 503]);
  expect(await program.end('SIGTERM')).toMatchObject({ code: 0 });
});
