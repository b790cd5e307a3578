import { describe, expect, it } from 'vitest';
import { BODY_FORMS } from '../../../src/knowledge/trait-words.ts';
import { critterPlate } from '../../../src/drawing/critter-plate.ts';
import { widthOf } from '../../../src/drawing/letters.ts';
import { optionSheet } from '../../../src/drawing/option-sheet.ts';
import { altTextOf } from '../../../src/drawing/page.ts';
import { BODY_FORM_SUBJECTS } from '../../../src/drawing/trait-options.ts';
import { knowledge, linesOf, named, rendered, wordsOf } from './picture.ts';

const CALLOUTS = [
  { feature: 'Claws', words: 'Folded under the head like a praying mantis' },
  { feature: 'Eyes', words: 'Banded, on stalks, each turning on its own' },
  { feature: 'Sound and traces', words: 'Loud knocks at night' },
];

describe('critterPlate', () => {
  const plate = critterPlate({ ...named('mantis-shrimp'), callouts: CALLOUTS });

  it('has the name, the size and every callout', () => {
    const words = wordsOf(plate);
    expect(words).toContain('Mantis shrimp');
    expect(words).toContain('10 to 150 mm');
    for (const { words: said } of CALLOUTS) expect(words).toContain(said);
  });

  it('points at what can be drawn and says the rest below', () => {
    expect(plate.svg.match(/r="11"/g)).toHaveLength(2);
    expect(wordsOf(plate)).toContain('Sound and traces: Loud knocks at night');
  });

  it('says the same in words', () => {
    const text = altTextOf(plate);
    expect(text).toMatch(/^Drawing of Mantis shrimp\./);
    for (const { words } of CALLOUTS) expect(text).toContain(words);
  });

  it('draws every critter, in both variants, without callouts', () => {
    for (const { id } of knowledge.critters) {
      const one = critterPlate(named(id));
      expect(wordsOf(one), id).toContain(named(id).name.split(' ')[0]);
      expect(one.svg, id).not.toMatch(/NaN|undefined/);
    }
    expect(critterPlate(named('majano'), 'dark').svg).not.toBe(critterPlate(named('majano')).svg);
    expect(() => rendered(critterPlate(named('majano'), 'dark').svg)).not.toThrow();
  });

  it('keeps three boxes of words apart', () => {
    const three = critterPlate({
      ...named('fireworm-bearded'),
      callouts: [
        { feature: 'Gills along the back', words: 'A bright red or orange tuft on every ring' },
        { feature: 'Fleshy lobe on the head', words: 'Large, pleated and obvious' },
        { feature: 'Bristles at the sides', words: 'Thick white brushes that flare out' },
      ],
    });
    const boxes = [
      ...three.svg.matchAll(/<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)" rx="10"/g),
    ].map((found) => found.slice(1).map(Number));
    expect(boxes).toHaveLength(3);
    boxes.forEach(([x = 0, y = 0, w = 0, h = 0], i) => {
      expect(x + w).toBeLessThan(900);
      for (const [ox = 0, oy = 0, ow = 0, oh = 0] of boxes.slice(i + 1))
        expect(x + w <= ox || ox + ow <= x || y + h <= oy || oy + oh <= y).toBe(true);
    });
  });
});

describe('optionSheet', () => {
  const options = BODY_FORMS.map((form) => ({ label: form.replaceAll('-', ' '), subject: BODY_FORM_SUBJECTS[form] }));

  it('numbers up to nine drawings and labels them', () => {
    const sheet = optionSheet('What body does it have?', options);
    const texts = linesOf(sheet).map(({ text }) => text);
    expect(texts.filter((text) => /^\d$/.test(text))).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9']);
    for (const { label } of options.slice(0, 9)) expect(wordsOf(sheet)).toContain(label);
    expect(wordsOf(sheet)).not.toContain(options[9]?.label);
    expect(sheet.svg.match(/width="200" height="200"/g)).toHaveLength(9);
  });

  it('takes few answers as well as many, and stays as wide', () => {
    for (const count of [1, 2, 3, 4, 7, 9]) {
      const sheet = optionSheet('Which?', options.slice(0, count));
      expect(sheet.width).toBe(680);
      expect(rendered(sheet.svg).height).toBe(Math.round(sheet.height));
      expect(altTextOf(sheet)).toContain(`${count}: ${options[count - 1]?.label}.`);
    }
  });

  it('breaks long labels within their square', () => {
    const label = 'Two shells that shut when a shadow falls on them';
    const sheet = optionSheet('Which?', [{ label, subject: BODY_FORM_SUBJECTS['two-shells'] }]);
    for (const { text, size, anchor } of linesOf(sheet)) {
      if (anchor === 'middle') expect(widthOf(text, size)).toBeLessThanOrEqual(206);
    }
  });
});
