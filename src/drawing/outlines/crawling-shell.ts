// Snails that crawl with the shell laid over the foot: a whelk with its trunk and lid, a conch with eyes and claw.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import type { Point } from '../svg.ts';

export type CrawlingShellShape = { kind: 'whelk' | 'conch' };

const FLESH = '#ecd3ae';
const DARK = '#54382b';
const HORN = '#8a5526';
const FLOOR = 'M8 286H392';

/** A snail from the side, head to the left. */
export function drawCrawlingShell(pen: Pen, { kind }: CrawlingShellShape): Sketch {
  return kind === 'whelk' ? whelk(pen) : conch(pen);
}

/** Places along and across an axis that rises from the canal at the front to the tip behind. */
function axis(from: Point, to: Point): (along: number, out: number) => Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  return (along, out) => [from[0] + (dx * along + dy * out) / size, from[1] + (dy * along - dx * out) / size];
}

function whelk(pen: Pen): Sketch {
  const line = axis([136, 208], [416, 98]);
  const at = (s: number, n: number) => line(s * 0.91, n * 0.91);
  const run = (...points: (readonly [number, number])[]) => points.map(([s, n]) => at(s, n));
  const back = run([-12, 10], [22, 16], [62, 36], [100, 74], [132, 92], [152, 84], [166, 66], [180, 70], [202, 58], [212, 44], [224, 46], [242, 36], [250, 26], [262, 27], [276, 16], [298, 3]); // prettier-ignore
  const belly = run([278, -14], [262, -24], [250, -22], [240, -36], [220, -46], [212, -42], [202, -58], [176, -72], [162, -68], [146, -88], [108, -90], [66, -66], [30, -34], [-14, -9]); // prettier-ignore
  const shell = curve([...back, ...belly], true);
  const across = (s: number, up: number, down: number) => curve(run([s, up], [s + 13, (up - down) / 2], [s, -down]));
  const seams = pen.line(across(163, 67, 68) + across(211, 44, 42) + across(249, 26, 22), { stroke: pen.detail, 'stroke-width': 2.6 }); // prettier-ignore
  const turns = [[84, 60, -18], [108, 82, -14], [132, 92, -20], [150, 82, -60], [188, 66, -66], [230, 42, -40]].map(([s = 0, up = 0, down = 0]) => curve(run([s, up], [s + 10, (up + down) / 2], [s + 2, down]))).join(''); // prettier-ignore
  const opening = curve(run([-8, 3], [24, 2], [58, -8], [98, -14], [136, -28], [152, -52], [140, -76], [108, -80], [70, -58], [32, -26], [-8, -5]), true); // prettier-ignore
  const lip = pen.line(curve(run([-12, -9], [30, -34], [66, -66], [108, -90], [146, -88], [160, -68], [152, -46])), { stroke: '#f3e4cc', 'stroke-width': 7 }); // prettier-ignore
  const plateAt = at(112, -56);
  const turn = { transform: `rotate(-24 ${plateAt[0]} ${plateAt[1]})` };
  const rings = [0.66, 0.34].map((share) => pen.oval(plateAt[0] + 4, plateAt[1], 40 * share, 22 * share, 'none', { 'stroke-width': 1.8, ...turn })).join(''); // prettier-ignore
  const plate = pen.oval(plateAt[0], plateAt[1], 39, 21.5, '#c58a46', turn) + rings;
  const foot = pen.shape(curve([[124, 268], [150, 242], [200, 234], [280, 238], [346, 264], [380, 281], [260, 286], [134, 285]], true), FLESH); // prettier-ignore
  const trunk = limb(pen, curve([[156, 258], [112, 246], [64, 229], [20, 227]]), 15, '#dd9f86') + pen.oval(17, 227, 5, 8.5, DARK, { 'stroke-width': 2.4 }) + pen.line('M42 220l-2 14m24 -12l-4 14m25 -6l-6 12m24 -3l-6 11', { 'stroke-width': 1.6 }); // prettier-ignore
  const feelers = [[134, 256, 100, 276], [142, 246, 112, 208]].map(([x = 0, y = 0, tx = 0, ty = 0]) => limb(pen, curve([[x, y], [(x + tx) / 2 - 4, (y + ty) / 2], [tx, ty]]), 4.5, FLESH)).join(''); // prettier-ignore
  const head = pen.oval(148, 256, 22, 17, FLESH, { 'stroke-width': 2.6 });
  const eyes = pen.dot(134, 264, 3.8, INK) + pen.dot(138, 245, 3.8, INK);
  const skin = pen.skin(shell) + pen.inside(shell, pen.line(turns, { stroke: pen.detail, 'stroke-width': 1.5, opacity: 0.7 }) + seams); // prettier-ignore
  return {
    marks: pen.line(FLOOR, { stroke: '#8a8375', 'stroke-width': 2.4 }) + foot + trunk + feelers + head + eyes + skin + pen.shape(opening, DARK, { 'stroke-width': 2.6 }) + pen.inside(shell, lip) + plate + pen.line(shell, { 'stroke-width': 3.5 }),
    parts: {
      body: at(130, 40), shell: at(130, 40), surface: at(130, 40), pattern: at(110, 30), skin: at(110, 30), knobs: at(132, 84), top: at(290, 2), side: at(132, 90), edge: at(202, 56),
      mouth: at(46, -18), lip: at(66, -62), lid: plateAt, base: at(-8, 0), foot: [320, 272], trunk: [76, 232], head: [148, 256], feelers: [112, 210], eyes: [134, 264],
    },
    span: 274,
  }; // prettier-ignore
}

function conch(pen: Pen): Sketch {
  const at = axis([96, 176], [376, 96]);
  const run = (...points: (readonly [number, number])[]) => points.map(([s, n]) => at(s, n));
  const back = run([-6, 14], [40, 32], [92, 54], [120, 66], [128, 86], [142, 92], [152, 78], [164, 64], [172, 68], [178, 78], [190, 74], [198, 58], [206, 46], [212, 52], [222, 50], [230, 38], [240, 30], [250, 32], [258, 22], [296, 4]); // prettier-ignore
  const belly = run([262, -20], [240, -28], [224, -34], [206, -44], [196, -70]);
  const shell = curve([...back, ...belly, ...run([120, -60], [40, -20], [-10, -4])], true);
  const seams = [[164, 64, 60], [205, 46, 44], [237, 31, 30]].map(([s = 0, up = 0, down = 0]) => curve(run([s, up], [s + 12, (up - down) / 2], [s, -down]))).join(''); // prettier-ignore
  const knobs = [[140, 58, 13], [144, 26, 14], [144, -8, 12], [184, 46, 10], [188, 20, 10], [188, -8, 10], [186, -34, 8], [218, 26, 7], [220, 4, 7], [219, -18, 6]].map(([s = 0, n = 0, r = 0]) => { const [x, y] = at(s, n); return pen.oval(x, y, r, r * 0.86, pen.second, { 'stroke-width': 2.2 }) + pen.line(`M${x - r * 0.5} ${y - r * 0.2}q${r * 0.4} ${-r * 0.4} ${r * 0.8} ${-r * 0.1}`, { stroke: '#ffffff', 'stroke-width': 2.6 }); }).join(''); // prettier-ignore
  // The lip flares out towards the viewer; near its front end a deep notch is cut into its edge.
  const lip = curve([...run([196, -46], [208, -84], [176, -106], [130, -108], [104, -100], [92, -82], [88, -60]), ...run([76, -48], [62, -54], [58, -70], [46, -76], [28, -62], [4, -32], [-14, -4], [30, -14], [90, -32], [150, -42])], true); // prettier-ignore
  const rim = pen.line(curve(run([188, -68], [166, -92], [130, -94], [112, -88])), { stroke: '#fff1dc', 'stroke-width': 6 }); // prettier-ignore
  const foot = pen.shape(curve([[86, 272], [120, 246], [190, 236], [270, 240], [330, 256], [322, 280], [220, 286], [100, 285]], true), FLESH); // prettier-ignore
  const claw = pen.shape('M300 250C330 240 362 252 384 286C358 280 346 276 336 270Q316 266 300 270Z', HORN) + pen.line('M356 278l-2 -8m-10 4l-2 -8m-10 2l0 -8', { 'stroke-width': 2 }) + pen.line('M306 256Q340 252 370 276', { stroke: '#c99454', 'stroke-width': 2.4 }); // prettier-ignore
  const stalk = (d: string, x: number, y: number) => limb(pen, d, 8.5, FLESH) + pen.dot(x, y, 13, '#ffffff', { stroke: INK, 'stroke-width': 3 }) + pen.dot(x - 1, y, 7.5, '#e0a93a', { stroke: INK, 'stroke-width': 2 }) + pen.dot(x - 1, y, 3.6, INK); // prettier-ignore
  const notch = at(76, -56);
  const through = stalk(curve([[notch[0] + 12, notch[1] - 22], [notch[0], notch[1] + 6], [notch[0] - 22, notch[1] + 18]]), notch[0] - 28, notch[1] + 16); // prettier-ignore
  const front = stalk(
    curve([
      [110, 216],
      [64, 204],
      [42, 160],
    ]),
    38,
    152,
  );
  const neck = limb(
    pen,
    curve([
      [176, 262],
      [132, 250],
      [108, 226],
      [112, 200],
    ]),
    34,
    FLESH,
  );
  const snout = limb(pen, curve([[112, 236], [76, 246], [44, 266]]), 13, FLESH) + pen.oval(40, 268, 4, 7, DARK, { 'stroke-width': 2 }); // prettier-ignore
  const hollow = pen.shape(curve(run([94, -64], [88, -40], [70, -34], [54, -44], [56, -64], [72, -50]), true), DARK, { 'stroke-width': 1.5 }); // prettier-ignore
  return {
    marks: pen.line(FLOOR, { stroke: '#8a8375', 'stroke-width': 2.4 }) + claw + snout + front + neck + foot + pen.skin(shell) + pen.inside(shell, pen.line(seams, { stroke: pen.detail, 'stroke-width': 2.4 }) + knobs) + hollow + pen.shape(lip, '#f4c08a') + rim + through,
    parts: {
      body: at(110, 20), shell: at(110, 20), surface: at(120, 26), pattern: at(110, 20), skin: at(90, 16), knobs: at(142, 100), top: at(292, 4), side: at(110, 64), edge: at(150, 94),
      mouth: at(110, -70), lip: notch, lid: [352, 264], base: at(-6, 4), foot: [250, 270], head: [76, 256], feelers: [38, 152], eyes: [38, 152],
    },
    span: 290,
  }; // prettier-ignore
}
