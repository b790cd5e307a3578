import { Client, Events, GatewayIntentBits, Partials, Routes } from 'discord.js';
import type { Interaction, Message, RESTPutAPIApplicationCommandsJSONBody } from 'discord.js';
import { expect, onTestFinished } from 'vitest';
import { openRoom } from '../../../src/room/open-room.ts';
import type { Room } from '../../../src/room/open-room.ts';
import type { RoomOptions } from '../../../src/room/room.ts';

export type TestBot = {
  commands?: RESTPutAPIApplicationCommandsJSONBody;
  onInteraction?: (interaction: Interaction) => Promise<unknown>;
  onMessage?: (message: Message) => Promise<unknown>;
  intents?: GatewayIntentBits[];
  /** Breaches that the test expects; otherwise there must be none at its end. */
  breaches?: 'expected';
};

/** A real discord.js client in a practice room, both closed when the test ends. */
export async function roomWithBot(
  bot: TestBot,
  options: RoomOptions = {},
): Promise<{ room: Room; client: Client<true>; problems: unknown[] }> {
  const room = await openRoom(options);
  const intents = bot.intents ?? [GatewayIntentBits.Guilds, GatewayIntentBits.GuildMessages];
  const client = new Client({ intents, partials: [Partials.Channel], rest: { api: room.apiUrl } });
  const problems: unknown[] = [];
  const note = (error: unknown) => void problems.push(error);
  client.on(Events.Error, note);
  client.on(Events.InteractionCreate, (interaction) => void bot.onInteraction?.(interaction).catch(note));
  client.on(
    Events.MessageCreate,
    (message) => void (message.author.bot ? undefined : bot.onMessage?.(message).catch(note)),
  );
  onTestFinished(async () => {
    await client.destroy();
    await room.close();
    if (bot.breaches !== 'expected') expect(room.contract.breaches()).toEqual([]);
  });
  const ready = new Promise<Client<true>>((resolve) => client.once(Events.ClientReady, resolve));
  await client.login('practice');
  const readyClient = await ready;
  if (bot.commands)
    await client.rest.put(Routes.applicationCommands(readyClient.application.id), { body: bot.commands });
  return { room, client: readyClient, problems };
}
