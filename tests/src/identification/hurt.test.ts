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
