// Hermits: stalked eyes, legs and a claw at the mouth of a borrowed snail shell.
import { curve } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, type Point } from '../svg.ts';
import { hairOn } from './crab-hair.ts';

export type HermitShape = {
  legs: 'smooth' | 'banded' | 'hairy';
  bandFill?: string;
  legFill?: string;
  heavyClaw?: boolean;
  shellFill?: string;
};

/** A claw as heavy as the animal's head, with teeth, knobs and hair. */
function heavyClaw(pen: Pen, fill: string): string {
  const palm = curve([[150, 214], [112, 236], [56, 222], [22, 182], [12, 138], [38, 160], [60, 176], [44, 132], [50, 96], [96, 104], [140, 140], [160, 178]], true); // prettier-ignore
  const hair = pen.line(steps(20, 330, 24).map((a) => curve([polar(100, 172, 58, a), polar(100, 172, 88, a)])).join(''), { 'stroke-width': 2 }); // prettier-ignore
  const teeth = pen.line('M34 156l10 -8m4 20l8 -9m-10 -36l-9 3m12 15l-9 4', { 'stroke-width': 3.4, stroke: '#ffffff' });
  const knobs = [[96, 134], [120, 160], [90, 170], [116, 196], [84, 204], [138, 178]].map(([x, y]) => pen.dot(x ?? 0, y ?? 0, 5, '#f6d9c4', { stroke: INK, 'stroke-width': 1.6 })).join(''); // prettier-ignore
  return (
    hair +
    limb(
      pen,
      curve([
        [190, 176],
        [172, 196],
        [150, 196],
      ]),
      22,
      fill,
    ) +
    pen.shape(palm, fill) +
    knobs +
    teeth
  );
}

/** A hermit in a borrowed snail shell, its legs and stalked eyes at the mouth. */
export function drawHermit(pen: Pen, shape: HermitShape): Sketch {
  const legFill = shape.legFill ?? pen.fill;
  const shell = curve([[388, 74], [346, 76], [300, 68], [238, 76], [184, 120], [176, 190], [222, 236], [290, 224], [336, 170], [360, 110]], true); // prettier-ignore
  const turns = pen.line('M300 68Q340 120 308 204M338 76Q362 100 346 146M240 76Q210 100 222 130', {
    'stroke-width': 2.6,
  });
  const legs = [
    [150, 250, 96, 292],
    [186, 256, 156, 304],
    [112, 226, 46, 262],
  ].map(([ex, ey, fx, fy]) => {
    const [from, knee, end]: [Point, Point, Point] = [
      [196, 190],
      [ex ?? 0, (ey ?? 0) - 36],
      [fx ?? 0, fy ?? 0],
    ];
    const bands = shape.legs === 'banded' ? steps(0.2, 0.9, 5).map((s) => { const at: Point = s < 0.5 ? [from[0] + (knee[0] - from[0]) * s * 2, from[1] + (knee[1] - from[1]) * s * 2] : [knee[0] + (end[0] - knee[0]) * (s * 2 - 1), knee[1] + (end[1] - knee[1]) * (s * 2 - 1)]; return pen.line(`M${at[0] - 8} ${at[1] - 3}l16 6`, { stroke: shape.bandFill ?? FILLS.red, 'stroke-width': 9, 'stroke-linecap': 'butt' }); }).join('') : ''; // prettier-ignore
    return (
      (shape.legs === 'hairy' ? hairOn(pen, from, knee, end, 20) : '') +
      limb(pen, curve([from, knee, end]), 14, legFill) +
      bands
    );
  });
  const big = 0.9;
  const claw = shape.heavyClaw ? heavyClaw(pen, legFill) : limb(pen, curve([[184, 176], [142, 192], [116, 176]]), 15 * big * 0.8, legFill) + pen.shape(curve([[128, 186], [100 - 16 * big, 190 + 14 * big], [64 - 20 * big, 172], [84 - 8 * big, 168], [58 - 16 * big, 152 - 6 * big], [104, 146 - 8 * big], [130, 164]], true), legFill) + (shape.legs === 'hairy' ? pen.line(steps(0, 330, 12).map((a) => curve([polar(98, 168, 26 * big, a), polar(98, 168, 26 * big + 15, a)])).join(''), { 'stroke-width': 1.8 }) : ''); // prettier-ignore
  const eyes = [0, 20]
    .map((d) => limb(pen, `M${176 + d * 0.5} 166L${146 + d} 112`, 5, legFill) + pen.dot(146 + d, 108, 7.5))
    .join('');
  const feelers = pen.line(
    curve([
      [172, 170],
      [110, 110],
      [60, 96],
    ]),
    { 'stroke-width': 2.6, stroke: FILLS.orange },
  );
  return {
    marks: feelers + pen.skin(shell, { fill: shape.shellFill ?? '#d9c7a6', plain: true }) + turns + pen.oval(200, 178, 30, 44, '#54453a', { transform: 'rotate(24 200 178)' }) + legs.join('') + claw + eyes,
    parts: { body: [260, 150], shell: [280, 130], legs: [128, 226], claws: [96, 164], 'claw-tips': [60, 160], eyes: [146, 108], feelers: [100, 104], crown: [128, 226], mouth: [204, 160], foot: [128, 226], skin: [128, 226], pattern: [128, 226], top: [380, 78], edge: [290, 70], side: [300, 222], surface: [280, 130], lid: [204, 160] },
    span: 230,
  }; // prettier-ignore
}
