import { ButtonBuilder, ButtonStyle, ContainerBuilder, MessageFlags, SlashCommandBuilder } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';

const tide = new SlashCommandBuilder()
  .setName('tide')
  .setDescription('The tide')
  .addStringOption((option) => option.setName('bay').setDescription('Where').setRequired(true))
  .toJSON();

const card = (text: string) =>
  new ContainerBuilder()
    .addTextDisplayComponents((display) => display.setContent(text))
    .addActionRowComponents((row) =>
      row.addComponents(new ButtonBuilder().setCustomId('turn').setLabel('Turn it').setStyle(ButtonStyle.Primary)),
    );

test('a real client logs in, registers, answers a command and a button', async () => {
  const { room, client } = await roomWithBot({
    commands: [tide],
    onInteraction: async (interaction) => {
      if (interaction.isChatInputCommand()) {
        const text = `Tide at ${interaction.options.getString('bay', true)}`;
        await interaction.reply({ components: [card(text)], flags: MessageFlags.IsComponentsV2 });
      }
      if (interaction.isButton()) await interaction.update({ components: [card('Turned')] });
    },
  });
  expect(client.guilds.cache.map(({ name }) => name)).toEqual(['Lagoon Reef Club']);

  const ana = room.actor('Ana');
  const asked = await ana.slash('tide', [{ name: 'bay', value: 'north' }]);
  expect(asked.error).toBeUndefined();
  expect(asked.replies).toMatchObject([
    { text: 'Tide at north', to: 'Ana', private: false, channelName: 'ask', author: 'Reef club bot', edited: false },
  ]);

  const pressed = await ana.press('Turn…');
  expect(pressed).toMatchObject({ replies: [{ text: 'Turned', edited: true }] });
});

test('an act that cannot be played says what there is', async () => {
  const { room } = await roomWithBot({ commands: [tide] });
  const ana = room.actor('Ana');
  expect((await ana.slash('tied', [])).error).toBe('there is no command "/tied" here; there are: /tide');
  expect((await ana.slash('tide', [])).error).toBe('this is still needed: bay');
  expect((await ana.slash('tide', [{ name: 'sea', value: 'x' }])).error).toBe(
    'there is no option "sea"; there are: bay',
  );
  expect((await ana.press('Turn it')).error).toMatch(/there is no button "Turn it"/);
});
