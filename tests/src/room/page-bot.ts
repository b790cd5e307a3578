import { AttachmentBuilder, Client, GatewayIntentBits, MessageFlags, REST, Routes, type Interaction } from 'discord.js';
import { drawDemoPhoto } from '../../../src/room/demo-photo.ts';
import type { Room } from '../../../src/room/open-room.ts';

// A bot that sends every kind of part, so that the page can be seen to draw each of them.

const PHOTO = drawDemoPhoto();
const V2 = MessageFlags.IsComponentsV2;
const MANAGE_MESSAGES = '8192';
const text = (content: string) => ({ type: 10 as const, content });
const button = (style: number, label: string, custom_id: string, rest = {}) => ({
  type: 2,
  style,
  label,
  custom_id,
  ...rest,
});
const row = (...components: unknown[]) => ({ type: 1, components });
const word = (name: string, rest = {}) => ({ type: 3, name, description: `a ${name}`, ...rest });
const sub = (name: string, options: unknown[] = []) => ({ type: 1, name, description: `shows ${name}`, options });

const COMMANDS = [
  {
    name: 'show',
    description: 'Shows things',
    options: ['parts', 'form', 'private', 'embed', 'nothing', 'letter', 'thread', 'later'].map((name) => sub(name)),
  },
  {
    name: 'find',
    description: 'Finds things',
    options: [
      sub('thing', [
        word('thing', { required: true, autocomplete: true }),
        { type: 6, name: 'whose', description: 'a member' },
        { type: 11, name: 'photo', description: 'a photo' },
      ]),
    ],
  },
  { name: 'settle', description: 'For curators', default_member_permissions: MANAGE_MESSAGES },
  { name: 'Ask about this photo', type: 3 },
];

const options = [
  { label: 'Head', value: 'head', description: 'the front end' },
  { label: 'Tail', value: 'tail' },
];
const PARTS = [
  {
    type: 17,
    accent_color: 0x2c646d,
    components: [
      text(
        '## Everything at once\n**bold** *slanted* __under__ ~~gone~~ `code` ||the secret||\n- one\n- two\n> said\n-# small print',
      ),
      text(
        '<script>globalThis.broken = true</script> [a source](https://example.org/paper) at <t:1700000000:D> </find thing:1>',
      ),
      {
        type: 9,
        components: [text('With a thumbnail')],
        accessory: { type: 11, media: { url: 'attachment://worm.png' }, description: 'A small worm' },
      },
      { type: 9, components: [text('With a button')], accessory: button(2, 'Beside it', 'press:beside') },
      { type: 14, divider: true, spacing: 2 },
      { type: 12, items: [{ media: { url: 'attachment://worm.png' }, description: 'An orange worm on dark rock' }] },
      { type: 13, file: { url: 'attachment://notes.txt' } },
      row(
        button(1, 'Main', 'press:main'),
        button(2, 'Other', 'press:other'),
        button(3, 'Good', 'press:good'),
        button(4, 'Grave', 'press:grave'),
        button(2, 'Shut', 'press:shut', { disabled: true }),
      ),
      row(
        { type: 2, style: 5, label: 'A paper', url: 'https://example.org/paper' },
        button(2, 'Say nothing', 'silence'),
        button(2, 'Open form', 'form'),
      ),
    ],
  },
  row({ type: 3, custom_id: 'which', placeholder: 'Which end?', options }),
  row({ type: 3, custom_id: 'several', placeholder: 'Which ends?', options, min_values: 1, max_values: 2 }),
  row({ type: 5, custom_id: 'who', placeholder: 'Who?' }),
  row({ type: 6, custom_id: 'role', placeholder: 'Which role?' }),
  row({ type: 8, custom_id: 'where', placeholder: 'Where?' }),
];

const label = (words: string, component: unknown, description?: string) => ({
  type: 18,
  label: words,
  description,
  component,
});
const FORMS: Record<string, unknown[]> = {
  first: [
    label(
      'What did you see?',
      { type: 4, custom_id: 'seen', style: 2, max_length: 200, required: true },
      'In your own words',
    ),
    label('Which end?', { type: 3, custom_id: 'end', options, required: false }),
    label('How sure?', {
      type: 21,
      custom_id: 'sure',
      options: [
        { label: 'Quite', value: 'quite' },
        { label: 'Hardly', value: 'hardly' },
      ],
    }),
    label('Where was it?', {
      type: 22,
      custom_id: 'where',
      options: [
        { label: 'Sand', value: 'sand' },
        { label: 'Rock', value: 'rock' },
      ],
    }),
    label('Tell me more', { type: 23, custom_id: 'more' }),
  ],
  second: [
    label('Photo', { type: 19, custom_id: 'photo', max_values: 2, required: false }),
    label('Who saw it?', { type: 5, custom_id: 'who', required: false }),
  ],
};

/** Logs the bot in to a room and registers its commands. Gives back how to end it. */
export async function startPageBot(room: Room): Promise<() => Promise<void>> {
  const client = new Client({
    intents: [GatewayIntentBits.Guilds, GatewayIntentBits.GuildMessages],
    rest: { api: room.apiUrl },
  });
  client.on('interactionCreate', (interaction) => void answer(interaction));
  client.on('messageCreate', (message) => {
    if (!message.author.bot && client.user && message.mentions.has(client.user)) void message.reply('You called?');
  });
  const ready = new Promise<void>((resolve) => client.once('clientReady', () => resolve()));
  await client.login('page-test');
  await ready;
  const rest = new REST({ api: room.apiUrl }).setToken('page-test');
  await rest.put(Routes.applicationGuildCommands(room.world.applicationId, room.world.guild.id), { body: COMMANDS });
  return () => client.destroy();
}

async function answer(interaction: Interaction): Promise<void> {
  const privately = (content: string) =>
    interaction.isRepliable() && interaction.reply({ content, flags: MessageFlags.Ephemeral });
  if (interaction.isAutocomplete()) {
    const typed = interaction.options.getFocused();
    const all = ['amber snail', 'blue leg', 'bristle worm'].filter((name) => name.startsWith(typed));
    await interaction.respond(all.map((name) => ({ name: `${name} (leave it)`, value: `thing:${name}` })));
  } else if (interaction.isChatInputCommand()) {
    const which = interaction.options.getSubcommand(false) ?? interaction.commandName;
    if (which === 'parts') {
      const files = [
        new AttachmentBuilder(PHOTO, { name: 'worm.png' }),
        new AttachmentBuilder(Buffer.from('notes'), { name: 'notes.txt' }),
      ];
      await interaction.reply({ flags: V2, components: PARTS as never, files });
    } else if (which === 'form') await openForm(interaction, 'first');
    else if (which === 'private') await privately('A quiet word');
    else if (which === 'embed')
      await interaction.reply({
        embeds: [
          {
            title: 'A card',
            description: 'of the older kind',
            color: 0x2c646d,
            fields: [{ name: 'Size', value: '**4 cm**' }],
          },
        ],
      });
    else if (which === 'letter') {
      const sent = await interaction.user.send('A letter for you').then(
        () => true,
        () => false,
      );
      await privately(sent ? 'A letter is on its way' : 'Your direct messages are closed, so here it is: a letter');
    } else if (which === 'thread' && interaction.channel?.isTextBased() && 'threads' in interaction.channel) {
      const reply = await interaction.reply({ content: 'Let us talk apart', withResponse: true });
      const thread = await reply.resource?.message?.startThread({ name: 'A closer look' });
      await thread?.send('Here we are');
    } else if (which === 'later') {
      await interaction.deferReply();
      await interaction.editReply('It took a while');
    } else if (which === 'thing') {
      const photo = interaction.options.getAttachment('photo');
      await interaction.reply(
        `found ${interaction.options.getString('thing')} of ${interaction.options.getUser('whose')?.username ?? 'nobody'} with ${photo?.name ?? 'no photo'}`,
      );
    } else if (which === 'settle') await privately('Settled');
  } else if (interaction.isMessageContextMenuCommand()) {
    await privately(`A photo by ${interaction.targetMessage.author.username}`);
  } else if (interaction.isButton()) {
    if (interaction.customId === 'form') await openForm(interaction, 'second');
    else if (interaction.customId !== 'silence') await privately(`You pressed ${interaction.customId}`);
  } else if (interaction.isAnySelectMenu()) {
    await privately(
      `You chose ${interaction.values.length}: ${interaction.isStringSelectMenu() ? interaction.values.join(' and ') : interaction.customId}`,
    );
  } else if (interaction.isModalSubmit()) {
    const { fields } = interaction;
    const files = fields.fields.has('photo')
      ? [...(fields.getUploadedFiles('photo')?.values() ?? [])].map(({ name }) => name)
      : [];
    const words = fields.fields.has('seen')
      ? [
          fields.getTextInputValue('seen'),
          fields.getRadioGroup('sure'),
          fields.getCheckboxGroup('where').join('+'),
          String(fields.getCheckbox('more')),
        ]
      : [];
    await privately(`You sent ${[...words, ...files].join(', ')}`);
  }
}

async function openForm(
  interaction: Extract<Interaction, { showModal: unknown }>,
  which: 'first' | 'second',
): Promise<void> {
  await interaction.showModal({
    customId: `form:${which}`,
    title: 'What was it?',
    components: FORMS[which] as never,
    custom_id: `form:${which}`,
  } as never);
}
