import { expect, test } from 'vitest';
import { createPainter } from '../../src/drawing/painter.ts';
import { openClub } from '../set-up-club.ts';
import { built } from '../set-up-build.ts';

const painting = () => {
  const workerFile = built('painter.js');
  const fontFiles = ['inter-regular.ttf', 'inter-semibold.ttf'].map((font) => built(`font/${font}`));
  const painter = createPainter({ workerFile, fontFiles });
  return openClub({ paint: (svg, width) => painter.paint(svg, width) });
};

test('a comparison comes with its plate, and the plate says in words what it shows', async () => {
  const { room } = await painting();
  const ines = room.actor('ines');
  await ines.slash('critter name', [{ name: 'critter', value: 'bristle worm' }]);
  const [reply] = (await ines.press('Compare with Bearded fireworm')).replies;
  expect(reply?.images).toHaveLength(1);
  expect(reply?.images[0]?.bytes).toBeGreaterThan(20_000);
  expect(reply?.images[0]?.alt).toMatch(/Bearded fireworm/);
});

test('the question about the shape shows its answers, and the next question drops the picture', async () => {
  const { room } = await painting();
  const tom = room.actor('tom');
  const [shape] = (await tom.slash('critter key', [])).replies;
  expect(shape?.images[0]?.alt).toMatch(/1: /);
  const [next] = (await tom.press('Long thin worm')).replies;
  expect(next?.id).toBe(shape?.id);
  expect(next?.images.map(({ name }) => name)).not.toContain('look-alikes.png');
});

test('where nothing can be painted the answer comes without a picture', async () => {
  const { room } = await openClub({ paint: () => Promise.reject(new Error('no paint')) });
  const ines = room.actor('ines');
  const [reply] = (
    await ines.slash('critter compare', [
      { name: 'critter', value: 'bristle worm' },
      { name: 'with', value: 'bearded fireworm' },
    ])
  ).replies;
  expect(reply?.images).toEqual([]);
  expect(reply?.text).toMatch(/What a mistake costs/);
});
