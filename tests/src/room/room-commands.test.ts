import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { InteractionContextType, PermissionFlagsBits, SlashCommandBuilder } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';

const log = new SlashCommandBuilder()
  .setName('log')
  .setDescription('The log')
  .addSubcommand((sub) =>
    sub
      .setName('add')
      .setDescription('Adds')
      .addIntegerOption((option) => option.setName('litres').setDescription('Litres').setMinValue(1).setMaxValue(500))
      .addNumberOption((option) => option.setName('dkh').setDescription('Hardness'))
      .addBooleanOption((option) => option.setName('loud').setDescription('Loud'))
      .addUserOption((option) => option.setName('with').setDescription('With whom'))
      .addAttachmentOption((option) => option.setName('photo').setDescription('A photo'))
      .addStringOption((option) =>
        option.setName('kind').setDescription('Kind').addChoices({ name: 'Water change', value: 'wc' }),
      ),
  )
  .addSubcommandGroup((group) =>
    group
      .setName('old')
      .setDescription('Old ones')
      .addSubcommand((sub) => sub.setName('show').setDescription('Shows')),
  );
const curate = new SlashCommandBuilder()
  .setName('curate')
  .setDescription('Curates')
  .setDefaultMemberPermissions(PermissionFlagsBits.ManageMessages);
const here = new SlashCommandBuilder()
  .setName('here')
  .setDescription('Only here')
  .setContexts(InteractionContextType.Guild);

const logRoom = () =>
  roomWithBot({
    commands: [log.toJSON(), curate.toJSON(), here.toJSON()],
    onInteraction: async (interaction) => {
      if (!interaction.isChatInputCommand()) return;
      const { options } = interaction;
      const group = options.getSubcommandGroup(false);
      if (interaction.commandName !== 'log' || group)
        return void (await interaction.reply(`${interaction.commandName} ${group}`));
      const photo = options.getAttachment('photo');
      const values = [
        options.getInteger('litres'),
        options.getNumber('dkh'),
        options.getBoolean('loud'),
        options.getMember('with') ? options.getUser('with')?.displayName : null,
        options.getString('kind'),
        photo && `${photo.name} ${photo.size} ${photo.contentType}`,
      ];
      await interaction.reply(values.join(' | '));
    },
  });

const typed = (values: Record<string, string>) => Object.entries(values).map(([name, value]) => ({ name, value }));

test('every kind of option arrives as what it is', async () => {
  const photo = join(mkdtempSync(join(tmpdir(), 'room-')), 'worm.png');
  writeFileSync(photo, 'not really');
  const { room } = await logRoom();
  const options = typed({
    litres: '40',
    dkh: '7.5',
    loud: 'yes',
    with: '@Bo',
    kind: 'water change',
    photo: `@${photo}`,
  });
  const { replies } = await room.actor('Ana').slash('log add', options);
  expect(replies).toMatchObject([{ text: '40 | 7.5 | true | Bo | wc | worm.png 10 image/png' }]);
  expect((await room.actor('Ana').slash('log old show', [])).replies).toMatchObject([{ text: 'log old' }]);
});

test.each([
  ['log', {}, '"/log" needs a subcommand; there are: add, old'],
  ['log ad', {}, '"/log" has no subcommand "ad"; there are: add, old'],
  ['log old', {}, '"/log old" needs a subcommand; there are: show'],
  ['log add', { litres: 'many' }, '"litres" needs a number; "many" is none'],
  ['log add', { litres: '1.5' }, '"litres" needs a whole number; 1.5 is none'],
  ['log add', { litres: '501' }, '"litres" must be 500 or less'],
  ['log add', { loud: 'maybe' }, '"loud" is yes or no; "maybe" is neither'],
  ['log add', { kind: 'rest' }, '"rest" is no choice for "kind"; there are: Water change'],
  ['log add', { photo: '@/no/such.png' }, 'the file "/no/such.png" cannot be read'],
])('/%s %o is refused in plain words', async (command, values, error) => {
  const { room } = await logRoom();
  expect(await room.actor('Ana').slash(command, typed(values))).toEqual({ replies: [], error });
});

test('a command is offered to those who may use it, where it may be used', async () => {
  const { room } = await logRoom();
  expect((await room.actor('Ana').slash('curate', [])).error).toBe(
    'there is no command "/curate" here; there are: /log, /here',
  );
  const cy = room.actor('Cy', { name: 'Cy', roles: ['curator'] });
  expect((await cy.slash('curate', [])).replies).toMatchObject([{ text: 'curate null' }]);
  cy.goTo('dm');
  expect((await cy.slash('here', [])).error).toMatch('there is no command "/here" here');
  expect((await cy.slash('log add', [])).replies).toMatchObject([{ channelName: '@Cy' }]);
});
