// What is drawn: an animal's traits, and where traits are not enough, the outline that shows what tells it.
import type { Critter } from '../knowledge/critter.ts';
import { drawOutline, type Outline } from './outline.ts';
import { outlineFromTraits } from './outline-from-traits.ts';
import { BOX, createPen, type Part, type Parts } from './pen.ts';
import { SETTINGS, type Setting } from './settings.ts';
import { tag, type Point } from './svg.ts';
import { SUBJECTS } from './subjects.ts';

type Traits = Critter['traits'];

/** The traits of an animal as far as a picture can show them. */
export type Subject = Partial<
  Pick<Traits, 'bodyForm' | 'appendages' | 'shellShape' | 'segments' | 'colour' | 'sizeMm'>
> & {
  /** The outline, where traits do not lead to it. */
  outline?: Outline;
  /** What it sits on. */
  setting?: Setting;
  /** Parts to point out with a ring. */
  emphasis?: readonly Part[];
};

export type Drawing = {
  /** The marks to place in a picture; they fill a box of `width` by `height`. */
  marks: string;
  /** The same as a picture of its own. */
  svg: string;
  width: number;
  height: number;
  parts: Parts & { body: Point };
  /** How many pixels the animal's size spans; absent where the drawing is not to scale. */
  span?: number;
};

/** Draws one animal. Ids inside begin with the prefix, so that several drawings can share a picture. */
export function drawCritter(subject: Subject, prefix = 'a'): Drawing {
  const pen = createPen(subject.colour?.length ? subject.colour : ['tan'], prefix);
  const sketch = drawOutline(pen, subject.outline ?? outlineFromTraits(subject));
  const setting = subject.setting ? SETTINGS[subject.setting](pen) : undefined;
  const parts = { ...(setting ? { ground: setting.at } : {}), ...sketch.parts };
  const rings = (subject.emphasis ?? []).flatMap((part) => {
    const at = parts[part];
    return at ? [tag('circle', { cx: at[0], cy: at[1], r: 26, fill: 'none', stroke: '#0b5cad', 'stroke-width': 4, 'stroke-dasharray': '9 6' })] : []; // prettier-ignore
  });
  const scene = setting ? pen.inside(`M2 2H${BOX.width - 2}V${BOX.height - 2}H2Z`, setting.marks) : '';
  const marks = scene + sketch.marks + rings.join('');
  const box = { viewBox: `0 0 ${BOX.width} ${BOX.height}`, width: BOX.width, height: BOX.height };
  const drawing: Drawing = {
    marks,
    parts,
    ...BOX,
    svg: tag('svg', { xmlns: 'http://www.w3.org/2000/svg', ...box }, marks),
  };
  return sketch.span === undefined ? drawing : { ...drawing, span: sketch.span };
}

/** The subject of a critter: its traits, and the outline and colours set down for it. */
export function subjectOf(critter: Pick<Critter, 'id' | 'traits'>): Subject {
  const { bodyForm, appendages, shellShape, segments, colour, sizeMm } = critter.traits;
  const own = SUBJECTS[critter.id];
  return {
    bodyForm,
    appendages,
    shellShape,
    ...(segments === undefined ? {} : { segments }),
    ...(sizeMm ? { sizeMm } : {}),
    colour: own?.colours ? [...own.colours] : colour,
    ...(own ? { outline: own.outline } : {}),
    ...(own?.setting ? { setting: own.setting } : {}),
  };
}
