import {
  ButtonBuilder,
  ButtonStyle,
  ContainerBuilder,
  ContextMenuCommandBuilder,
  ApplicationCommandType,
  MessageFlags,
  ModalBuilder,
  SlashCommandBuilder,
  StringSelectMenuBuilder,
  TextInputStyle,
} from 'discord.js';
import type { ChatInputCommandInteraction, Interaction } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';

const command = (name: string) => new SlashCommandBuilder().setName(name).setDescription(`Tries ${name}`);
const tank = command('tank').addStringOption((option) =>
  option.setName('part').setDescription('Which part').setAutocomplete(true),
);

/** A room whose bot answers `/tank` in the way that the test is about. */
const answering = (
  answer: (interaction: ChatInputCommandInteraction) => Promise<unknown>,
  otherwise: (interaction: Interaction) => Promise<unknown> = () => Promise.resolve(),
) =>
  roomWithBot({
    commands: [tank.toJSON()],
    onInteraction: (interaction) => (interaction.isChatInputCommand() ? answer(interaction) : otherwise(interaction)),
  });

test('a private reply is seen by the one who asked and by nobody else', async () => {
  const { room } = await answering((asked) => asked.reply({ content: 'for you', flags: MessageFlags.Ephemeral }));
  const { replies } = await room.actor('Ana').slash('tank', []);
  expect(replies).toMatchObject([{ text: 'for you', private: true }]);
  expect(room.actor('Ana').sees()).toHaveLength(1);
  expect(room.actor('Bo').sees()).toEqual([]);
});

test('a deferred answer is shown once it has its text, and is not marked as edited', async () => {
  const { room } = await answering(async (asked) => {
    await asked.deferReply({ flags: MessageFlags.Ephemeral });
    await new Promise((done) => setTimeout(done, 150));
    await asked.editReply('at last');
  });
  const { replies, error } = await room.actor('Ana').slash('tank', []);
  expect(error).toBeUndefined();
  expect(replies).toMatchObject([{ text: 'at last', private: true, edited: false }]);
});

test('@original can be fetched, edited and deleted, and follow-ups come after it', async () => {
  const { room } = await answering(async (asked) => {
    await asked.reply('first');
    expect((await asked.fetchReply()).content).toBe('first');
    await asked.editReply('second');
    const later = await asked.followUp({ content: 'aside', flags: MessageFlags.Ephemeral });
    await asked.followUp('loud');
    await asked.deleteReply(later);
  });
  const { replies } = await room.actor('Ana').slash('tank', []);
  expect(replies.map(({ text, private: own, edited }) => [text, own, edited])).toEqual([
    ['second', false, true],
    ['loud', false, false],
  ]);
});

test('a select offers its options and gives back what was chosen', async () => {
  const parts = new StringSelectMenuBuilder()
    .setCustomId('parts')
    .setPlaceholder('Which parts?')
    .setMaxValues(2)
    .setOptions(['Sump', 'Skimmer', 'Heater'].map((label) => ({ label, value: label.toUpperCase() })));
  const { room } = await answering(
    (asked) => asked.reply({ content: 'choose', components: [{ type: 1, components: [parts.toJSON()] }] }),
    async (used) => {
      if (used.isStringSelectMenu()) await used.reply(used.values.join(' + '));
    },
  );
  const ana = room.actor('Ana');
  const [shown] = (await ana.slash('tank', [])).replies;
  expect(shown?.selects).toMatchObject([
    { placeholder: 'Which parts?', maxValues: 2, options: [{ label: 'Sump' }, {}, {}] },
  ]);
  expect((await ana.choose('Which parts?', ['heater', 'Sump'])).replies).toMatchObject([{ text: 'HEATER + SUMP' }]);
  expect((await ana.choose('Which parts?', ['Lamp'])).error).toMatch(
    'does not offer "Lamp"; there are: Sump, Skimmer, Heater',
  );
  expect((await ana.choose('Which parts?', ['Sump', 'Skimmer', 'Heater'])).error).toMatch('at most 2');
});

test('a modal opens, checks what is typed and comes back with every kind of field', async () => {
  const modal = new ModalBuilder()
    .setCustomId('note')
    .setTitle('A note')
    .addTextDisplayComponents((text) => text.setContent('Tell us'))
    .addLabelComponents(
      (label) =>
        label
          .setLabel('What')
          .setDescription('In short')
          .setTextInputComponent((input) => input.setCustomId('what').setStyle(TextInputStyle.Short).setMaxLength(8)),
      (label) =>
        label
          .setLabel('Where')
          .setStringSelectMenuComponent((select) =>
            select.setCustomId('where').setOptions({ label: 'Left', value: 'l' }, { label: 'Right', value: 'r' }),
          ),
      (label) =>
        label.setLabel('Who').setUserSelectMenuComponent((select) => select.setCustomId('who').setRequired(false)),
      (label) =>
        label
          .setLabel('How')
          .setRadioGroupComponent((group) =>
            group.setCustomId('how').setOptions({ label: 'Fast', value: 'f' }, { label: 'Slow', value: 's' }),
          ),
    );
  const { room } = await answering(
    (asked) => asked.showModal(modal),
    async (filled) => {
      if (!filled.isModalSubmit()) return;
      const { fields } = filled;
      const who = fields.getSelectedUsers('who')?.map(({ displayName }) => displayName);
      await filled.reply(
        [
          fields.getTextInputValue('what'),
          fields.getStringSelectValues('where'),
          who,
          fields.getRadioGroup('how'),
        ].join(' / '),
      );
    },
  );
  const ana = room.actor('Ana');
  const opened = await ana.slash('tank', []);
  expect(opened.modal).toMatchObject({
    title: 'A note',
    inputs: [
      { label: 'What', description: 'In short', kind: 'text', required: true },
      { label: 'Where', kind: 'select', options: ['Left', 'Right'] },
      { label: 'Who', kind: 'member', required: false },
      { label: 'How', kind: 'radio' },
    ],
  });
  expect((await ana.fill({ Where: 'Left', How: 'Slow' })).error).toBe('the field "What" must be filled in');
  expect((await ana.fill({ What: 'much too long' })).error).toMatch('at most 8');
  expect((await ana.fill({ Wat: 'x' })).error).toMatch('no field "Wat"; there are: What, Where, Who, How');
  const { replies } = await ana.fill({ What: 'algae', Where: 'Right', Who: '@Bo', How: 'Slow' });
  expect(replies).toMatchObject([{ text: 'algae / r / Bo / s' }]);
  expect((await ana.fill({ What: 'again' })).error).toBe('no form is open');
});

test('checkboxes and files of a modal come back', async () => {
  const modal = new ModalBuilder()
    .setCustomId('more')
    .setTitle('More')
    .addLabelComponents(
      (label) =>
        label
          .setLabel('Signs')
          .setCheckboxGroupComponent((group) =>
            group.setCustomId('signs').setOptions({ label: 'Slime', value: 's' }, { label: 'Holes', value: 'h' }),
          ),
      (label) => label.setLabel('Sure').setCheckboxComponent((box) => box.setCustomId('sure')),
      (label) =>
        label.setLabel('Photos').setFileUploadComponent((upload) => upload.setCustomId('photos').setMaxValues(2)),
    );
  const { room } = await answering(
    (asked) => asked.showModal(modal),
    async (filled) => {
      if (!filled.isModalSubmit()) return;
      const { fields } = filled;
      const names = fields.getUploadedFiles('photos', true).map(({ name, size }) => `${name} ${size}`);
      await filled.reply([fields.getCheckboxGroup('signs'), fields.getCheckbox('sure'), ...names].join(' / '));
    },
  );
  const ana = room.actor('Ana');
  await ana.slash('tank', []);
  expect((await ana.fill({ Signs: 'Slime' })).error).toBe('the field "Photos" must be filled in');
  const photos = [{ name: 'worm.png', data: Buffer.from('123') }];
  const { replies } = await ana.fill({ Signs: 'Slime, Holes', Sure: 'yes' }, { Photos: photos });
  expect(replies).toMatchObject([{ text: 's,h / true / worm.png 3' }]);
});

test('what is typed comes back as choices', async () => {
  const { room } = await answering(
    () => Promise.resolve(),
    async (typing) => {
      if (typing.isAutocomplete()) await typing.respond([{ name: `${typing.options.getFocused()}ump`, value: 'sump' }]);
    },
  );
  const ana = room.actor('Ana');
  expect((await ana.autocomplete('tank', [{ name: 'part', value: 's' }])).choices).toEqual([
    { name: 'sump', value: 'sump' },
  ]);
  expect(room.world.messages.all()).toEqual([]);
});

test('a menu entry hands over the message it was used on, content and all', async () => {
  const entry = new ContextMenuCommandBuilder().setName('Ask about this').setType(ApplicationCommandType.Message);
  const { room } = await roomWithBot({
    commands: [entry.toJSON()],
    onInteraction: async (used) => {
      if (used.isMessageContextMenuCommand()) await used.reply(`about: ${used.targetMessage.content}`);
    },
  });
  await room.actor('Bo').say('what is this worm');
  const { replies } = await room.actor('Ana').menu('Ask about this');
  expect(replies).toMatchObject([{ text: 'about: what is this worm', to: 'Ana' }]);
  expect((await room.actor('Ana').menu('Ask')).error).toBe('the menu has no "Ask"; there are: Ask about this');
});

test('buttons that are disabled, links or gone cannot be pressed', async () => {
  const row = (...buttons: ButtonBuilder[]) =>
    new ContainerBuilder().addActionRowComponents((made) => made.addComponents(...buttons));
  const { room } = await answering((asked) =>
    asked.reply({
      flags: MessageFlags.IsComponentsV2,
      components: [
        row(
          new ButtonBuilder()
            .setCustomId('a')
            .setEmoji('🔒')
            .setLabel('Closed')
            .setStyle(ButtonStyle.Primary)
            .setDisabled(true),
          new ButtonBuilder().setURL('https://example.org/').setLabel('Read').setStyle(ButtonStyle.Link),
        ),
      ],
    }),
  );
  const ana = room.actor('Ana');
  const [message] = (await ana.slash('tank', [])).replies;
  expect((await ana.press('Closed')).error).toBe('"Closed" is disabled');
  expect(message?.buttons.map(({ label }) => label)).toEqual(['🔒 Closed', 'Read']);
  expect((await ana.press('🔒 Clo…')).error).toBe('"Closed" is disabled');
  expect((await ana.press('Read')).error).toMatch('it opens https://example.org/');
  expect((await ana.pressExactly(message?.id ?? '', 'b')).error).toBe('this is not on the screen any more');
});

test('a bot that says nothing is found out', async () => {
  const { room } = await roomWithBot({ commands: [tank.toJSON()] }, { firstResponseMs: 200 });
  expect((await room.actor('Ana').slash('tank', [])).error).toBe('the bot did not answer within 0.2 seconds');
});
