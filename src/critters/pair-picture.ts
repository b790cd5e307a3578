import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';

/** The plate of a look-alike pair. Everything on it stands in the words of the comparison too. */
export const pairPicture = (pair: LookAlike, a: Critter, b: Critter): Block => ({
  kind: 'picture',
  name: 'look-alikes.png',
  draw: () => drawPair(pair, a, b),
});

/** Draws the two side by side with their telling features called out. */
export async function drawPair(pair: LookAlike, a: Critter, b: Critter): Promise<DrawnPicture> {
  const { altTextOf, PLATE_WIDTH, pairPlate, subjectOf } = await import('../drawing/plates.ts');
  const named = (critter: Critter) => ({ name: critter.name, subject: subjectOf(critter) });
  const plate = pairPlate({ a: named(a), b: named(b), features: pair.features });
  return { svg: plate.svg, width: PLATE_WIDTH, alt: altTextOf(plate) };
}
