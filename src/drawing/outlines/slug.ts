// Slugs seen from above and a little from the side: fingers on the back, a gill flower, frills, warts, a shield.
import { curve, roundEnds, tapered } from '../curve.ts';
import { CHALK, FILLS, INK, isDark } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type SlugShape = {
  girth?: number;
  back?: 'smooth' | 'fingers' | 'bulbs' | 'long-fingers' | 'stubs' | 'gill-flower' | 'edge-tufts' | 'frills' | 'flaps' | 'warts' | 'bubble-shell' | 'ear-shell' | 'lines';
  /** The colour of the finger tips. */
  tipFill?: string;
  head?: 'horns' | 'short-horns' | 'long-feelers' | 'ears' | 'shield' | 'none';
  /** Two tail-like lobes behind. */
  twoTails?: boolean;
  hump?: boolean;
  /** A mark on the head. */
  headMark?: string;
}; // prettier-ignore

const LINE: readonly Point[] = [
  [64, 176],
  [140, 162],
  [240, 164],
  [344, 178],
];

export function drawSlug(pen: Pen, shape: SlugShape): Sketch {
  const girth = shape.girth ?? 38;
  const back = shape.back ?? 'smooth';
  const width = (t: number) => roundEnds(girth, 0.12, 0.2)(t) * (1 - 0.25 * t);
  const body = tapered(LINE, shape.twoTails ? (t) => roundEnds(girth, 0.1, 0.05)(t) : width);
  const parts: Parts & { body: Point } = {
    body: [200, 164], head: [74, 174], back: [210, 140], skin: [250, 158], surface: [210, 150], rear: [336, 176], tail: [336, 176], foot: [190, 168 + girth], side: [200, 164 + girth - 4], edge: [200, 164 + girth - 4],
    thickness: [220, 164 + girth - 2], pattern: [240, 154], feelers: [50, 136], mouth: [60, 180], gills: [290, 144], shell: [250, 150], tentacles: [50, 136],
  }; // prettier-ignore
  const horns = headMarks(pen, shape, girth);
  const over = backMarks(pen, back, shape, girth, parts);
  const tails = shape.twoTails ? limb(pen, curve([[320, 160], [356, 138], [374, 140]]), 22) + limb(pen, curve([[320, 186], [356, 206], [374, 202]]), 22) : ''; // prettier-ignore
  const mark = shape.headMark ? pen.oval(98, 170, 16, 11, shape.headMark, { 'stroke-width': 1.6 }) : '';
  const hump = shape.hump ? pen.oval(190, 150, 30, 20, '#f6efe2') : '';
  return {
    marks: tails + over.under + horns.under + pen.skin(body) + mark + hump + over.over + horns.over,
    parts,
    span: 280,
  };
}

function headMarks(pen: Pen, shape: SlugShape, girth: number): { under: string; over: string } {
  const horn = (length: number, wide: number) => [-1, 1].map((s) => limb(pen, curve([[84, 168 + s * girth * 0.3], [58, 152 + s * girth * 0.9], [84 - length, 140 + s * girth * 1.1]]), wide)).join(''); // prettier-ignore
  switch (shape.head ?? 'horns') {
    case 'none':
      return { under: '', over: '' };
    case 'horns':
      return {
        under: horn(54, 6),
        over: [-1, 1].map((s) => limb(pen, `M110 ${166 + s * 14}l-8 ${s < 0 ? -34 : -28}`, 7)).join(''),
      };
    case 'short-horns':
      return { under: '', over: [-1, 1].map((s) => limb(pen, `M106 ${164 + s * 15}l-8 -22`, 9, pen.second)).join('') };
    case 'long-feelers':
      return { under: horn(70, 4), over: '' };
    case 'ears': {
      const ear = (x: number, s: number) => pen.shape(`M${x} ${166 + s * 12}C${x - 30} ${120 + s * 16} ${x - 8} ${96 + s * 18} ${x + 8} ${112 + s * 18}C${x + 18} ${130 + s * 16} ${x + 16} ${150 + s * 12} ${x} ${166 + s * 12}Z`, pen.fill); // prettier-ignore
      return { under: [-1, 1].map((s) => limb(pen, curve([[80, 172], [52, 168 + s * 30], [38, 166 + s * 46]]), 15)).join(''), over: ear(122, -1) + ear(134, 1) }; // prettier-ignore
    }
    case 'shield':
      return { under: '', over: pen.shape(curve([[46, 140], [40, 176], [46, 212], [112, 218], [134, 176], [112, 134]], true), pen.fill) + pen.line('M60 150Q54 176 60 202', { stroke: pen.detail, 'stroke-width': 2 }) }; // prettier-ignore
  }
}

function backMarks(
  pen: Pen,
  kind: string,
  shape: SlugShape,
  girth: number,
  parts: Parts,
): { under: string; over: string } {
  const tip = shape.tipFill ?? '#ffffff';
  const finger = (x: number, y: number, side: number, length: number, wide: number, round: number) => {
    const end: Point = [x + 10 + side * 2, y + side * length * 0.75 - length * (side < 0 ? 0.3 : -0.05)];
    return limb(pen, curve([[x, y], [x + 7, y + side * length * 0.45], end]), wide) + pen.dot(end[0], end[1], round, tip, { stroke: INK, 'stroke-width': 2 });
  }; // prettier-ignore
  const rows = (length: number, wide: number, round: number, count: number) => ({
    under: steps(122, 316, count).map((x, i) => finger(x, 150 - girth * 0.2, -1, length * (0.8 + 0.2 * (i % 2)), wide, round) + finger(x + 6, 172 + girth * 0.3, 1, length * 0.8, wide, round)).join(''),
    over: steps(130, 306, count - 2).map((x, i) => finger(x, 156, -1, length * 0.72, wide, round) + (i % 2 ? finger(x + 8, 170, 1, length * 0.42, wide, round) : '')).join(''),
  }); // prettier-ignore
  switch (kind) {
    case 'fingers':
      parts.back = parts.gills = [214, 104];
      return rows(58, 8, 6.5, 11);
    case 'long-fingers':
      parts.back = parts.gills = [214, 84];
      return rows(86, 7, 5, 13);
    case 'stubs':
      parts.back = parts.gills = [210, 112];
      return rows(30, 15, 9.5, 7);
    case 'bulbs': {
      parts.back = parts.gills = [210, 120];
      const bulb = (x: number, y: number) => pen.oval(x, y, 12, 15, pen.fill) + pen.oval(x, y - 4, 6, 7, tip, { 'stroke-width': 1.4 }); // prettier-ignore
      return { under: steps(118, 314, 8).map((x) => bulb(x, 124) + bulb(x + 6, 204)).join(''), over: steps(134, 300, 7).map((x) => bulb(x, 150) + bulb(x + 8, 178)).join('') }; // prettier-ignore
    }
    case 'gill-flower':
      parts.gills = parts.back = [296, 122];
      return { under: '', over: steps(-168, -12, 7).map((a) => { const [x, y] = polar(288, 158, 46, a); const twigs = [0.55, 0.8].flatMap((s) => [-38, 38].map((t) => { const at: Point = [288 + (x - 288) * s, 158 + (y - 158) * s]; return curve([at, polar(at[0], at[1], 14, a + t)]); })).join(''); return pen.line(twigs, { 'stroke-width': 4 }) + limb(pen, curve([[288, 158], [x, y]]), 5, pen.second); }).join('') + pen.oval(288, 160, 14, 8, pen.second) }; // prettier-ignore
    case 'edge-tufts': {
      parts.back = parts.gills = [200, 112];
      const tuft = (x: number, s: number) => [-40, -14, 14, 40].map((lean) => { const [tx, ty] = polar(x, 164 + s * girth * 0.8, 30, s * 90 + lean); const more = [-25, 25].map((k) => curve([[tx, ty], polar(tx, ty, 11, s * 90 + lean + k)])).join(''); return pen.line(curve([[x, 164 + s * girth * 0.8], [tx, ty]]) + more, { 'stroke-width': 4.5 }); }).join(''); // prettier-ignore
      return {
        under: steps(112, 316, 7)
          .map((x) => tuft(x, -1) + tuft(x, 1))
          .join(''),
        over: '',
      };
    }
    case 'frills': {
      parts.back = parts.edge = [200, 118];
      const frill = (y: number, s: number) => { const xs = steps(104, 326, 17); const d = curve([...xs.map((x, i): Point => [x, y + s * (i % 2 ? 32 : 8)]), ...[...xs].reverse().map((x): Point => [x, y - s * 10])], true); return pen.shape(d, s < 0 ? pen.fill : pen.second); }; // prettier-ignore
      return { under: frill(142, -1) + frill(190, 1), over: frill(162, -1) + frill(170, 1) };
    }
    case 'flaps': {
      parts.back = parts.edge = [230, 214];
      return { under: pen.skin(curve([[108, 170], [180, 108], [270, 112], [344, 176], [270, 224], [180, 222]], true)), over: pen.line('M150 166Q240 150 322 174M190 140l14 22M240 138l10 24M190 200l14 -26M240 202l12 -26', { stroke: pen.detail, 'stroke-width': 2 }) }; // prettier-ignore
    }
    case 'warts': {
      parts.back = [200, 146];
      const wart = (x: number, y: number) =>
        pen.oval(x, y, 13, 10, pen.second, { 'stroke-width': 2.6 }) + pen.dot(x - 2, y - 3, 4, pen.third);
      return {
        under: '',
        over: steps(130, 322, 7)
          .map((x, i) => wart(x, 148 + (i % 2) * 5) + wart(x + 8, 182 - (i % 2) * 4))
          .join(''),
      };
    }
    case 'bubble-shell':
      parts.shell = parts.back = [250, 148];
      return { under: '', over: pen.oval(252, 158, 62, 44, '#eef6f3', { 'fill-opacity': 0.75, 'stroke-width': 3 }) + pen.line('M206 164Q214 124 262 122M296 156q-12 -22 -36 -16q-18 8 -8 26', { 'stroke-width': 2 }) }; // prettier-ignore
    case 'ear-shell':
      parts.shell = parts.back = [262, 132];
      return { under: '', over: pen.shape(curve([[178, 154], [214, 112], [290, 108], [322, 146], [290, 180], [214, 180]], true), pen.second) + pen.line('M300 150q-10 -20 -26 -10q-12 12 6 24q34 12 36 -22M200 150Q240 120 296 126M210 166Q240 142 268 140', { 'stroke-width': 2.2, stroke: isDark(pen.second) ? CHALK : INK }) }; // prettier-ignore
    case 'lines':
      return {
        under: '',
        over: pen.line('M136 146Q230 134 330 158M136 190Q230 200 330 186', { stroke: FILLS.blue, 'stroke-width': 6 }),
      };
    default:
      return { under: '', over: upTo(0).join('') };
  }
}
