// Sausage shapes: sea cucumbers with feet and a crown, and worms whose trunk comes out of a hole.
import { curve, roundEnds, tapered } from '../curve.ts';
import { INK, ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type SausageShape = {
  girth?: number;
  feet?: boolean;
  front: 'bushy' | 'pads' | 'none';
  footFill?: string;
  crownFill?: string;
};

export function drawSausage(pen: Pen, shape: SausageShape): Sketch {
  const girth = shape.girth ?? 44;
  const line: Point[] = [[96, 176], [160, 160], [240, 168], [330, 186]]; // prettier-ignore
  const body = tapered(line, roundEnds(girth, 0.14, 0.16));
  const feet = shape.feet ? steps(118, 318, 13).map((x, i) => limb(pen, `M${x} ${172 + girth * 0.8}l${i % 2 ? 4 : -4} 22`, 5, shape.footFill ?? '#f2dfc0') + pen.dot(x + (i % 2 ? 4 : -4), 196 + girth * 0.8, 5, shape.footFill ?? '#f2dfc0', { stroke: INK, 'stroke-width': 1.8 })).join('') : ''; // prettier-ignore
  const dots = shape.feet ? steps(112, 318, 13).map((x) => pen.dot(x, 176, 5, shape.footFill ?? '#f2dfc0', { stroke: INK, 'stroke-width': 1.8 })).join('') : ''; // prettier-ignore
  const crown = crownMarks(pen, shape.front, shape.crownFill ?? '#f4ead6', girth);
  const parts: Parts & { body: Point } = {
    body: [220, 164], skin: [260, 154], head: [88, 174], tentacles: [52, 168], side: [200, 168 + girth], edge: [200, 168 + girth], back: [220, 168 - girth * 0.8],
    rear: [330, 186], foot: [180, 196 + girth * 0.8], pattern: [240, 150],
  }; // prettier-ignore
  if (shape.feet) parts['tube-feet'] = parts.base = [200, 196 + girth * 0.8];
  return { marks: feet + crown + pen.skin(body) + dots, parts, span: 240 };
}

function crownMarks(pen: Pen, kind: SausageShape['front'], fill: string, girth: number): string {
  if (kind === 'none') return '';
  if (kind === 'pads') return steps(120, 240, 7).map((a) => { const [x, y] = polar(92, 176, girth * 0.9, a); return limb(pen, curve([[92, 176], [x, y]]), 6, fill) + pen.oval(x, y, 11, 9, fill); }).join(''); // prettier-ignore
  return steps(112, 248, 9)
    .map((angle) => {
      const tip = polar(96, 176, Math.min(girth, 30) + 42, angle);
      const twigs = [0.6, 0.78, 0.95].flatMap((share) =>
        [-46, 46].map((turn) => {
          const at: Point = [96 + (tip[0] - 96) * share, 176 + (tip[1] - 176) * share];
          return curve([at, polar(at[0], at[1], 13, angle + turn)]);
        }),
      );
      return pen.line(twigs.join(''), { 'stroke-width': 5 }) + pen.line(twigs.join(''), { stroke: fill, 'stroke-width': 2 }) + limb(pen, curve([[96, 176], tip]), 4, fill); // prettier-ignore
    })
    .join('');
}

export type TrunkShape = { tip: 'tuft' | 'fork' };

/** A trunk that comes out of a hole in the rock; the body stays hidden. */
export function drawTrunk(pen: Pen, shape: TrunkShape): Sketch {
  const line: Point[] = [[304, 244], [252, 150], [176, 118], [96, 160]]; // prettier-ignore
  const trunk = tapered(line, shape.tip === 'tuft' ? (t) => 24 - 6 * t : (t) => 14 + 6 * Math.sin(t * 8));
  const rock = pen.shape('M216 318V256Q250 224 306 236Q362 228 392 262V318Z', ROCK, { 'stroke-width': 2 }) + pen.oval(304, 252, 40, 15, '#6f665a'); // prettier-ignore
  const folds = shape.tip === 'tuft' ? pen.line('M286 202q22 -10 34 -4M258 170q14 -24 22 -26M216 142q4 -22 8 -30', { 'stroke-width': 2 }) : ''; // prettier-ignore
  const tip = shape.tip === 'tuft'
    ? upTo(7).map((i) => limb(pen, curve([[96, 160], polar(94, 162, 40, 84 + i * 24)]), 5, '#f3e2c8')).join('')
    : limb(pen, curve([[104, 156], [64, 150], [26, 116]]), 15) + limb(pen, curve([[104, 156], [74, 184], [42, 222]]), 15); // prettier-ignore
  const end: Point = shape.tip === 'tuft' ? [64, 176] : [60, 158];
  return {
    marks: rock + (shape.tip === 'tuft' ? tip : '') + pen.skin(trunk) + (shape.tip === 'fork' ? limb(pen, curve([[104, 156], [64, 150], [26, 116]]), 15) + limb(pen, curve([[104, 156], [74, 184], [42, 222]]), 15) : '') + folds + pen.shape('M256 318V268Q300 256 356 270V318Z', ROCK, { stroke: 'none' }),
    parts: { body: [200, 128], trunk: end, head: end, tentacles: end, skin: [176, 118], hole: [304, 254], ground: [360, 284], crown: end, side: [230, 138], base: [304, 254] },
    span: 280,
  }; // prettier-ignore
}

/** A horseshoe crab: a domed shield, a hinged rear part and a long spike. */
export function drawHorseshoe(pen: Pen): Sketch {
  const shield =
    'M52 176C52 84 128 44 186 46C216 48 236 60 236 92L228 176L236 252C236 284 210 300 184 300C126 300 52 268 52 176Z';
  const rear = 'M232 104L296 138L300 174L296 212L232 246Z';
  return {
    marks: pen.shape('M294 168L392 174L294 182Z', pen.fill) + pen.skin(rear) + pen.line(steps(0, 1, 5).map((s) => `M${240 + s * 54} ${110 + s * 28}l9 -16M${240 + s * 54} ${242 - s * 28}l9 16`).join(''), { 'stroke-width': 4 }) + pen.skin(shield) + pen.line('M90 176Q150 168 226 176M130 96Q160 120 226 128M130 254Q160 232 226 224', { stroke: pen.detail, 'stroke-width': 2 }) + pen.oval(126, 130, 11, 7, INK) + pen.oval(126, 222, 11, 7, INK),
    parts: { body: [160, 176], tail: [360, 174], rear: [360, 174], head: [60, 176], eyes: [126, 130], shell: [150, 160], edge: [56, 200], legs: [300, 200], spines: [270, 116], skin: [160, 176], side: [70, 240] },
    span: 330,
  }; // prettier-ignore
}

/** A sea pen: a fleshy foot in sand and a feather of polyps. */
export function drawSeaPen(pen: Pen): Sketch {
  const rows = steps(60, 214, 8).map((y, i) => [-1, 1].map((side) => limb(pen, curve([[200, y + 20], [200 + side * (34 + i * 5), y + 10], [200 + side * (50 + i * 6), y - 12]]), 11) + upTo(3).map((k) => pen.dot(200 + side * (24 + k * 15 + i * 3), y + 6 - k * 7, 4.4, '#ffffff', { stroke: INK, 'stroke-width': 1.4 })).join('')).join('')); // prettier-ignore
  return {
    marks: pen.shape('M20 318V280Q120 266 200 276T380 274V318Z', '#e6d6b4', { stroke: 'none' }) + rows.join('') + pen.skin(curve([[200, 26], [186, 60], [182, 220], [174, 296], [226, 296], [218, 220], [214, 60]], true)) + pen.shape('M140 318V290Q200 276 262 290V318Z', '#e6d6b4', { stroke: 'none' }),
    parts: { body: [200, 170], base: [200, 280], ground: [90, 294], foot: [200, 270], crown: [140, 90], column: [200, 240], strand: [140, 90], tentacles: [140, 90], edge: [130, 130] },
    span: 270,
  }; // prettier-ignore
}
