import { AttachmentBuilder, MessageFlags, ModalBuilder, SlashCommandBuilder, type Interaction } from 'discord.js';
import { ContainerBuilder, LabelBuilder, StringSelectMenuBuilder, TextInputBuilder, TextInputStyle } from 'discord.js';
import { expect, test } from 'vitest';
import { inTerminal, playLine } from '../../../src/room/ask.ts';
import type { Practice } from '../../../src/room/practice.ts';
import { roomWithBot } from './room-with-bot.ts';

// The parts of an answer that the bot has no command for yet, played by a bot of the test's own.

const commands = ['form', 'pick'].map((name) => new SlashCommandBuilder().setName(name).setDescription('Try').toJSON());

const input = (id: string, required: boolean) =>
  new TextInputBuilder().setCustomId(id).setStyle(TextInputStyle.Short).setRequired(required);
const modal = new ModalBuilder()
  .setCustomId('where')
  .setTitle('Where is it?')
  .addLabelComponents(
    new LabelBuilder().setLabel('Where').setTextInputComponent(input('place', true)),
    new LabelBuilder().setLabel('How big').setTextInputComponent(input('size', false)),
  );

const select = new StringSelectMenuBuilder()
  .setCustomId('which')
  .setPlaceholder('Which one')
  .setOptions([
    { label: 'Red tufts', value: 'a' },
    { label: 'White hairs', value: 'b' },
  ])
  .setMaxValues(2);
const picture = new AttachmentBuilder(Buffer.from('not really a picture'), { name: 'worm.png' });
const card = new ContainerBuilder()
  .addTextDisplayComponents((text) => text.setContent('## Pick'))
  .addMediaGalleryComponents((gallery) =>
    gallery.addItems((item) => item.setURL('attachment://worm.png').setDescription('A worm on a rock')),
  )
  .addActionRowComponents((row) => row.setComponents(select));

async function answer(interaction: Interaction): Promise<void> {
  if (interaction.isChatInputCommand() && interaction.commandName === 'form') await interaction.showModal(modal);
  else if (interaction.isChatInputCommand())
    await interaction.reply({ components: [card], files: [picture], flags: MessageFlags.IsComponentsV2 });
  if (interaction.isStringSelectMenu()) await interaction.reply(`chosen: ${interaction.values.join(', ')}`);
  if (interaction.isModalSubmit())
    await interaction.reply(
      `${interaction.fields.getTextInputValue('place')}/${interaction.fields.getTextInputValue('size')}`,
    );
}

async function practised(): Promise<Practice> {
  const { room } = await roomWithBot({ commands, onInteraction: answer }, { settleMs: 15 });
  const none = () => Promise.reject(new Error('this room has a bot of its own'));
  const bot = () => {
    throw new Error('this room has a bot of its own');
  };
  return { room, url: room.origin, bot, restart: none, close: none };
}

test('a form that opens is printed with its fields, and filled by their labels', async () => {
  const practice = await practised();
  const opened = (await playLine(practice, '@ines /form'))!;
  expect(Object.keys(opened).toSorted()).toEqual(['act', 'error', 'modal', 'replies']);
  expect(opened.modal).toEqual({
    title: 'Where is it?',
    fields: [
      { label: 'Where', kind: expect.any(String), required: true, options: [] },
      { label: 'How big', kind: expect.any(String), required: false, options: [] },
    ],
  });
  expect(inTerminal(opened)).toContain('form "Where is it?": Where (required); How big');
  const filled = await playLine(practice, '@ines fill Where = on the glass: low; How big = 5 mm');
  expect(filled).toMatchObject({ error: null, replies: [{ text: 'on the glass: low/5 mm' }] });
});

test('a select is printed with its options, a picture with its name, alt text and size', async () => {
  const practice = await practised();
  const shown = (await playLine(practice, '@ines /pick'))!;
  expect(shown.replies).toMatchObject([
    {
      selects: [{ placeholder: 'Which one', options: ['Red tufts', 'White hairs'] }],
      images: [{ name: 'worm.png', alt: 'A worm on a rock', bytes: 20 }],
    },
  ]);
  expect(Object.keys(shown.replies[0]!.selects[0]!).toSorted()).toEqual(['options', 'placeholder']);
  expect(Object.keys(shown.replies[0]!.images[0]!).toSorted()).toEqual(['alt', 'bytes', 'name']);
  expect(inTerminal(shown)).toContain('{Which one: Red tufts · White hairs}');
  expect(inTerminal(shown)).toContain('(picture worm.png, 20 bytes: A worm on a rock)');
  const chosen = await playLine(practice, '@ines choose Which one = Red tufts, White hairs');
  expect(chosen).toMatchObject({ error: null, replies: [{ text: 'chosen: a, b' }] });
  const wrong = await playLine(practice, '@ines choose Which one = Blue');
  expect(wrong!.error).toBe('"Which one" does not offer "Blue"; there are: Red tufts, White hairs');
});
