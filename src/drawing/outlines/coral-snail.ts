// Snails that eat coral, on the coral: one rough and half hidden at its base, one with knobs beside a fresh white edge.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { steps, strewn, upTo, type Point } from '../svg.ts';

export type CoralSnailShape = { kind: 'at-the-base' | 'at-the-edge' };

const LIVING = '#b98f5e';
const DEAD = '#fbfaf6';
const FILM = '#e58fa8';

/** The snail and the coral it eats. */
export function drawCoralSnail(pen: Pen, { kind }: CoralSnailShape): Sketch {
  const sketch = kind === 'at-the-base' ? atTheBase(pen) : atTheEdge(pen);
  return { ...sketch, marks: pen.inside('M2 2H398V318H2Z', sketch.marks) };
}

/** A low, rounded, lumpy shell between two branches, its left third and its foot behind coral. */
function atTheBase(pen: Pen): Sketch {
  const shell = curve([[206, 84], [232, 92], [246, 106], [272, 112], [288, 130], [318, 148], [336, 184], [332, 222], [306, 254], [262, 272], [206, 270], [160, 252], [124, 222], [120, 184], [136, 152], [160, 134], [168, 110], [186, 104]], true); // prettier-ignore
  const ridges = [[166, 116, 206, 128, 250, 108], [150, 140, 214, 160, 290, 132], [132, 168, 200, 190, 250, 172], [126, 198, 190, 220, 232, 204], [140, 230, 190, 248, 226, 238]].map(([a = 0, b = 0, c = 0, d = 0, e = 0, f = 0]) => curve([[a, b], [c, d], [e, f]])).join(''); // prettier-ignore
  const grit = strewn(34, 130, 100, 196, 160).map(([x, y], i) => pen.oval(x, y, 3 + (i % 3), 2.4 + (i % 2), i % 4 ? '#d9d3c4' : '#9fae86', { 'stroke-width': 1 })).join(''); // prettier-ignore
  const crust = pen.shape(curve([[150, 150], [176, 112], [204, 118], [226, 106], [240, 124], [220, 142], [196, 140], [186, 164], [160, 172]], true), '#c9a9b4', { stroke: '#8d6f7a', 'stroke-width': 1.6 }) + pen.shape(curve([[284, 124], [310, 138], [330, 170], [318, 176], [300, 160], [284, 152]], true), '#a9b38c', { stroke: '#717a58', 'stroke-width': 1.6 }); // prettier-ignore
  // The mouth is the flared end of the last turn: its outer lip is the outline of the shell itself.
  const lip = curve([[270, 150], [316, 158], [340, 186], [336, 226], [306, 260], [262, 274], [232, 266], [234, 226], [246, 182]], true); // prettier-ignore
  const opening = curve([[274, 168], [306, 174], [323, 194], [320, 222], [296, 248], [258, 262], [248, 252], [252, 220], [260, 188]], true); // prettier-ignore
  const mouth = pen.shape(lip, '#f6f1e4', { 'stroke-width': 2.6 }) + pen.shape(opening, '#8d5fae', { 'stroke-width': 2.4 }) + pen.line(curve([[268, 184], [260, 216], [258, 246]]), { stroke: '#c3a2dc', 'stroke-width': 5 }); // prettier-ignore
  const branch = (d: string, wide: number) => limb(pen, d, wide, LIVING);
  const behind = branch('M236 270L268 150L262 34M266 140L316 84L326 34M266 110L226 70', 40);
  const front = branch('M92 290L96 190L64 50M96 190L150 116L158 44M84 140L34 100', 46);
  const base = pen.shape(curve([[8, 316], [8, 268], [60, 248], [124, 238], [176, 250], [214, 274], [270, 268], [330, 262], [390, 284], [392, 316]]) + 'Z', LIVING); // prettier-ignore
  const cups = ([[70, 92], [92, 140], [96, 214], [132, 142], [154, 74], [48, 112], [40, 284], [94, 268], [140, 278], [190, 290], [250, 292], [320, 286], [370, 300], [268, 76], [320, 60], [240, 84]] as const).map(([x, y]) => pen.oval(x, y, 6, 5, '#f1dfbd', { 'stroke-width': 1.8 })).join(''); // prettier-ignore
  return {
    marks: behind + pen.skin(shell) + pen.inside(shell, crust + pen.line(ridges, { stroke: pen.detail, 'stroke-width': 2.2 }) + grit) + pen.line(shell, { 'stroke-width': 3.5 }) + mouth + base + front + cups,
    parts: {
      body: [214, 190], shell: [206, 176], surface: [206, 176], pattern: [206, 176], skin: [206, 200], knobs: [206, 176], top: [206, 88], side: [300, 140], edge: [290, 132],
      mouth: [290, 214], lid: [290, 214], lip: [330, 200], base: [214, 262], foot: [214, 262], ground: [150, 284], hole: [150, 284],
    },
    span: 220,
  }; // prettier-ignore
}

/** Half the width of the knobbed shell at a height from tip (0) to base (1). */
const side = (t: number) => 88 * (t < 0.5 ? 0.1 + 0.9 * Math.sin((t / 0.5) * (Math.PI / 2)) : 0.34 + 0.66 * Math.cos(((t - 0.5) / 0.5) * (Math.PI / 2))); // prettier-ignore
const KNOB_ROWS = [0.15, 0.3, 0.47, 0.63, 0.79];

/** A pointed shell whose blunt knobs stand out of its outline, on a branch that is white where it has fed. */
function atTheEdge(pen: Pen): Sketch {
  const [x, top, tall] = [206, 34, 236];
  const y = (t: number) => top + tall * t;
  const knob = (t: number) => KNOB_ROWS.reduce((sum, row) => sum + Math.exp(-(((t - row) / 0.03) ** 2)), 0);
  const line = (s: number) => steps(0, 1, 60).map((t): Point => [x + s * (side(t) + knob(t) * (7 + side(t) * 0.11) - 3), y(t)]); // prettier-ignore
  const shell = curve([...line(-1), ...line(1).reverse()], true);
  const seams = [0.22, 0.385, 0.55].map((t) => curve([[x - side(t), y(t) - 3], [x, y(t) + 10], [x + side(t), y(t) - 3]])).join(''); // prettier-ignore
  const knobs = KNOB_ROWS.flatMap((row, r) => steps(-0.66, 0.66, r === 0 ? 2 : r < 2 ? 3 : 4).map((s) => { const [px, py] = [x + s * side(row), y(row) + 9 * (1 - s * s)]; const size = 6 + side(row) * 0.085; return pen.oval(px, py, size, size * 0.86, pen.fill, { 'stroke-width': 2 }) + pen.line(`M${px - size * 0.5} ${py - size * 0.2}q${size * 0.4} ${-size * 0.5} ${size * 0.9} ${-size * 0.1}`, { stroke: '#ffffff', 'stroke-width': 3 }); })).join(''); // prettier-ignore
  const film = pen.inside(shell, pen.shape(curve([[112, 60], [196, 40], [214, 84], [186, 100], [204, 132], [168, 140], [176, 176], [146, 168], [138, 204], [112, 196]], true), FILM, { stroke: '#b4607c', 'stroke-width': 2, 'fill-opacity': 0.82 }) + pen.shape(curve([[236, 74], [272, 92], [300, 140], [268, 132], [252, 108]], true), FILM, { stroke: '#b4607c', 'stroke-width': 2, 'fill-opacity': 0.82 })); // prettier-ignore
  const rim = curve([[x + 60, y(0.5)], [x + 92, y(0.58)], [x + 96, y(0.72)], [x + 74, y(0.9)], [x + 36, y(1.02)], [x + 8, y(1.03)], [x + 16, y(0.86)], [x + 30, y(0.66)]], true); // prettier-ignore
  const opening = curve([[x + 60, y(0.57)], [x + 78, y(0.63)], [x + 80, y(0.73)], [x + 62, y(0.86)], [x + 32, y(0.97)], [x + 22, y(0.96)], [x + 32, y(0.84)], [x + 44, y(0.68)]], true); // prettier-ignore
  const teeth = upTo(5)
    .map((i) => `M${x + 83 - i * i * 1.6} ${y(0.65 + i * 0.05)}l-12 ${1 + i}`)
    .join('');
  const mouth = pen.shape(rim, '#f8f4ea', { 'stroke-width': 2.6 }) + pen.shape(opening, '#a884c0', { 'stroke-width': 2.2 }) + pen.line(teeth, { 'stroke-width': 8.5 }) + pen.line(teeth, { stroke: '#ffffff', 'stroke-width': 5 }); // prettier-ignore
  const way = 'M36 284L364 264';
  const branch = limb(pen, 'M338 256L358 130L340 46M356 150L372 112', 42, LIVING) + limb(pen, 'M62 276L52 160L72 62M56 190L32 150', 42, DEAD) + limb(pen, way, 52, LIVING); // prettier-ignore
  // Living skin ends in a torn line where the snail has fed; all that lies behind the line is bare and white.
  const bare = pen.inside('M0 200H262L272 256L260 266L276 276L262 288L270 320H0Z', pen.line(way, { stroke: DEAD, 'stroke-width': 52 })) + pen.line('M263 244L272 256L260 266L276 276L262 288L264 294', { 'stroke-width': 2.4 }); // prettier-ignore
  const joint = pen.line('M61.5 274L60 254', { stroke: DEAD, 'stroke-width': 41, 'stroke-linecap': 'butt' });
  const cups = ([[34, 288], [78, 294], [130, 280], [196, 288], [240, 276], [58, 210], [62, 112], [52, 164], [300, 280], [342, 264], [376, 270], [350, 190], [352, 106], [344, 70]] as const).map(([cx, cy]) => pen.oval(cx, cy, 6, 5, cx < 262 ? '#dcd7ca' : '#f1dfbd', { 'stroke-width': 1.8 })).join(''); // prettier-ignore
  return {
    marks: branch + bare + joint + cups + pen.skin(shell) + pen.inside(shell, pen.line(seams, { stroke: INK, 'stroke-width': 2.2 }) + knobs) + film + pen.line(shell, { 'stroke-width': 3.5 }) + mouth,
    parts: {
      body: [x - 30, y(0.6)], shell: [x - 40, y(0.63)], surface: [x - 40, y(0.63)], pattern: [x - 60, y(0.4)], skin: [x - 30, y(0.55)], knobs: [x - 92, y(0.63)], top: [x, y(0.02)], side: [x - 96, y(0.47)], edge: [x - 96, y(0.47)],
      mouth: [x + 48, y(0.8)], lid: [x + 48, y(0.8)], lip: [x + 84, y(0.7)], base: [x, y(1)], foot: [x, y(1)], ground: [266, 266], hole: [266, 266],
    },
    span: 240,
  }; // prettier-ignore
}
