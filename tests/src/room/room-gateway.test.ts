import { Client, Events, GatewayIntentBits, SlashCommandBuilder } from 'discord.js';
import type { Interaction } from 'discord.js';
import { expect, onTestFinished, test } from 'vitest';
import { openRoom } from '../../../src/room/open-room.ts';
import { roomWithBot } from './room-with-bot.ts';

const tank = new SlashCommandBuilder().setName('tank').setDescription('The tank').toJSON();
const answer = async (interaction: Interaction) => {
  if (interaction.isChatInputCommand()) await interaction.reply('here');
};

test('after a drop the client resumes and hears everything that it missed', async () => {
  const heard: string[] = [];
  const { room } = await roomWithBot({
    commands: [tank],
    onInteraction: answer,
    onMessage: async ({ id }) => void heard.push(id),
  });
  const ana = room.actor('Ana');
  room.gateway.drop('drop');
  expect(room.gateway.connected()).toBe(false);
  const [one, two] = ['one', 'two'].map((text) => ana.say(text));
  const asked = await ana.slash('tank', []);
  await Promise.all([one, two]);
  expect(asked).toMatchObject({ replies: [{ text: 'here' }] });
  const said = room.world.messages.all().filter(({ authorId }) => authorId !== room.world.members.bot.id);
  expect(heard).toEqual(said.map(({ id }) => id));
  expect(room.gateway.counts).toEqual({ identifies: 1, resumes: 1 });
});

test('told to reconnect, the client resumes', async () => {
  const { room } = await roomWithBot({ commands: [tank], onInteraction: answer });
  room.gateway.drop('reconnect');
  await expect.poll(() => room.gateway.counts, { timeout: 5_000 }).toEqual({ identifies: 1, resumes: 1 });
  expect((await room.actor('Ana').slash('tank', [])).replies).toMatchObject([{ text: 'here' }]);
});

// The client itself waits five seconds before it identifies again, hence both at once.
test('after a lost session or a close with 1000 the client identifies anew', async () => {
  const rooms = await Promise.all([1, 2].map(() => roomWithBot({ commands: [tank], onInteraction: answer })));
  rooms[0]?.room.gateway.drop('invalid-session');
  rooms[1]?.room.gateway.drop('close-1000');
  for (const { room } of rooms) {
    await expect.poll(() => room.gateway.counts, { timeout: 10_000 }).toEqual({ identifies: 2, resumes: 0 });
    expect((await room.actor('Ana').slash('tank', [])).replies).toMatchObject([{ text: 'here' }]);
  }
});

test('an invalid session that can be resumed is resumed', async () => {
  const { room } = await roomWithBot({});
  room.gateway.drop('invalid-session-resumable');
  await expect.poll(() => room.gateway.counts, { timeout: 10_000 }).toEqual({ identifies: 1, resumes: 1 });
});

async function loginWith(token: string, intents: GatewayIntentBits[]) {
  const room = await openRoom({ acceptsToken: (one) => one === 'right' });
  const client = new Client({ intents, rest: { api: room.apiUrl } });
  onTestFinished(async () => {
    await client.destroy();
    await room.close();
  });
  const failed = new Promise<string>((resolve) => client.once(Events.Error, ({ message }) => resolve(message)));
  const login = client.login(token).then(
    () => 'in',
    (error: Error) => error.message,
  );
  return Promise.race([login.then((outcome) => (outcome === 'in' ? failed : outcome)), failed]);
}

test('a wrong token does not get in', async () => {
  expect(await loginWith('wrong', [GatewayIntentBits.Guilds])).toMatch(/invalid token/i);
});

test('privileged intents are refused with 4014', async () => {
  expect(await loginWith('right', [GatewayIntentBits.Guilds, GatewayIntentBits.MessageContent])).toMatch(
    /disallowed intents/i,
  );
});

test('without the Guilds intent no guild arrives; interactions still do', async () => {
  const { room } = await roomWithBot({
    intents: [],
    commands: [tank],
    onInteraction: async (interaction) => {
      if (interaction.isChatInputCommand()) await interaction.reply(`${interaction.guildId}`);
    },
  });
  expect((await room.actor('Ana').slash('tank', [])).replies).toMatchObject([{ text: room.world.guild.id }]);
});
