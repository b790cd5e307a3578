import { expect, test } from 'vitest';
import { openClub } from '../../set-up-club.ts';

const WORM = 'orange worm with white hairs along both sides, long as my finger, under the rock at night';

test('a description is answered with what was read, and carries on into questions in the same message', async () => {
  const club = await openClub();
  const tom = club.room.actor('tom');
  const [first] = (await tom.slash('critter describe', [{ name: 'text', value: WORM }])).replies;
  expect(first?.private).toBe(true);
  expect(first?.text.split('\n')[0]).toMatch(
    /^## (.+, likely — (Leave it|Watch it|Take it out|Act today)|Can’t tell — isolate, photograph and ask)$/,
  );
  expect(first?.text).toMatch(/I went by: .*worm/);
  expect(first?.text).toMatch(/entry bristleworm-common/);
});

test('the key: an answer, back, start over, what is left; another member and an old press change nothing', async () => {
  const club = await openClub();
  const tom = club.room.actor('tom');
  const [question] = (await tom.slash('critter key', [])).replies;
  expect(question?.text).toMatch(/What shape is it most like\?/);
  const shape = question?.buttons.find(({ label }) => label === 'Long thin worm');
  expect(shape?.customId).toBeTruthy();

  const [second] = (await tom.press('Long thin worm')).replies;
  expect(second?.id).toBe(question?.id);
  expect(second?.text).toMatch(/Question 2/);

  await club.restart();
  const [again] = (await tom.press('Back')).replies;
  expect(again?.id).toBe(question?.id);
  expect(again?.text).toMatch(/Question 1/);

  const left = await tom.press('Show what is left');
  expect(left.replies[0]?.text).toMatch(/## What is left/);
  const [result] = (await tom.press('Stop here')).replies;
  expect(result?.text).toMatch(/^## /);
});

test('buttons of a public answer belong to whoever asked', async () => {
  const club = await openClub();
  const asked = await club.room
    .actor('tom')
    .say('@bot there is a pinkish worm with white bristles hiding under my live rock at night');
  expect(asked.replies[0]?.private).toBe(false);
  const [refused] = (await club.room.actor('ana').press('Ask me questions')).replies;
  expect(refused?.private).toBe(true);
  expect(refused?.text).toMatch(/not yours/);
});
