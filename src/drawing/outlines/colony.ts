// Many polyps on one mat, stalk or net: zoanthids, star polyps, xenia, hydroids and stalked ciliates.
import { curve } from '../curve.ts';
import { FILLS, INK, ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, upTo, type Point } from '../svg.ts';

export type ZoaShape = {
  /** Height of the stalks in pixels. */
  stalk?: number;
  disc?: number;
  count?: number;
  /** Bright rings on the discs. */
  rings?: boolean;
  /** Grains of sand in the mat and the stalks. */
  sandy?: boolean;
  matFill?: string;
  /** Pimples on the stalks. */
  pox?: boolean;
  eggs?: boolean;
};

/** Discs with two rows of short fringe on stalks that share one mat. */
export function drawZoanthids(pen: Pen, shape: ZoaShape): Sketch {
  const stalk = shape.stalk ?? 60;
  const disc = shape.disc ?? 52;
  const count = shape.count ?? 4;
  const mat = shape.matFill ?? '#b99a72';
  const floor = 272;
  const xs = steps(disc + 22, 378 - disc, count);
  const tops = xs.map((x, i): Point => [x, floor - stalk - (i % 2) * 40]);
  const grains = shape.sandy ? upTo(60).map((i) => pen.dot(24 + ((i * 61) % 352), floor + 2 + ((i * 17) % 30), 2.4, '#f4e7c6', { stroke: '#7a6344', 'stroke-width': 0.8 })).join('') : ''; // prettier-ignore
  const matMarks = pen.shape(
    `M8 318V${floor + 14}Q40 ${floor - 16} 90 ${floor - 6}T200 ${floor - 8}T320 ${floor - 8}T392 ${floor + 12}V318Z`,
    mat,
  );
  const order = xs.map((_, i) => i).sort((a, b) => (b % 2) - (a % 2));
  const polyps = order.map((i) => {
    const [tx, ty] = tops[i] ?? [0, 0];
    const x = xs[i] ?? 0;
    const column = pen.shape(`M${x - 24} ${floor + 4}Q${tx - 20} ${floor - stalk * 0.4} ${tx - disc * 0.66} ${ty + 4}H${tx + disc * 0.66}Q${tx + 20} ${floor - stalk * 0.4} ${x + 24} ${floor + 4}Z`, mat); // prettier-ignore
    const sand = shape.sandy ? upTo(16).map((k) => pen.dot(x - 15 + ((k * 11) % 31), ty + 26 + ((k * 17) % Math.max(20, floor - ty - 24)), 2.4, '#f4e7c6', { stroke: '#7a6344', 'stroke-width': 0.8 })).join('') : ''; // prettier-ignore
    const pox = shape.pox ? upTo(7).map((k) => pen.dot(x - 14 + ((k * 13) % 30), ty + 26 + k * 8, 5.5, '#fff6c9', { stroke: INK, 'stroke-width': 1.8 })).join('') : ''; // prettier-ignore
    return column + sand + pox + (shape.pox ? closed(pen, tx, ty, disc, mat) : face(pen, shape, tx, ty, disc));
  });
  const [ax, ay] = tops[0] ?? [66, 200];
  const [bx, by] = tops[2] ?? [200, 200];
  const parts: Parts & { body: Point } = {
    body: [bx, by], disc: [bx + 8, by], surface: [bx + 8, by], pattern: [bx + 10, by], skin: [bx + 8, by], tentacles: [ax - disc * 0.9, ay], crown: [ax - disc * 0.9, ay], tips: [ax - disc, ay], edge: [ax - disc, ay],
    column: [xs[0] ?? 66, (ay + floor) / 2 + 10], mat: [132, floor + 14], base: [132, floor + 14], foot: [132, floor + 14], ground: [132, floor + 14], spots: [xs[0] ?? 66, ay + 46],
  }; // prettier-ignore
  return { marks: matMarks + grains + polyps.join(''), parts, span: disc * 2 };
}

function closed(pen: Pen, x: number, y: number, disc: number, fill: string): string {
  return (
    pen.oval(x, y + 6, disc * 0.62, 24, fill) + pen.line(`M${x - 10} ${y - 4}q10 10 20 0`, { 'stroke-width': 2.6 })
  );
}

function face(pen: Pen, shape: ZoaShape, x: number, y: number, disc: number): string {
  const flat = disc * 0.42;
  const at = (angle: number, share: number): Point => [
    x + Math.cos(angle) * disc * share,
    y + Math.sin(angle) * flat * share,
  ];
  const fringe = (from: number, to: number, count: number, shift: number, lift: number) =>
    upTo(count).map((i) => { const a = ((i + shift) / count) * Math.PI * 2; const [fx, fy] = at(a, from); const [ex, ey] = at(a, to); return limb(pen, `M${fx} ${fy}L${ex} ${ey - lift}`, 3.6); }).join(''); // prettier-ignore
  const rings = shape.rings ? pen.oval(x, y, disc * 0.66, flat * 0.66, pen.second, { 'stroke-width': 2 }) + pen.oval(x, y, disc * 0.38, flat * 0.38, pen.third, { 'stroke-width': 2 }) : ''; // prettier-ignore
  const dim = 'M0 0';
  return fringe(0.86, 1.12, 26, 0, 9) + fringe(0.84, 1.2, 26, 0.5, 0) + pen.skin(`M${x - disc * 0.9} ${y}a${disc * 0.9} ${flat * 0.9} 0 1 0 ${disc * 1.8} 0a${disc * 0.9} ${flat * 0.9} 0 1 0 ${-disc * 1.8} 0Z`) + rings + pen.line(`${dim}M${x - 9} ${y}h18`, { 'stroke-width': 4.5 }); // prettier-ignore
}

export type EightArmShape = { on: 'sheet' | 'stalk' };

/** Polyps with eight feathery tentacles: on a rubber sheet, or in tufts on thick stalks. */
export function drawEightArms(pen: Pen, shape: EightArmShape): Sketch {
  const flower = (x: number, y: number, reach: number) =>
    upTo(8).map((i) => {
      const angle = -180 + i * (180 / 7);
      const tip: Point = [x + Math.cos((angle * Math.PI) / 180) * reach, y + Math.sin((angle * Math.PI) / 180) * reach * 0.7 - 4];
      const barbs = [0.4, 0.6, 0.8, 0.97].flatMap((s) => [-60, 60].map((t) => { const at: Point = [x + (tip[0] - x) * s, y + (tip[1] - y) * s]; return curve([at, polar(at[0], at[1], 8, angle + t)]); })); // prettier-ignore
      return pen.line(barbs.join(''), { 'stroke-width': 2 }) + limb(pen, curve([[x, y], tip]), 3.4);
    }).join('') + pen.oval(x, y - 2, 9, 6, '#fff6dd', { 'stroke-width': 2 }); // prettier-ignore
  if (shape.on === 'sheet') {
    const sheet = pen.shape('M8 318V270Q110 240 200 252T392 268V318Z', FILLS.purple);
    const spots = [
      [80, 190],
      [200, 168],
      [318, 192],
      [142, 228],
      [262, 226],
    ] as const;
    return {
      marks: sheet + spots.map(([x, y]) => limb(pen, `M${x} 266V${y}`, 12, pen.fill) + flower(x, y, 50)).join(''),
      parts: { body: [200, 168], mat: [340, 290], base: [340, 290], tentacles: [44, 168], crown: [44, 168], disc: [200, 166], column: [80, 236], ground: [340, 290], skin: [44, 168], surface: [44, 168], tips: [44, 168] },
      span: 100,
    }; // prettier-ignore
  }
  const stem = pen.shape('M66 296C78 250 74 220 62 196Q56 176 80 170H150Q174 176 168 196C154 222 152 250 162 296Z', '#f2ece0'); // prettier-ignore
  const heads: readonly Point[] = [[46, 138], [178, 140], [84, 78], [148, 84], [116, 142]]; // prettier-ignore
  const polyps = heads.map(([x, y]) => limb(pen, curve([[116 + (x - 116) * 0.5, 186], [x, y + 2]]), 9, '#f2ece0') + flower(x, y, 38)).join(''); // prettier-ignore
  // One polyp from above under a glass, so that its eight feathers can be counted.
  const [gx, gy, gr] = [310, 104, 84];
  const glass = `M${gx - gr} ${gy}a${gr} ${gr} 0 1 0 ${gr * 2} 0a${gr} ${gr} 0 1 0 ${-gr * 2} 0Z`;
  const feathers = upTo(8).map((i) => {
    const angle = i * 45 + 12;
    const barbs = steps(0.34, 0.96, 8).flatMap((s) => [-58, 58].map((turn) => { const [bx, by] = polar(gx, gy, 70 * s, angle); return curve([[bx, by], polar(bx, by, 15 * (1.1 - s * 0.5), angle + turn)]); })).join(''); // prettier-ignore
    return pen.line(barbs, { 'stroke-width': 2.4 }) + limb(pen, curve([[gx, gy], polar(gx, gy, 72, angle)]), 5.5);
  });
  const close = pen.shape(glass, '#fbf8f1', { 'stroke-width': 5 }) + feathers.join('') + pen.oval(gx, gy, 14, 14, '#fff6dd', { 'stroke-width': 2.4 }) + pen.line(`M${gx - 6} ${gy}h12`, { 'stroke-width': 3 }); // prettier-ignore
  const lead = pen.line(`M184 88L${gx - gr} ${gy}`, { 'stroke-width': 3, 'stroke-dasharray': '8 6' });
  const tip = polar(gx, gy, 58, 237);
  return {
    marks: pen.shape('M10 318V286Q110 266 200 276T390 282V318Z', ROCK, { 'stroke-width': 2 }) + stem + polyps + lead + close,
    parts: { body: [116, 150], column: [116, 232], base: [116, 286], tentacles: tip, crown: tip, ground: [60, 302], mat: [116, 286], foot: [116, 286], skin: [46, 124], tips: tip, surface: tip },
    span: 170,
  }; // prettier-ignore
}

export type HydroidShape = { kind: 'net' | 'ciliates' | 'fern' };

/** Hydroids and their like: small flowers on a root net, springy bells on hair-thin stalks, or a stiff fern. */
export function drawHydroid(pen: Pen, shape: HydroidShape): Sketch {
  if (shape.kind === 'fern') return fern(pen);
  const rock = pen.shape('M10 318V284Q110 268 200 274T390 280V318Z', ROCK, { 'stroke-width': 2 });
  const ciliates = shape.kind === 'ciliates';
  const xs = steps(60, 340, ciliates ? 9 : 6);
  const marks = xs.map((x, i) => {
    const y = (ciliates ? 120 : 132) + (i % 3) * 34;
    if (ciliates) {
      const coil = curve([
        [200 + (x - 200) * 0.8, 276],
        ...steps(262, y + 24, 9).map((yy, k): Point => [x + (k % 2 ? 7 : -7), yy]),
        [x, y + 16],
      ]);
      return pen.line(coil, { 'stroke-width': 2.2 }) + pen.shape(`M${x - 15} ${y - 6}Q${x - 12} ${y + 16} ${x} ${y + 18}Q${x + 12} ${y + 16} ${x + 15} ${y - 6}Z`, pen.fill, { 'stroke-width': 2.6 }) + pen.line(steps(-13, 13, 6).map((d) => `M${x + d} ${y - 7}l${d * 0.3} -11`).join(''), { 'stroke-width': 1.8 }); // prettier-ignore
    }
    const rays = upTo(12).map((k) => { const [ex, ey] = polar(x, y, k % 2 ? 34 : 44, -196 + k * 19.3); return pen.line(curve([[x, y], [ex, ey]]), { 'stroke-width': 2.2 }) + pen.dot(ex, ey, 3.6, '#ffffff', { stroke: INK, 'stroke-width': 1.6 }); }).join(''); // prettier-ignore
    return limb(pen, curve([[x, 276], [x - 4, (276 + y) / 2], [x, y]]), 3) + rays + pen.oval(x, y, 11, 12, pen.second) + pen.dot(x, y - 9, 4.5, '#fff7e6', { stroke: INK, 'stroke-width': 1.4 }); // prettier-ignore
  });
  const net = ciliates ? '' : limb(pen, curve(xs.map((x, i): Point => [x, 276 + (i % 2 ? 8 : -2)])), 3) + limb(pen, curve([[60, 280], [150, 302], [250, 296], [340, 284]]), 3); // prettier-ignore
  const x0 = xs[0] ?? 50;
  return {
    marks: rock + net + marks.join(''),
    parts: { body: [200, 190], tentacles: ciliates ? [x0, 108] : [x0 - 30, 116], tips: [x0 - 30, 106], crown: [x0 - 30, 116], column: [x0, 226], base: [190, 292], mat: [190, 292], ground: [330, 304], skin: [x0, 132], surface: ciliates ? [x0, 128] : [x0 - 20, 120], tube: [x0, 226], foot: [190, 292], strand: [x0, 226], threads: [x0, 226] },
    span: ciliates ? 170 : 150,
  }; // prettier-ignore
}

/** One tiny polyp on a side branch. */
function polypOn(pen: Pen, x: number, y: number): string {
  return pen.line(steps(-150, -30, 4).map((a) => curve([[x, y - 3], polar(x, y - 3, 7, a)])).join(''), { 'stroke-width': 1.3 }) + pen.dot(x, y - 3, 2.9, '#ffffff', { stroke: INK, 'stroke-width': 1.3 }); // prettier-ignore
}

function fern(pen: Pen): Sketch {
  const rock = pen.shape('M10 318V284Q110 268 200 274T390 280V318Z', ROCK, { 'stroke-width': 2 });
  const frond = (x: number, lean: number, top: number) => {
    const rows = steps(0.18, 0.94, 7).map((s) => { const [cx, cy] = [x + lean * s, 276 - (276 - top) * s]; const reach = 62 * (1.12 - s); return [-1, 1].map((side) => { const end: Point = [cx + side * reach, cy - reach * 0.55]; return limb(pen, curve([[cx, cy], end]), 2) + [0.4, 0.7, 1].map((k) => polypOn(pen, cx + side * reach * k, cy - reach * 0.55 * k)).join(''); }).join(''); }).join(''); // prettier-ignore
    return rows + limb(pen, `M${x} 282L${x + lean} ${top}`, 4.5, FILLS.brown);
  };
  const roots = pen.line('M120 282q-30 14 -60 6m60 -6q40 18 84 2m80 0q36 14 60 2m-60 -2q-40 14 -70 0', {
    'stroke-width': 3,
  });
  return {
    marks: rock + roots + frond(120, -46, 74) + frond(290, 40, 92) + frond(204, 0, 30),
    parts: { body: [204, 150], strand: [240, 128], edge: [240, 128], crown: [92, 100], base: [150, 288], ground: [340, 304], column: [204, 240], tentacles: [240, 120], skin: [170, 130], foot: [150, 288], mat: [150, 288], runner: [150, 288], arms: [92, 100], surface: [240, 128] },
    span: 250,
  }; // prettier-ignore
}
