import type { Block } from '../discord/message-view.ts';
import { altTextOf } from '../drawing/page.ts';
import { PLATE_WIDTH, pairPlate } from '../drawing/pair-plate.ts';
import { subjectOf } from '../drawing/subject.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';

const pictures = new WeakMap<LookAlike, Block>();

/** The plate of a look-alike pair, drawn once. Everything on it stands in the words of the comparison too. */
export function pairPicture(pair: LookAlike, a: Critter, b: Critter): Block {
  const known = pictures.get(pair);
  if (known) return known;
  const named = (critter: Critter) => ({ name: critter.name, subject: subjectOf(critter) });
  const plate = pairPlate({ a: named(a), b: named(b), features: pair.features });
  const picture: Block = {
    kind: 'picture',
    name: 'look-alikes.png',
    alt: altTextOf(plate),
    svg: plate.svg,
    width: PLATE_WIDTH,
  };
  pictures.set(pair, picture);
  return picture;
}
