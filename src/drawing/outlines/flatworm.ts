// Flat soft animals seen from above: flatworms, flukes, and the crawling comb jelly.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { chance, upTo, type Point } from '../svg.ts';

export type FlatwormShape = {
  form?: 'oval' | 'slim' | 'round' | 'drop';
  rear?: 'plain' | 'notch' | 'three-lobes' | 'three-tails';
  front?: 'plain' | 'false-horns' | 'tentacles';
  ruffled?: boolean;
  /** Two clusters of many eyespots. */
  eyespots?: boolean;
  freckles?: boolean;
  redSpot?: boolean;
  /** Two chimneys with long sticky threads. */
  threads?: boolean;
  /** Clean empty snail shells beside it. */
  emptyShells?: boolean;
  /** A fluke's anchor at the rear. */
  hooks?: boolean;
};

export function drawFlatworm(pen: Pen, shape: FlatwormShape): Sketch {
  const form = shape.form ?? 'oval';
  const [rx, ry] = { oval: [146, 78], slim: [146, 40], round: [112, 92], drop: [130, 52] }[form] as [number, number];
  const [x, y] = [200, 160];
  const outline = curve(bodyPoints(shape, form, x, y, rx, ry), true);
  const next = chance(5);
  const freckles = shape.freckles ? upTo(26).map(() => pen.dot(x + (next() - 0.5) * rx * 1.5, y + (next() - 0.5) * ry * 1.3, 3.4 + next() * 2, '#fff1d8')).join('') : ''; // prettier-ignore
  const eyes = shape.eyespots ? [-1, 1].flatMap((s) => upTo(8).map((i) => pen.dot(x - rx * 0.72 + (i % 3) * 8, y + s * 15 + Math.floor(i / 3) * 7 * s, 2.6))).join('') : ''; // prettier-ignore
  const horns = hornMarks(pen, shape, x, y, rx, ry);
  const threads = shape.threads ? threadMarks(pen) : '';
  const hooks = shape.hooks ? pen.oval(x + rx * 0.94, y, 26, 26) + pen.line(`M${x + rx * 0.94} ${y - 16}v32m-9 -26q-8 14 2 24m16 -24q8 14 -2 24`, { 'stroke-width': 3 }) : ''; // prettier-ignore
  const redSpot = shape.redSpot ? pen.oval(x - rx * 0.3, y, 19, 14, '#8f1d16', { 'stroke-width': 1.5 }) : '';
  const gut = pen.line(curve([[x - rx * 0.6, y], [x, y + (shape.ruffled ? 8 : 0)], [x + rx * 0.6, y]]), { stroke: pen.detail, 'stroke-width': 2, 'stroke-dasharray': '3 9' }); // prettier-ignore
  const rear: Point = [x + rx * (shape.rear?.startsWith('three') ? 1.12 : shape.rear === 'notch' ? 0.84 : 1), y];
  const parts: Parts & { body: Point } = {
    body: [x, y], rear, tail: rear, head: [x - rx * 0.94, y], eyes: [x - rx * 0.66, y - 18], feelers: [x - rx * (shape.front === 'tentacles' ? 0.62 : 0.96), y - 26], edge: [x + rx * 0.1, y + ry], side: [x + rx * 0.1, y + ry],
    skin: [x + rx * 0.3, y - ry * 0.4], back: [x + rx * 0.2, y - ry * 0.3], surface: [x + rx * 0.3, y - ry * 0.4], pattern: [x - rx * 0.3, y], thickness: [x - rx * 0.1, y + ry], legs: [x - rx * 0.3, y + ry * 0.94],
  }; // prettier-ignore
  if (shape.threads) parts.threads = [96, 40];
  return {
    marks:
      threads +
      (shape.emptyShells
        ? [
            [70, 272],
            [322, 278],
            [352, 58],
          ]
            .map(([sx, sy]) => emptyShell(pen, sx ?? 0, sy ?? 0))
            .join('')
        : '') +
      hooks +
      horns.under +
      pen.skin(outline) +
      gut +
      freckles +
      redSpot +
      eyes +
      horns.over,
    parts,
    span: rx * 2,
  };
}

function emptyShell(pen: Pen, x: number, y: number): string {
  return pen.shape(`M${x - 30} ${y + 8}Q${x - 30} ${y - 24} ${x + 2} ${y - 22}L${x + 38} ${y - 2}L${x + 6} ${y + 22}Q${x - 24} ${y + 26} ${x - 30} ${y + 8}Z`, '#fbf6ea', { 'stroke-width': 2.6 }) + pen.line(`M${x + 4} ${y - 20}q-8 18 2 40m14 -32q-6 12 0 24`, { 'stroke-width': 2 }) + pen.oval(x - 14, y + 4, 10, 14, '#54453a', { 'stroke-width': 2 }); // prettier-ignore
}

function bodyPoints(shape: FlatwormShape, form: string, x: number, y: number, rx: number, ry: number): Point[] {
  const count = shape.ruffled ? 30 : 18;
  const points = upTo(count).map((i): Point => {
    const angle = (i / count) * Math.PI * 2;
    const wave = shape.ruffled ? (i % 2 ? 1.07 : 0.91) : 1;
    const narrow = form === 'drop' ? 1 - 0.35 * Math.cos(angle) : 1;
    return [x + Math.cos(angle) * rx * (shape.ruffled ? 0.5 + wave / 2 : 1), y + Math.sin(angle) * ry * wave * narrow];
  });
  if (shape.rear === 'notch') {
    const kept = points.filter(([px]) => px < x + rx * 0.93);
    const notched: Point[] = [
      ...kept.filter(([, py]) => py <= y),
      [x + rx * 0.97, y - ry * 0.26],
      [x + rx * 0.76, y],
      [x + rx * 0.97, y + ry * 0.26],
      ...kept.filter(([, py]) => py > y).reverse(),
    ];
    return notched.sort((a, b) => angleOf(a, x, y) - angleOf(b, x, y)); // prettier-ignore
  }
  if (shape.rear === 'three-tails') {
    const kept = points.filter(([px]) => px < x + rx * 0.3);
    const tails: Point[] = [[x + rx * 0.7, y - ry * 0.8], [x + rx * 1.2, y - ry * 0.86], [x + rx * 0.84, y - ry * 0.5], [x + rx * 0.5, y - ry * 0.26], [x + rx * 0.86, y - ry * 0.15], [x + rx * 1.3, y], [x + rx * 0.86, y + ry * 0.15], [x + rx * 0.5, y + ry * 0.26], [x + rx * 0.84, y + ry * 0.5], [x + rx * 1.2, y + ry * 0.86], [x + rx * 0.7, y + ry * 0.8]]; // prettier-ignore
    return [...kept.filter(([, py]) => py <= y).sort((a, b) => a[0] - b[0]), ...tails, ...kept.filter(([, py]) => py > y).sort((a, b) => b[0] - a[0])]; // prettier-ignore
  }
  if (shape.rear === 'three-lobes') {
    const kept = points.filter(([px]) => px < x + rx * 0.62);
    const lobes: Point[] = [[x + rx * 0.86, y - ry * 0.74], [x + rx * 1.08, y - ry * 0.6], [x + rx * 0.84, y - ry * 0.3], [x + rx * 1.02, y - ry * 0.12], [x + rx * 1.2, y], [x + rx * 1.02, y + ry * 0.12], [x + rx * 0.84, y + ry * 0.3], [x + rx * 1.08, y + ry * 0.6], [x + rx * 0.86, y + ry * 0.74]]; // prettier-ignore
    return [...kept, ...lobes].sort((a, b) => angleOf(a, x, y) - angleOf(b, x, y));
  }
  return points;
}

const angleOf = ([px, py]: Point, x: number, y: number) => Math.atan2(py - y, px - x);

function hornMarks(
  pen: Pen,
  shape: FlatwormShape,
  x: number,
  y: number,
  rx: number,
  ry: number,
): { under: string; over: string } {
  const front = x - rx;
  if (shape.front === 'false-horns') {
    const horn = (side: number) => pen.shape(curve([[front + 26, y + side * 8], [front - 14, y + side * 22], [front - 8, y + side * 46], [front + 30, y + side * ry * 0.52]], true), pen.fill); // prettier-ignore
    return { under: horn(-1) + horn(1), over: '' };
  }
  if (shape.front === 'tentacles') {
    return {
      under: '',
      over: [-1, 1].map((s) => limb(pen, `M${x - rx * 0.58} ${y + s * 18}l-26 ${s * 30}`, 11, '#ffffff')).join(''),
    };
  }
  return { under: '', over: '' };
}

function threadMarks(pen: Pen): string {
  const threads: Point[][] = [[[150, 110], [130, 70], [90, 40], [40, 30]], [[250, 110], [272, 66], [320, 44], [366, 36]]]; // prettier-ignore
  return threads
    .map((line, i) => {
      const side = line.slice(1).flatMap(([px, py]) => [curve([[px, py], [px + (i ? 6 : -6), py + 24]]), curve([[px + 14, py + 6], [px + 18, py + 30]])]); // prettier-ignore
      return pen.line(curve(line) + side.join(''), { 'stroke-width': 2.6 }) + pen.oval(line[0]?.[0] ?? 0, 104, 15, 26) + pen.dot(line[0]?.[0] ?? 0, 82, 5, INK); // prettier-ignore
    })
    .join('');
}
