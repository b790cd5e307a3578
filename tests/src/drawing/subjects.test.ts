import { describe, expect, it } from 'vitest';
import { BODY_FORMS, SHELL_SHAPES } from '../../../src/knowledge/trait-words.ts';
import { createPen } from '../../../src/drawing/pen.ts';
import { drawOutline, OUTLINE_NAMES } from '../../../src/drawing/outline.ts';
import { drawCritter, subjectOf } from '../../../src/drawing/subject.ts';
import { SETTINGS, settingInWords } from '../../../src/drawing/settings.ts';
import { SUBJECTS } from '../../../src/drawing/subjects.ts';
import { BODY_FORM_SUBJECTS, SHELL_SHAPE_SUBJECTS } from '../../../src/drawing/trait-options.ts';
import { inkedBox, knowledge, rendered } from './picture.ts';

const ids = knowledge.critters.map(({ id }) => id).sort();

describe('subjects', () => {
  it('hold every critter of the knowledge base and nothing else', () => {
    expect(ids.length).toBeGreaterThan(200);
    expect(Object.keys(SUBJECTS).sort()).toEqual(ids);
  });

  it('use every outline there is', () => {
    const used = new Set(Object.values(SUBJECTS).map(({ outline }) => outline.outline));
    expect(OUTLINE_NAMES.filter((name) => !used.has(name))).toEqual([]);
  });

  it.each(knowledge.critters.map((critter) => [critter.id, critter] as const))(
    '%s draws inside its box',
    (_, critter) => {
      const subject = subjectOf(critter);
      const { outline } = subject;
      if (!outline) throw new Error('no outline');
      const sketch = drawOutline(createPen(subject.colour ?? []), outline);
      const box = inkedBox(sketch.marks);
      expect(box.left).toBeGreaterThanOrEqual(-2);
      expect(box.top).toBeGreaterThanOrEqual(-2);
      expect(box.right).toBeLessThanOrEqual(402);
      expect(box.bottom).toBeLessThanOrEqual(322);
      expect(Math.max(box.right - box.left, box.bottom - box.top)).toBeGreaterThan(150);
      for (const [x, y] of Object.values(sketch.parts)) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(400);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(320);
      }
      if (sketch.span !== undefined) expect(sketch.span).toBeGreaterThan(40);
    },
  );

  it('write sound SVG without words of code in it', () => {
    for (const critter of knowledge.critters) {
      const { svg } = drawCritter(subjectOf(critter));
      expect(() => rendered(svg), critter.id).not.toThrow();
      expect(svg, critter.id).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
      expect(svg, critter.id).not.toMatch(/\d\.\d{2,}/);
    }
  });

  it('draw the same every time, and apart under another prefix', () => {
    const [critter] = knowledge.critters;
    if (!critter) throw new Error('empty knowledge base');
    const idsIn = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    const spotted = { ...subjectOf(critter), colour: ['red', 'white', 'spotted'] as const };
    const one = drawCritter({ ...spotted, colour: [...spotted.colour] }, 'l').svg;
    expect(drawCritter({ ...spotted, colour: [...spotted.colour] }, 'l').svg).toBe(one);
    const other = drawCritter({ ...spotted, colour: [...spotted.colour] }, 'r').svg;
    expect(idsIn(one).filter((id) => idsIn(other).includes(id))).toEqual([]);
  });

  it('draw from traits alone as well', () => {
    for (const critter of knowledge.critters) {
      const { bodyForm, appendages, shellShape, colour } = critter.traits;
      const { svg, parts } = drawCritter({ bodyForm, appendages, shellShape, colour });
      expect(() => rendered(svg), critter.id).not.toThrow();
      expect(parts.body, critter.id).toBeDefined();
    }
    expect(drawCritter({}).svg).toContain('<path');
  });

  it('tell body forms and shell shapes apart', () => {
    const forms = BODY_FORMS.map((form) => drawCritter(BODY_FORM_SUBJECTS[form]).marks);
    const shells = SHELL_SHAPES.map((shape) => drawCritter(SHELL_SHAPE_SUBJECTS[shape]).marks);
    expect(new Set(forms).size).toBe(BODY_FORMS.length);
    expect(new Set(shells).size).toBe(SHELL_SHAPES.length);
  });

  it('never let colour stand alone: every pattern adds strokes of its own', () => {
    const plain = drawCritter({ bodyForm: ['slug-like'], colour: ['white', 'brown'] }).marks;
    for (const pattern of ['striped', 'spotted', 'mottled', 'iridescent', 'fluorescent'] as const) {
      const patterned = drawCritter({ bodyForm: ['slug-like'], colour: ['white', 'brown', pattern] }).marks;
      expect(patterned.length, pattern).toBeGreaterThan(plain.length + 200);
    }
  });

  it('ring the parts to point out', () => {
    const ringed = drawCritter({ ...BODY_FORM_SUBJECTS['shrimp-like'], emphasis: ['claws', 'tail', 'mantle'] }).marks;
    expect(ringed.match(/stroke-dasharray="9 6"/g)).toHaveLength(2);
  });
});

describe('settings', () => {
  it('draw sound SVG', () => {
    for (const [name, scene] of Object.entries(SETTINGS)) {
      const { marks, at } = scene(createPen(['tan']));
      expect(() => rendered(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 320">${marks}</svg>`), name).not.toThrow(); // prettier-ignore
      expect(at[0] >= 0 && at[0] <= 400 && at[1] >= 0 && at[1] <= 320, name).toBe(true);
    }
  });

  it.each([
    ['In or on sand, seldom on glass', 'sand'],
    ['Climbs glass and rock for hours', 'glass'],
    ['Only on Acropora skin, mostly between the polyps', 'branching-coral'],
    ['Sun, dendro, cup or scroll coral', 'sun-coral'],
    ['Hovers in open water, in groups', undefined],
  ])('%s → %s', (words, setting) => {
    expect(settingInWords(words)).toBe(setting);
  });
});
