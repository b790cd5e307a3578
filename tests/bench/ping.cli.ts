// The bare client that round trips are compared with: logs in, registers one command, answers "pong".
import { Client, Events, GatewayIntentBits } from 'discord.js';

const client = new Client({
  intents: [GatewayIntentBits.Guilds],
  rest: { api: process.env.DISCORD_API ?? '' },
});
client.on(Events.InteractionCreate, (interaction) => {
  if (interaction.isChatInputCommand()) void interaction.reply('pong');
});
client.once(Events.ClientReady, (ready) => {
  void ready.application.commands
    .set([{ name: 'ping', description: 'pong' }])
    .then(() => console.log(`ready rss ${process.memoryUsage().rss}`));
});
process.on('SIGTERM', () => void client.destroy().then(() => process.exit(0)));
void client.login('bench');
