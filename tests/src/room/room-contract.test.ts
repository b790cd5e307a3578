import { Routes } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';
import type { RoomOptions } from '../../../src/room/room.ts';

const V2 = 32768;
const text = (content: string) => ({ type: 10, content });
const button = (custom_id: string) => ({ type: 2, style: 1, label: custom_id, custom_id });
const row = (...components: object[]) => ({ type: 1, components });
const option = (n: number) => ({ label: `o${n}`, value: `o${n}` });
const select = (options: object[], extra: object = {}) => ({ type: 3, custom_id: 's', options, ...extra });

async function writing(options: RoomOptions = {}) {
  const { room, client } = await roomWithBot({ breaches: 'expected' }, options);
  const route = Routes.channelMessages(room.world.mainChannel().id);
  return { room, client, send: (body: object) => client.rest.post(route, { body }) };
}

const refused: [string, object, RegExp][] = [
  ['a misspelt field', { contnet: 'x', content: 'x' }, /contnet/],
  [
    'a misspelt field of a component',
    { flags: V2, components: [{ type: 17, accentColor: 1, components: [text('x')] }] },
    /components\.0.*accentColor/,
  ],
  ['content that is too long', { content: 'x'.repeat(2001) }, /content.*2000/],
  [
    '41 components in all',
    { flags: V2, components: [{ type: 17, components: Array.from({ length: 40 }, () => text('x')) }] },
    /41 components/,
  ],
  [
    '4001 characters in all',
    { flags: V2, components: [text('x'.repeat(2000)), text('x'.repeat(2001))] },
    /4001 characters/,
  ],
  ['a custom_id twice', { content: 'x', components: [row(button('a'), button('a'))] }, /"a" is there more than once/],
  ['V2 components without the flag', { components: [text('x')] }, /needs the IsComponentsV2 flag/],
  ['content beside V2 components', { flags: V2, content: 'x', components: [text('x')] }, /content.*cannot be used/],
  [
    'embeds beside V2 components',
    { flags: V2, embeds: [{ title: 'x' }], components: [text('x')] },
    /embeds.*cannot be used/,
  ],
  ['six rows', { content: 'x', components: Array.from({ length: 6 }, (_, n) => row(button(`b${n}`))) }, /5 rows/],
  [
    'a link button with a custom_id',
    { content: 'x', components: [row({ type: 2, style: 5, label: 'x', url: 'https://example.org', custom_id: 'a' })] },
    /link button has no custom_id/,
  ],
  [
    'a button without a custom_id',
    { content: 'x', components: [row({ type: 2, style: 1, label: 'x' })] },
    /needs a custom_id/,
  ],
  [
    'a button without a label',
    { content: 'x', components: [row({ type: 2, style: 1, custom_id: 'a' })] },
    /label or an emoji/,
  ],
  ['a select beside a button', { content: 'x', components: [row(button('a'), select([option(1)]))] }, /whole row/],
  [
    '26 options',
    { content: 'x', components: [row(select(Array.from({ length: 26 }, (_, n) => option(n))))] },
    /options/,
  ],
  ['an option value twice', { content: 'x', components: [row(select([option(1), option(1)]))] }, /same value/],
  [
    'more to choose than there is',
    { content: 'x', components: [row(select([option(1)], { max_values: 2 }))] },
    /more than there are options/,
  ],
  [
    'a file that is not attached',
    { flags: V2, components: [{ type: 12, items: [{ media: { url: 'attachment://no.png' } }] }] },
    /no\.png points at no file/,
  ],
  [
    'an attachment without its file',
    { content: 'x', attachments: [{ id: '0', filename: 'a.png' }] },
    /attachment 0 has no file/,
  ],
  [
    'alt text that is too long',
    {
      flags: V2,
      components: [
        { type: 12, items: [{ media: { url: 'https://example.org/a.png' }, description: 'x'.repeat(1025) }] },
      ],
    },
    /description.*1024|<=1024/,
  ],
  [
    'embeds that are too long in all',
    { embeds: [{ description: 'x'.repeat(4000) }, { description: 'x'.repeat(2001) }] },
    /6001 characters/,
  ],
  [
    'clashing mentions',
    { content: 'x', allowed_mentions: { parse: ['users'], users: ['123456789012345678'] } },
    /exclude each other/,
  ],
  ['a private channel message', { content: 'x', flags: 64 }, /only answers/],
  ['a nonce that is too long', { content: 'x', nonce: 'x'.repeat(26) }, /nonce/],
];

test('what Discord would not take is refused with 50035 and named', async () => {
  const { room, send } = await writing();
  const outcomes: [string, boolean, string][] = [];
  for (const [name, body, why] of refused) {
    const before = room.contract.breaches().length;
    const outcome = await send(body).then(
      () => ({ code: 200 }),
      (error: { code: number }) => error,
    );
    const said = room.contract
      .breaches()
      .slice(before)
      .map((breach) => breach.why)
      .join();
    if (outcome.code !== 50035 || !why.test(said)) outcomes.push([name, outcome.code === 50035, said]);
  }
  expect(outcomes).toEqual([]);
  expect(room.world.messages.all()).toEqual([]);
  expect(room.contract.breaches()[0]).toMatchObject({ method: 'POST', kind: 'refused', body: { contnet: 'x' } });
});

test('an empty message is refused with 50006', async () => {
  const { room, send } = await writing();
  await expect(send({})).rejects.toMatchObject({ code: 50006 });
  await expect(send({ content: '  ' })).rejects.toMatchObject({ code: 50006 });
  expect(room.contract.breaches()).toHaveLength(2);
});

test('what is just within the limits is taken', async () => {
  const { room, send } = await writing();
  await send({ content: 'x'.repeat(2000) });
  const emoji = { name: '🐟', animated: false };
  await send({ content: 'x', components: [row({ type: 2, style: 1, custom_id: 'a', emoji })] });
  await send({ flags: V2, components: [{ type: 17, components: Array.from({ length: 39 }, () => text('x')) }] });
  await send({ flags: V2, components: [text('x'.repeat(2000)), text('x'.repeat(2000))] });
  await send({ content: 'x', components: [row(select(Array.from({ length: 25 }, (_, n) => option(n))))] });
  expect(room.contract.breaches()).toEqual([]);
});

test('the V2 flag stays on a message, so that an edit cannot bring content back', async () => {
  const { room, client, send } = await writing();
  await send({ flags: V2, components: [text('x')] });
  const [message] = room.world.messages.all();
  const edit = (body: object) =>
    client.rest.patch(Routes.channelMessage(message?.channelId ?? '', message?.id ?? ''), { body });
  await edit({ components: [text('y')] });
  await expect(edit({ content: 'y' })).rejects.toMatchObject({ code: 50035 });
  await expect(edit({ components: [] })).rejects.toMatchObject({ code: 50006 });
});

const slash = (extra: object = {}) => ({ name: 'tank', description: 'x', ...extra });
const string = (name: string, extra: object = {}) => ({ type: 3, name, description: 'x', ...extra });
const refusedCommands: [string, object[], RegExp][] = [
  [
    'required after optional',
    [slash({ options: [string('a'), string('b', { required: true })] })],
    /required option comes before/,
  ],
  ['101 commands', Array.from({ length: 101 }, (_, n) => slash({ name: `c${n}` })), /more than 100/],
  [
    '8001 characters',
    [
      slash({
        options: Array.from({ length: 4 }, (_, n) =>
          string(`o${n}`, {
            choices: Array.from({ length: 25 }, (_c, m) => ({ name: `${m}`.padEnd(80, 'x'), value: `${m}` })),
          }),
        ),
      }),
    ],
    /characters in all/,
  ],
  [
    'choices with autocomplete',
    [slash({ options: [string('a', { autocomplete: true, choices: [{ name: 'a', value: 'a' }] })] })],
    /exclude each other/,
  ],
  ['an upper-case name', [slash({ name: 'Tank' })], /lower-case/],
  ['no description', [{ name: 'tank' }], /needs a description/],
  ['the same name twice', [slash(), slash()], /more than once/],
  [
    'subcommands beside options',
    [slash({ options: [{ type: 1, name: 'a', description: 'x' }, string('b')] })],
    /exclude each other/,
  ],
  ['a locale nobody knows', [slash({ name_localizations: { tlh: 'x' } })], /no locale/],
  ['a misspelt field', [slash({ defaultMemberPermissions: '0' })], /defaultMemberPermissions/],
];

test('commands that Discord would not register are refused and named', async () => {
  const { room, client } = await writing();
  const route = Routes.applicationCommands(room.world.applicationId);
  const outcomes: unknown[] = [];
  for (const [name, body, why] of refusedCommands) {
    const outcome = await client.rest.put(route, { body }).then(
      () => ({ code: 200 }),
      (error: { code: number }) => error,
    );
    const said = room.contract.breaches().at(-1)?.why ?? '';
    if (outcome.code !== 50035 || !why.test(said)) outcomes.push([name, outcome.code, said]);
  }
  expect(outcomes).toEqual([]);
  const guild = Routes.applicationGuildCommands(room.world.applicationId, room.world.guild.id);
  await expect(client.rest.put(guild, { body: [slash({ contexts: [0] })] })).rejects.toMatchObject({ code: 50035 });
  await client.rest.put(route, { body: [slash({ contexts: [0], default_member_permissions: '8', nsfw: false })] });
  expect(room.world.commands.all()).toHaveLength(1);
});

test('switched off, the contract lets a misspelt field pass', async () => {
  const { room, send } = await writing({ contract: 'off' });
  await send({ content: 'x', contnet: 'y' });
  expect(room.contract.breaches()).toEqual([]);
});
