import { describe, expect, it } from 'vitest';
import { drawCritter, subjectOf } from '../../../src/drawing/subject.ts';
import { pairPlate } from '../../../src/drawing/pair-plate.ts';
import { densityOf, lineDensity, likeness } from './likeness.ts';
import { knowledge, linesOf, named } from './picture.ts';

const TOO_ALIKE = 0.8;

/** Pairs that share an outline on purpose, with what tells them instead. */
const SAME_ON_PURPOSE: Readonly<Record<string, string>> = {
  'encrusting-sponge--fire-sponge': 'the entry says that no eye can tell them; a drawn difference would be a lie that burns',
  'nematode--capitellid-worm': 'colour alone tells them',
  'red-bug--black-bug': 'colour and one red spot tell them',
  'zoa-nudi--sun-coral-nudi': 'the coral they eat tells them, and it is drawn below',
  'marine-ich--marine-velvet': 'the spots tell them, on the same fish and under a glass',
  'marine-ich--black-ich': 'the spots tell them, on the same fish and under a glass',
  'marine-ich--lymphocystis': 'the lumps tell them, on the same fish and under a glass',
}; // prettier-ignore

const densities = new Map(knowledge.critters.map((critter) => [critter.id, lineDensity(critter)]));
const alike = (a: string, b: string) => likeness(densities.get(a) ?? new Float64Array(1), densities.get(b) ?? new Float64Array(1)); // prettier-ignore
const pairs = knowledge.lookAlikes.map(({ a, b }) => ({ id: `${a}--${b}`, a, b, share: alike(a, b) }));

describe('the two figures of a pair', () => {
  it('have outlines of their own, unless the pair is on the list', () => {
    const same = pairs.filter(({ id, share }) => share > TOO_ALIKE && !(id in SAME_ON_PURPOSE));
    expect(same.map(({ id, share }) => `${id} ${share.toFixed(2)}`)).toEqual([]);
  });

  it('are on the list only while they are alike', () => {
    const known = new Map(pairs.map(({ id, share }) => [id, share]));
    for (const id of Object.keys(SAME_ON_PURPOSE)) expect(known.get(id), id).toBeGreaterThan(TOO_ALIKE);
  });

  it('differ on the plate all the same: in colour, pattern, place or spots', () => {
    for (const id of Object.keys(SAME_ON_PURPOSE)) {
      const [a = '', b = ''] = id.split('--');
      if (id === 'encrusting-sponge--fire-sponge') continue;
      expect(drawCritter(named(a).subject).marks, id).not.toBe(drawCritter(named(b).subject).marks);
    }
  });
});

describe('likeness', () => {
  const marksOf = (id: string) => drawCritter({ ...subjectOf(critterOf(id)), colour: ['white'] }).marks;
  const critterOf = (id: string) => {
    const found = knowledge.critters.find((critter) => critter.id === id);
    if (!found) throw new Error(`no critter ${id}`);
    return found;
  };

  it('is full for the same drawing in another size and other colours', () => {
    const marks = marksOf('emerald-crab');
    const moved = `<g transform="translate(60 40) scale(0.5)">${marks.replaceAll('#ffffff', '#f0d060')}</g>`;
    expect(likeness(densityOf(marks), densityOf(moved))).toBeGreaterThan(0.9);
  });

  it('is low for another animal', () => {
    expect(alike('emerald-crab', 'cone-snail')).toBeLessThan(0.4);
    expect(alike('aiptasia', 'red-planaria')).toBeLessThan(0.4);
  });
});

describe('drawings that once misled', () => {
  const critter = (id: string) => drawCritter(named(id).subject);

  it('give the blue-ringed octopus rings that can be counted, and the other none', () => {
    const rings = (id: string) => [...critter(id).marks.matchAll(/<circle [^>]*r="([\d.]+)" fill="#1f6fe0"/g)].map(([, r]) => Number(r)); // prettier-ignore
    expect(rings('octopus-hitchhiker')).toEqual([]);
    expect(rings('blue-ringed-octopus').filter((r) => r >= 12).length).toBeGreaterThanOrEqual(7);
  });

  it('number the octopus plate from one in both drawings', () => {
    const pair = knowledge.lookAlikes.find(({ danger }) => danger === 'blue-ringed-octopus');
    if (!pair) throw new Error('no octopus pair');
    const { svg } = pairPlate({ a: named(pair.a), b: named(pair.b), features: pair.features });
    const ones = linesOf({ svg, width: 0, height: 0, said: [] }).filter(({ text, y }) => text === '1' && y < 520);
    expect(ones.map(({ x }) => x < 450)).toEqual([true, false]);
  });

  it('point at a grain of salt, and let no grain touch another', () => {
    const { marks, parts } = critter('marine-ich');
    const grains = [...marks.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="5.5" fill="#ffffff"/g)].map(([, x, y]) => [Number(x), Number(y)] as const); // prettier-ignore
    expect(grains.length).toBeGreaterThan(20);
    expect(grains.filter(([x, y]) => x === parts.spots?.[0] && y === parts.spots[1])).toHaveLength(1);
    const touching = grains.filter(([x, y], i) => grains.some(([ox, oy], k) => k !== i && Math.hypot(x - ox, y - oy) < 14)); // prettier-ignore
    expect(touching).toEqual([]);
  });

  it('stretch the trunk of the whelk out in front and set its lid into the opening; the conch has claw and stalks', () => {
    const whelk = critter('whelk-predatory').parts;
    const conch = critter('conch-fighting').parts;
    if (!whelk.trunk || !whelk.head || !whelk.lid || !whelk.top) throw new Error('parts are missing');
    expect(whelk.trunk[0]).toBeLessThan(whelk.head[0] - 60);
    expect(whelk.lid[0]).toBeLessThan(whelk.top[0]);
    expect(conch.trunk).toBeUndefined();
    expect(conch.lid?.[0]).toBeGreaterThan(conch.body[0] + 100);
    expect(conch.eyes?.[1]).toBeLessThan(conch.lid?.[1] ?? 0);
  });

  it('keep the red bug small among the polyps that it sits between', () => {
    const { marks, span = 400 } = critter('red-bug');
    const cups = [...marks.matchAll(/<ellipse [^>]*rx="(\d+)"/g)].map(([, r]) => Number(r)).filter((r) => r > 45);
    expect(cups.length).toBeGreaterThanOrEqual(5);
    expect(span).toBeLessThan(Math.max(...cups) * 2.2);
  });

  it('lay the cone snail down, wider than tall, its siphon in front and its spire behind', () => {
    const { parts } = critter('cone-snail');
    const [trunk, top, mouth, body] = [parts.trunk, parts.top, parts.mouth, parts.body];
    if (!trunk || !top || !mouth) throw new Error('parts are missing');
    expect(trunk[0]).toBeLessThan(body[0]);
    expect(top[0]).toBeGreaterThan(body[0]);
    expect(mouth[1]).toBeGreaterThan(body[1]);
  });

  it('draw both sponges that no eye can tell apart with one outline', () => {
    expect(alike('encrusting-sponge', 'fire-sponge')).toBeCloseTo(1);
  });
});
