import { Events, Status, type Client } from 'discord.js';
import { expect, test } from 'vitest';
import type { Room } from '../../src/room/open-room.ts';
import type { GatewayFault } from '../../src/room/room.ts';
import { callbacks, ERROR, named, openClub, openRoomWithBot, titleOf } from '../set-up-club.ts';

const BRISTLE = 'Common scavenging bristle worm — Leave it';
const AIPTASIA = 'Aiptasia (glass anemone) — Take it out';

type Packet = { t: string | null; d: unknown };

/** Everything of one kind that the gateway hands to the bot. */
function packets(client: Client, type: string): unknown[] {
  const kept: unknown[] = [];
  client.on(Events.Raw, ({ t, d }: Packet) => {
    if (t === type) kept.push(d);
  });
  return kept;
}

async function dropped(room: Room, fault: GatewayFault): Promise<void> {
  const gone = new Promise<void>((resolve) => {
    const stop = room.world.onChange((change) => {
      if (change.kind !== 'gateway') return;
      stop();
      resolve();
    });
  });
  room.gateway.drop(fault);
  await gone;
}

/** A question that waits in the room until the bot is back. */
function askedMeanwhile({ world, interactions }: Room, name: string) {
  const critter = world.commands.all().find(({ name }) => name === 'critter');
  const options = [{ type: 1, name: 'name', options: [{ type: 3, name: 'critter', value: name }] }];
  return interactions.start(
    {
      type: 2,
      name: 'critter name',
      memberId: world.members.declare({ name: 'Ana' }).id,
      channelId: world.mainChannel().id,
      sourceId: null,
    },
    { id: critter!.id, name: 'critter', type: 1, options },
  );
}

test('a dropped connection is resumed; what came meanwhile is answered once', async () => {
  const { room, lines } = await openClub();
  const ana = room.actor('Ana');
  await dropped(room, 'drop');
  expect(room.gateway.connected()).toBe(false);
  const [command, mention] = await Promise.all([
    ana.slash('critter name', named('bristle worm')),
    room.actor('Ben').say('@bot aiptasia'),
  ]);
  expect(command.replies.map(titleOf)).toContain(BRISTLE);
  expect(mention.replies.map(titleOf)).toContain(AIPTASIA);
  await room.quiet(60);
  expect(room.gateway.counts).toEqual({ identifies: 1, resumes: 1 });
  expect(callbacks(room)).toHaveLength(1);
  expect(
    ana
      .sees()
      .map(titleOf)
      .filter((title) => title === BRISTLE || title === AIPTASIA),
  ).toHaveLength(2);
  expect(titleOf((await ana.press('Whole entry')).replies[0]!)).toContain('the whole entry');
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
});

test('what is replayed although it was answered before the drop is not answered again', async () => {
  const club = await openClub();
  const { room } = club;
  const ana = room.actor('Ana');
  const interactions = packets(club.bot().client, 'INTERACTION_CREATE');
  const messages = packets(club.bot().client, 'MESSAGE_CREATE');
  await ana.slash('critter name', named('bristle worm'));
  await ana.say('@bot aiptasia');
  const [question] = messages;
  await dropped(room, 'drop');
  room.gateway.dispatch('INTERACTION_CREATE', interactions[0]);
  room.gateway.dispatch('MESSAGE_CREATE', question);
  await room.gateway.whenConnected();
  await room.quiet(100);
  expect(interactions).toHaveLength(2);
  expect(callbacks(room)).toHaveLength(1);
  expect(ana.sees()).toHaveLength(3);
});

test('the same interaction or message delivered twice in a row is answered once', async () => {
  const club = await openClub();
  const { room } = club;
  const ana = room.actor('Ana');
  const interactions = packets(club.bot().client, 'INTERACTION_CREATE');
  const messages = packets(club.bot().client, 'MESSAGE_CREATE');
  await ana.slash('critter name', named('bristle worm'));
  await ana.press('Whole entry');
  await ana.say('@bot aiptasia');
  const again = [...interactions].map((data) => ({ type: 'INTERACTION_CREATE', data }));
  for (const { type, data } of [...again, { type: 'MESSAGE_CREATE', data: messages[0] }]) {
    room.gateway.dispatch(type, data);
    room.gateway.dispatch(type, data);
  }
  await room.quiet(100);
  expect(interactions).toHaveLength(6);
  expect(callbacks(room)).toHaveLength(2);
  expect(ana.sees()).toHaveLength(4);
  expect((await ana.slash('critter name', named('aiptasia'))).replies.map(titleOf)).toEqual([AIPTASIA]);
});

test('an interaction that Discord no longer waits for ends quietly, and the next is answered', async () => {
  const { room, lines } = await openRoomWithBot({ firstResponseMs: 150 });
  await dropped(room, 'drop');
  const old = askedMeanwhile(room, 'bristle worm');
  await room.gateway.whenConnected();
  await room.quiet(60);
  const fresh = askedMeanwhile(room, 'aiptasia');
  await fresh.responded;
  await room.quiet(60);
  expect(old.state).toBe('waiting');
  expect(fresh.state).toBe('answered');
  expect(lines).toContainEqual(expect.objectContaining({ interaction: old.id, code: 10062 }));
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
});

test.each([-60_000, 60_000])('a clock that is %i ms off Discord’s answers all the same', async (off) => {
  const { room } = await openRoomWithBot({}, { clock: { now: () => new Date(Date.now() + off) } });
  const { replies } = await room.actor('Ana').slash('critter name', named('bristle worm'));
  expect(replies.map(titleOf)).toEqual([BRISTLE]);
});

test.each<[string, GatewayFault, { identifies: number; resumes: number }]>([
  ['a request to reconnect', 'reconnect', { identifies: 1, resumes: 1 }],
  ['an invalid session that may be resumed', 'invalid-session-resumable', { identifies: 1, resumes: 1 }],
])('after %s the bot answers on', async (_what, fault, counts) => {
  const { room } = await openClub();
  await dropped(room, fault);
  await room.gateway.whenConnected();
  const { replies } = await room.actor('Ana').slash('critter name', named('bristle worm'));
  expect(replies.map(titleOf)).toEqual([BRISTLE]);
  expect(room.gateway.counts).toEqual(counts);
});

test('after an invalid session, and after an orderly close, the bot logs in anew and answers on', async () => {
  // Discord allows one login in five seconds, so both wait side by side.
  const faults: GatewayFault[] = ['invalid-session', 'close-1000'];
  const clubs = await Promise.all(faults.map(async (fault) => ({ fault, club: await openClub() })));
  await Promise.all(
    clubs.map(async ({ fault, club: { room, bot } }) => {
      await dropped(room, fault);
      await room.gateway.whenConnected();
      const shard = () => bot().client.ws.shards.first()?.status;
      await expect.poll(shard, { timeout: 2_000 }).toBe(Status.Ready);
      const ana = room.actor('Ana');
      expect((await ana.slash('critter name', named('bristle worm'))).replies.map(titleOf)).toEqual([BRISTLE]);
      expect((await ana.say('@bot aiptasia')).replies.map(titleOf)).toEqual([AIPTASIA]);
      expect(room.gateway.counts).toEqual({ identifies: 2, resumes: 0 });
    }),
  );
}, 15_000);

test('a stop waits for the answer that is under way and takes no new one', async () => {
  const { room, bot } = await openRoomWithBot();
  await room.actor('Ana').slash('critter name', named('aiptasia'));
  room.faults.add({ match: /callback$/, kind: 'delay', when: 'before-commit', times: 1, ms: 300 });
  const asked = room.actor('Ana').slash('critter name', named('bristle worm'));
  await new Promise((resolve) => setTimeout(resolve, 100));
  const startedMs = performance.now();
  await bot.stop();
  expect(performance.now() - startedMs).toBeGreaterThan(100);
  expect((await asked).replies.map(titleOf)).toEqual([BRISTLE]);
});

test('a server that is not on the list is left', async () => {
  const { room, lines } = await openRoomWithBot({}, { onlyGuilds: ['100000000000000001'], breaches: 'expected' });
  await room.quiet(60);
  const left = room.requests.all().filter(({ method }) => method === 'DELETE');
  expect(left.map(({ path }) => path)).toEqual([`/users/@me/guilds/${room.world.guild.id}`]);
  expect(lines.map(({ msg }) => msg)).toContain('left a server that is not in ONLY_GUILDS');
});
