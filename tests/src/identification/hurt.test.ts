import { expect, test } from 'vitest';
import { openClub } from '../../set-up-club.ts';
import { described } from './engine.ts';

const first = async (text: string) => {
  const club = await openClub();
  const [reply] = (await club.room.actor('tom').slash('critter describe', [{ name: 'text', value: text }])).replies;
  if (!reply) throw new Error('there was no answer');
  return reply;
};

test('signs of palytoxin bring the help for palytoxin, whatever the animal seems to be', async () => {
  const { text, buttons } = await first('brown buttons, boiled the rock, fever and metallic taste');
  const lines = text.split('\n');
  expect(lines[1]).toMatch(/First aid: somebody was stung, bitten, splashed or feels ill/);
  expect(text).toMatch(/palytoxin, zoanthid coral/);
  expect(text).not.toMatch(/First aid: bristles/);
  expect(buttons.map(({ label }) => label)).toContain('Something in the eye');
});

test('a hurt member gets the general help first, and a doubtful name does not choose it', async () => {
  const { text } = await first('something pricked my finger in the sand and it hurts and goes numb');
  expect(text.split('\n')[1]).toMatch(/First aid: somebody was stung, bitten/);
  expect(text).toMatch(/ambulance at once, even without pain/);
});

test('what happened to a person says nothing of the animal', () => {
  const { read } = described({ text: 'white worm, then fever and a metallic taste' });
  expect(read.warnings).toEqual(expect.arrayContaining(['fever', 'metallic']));
  expect(JSON.stringify(read.evidence.observations)).not.toMatch(/metallic|iridescent/);
});

test('what is denied was not seen, and its words are no sign', () => {
  const { read } = described({ text: 'a worm with no legs or shell' });
  const keys = read.evidence.observations.map((each) => JSON.stringify(each));
  expect(keys.some((key) => key.includes('"saw-not"') && key.includes('"shell"'))).toBe(true);
  expect(keys.some((key) => key.includes('"word":"leg'))).toBe(false);
});

test.each([
  ['as big as a pea', 8],
  ['1½ inch long', 38.1],
  ['three quarters of an inch', 19.05],
])('"%s" is about %d mm', (said, mm) => {
  const size = described({ text: `a worm ${said}` }).read.evidence.observations.find(({ kind }) => kind === 'size');
  if (size?.kind !== 'size') throw new Error('no size was read');
  expect(size.lowMm).toBeLessThan(mm);
  expect(size.highMm).toBeGreaterThan(mm);
  expect(size.highMm / size.lowMm).toBeLessThan(4);
});

test.each(['something stung me', 'a hermit crab bit me and it swelled up', 'my kid got bitten by a tiny octopus'])(
  'a mention such as "%s" is answered with help first, whatever it names',
  async (said) => {
    const club = await openClub();
    const [reply] = (await club.room.actor('tom').say(`@bot ${said}`)).replies;
    expect(reply?.text.split('\n')[1]).toMatch(/First aid: somebody was stung, bitten/);
  },
);

test('a bite named with its animal brings that animal’s first aid whole', async () => {
  const club = await openClub();
  const [reply] = (await club.room.actor('tom').say('@bot cone snail stung my hand, is that bad')).replies;
  expect(reply?.text).toMatch(/First aid: a cone snail has stung somebody/);
  expect(reply?.text).toMatch(/pressure bandage/);
});

test('where a name is asked for, "something stung me" gets help too, and an entry keeps its name', async () => {
  const club = await openClub();
  const tom = club.room.actor('tom');
  const name = async (value: string) =>
    (await tom.slash('critter name', [{ name: 'critter', value }])).replies[0]?.text;
  expect(await name('something stung me')).toMatch(/First aid: somebody was stung, bitten/);
  expect(await name('stinging feather hydroid')).toMatch(/^## Stinging feather hydroid — /);
});

test('a bit of something is no bite', () => {
  expect(described({ text: 'orange frilly bit on its head, pink worm' }).read.evidence.hurt).toEqual([]);
});

test.each([
  'does aiptasia sting',
  'will a bristle worm hurt me',
  'do mantis shrimps bite',
  'is the sting of a majano painful',
])('"%s" is a question about the animal, and gets its card', async (said) => {
  const club = await openClub();
  const [reply] = (await club.room.actor('tom').say(`@bot ${said}`)).replies;
  expect(reply?.text).toMatch(/^## .+ — (Leave it|Watch it|Take it out|Act today)/);
});
