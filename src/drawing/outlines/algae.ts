// Algae: hair, ferns, turf, tangles, blades, chains, runners, fans, fingers, branches and bubbles.
import { along, curve } from '../curve.ts';
import { ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { chance, polar, steps, upTo, type Point } from '../svg.ts';

export type AlgaeShape = {
  kind: 'hair' | 'ferns' | 'turf' | 'tangle' | 'blades' | 'forked' | 'coins' | 'runner' | 'fans' | 'fingers' | 'branches' | 'pom-pom' | 'bubbles';
}; // prettier-ignore

type Growth = { marks: string; parts: Parts; span: number; loose?: boolean };

export function drawAlgae(pen: Pen, shape: AlgaeShape): Sketch {
  const rock = pen.shape('M10 318V282Q110 262 200 270T390 278V318Z', ROCK, { 'stroke-width': 2 });
  const growth = GROWTHS[shape.kind](pen);
  const parts: Parts & { body: Point } = { body: [200, 190], ground: [44, 302], base: [200, 274], skin: [230, 190], strand: [200, 120], edge: [110, 170], surface: [220, 170], side: [110, 170], foot: [200, 274], ...growth.parts }; // prettier-ignore
  return { marks: (growth.loose ? '' : rock) + growth.marks, parts, span: growth.span };
}

const GROWTHS: Record<AlgaeShape['kind'], (pen: Pen) => Growth> = {
  hair: (pen) => {
    const threads = steps(70, 330, 30).map((x, i) => { const sway = 22 + (i % 5) * 5; const top = 92 + ((i * 37) % 70); return curve([[x, 278], [x + sway * 0.5, 220], [x - 6 + (i % 3) * 6, 168], [x + sway, top]]); }); // prettier-ignore
    return { marks: threads.map((d) => limb(pen, d, 3)).join(''), parts: { strand: [150, 150], edge: [96, 180], base: [170, 276] }, span: 190 }; // prettier-ignore
  },
  ferns: (pen) => {
    // Darker than any green an animal is named by, with a sheen along every rib.
    const [leaf, rib, sheen] = ['#3f7a55', '#2c5b41', '#a9d6d0'];
    const frond = (line: Point[]) => {
      const places = along(line, 25).slice(7);
      const reach = (t: number) => 34 * Math.min(1, (1.04 - t) * 1.7);
      const barbs = places.flatMap((p) => [1, -1].map((s) => curve([[p.x, p.y], [p.x + p.nx * reach(p.t) * s + p.ny * reach(p.t) * 0.75, p.y + p.ny * reach(p.t) * s - p.nx * reach(p.t) * 0.75]]))).join(''); // prettier-ignore
      return pen.line(barbs, { 'stroke-width': 5.4 }) + pen.line(barbs, { stroke: leaf, 'stroke-width': 3.4 }) + limb(pen, curve(line), 4.6, rib) + pen.line(curve(places.map((p): Point => [p.x, p.y])), { stroke: sheen, 'stroke-width': 1.8 }); // prettier-ignore
    };
    return { marks: ([[[180, 284], [108, 244], [36, 236]], [[222, 284], [290, 246], [366, 240]], [[188, 282], [140, 190], [76, 112]], [[214, 282], [262, 190], [328, 116]], [[200, 282], [198, 160], [204, 34]]] as Point[][]).map(frond).join(''), parts: { strand: [222, 110], edge: [222, 110], base: [200, 272], surface: [222, 110], skin: [104, 156] }, span: 240 }; // prettier-ignore
  },
  turf: (pen) => {
    const tufts = steps(40, 360, 24).map((x, i) => { const top = 196 + ((i * 29) % 34); const d = curve([[x, 278], [x + (i % 2 ? 5 : -5), 240], [x + (i % 3) * 4 - 4, top]]); const twigs = [0.45, 0.75].map((s) => `M${x} ${278 - (278 - top) * s}l${i % 2 ? 13 : -13} -15`).join(''); return limb(pen, d + twigs, 3); }); // prettier-ignore
    return { marks: tufts.join(''), parts: { body: [200, 240], strand: [130, 216], edge: [60, 222], base: [250, 274], surface: [130, 216], skin: [220, 232] }, span: 320 }; // prettier-ignore
  },
  tangle: (pen) => {
    const next = chance(13);
    const loops = upTo(15).map(() => { const points = upTo(5).map((): Point => polar(200, 164, 30 + next() * 96, next() * 360)); return curve(points, true); }); // prettier-ignore
    return { marks: loops.map((d) => limb(pen, d, 3)).join(''), parts: { body: [200, 164], strand: [290, 120], edge: [100, 150], base: [200, 262], surface: [290, 120], foot: [200, 262] }, span: 250, loose: true }; // prettier-ignore
  },
  blades: (pen) => {
    const sheet = (x: number, lean: number, top: number) => { const left = steps(0, 1, 7).map((s, i): Point => [x + lean * s - 60 * Math.sin(s * 2.7) - (i % 2) * 13, 278 - (278 - top) * s]); const right = steps(1, 0, 7).map((s, i): Point => [x + lean * s + 60 * Math.sin(s * 2.7) + (i % 2) * 13, 278 - (278 - top) * s]); return pen.shape(curve([...left, ...right], true), pen.fill, { 'fill-opacity': 0.86 }) + pen.line(curve([[x, 270], [x + lean * 0.6, (278 + top) / 2], [x + lean * 0.8, top + 40]]), { 'stroke-width': 1.6 }); }; // prettier-ignore
    return { marks: sheet(130, -40, 70) + sheet(280, 40, 82) + sheet(204, 6, 40), parts: { body: [204, 150], strand: [204, 120], edge: [50, 150], base: [200, 272], surface: [204, 120] }, span: 240 }; // prettier-ignore
  },
  forked: (pen) => {
    const ribbon = (x: number, y: number, angle: number, depth: number): string => { const end = polar(x, y, 62 - (3 - depth) * 8, angle); const piece = limb(pen, curve([[x, y], end]), 15 + depth); return depth === 0 ? piece : ribbon(end[0], end[1], angle - 24, depth - 1) + ribbon(end[0], end[1], angle + 24, depth - 1) + piece; }; // prettier-ignore
    return { marks: ribbon(120, 276, -106, 2) + ribbon(284, 276, -74, 2) + ribbon(204, 278, -90, 3), parts: { body: [204, 180], strand: [190, 96], edge: [84, 130], base: [204, 270], surface: [204, 190], tentacles: [190, 96], crown: [190, 96] }, span: 240 }; // prettier-ignore
  },
  coins: (pen) => {
    const coin = (x: number, y: number, turn: number) => pen.oval(x, y, 25, 20, pen.fill, { transform: `rotate(${turn} ${x} ${y})` }) + pen.line(`M${x - 11} ${y}h22`, { 'stroke-width': 1.6 }); // prettier-ignore
    const chain = (start: Point, moves: readonly number[]) => { let [x, y] = start; return moves.map((angle) => { const now = coin(x, y, angle + 90); [x, y] = polar(x, y, 38, angle); return now; }).join(''); }; // prettier-ignore
    return { marks: chain([200, 262], [-96, -92, -80, -86, -98, -92]) + chain([190, 218], [-150, -124, -104, -92]) + chain([214, 184], [-34, -56, -80, -94]) + chain([166, 142], [-140, -110]), parts: { body: [200, 180], strand: [200, 110], edge: [120, 150], base: [200, 268], surface: [206, 144], runner: [200, 268] }, span: 240 }; // prettier-ignore
  },
  runner: (pen) => {
    const runner = limb(
      pen,
      curve([
        [10, 262],
        [110, 256],
        [210, 264],
        [310, 254],
        [392, 262],
      ]),
      9,
    );
    const roots = pen.line(
      steps(40, 360, 9)
        .map((x) => `M${x} 262q-4 14 -10 26m10 -24q5 14 12 24`)
        .join(''),
      { 'stroke-width': 2.4 },
    );
    const leaf = (x: number, top: number) => { const rows = steps(0.22, 0.95, 8).map((s) => [-1, 1].map((side) => { const y = 258 - (258 - top) * s; return limb(pen, `M${x} ${y}l${side * 32 * (1.2 - s)} -15`, 9); }).join('')).join(''); return rows + limb(pen, `M${x} 258V${top}`, 7); }; // prettier-ignore
    const grapes = (x: number, top: number) => limb(pen, `M${x} 258V${top}`, 5) + steps(top, 236, 6).map((y, i) => [-1, 1].map((side) => pen.oval(x + side * 15, y + (i % 2) * 6, 12, 12)).join('')).join(''); // prettier-ignore
    return { marks: roots + leaf(96, 96) + grapes(210, 118) + leaf(320, 110) + runner, parts: { body: [200, 190], runner: [262, 258], base: [262, 258], strand: [96, 150], edge: [68, 170], surface: [120, 180], foot: [262, 258] }, span: 340 }; // prettier-ignore
  },
  fans: (pen) => {
    const fan = (x: number, y: number, r: number, from: number, to: number) => { const arc = (share: number) => curve(steps(from, to, 9).map((a) => polar(x, y, r * share, a))); const edge = steps(from, to, 9).map((a) => polar(x, y, r, a)); return pen.shape(curve([[x, y], ...edge, [x, y]]), pen.fill) + [0.42, 0.6, 0.78].map((s) => pen.line(arc(s), { stroke: '#fbf6e8', 'stroke-width': 7 })).join('') + pen.line(curve(edge), { 'stroke-width': 6 }); }; // prettier-ignore
    return { marks: fan(134, 272, 116, -166, -96) + fan(270, 272, 116, -84, -14) + fan(202, 278, 170, -126, -54), parts: { body: [204, 180], edge: [132, 120], strand: [204, 130], surface: [204, 170], pattern: [204, 170], base: [204, 270], side: [132, 120] }, span: 290 }; // prettier-ignore
  },
  fingers: (pen) => {
    const finger = (x: number, lean: number, top: number) => { const line: Point[] = [[x, 278], [x + lean * 0.4, 200], [x + lean, top]]; const places = along(line, 26); const hairs = pen.line(places.filter((p) => p.t > 0.35).flatMap((p) => [1, -1].map((s) => curve([[p.x + p.nx * 10 * s, p.y + p.ny * 10 * s], [p.x + p.nx * 25 * s, p.y + p.ny * 25 * s - 3]]))).join('') + steps(-150, -30, 6).map((a) => curve([[x + lean, top], polar(x + lean, top, 24, a)])).join(''), { 'stroke-width': 2.4 }); return hairs + limb(pen, curve(line), 22) + limb(pen, curve(line.slice(0, 2)), 22, '#ffffff'); }; // prettier-ignore
    return { marks: finger(110, -26, 110) + finger(296, 22, 124) + finger(204, 8, 56), parts: { body: [206, 150], strand: [230, 110], edge: [230, 110], surface: [230, 110], base: [203, 250], top: [212, 50] }, span: 230 }; // prettier-ignore
  },
  branches: (pen) => {
    const grow = (x: number, y: number, angle: number, depth: number): string => { const end = polar(x, y, 58 - (3 - depth) * 7, angle); const piece = limb(pen, curve([[x, y], end]), 8 + depth * 2.4); return depth === 0 ? piece : grow(end[0], end[1], angle - 34, depth - 1) + grow(end[0], end[1], angle + 26, depth - 1) + piece; }; // prettier-ignore
    return { marks: grow(200, 278, -90, 3) + grow(196, 276, -136, 2) + grow(204, 276, -44, 2), parts: { body: [200, 200], strand: [196, 150], edge: [110, 160], base: [200, 272], surface: [200, 200] }, span: 240 }; // prettier-ignore
  },
  'pom-pom': (pen) => {
    const ball = (x: number, y: number, r: number) => pen.line(upTo(46).map((i) => { const a = i * 7.83; const mid = polar(x, y, r * 0.6, a + 7); return curve([[x, y], mid, polar(x, y, r * (0.86 + (i % 3) * 0.08), a)]) + curve([mid, polar(x, y, r * 0.86, a + 15)]); }).join(''), { stroke: pen.fill, 'stroke-width': 2.6 }) + pen.line(upTo(30).map((i) => curve([polar(x, y, r * 0.8, i * 12), polar(x, y, r, i * 12 + 3)])).join(''), { 'stroke-width': 1.6 }); // prettier-ignore
    return { marks: ball(120, 196, 82) + ball(284, 206, 70) + ball(204, 112, 66), parts: { body: [120, 196], edge: [46, 170], strand: [60, 146], surface: [110, 190], skin: [280, 190], side: [46, 170] }, span: 160 }; // prettier-ignore
  },
  bubbles: (pen) => {
    const bubble = (x: number, y: number, r: number) => pen.skin(`M${x - r} ${y}a${r} ${r} 0 1 0 ${r * 2} 0a${r} ${r} 0 1 0 ${-r * 2} 0Z`) + pen.line(curve(steps(-160, -100, 4).map((a) => polar(x, y, r * 0.7, a))), { stroke: '#ffffff', 'stroke-width': Math.max(4, r * 0.12) }); // prettier-ignore
    return { marks: bubble(92, 232, 44) + bubble(318, 236, 40) + bubble(252, 250, 26) + bubble(150, 256, 20) + bubble(204, 178, 92), parts: { body: [204, 178], edge: [120, 150], surface: [250, 170], skin: [250, 170], hole: [204, 88], mouth: [204, 88], base: [200, 268], top: [204, 88], strand: [204, 150] }, span: 184 }; // prettier-ignore
  },
};
