import { Routes, SlashCommandBuilder } from 'discord.js';
import { expect, test } from 'vitest';
import { roomWithBot } from './room-with-bot.ts';

const tank = new SlashCommandBuilder()
  .setName('tank')
  .setDescription('The tank')
  .addStringOption((option) => option.setName('part').setDescription('Part').setAutocomplete(true))
  .toJSON();

/** Answers `/tank`, typed or sent, with a raw body, and tells what the room made of it. */
async function answeredWith(body: { type: number; data: object }, typing = false) {
  const codes: (number | string)[] = [];
  const { room } = await roomWithBot(
    {
      commands: [tank],
      breaches: 'expected',
      onInteraction: async ({ client, id, token }) => {
        const posted = client.rest.post(Routes.interactionCallback(id, token), { body, auth: false });
        codes.push(
          await posted.then(
            () => 'taken',
            (error: { code: number }) => error.code,
          ),
        );
      },
    },
    { firstResponseMs: 150 },
  );
  const ana = room.actor('Ana');
  await (typing ? ana.autocomplete('tank', [{ name: 'part', value: 's' }]) : ana.slash('tank', []));
  await expect.poll(() => codes).toHaveLength(1);
  return { code: codes[0], why: room.contract.breaches()[0]?.why ?? '' };
}

const label = (component: object, extra: object = {}) => ({ type: 18, label: 'What', component, ...extra });
const input = (custom_id: string, extra: object = {}) => ({ type: 4, custom_id, style: 1, ...extra });
const modal = (...components: object[]) => ({ type: 9, data: { custom_id: 'm', title: 'A form', components } });
const options = (count: number) => Array.from({ length: count }, (_, n) => ({ label: `o${n}`, value: `o${n}` }));

test.each([
  ['six fields', modal(...Array.from({ length: 6 }, (_, n) => label(input(`i${n}`)))), /1 to 5 components, not 6/],
  ['no field', modal({ type: 10, content: 'x' }), /something to fill in/],
  ['a custom_id twice', modal(label(input('a')), label(input('a'))), /more than once/],
  ['a label that is too long', modal(label(input('a'), { label: 'x'.repeat(46) })), /label.*45/],
  [
    'a title that is too long',
    { type: 9, data: { ...modal(label(input('a'))).data, title: 'x'.repeat(46) } },
    /title.*45/,
  ],
  ['a value that is too long', modal(label(input('a', { value: 'xx', max_length: 1 }))), /longer than max_length/],
  ['one radio button', modal(label({ type: 21, custom_id: 'r', options: options(1) })), /2 to 10 options|options.*>=2/],
  ['a disabled select', modal(label({ type: 3, custom_id: 's', options: options(1), disabled: true })), /disabled/],
  ['a button', modal({ type: 1, components: [{ type: 2, style: 1, label: 'x', custom_id: 'b' }] }), /components/],
])('a modal with %s is refused', async (_name, body, why) => {
  const { code, why: said } = await answeredWith(body);
  expect(code).toBe(50035);
  expect(said).toMatch(why);
});

test('a modal within its limits is taken', async () => {
  const five = Array.from({ length: 5 }, (_, n) => label(input(`i${n}`), { label: 'x'.repeat(45) }));
  expect(await answeredWith(modal(...five))).toMatchObject({ code: 'taken' });
});

const choices = (count: number) => ({
  type: 8,
  data: { choices: options(count).map(({ label: name, value }) => ({ name, value })) },
});

test('25 choices are taken and 26 are not', async () => {
  expect(await answeredWith(choices(25), true)).toMatchObject({ code: 'taken' });
  expect(await answeredWith(choices(26), true)).toMatchObject({ code: 50035 });
});

test.each([
  ['a misspelt field', { type: 4, data: { content: 'x', ephemeral: true } }, /ephemeral/],
  ['content that is too long', { type: 4, data: { content: 'x'.repeat(2001) } }, /content/],
  ['V2 components without the flag', { type: 4, data: { components: [{ type: 10, content: 'x' }] } }, /IsComponentsV2/],
])('a reply with %s is refused', async (_name, body, why) => {
  const { code, why: said } = await answeredWith(body);
  expect(code).toBe(50035);
  expect(said).toMatch(why);
});

test('an empty reply is refused', async () => {
  expect(await answeredWith({ type: 4, data: {} })).toMatchObject({ code: 50006 });
});
