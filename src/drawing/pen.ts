// A pen knows the colours and the pattern of one animal and draws skins, lines and dots with them.
import { CHALK, FILLS, INK, isDark, isPattern, type ColourWord, type Pattern, type PlainColour } from './ink.ts';
import { patternMarks } from './pattern.ts';
import { tag, type Attributes, type Point } from './svg.ts';

/** The box in which every animal is drawn. */
export const BOX = { width: 400, height: 320 } as const;

/** The parts of animals that a line can point at. */
export type Part =
  | 'body' | 'head' | 'eyes' | 'feelers' | 'jaws' | 'lobe' | 'bristles' | 'gills' | 'side' | 'back' | 'rear' | 'skin'
  | 'arms' | 'disc' | 'spines' | 'tube-feet' | 'shell' | 'top' | 'mouth' | 'lid' | 'foot' | 'trunk' | 'lip' | 'claws'
  | 'claw-tips' | 'legs' | 'last-legs' | 'fans' | 'beak' | 'tail' | 'cover' | 'tentacles' | 'tips' | 'column' | 'base'
  | 'mat' | 'crown' | 'tube' | 'threads' | 'hole' | 'edge' | 'surface' | 'pattern' | 'spots' | 'ground' | 'bubbles'
  | 'strand' | 'runner' | 'mantle' | 'plates' | 'eggs' | 'fish-gills' | 'fish-eye' | 'knobs' | 'thickness'; // prettier-ignore

export type Parts = Partial<Record<Part, Point>>;

/** What an outline hands back: the marks, where its parts are, and how many pixels its size in millimetres spans. */
export type Sketch = {
  marks: string;
  parts: Parts & { body: Point };
  /** Absent where the picture is no picture to scale, such as dots on a fish. */
  span?: number;
};

export type Pen = {
  fill: string;
  second: string;
  third: string;
  /** Inner lines: dark on light skins, light on dark ones. */
  detail: string;
  pattern: Pattern | undefined;
  /** A closed shape with the animal's fill, pattern and outline. */
  skin(d: string, more?: { fill?: string; plain?: boolean; width?: number }): string;
  /** A closed shape with a given fill and the usual outline. */
  shape(d: string, fill: string, more?: Attributes): string;
  line(d: string, more?: Attributes): string;
  dot(x: number, y: number, radius: number, fill?: string, more?: Attributes): string;
  oval(x: number, y: number, rx: number, ry: number, fill?: string, more?: Attributes): string;
  /** Marks seen only inside a closed shape. */
  inside(d: string, marks: string): string;
};

const LINE = { stroke: INK, 'stroke-width': 3, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' } as const;

/** A pen for an animal of these colours; ids in the drawing begin with the prefix, so that two can share one picture. */
export function createPen(colours: readonly ColourWord[], prefix = 'a'): Pen {
  const plain = colours.filter((word): word is PlainColour => !isPattern(word));
  const fill = FILLS[plain[0] ?? 'tan'];
  const second = FILLS[plain[1] ?? (isDark(fill) || plain[0] === 'black' ? 'white' : 'brown')];
  const third = FILLS[plain[2] ?? plain[1] ?? 'white'];
  const pattern = colours.find(isPattern);
  const detail = isDark(fill) ? CHALK : INK;
  let ids = 0;

  const inside = (d: string, marks: string) => {
    const id = `${prefix}${++ids}`;
    return tag('clipPath', { id }, tag('path', { d })) + tag('g', { 'clip-path': `url(#${id})` }, marks);
  };
  const pen: Pen = {
    fill,
    second,
    third,
    detail,
    pattern,
    inside,
    skin(d, more = {}) {
      const width = more.width ?? 3.5;
      const base = tag('path', { d, fill: more.fill ?? fill });
      const marks = pattern && !more.plain ? inside(d, patternMarks(pattern, more.fill ?? fill, second)) : '';
      return base + marks + tag('path', { d, fill: 'none', ...LINE, 'stroke-width': width });
    },
    shape: (d, colour, more = {}) => tag('path', { d, fill: colour, ...LINE, ...more }),
    line: (d, more = {}) => tag('path', { d, fill: 'none', ...LINE, ...more }),
    dot: (x, y, radius, colour = INK, more = {}) => tag('circle', { cx: x, cy: y, r: radius, fill: colour, ...more }),
    oval: (x, y, rx, ry, colour = fill, more = {}) =>
      tag('ellipse', { cx: x, cy: y, rx, ry, fill: colour, ...LINE, ...more }),
  };
  return pen;
}

/** A thick line with an outline of its own: a leg, a tentacle, a spine. */
export function limb(pen: Pen, d: string, width: number, fill: string = pen.fill): string {
  return pen.line(d, { 'stroke-width': width + 5 }) + pen.line(d, { stroke: fill, 'stroke-width': width });
}
