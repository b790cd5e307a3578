// Small things by the number: fish with spots, eggs and dots.
import { curve } from '../curve.ts';
import { FILLS, INK, ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { chance, polar, steps, strewn, upTo, type Point } from '../svg.ts';

export type FishShape = {
  signs: 'grains' | 'dust' | 'pepper' | 'lumps' | 'flakes' | 'peeling' | 'sore' | 'none';
  fishFill?: string;
  /** White bars, as on a clownfish. */
  bars?: boolean;
  eye?: 'clear' | 'cloudy';
  gills?: 'both' | 'one-shut';
};

/** A fish from the side that shows the signs of a parasite. The spots are not to scale. */
export function drawFish(pen: Pen, shape: FishShape): Sketch {
  const body = curve([[28, 168], [84, 110], [170, 84], [260, 108], [318, 152], [318, 184], [260, 226], [170, 250], [84, 226]], true); // prettier-ignore
  const fill = shape.fishFill ?? '#f2cf57';
  const tail = pen.shape(
    curve(
      [
        [308, 168],
        [352, 112],
        [386, 100],
        [374, 168],
        [386, 236],
        [352, 224],
      ],
      true,
    ),
    fill,
  );
  const fins = pen.shape(curve([[120, 100], [170, 46], [246, 60], [268, 114]], false) + 'Z', fill) + pen.shape(curve([[140, 240], [176, 288], [240, 272], [256, 228]], false) + 'Z', fill); // prettier-ignore
  const bars = shape.bars ? pen.inside(body, [110, 200, 282].map((x) => pen.line(`M${x} 40q18 120 0 260`, { stroke: '#ffffff', 'stroke-width': 26 }) + pen.line(`M${x - 14} 40q18 120 0 260m28 -260q18 120 0 260`, { 'stroke-width': 2.4 })).join('')) : ''; // prettier-ignore
  const gill = shape.gills === 'one-shut' ? pen.line('M116 124Q142 168 116 214', { 'stroke-width': 4 }) + pen.line('M124 140l14 -4m-10 20l16 0m-18 20l14 6', { 'stroke-width': 3 }) : pen.shape('M112 122Q150 168 112 216Q130 168 112 122Z', shape.gills === 'both' ? '#c8564a' : fill, { 'stroke-width': 3 }); // prettier-ignore
  const eye = pen.dot(70, 152, 13, shape.eye === 'cloudy' ? '#dfe6ea' : '#ffffff', { stroke: INK, 'stroke-width': 3 }) + (shape.eye === 'cloudy' ? pen.line('M62 148q8 -6 16 0m-16 8q8 -6 16 0', { stroke: '#9fb0b8', 'stroke-width': 3 }) : pen.dot(70, 152, 6)); // prettier-ignore
  const parts: Parts & { body: Point } = { body: [220, 168], skin: [230, 150], spots: [230, 150], surface: [230, 150], 'fish-gills': [126, 168], 'fish-eye': [70, 152], eyes: [70, 152], edge: [366, 140], ground: [230, 150], pattern: [230, 150] }; // prettier-ignore
  const lens = shape.signs === 'none' ? '' : lensMarks(pen, shape.signs, fill);
  return { marks: tail + fins + pen.shape(body, fill) + bars + gill + eye + signs(pen, shape.signs, body, parts) + pen.line('M32 182q14 6 22 2', { 'stroke-width': 3 }) + lens, parts }; // prettier-ignore
}

/** The signs under a magnifying glass: salt grains, dust, pepper, a cauliflower lump, loose skin, a sore. */
function lensMarks(pen: Pen, kind: FishShape['signs'], fill: string): string {
  const aim = kind === 'lumps' ? [266, 102] : kind === 'grains' || kind === 'pepper' ? [266, 133] : [262, 136];
  const [x, y, r] = [334, 62, 56];
  const glass = `M${x - r} ${y}a${r} ${r} 0 1 0 ${r * 2} 0a${r} ${r} 0 1 0 ${-r * 2} 0Z`;
  const next = chance(41);
  const few = (places: readonly Point[], size: number, colour: string) => places.map(([dx, dy]) => pen.dot(x + dx, y + dy, size, colour, { stroke: INK, 'stroke-width': 2.6 })).join(''); // prettier-ignore
  const spread = (count: number, size: number, colour: string, line: number) => strewn(count, x - r, y - r, r * 2, r * 2).map(([px, py]) => pen.dot(px + next() * 6, py + next() * 6, size, colour, { stroke: INK, 'stroke-width': line })).join(''); // prettier-ignore
  const scales = pen.line(steps(x - r, x + r, 5).flatMap((sx) => [-40, -8, 24].map((dy, i) => `M${sx - 22 + (i % 2) * 12} ${y + dy}q12 18 24 0`)).join(''), { 'stroke-width': 1.2, 'stroke-opacity': 0.5 }); // prettier-ignore
  const marks = {
    none: '',
    grains: few(LENS_DOTS, 11, '#ffffff'),
    dust: spread(240, 2.2, '#ffe27a', 0),
    pepper: few(LENS_DOTS, 7, '#1d1b1a'),
    lumps: cauliflower(pen, x, y + 2, 40),
    flakes: pen.oval(x, y, 40, 17, '#e9f3f4', { 'fill-opacity': 0.7, transform: `rotate(-24 ${x} ${y})` }) + pen.dot(x - 26, y + 12, 4) + pen.dot(x - 18, y + 8, 4),
    peeling: [-34, -6, 24].map((dx) => pen.shape(`M${x + dx - 14} ${y - 40}q10 30 -2 54q-4 18 10 30q12 -16 8 -36q-4 -26 4 -48Z`, '#eeeee8', { 'stroke-width': 2.4 })).join(''),
    sore: pen.oval(x, y, 40, 32, '#b3271d') + pen.oval(x, y, 22, 16, '#7c120d', { 'stroke-width': 2 }),
  }[kind]; // prettier-ignore
  return pen.line(`M${x - 40} ${y + 40}L${aim[0]} ${aim[1]}`, { 'stroke-width': 3, 'stroke-dasharray': '8 6' }) + pen.shape(glass, fill) + pen.inside(glass, scales + marks) + pen.line(glass, { 'stroke-width': 6 }); // prettier-ignore
}

function signs(pen: Pen, kind: FishShape['signs'], body: string, parts: Parts): string {
  const next = chance(29);
  const spread = (count: number, radius: number, fill: string, line: number) => pen.inside(body, upTo(count).map(() => pen.dot(96 + next() * 216, 92 + next() * 150, radius, fill, { stroke: INK, 'stroke-width': line })).join('')); // prettier-ignore
  const note = (at: Point) => {
    parts.skin = parts.spots = parts.surface = at;
  };
  switch (kind) {
    case 'none':
      return '';
    case 'grains':
      note([212, 214]);
      return GRAINS.map(([x, y]) => pen.dot(x, y, 5.5, '#ffffff', { stroke: INK, 'stroke-width': 1.6 })).join('');
    case 'dust':
      return spread(620, 1.8, '#ffe27a', 0);
    case 'pepper':
      note([212, 214]);
      return GRAINS.map(([x, y]) => pen.dot(x, y, 4, '#1d1b1a')).join('');
    case 'lumps': {
      note([374, 214]);
      return cauliflower(pen, 374, 214, 19) + cauliflower(pen, 256, 92, 17) + cauliflower(pen, 176, 278, 16);
    }
    case 'flakes':
      note([236, 196]);
      return ([[180, 140, 10], [240, 196, 30], [270, 150, -20], [200, 216, 0]] as const).map(([x, y, turn]) => pen.oval(x, y, 19, 8, '#e9f3f4', { 'fill-opacity': 0.6, 'stroke-width': 2, transform: `rotate(${turn} ${x} ${y})` })).join(''); // prettier-ignore
    case 'peeling': {
      note([220, 130]);
      const patch = (x: number, y: number, rx: number, ry: number) => pen.oval(x, y, rx, ry, '#e4e4de', { 'fill-opacity': 0.9, 'stroke-width': 2 }); // prettier-ignore
      const strips = pen.line(steps(170, 290, 6).map((x, i) => `M${x} ${196 + (i % 2) * 10}q10 22 -2 40q-6 16 6 30`).join(''), { 'stroke-width': 6 }) + pen.line(steps(170, 290, 6).map((x, i) => `M${x} ${196 + (i % 2) * 10}q10 22 -2 40q-6 16 6 30`).join(''), { stroke: '#eeeee8', 'stroke-width': 3 }); // prettier-ignore
      return pen.inside(body, patch(220, 128, 66, 26) + patch(230, 192, 80, 26) + patch(150, 150, 30, 18)) + strips;
    }
    case 'sore':
      note([224, 162]);
      return pen.oval(224, 162, 46, 32, '#b3271d') + pen.oval(224, 162, 27, 17, '#7c120d', { 'stroke-width': 2 });
  }
}

/** Salt grains, none of them on a line of the fish or on another grain. */
const GRAINS: readonly Point[] = [[172, 112], [206, 104], [238, 122], [262, 138], [290, 160], [160, 142], [190, 134], [218, 150], [252, 172], [278, 192], [176, 168], [204, 178], [232, 196], [160, 198], [186, 206], [212, 214], [246, 216], [174, 228], [92, 126], [86, 200], [352, 134], [362, 170], [350, 202], [178, 70], [208, 66], [236, 78], [184, 262], [222, 260]]; // prettier-ignore

/** The same under the glass, from its middle. */
const LENS_DOTS: readonly Point[] = [[-26, -22], [8, -34], [-2, 2], [32, -8], [-32, 16], [18, 30]]; // prettier-ignore

/** A lump of many knobs of unequal size, heaped up like a head of cauliflower. */
function cauliflower(pen: Pen, x: number, y: number, size: number): string {
  const next = chance(57);
  const knobs = upTo(19).map((i) => {
    const [px, py] = polar(0, 0, size * 0.78 * Math.sqrt((i + 0.5) / 19), i * 137.5);
    return { x: x + px * 1.12 + size * 0.12 * (next() - 0.5), y: y + py * 0.86, r: size * (0.2 + next() * 0.19) };
  });
  const line = Math.max(1.5, size * 0.055);
  return knobs.sort((one, other) => one.y - other.y).map((knob) => pen.oval(knob.x, knob.y, knob.r, knob.r * 0.92, '#fbf3ee', { 'stroke-width': line })).join(''); // prettier-ignore
}

export type EggsShape = {
  kind: 'dots' | 'coral-patch' | 'spawn' | 'forams' | 'strand';
};

/** Eggs and dots: hard dots on the glass, patches stuck to a coral, spawn that drifts up. */
export function drawEggs(pen: Pen, shape: EggsShape): Sketch {
  const egg = (x: number, y: number, r: number) => pen.dot(x, y, r, pen.fill, { stroke: INK, 'stroke-width': 2.2 });
  const glass = pen.shape('M6 8H394V312H6Z', '#e3eff0', { stroke: '#a9bcc0' }) + pen.line('M24 92L92 24M24 130L130 24', { stroke: '#ffffff', 'stroke-width': 5 }); // prettier-ignore
  const spiral = (x: number, y: number, r: number) => limb(pen, curve(upTo(26).map((i): Point => polar(x, y, (r * (i + 1)) / 26, i * 42))), 7); // prettier-ignore
  const base: Parts & { body: Point } = { body: [200, 180], eggs: [200, 180], skin: [200, 180], edge: [200, 180], side: [200, 180], surface: [200, 180], spots: [200, 180], ground: [360, 280], shell: [200, 180], hole: [200, 180] }; // prettier-ignore
  switch (shape.kind) {
    case 'dots': {
      const dots = steps(60, 200, 6)
        .flatMap((x, i) => steps(70, 170, 4).map((y, k) => egg(x + (k % 2) * 9, y + (i % 2) * 8, 7.5)))
        .join('');
      const jelly = pen.shape(curve([[220, 230], [262, 178], [330, 176], [364, 226], [330, 280], [254, 282]], true), '#f4fafa', { 'fill-opacity': 0.8 }) + strewn(16, 248, 200, 92, 64).map(([x, y]) => egg(x, y, 5)).join(''); // prettier-ignore
      return { marks: glass + dots + jelly + spiral(306, 92, 52), parts: { ...base, body: [120, 110], eggs: [120, 110], edge: [306, 140], side: [306, 140], shell: [110, 110], skin: [290, 230], ground: [30, 290], hole: [306, 92], surface: [290, 230], spots: [110, 110] }, span: 300 }; // prettier-ignore
    }
    case 'coral-patch': {
      const twig = (d: string, wide: number) => limb(pen, d, wide, '#c9a97f');
      const plug =
        pen.shape('M60 318L84 246H316L340 318Z', '#e9e4d8') +
        twig(
          'M200 250L196 150M198 200L236 176L244 120M196 176L158 160L150 96M158 160L112 150L96 104M238 150L284 128L290 72',
          26,
        ) +
        twig('M196 150L204 60', 26);
      const patch = pen.shape(curve([[92, 262], [130, 252], [172, 258], [168, 292], [110, 296]], true), '#fff7e2', { 'stroke-width': 2 }) + strewn(14, 102, 262, 62, 28).map(([x, y]) => egg(x, y, 4.6)).join(''); // prettier-ignore
      return { marks: plug + patch + spiral(264, 266, 34), parts: { ...base, body: [130, 274], eggs: [264, 266], skin: [130, 274], edge: [264, 290], side: [264, 290], ground: [88, 290], surface: [130, 274], spots: [130, 274], shell: [264, 266] }, span: 150 }; // prettier-ignore
    }
    case 'spawn': {
      const coral = pen.shape('M30 318Q40 240 120 226Q200 206 290 226Q364 244 372 318Z', '#c9a97f') + steps(80, 330, 6).map((x, i) => pen.oval(x, 258 + (i % 2) * 24, 17, 12, '#a9855c') + egg(x, 254 + (i % 2) * 24, 6)).join(''); // prettier-ignore
      const next = chance(31);
      return { marks: coral + upTo(40).map(() => egg(40 + next() * 320, 20 + next() * 190, 5 + next() * 4)).join(''), parts: { ...base, body: [200, 100], eggs: [200, 100], ground: [110, 270], skin: [230, 110], edge: [230, 110], surface: [230, 110], spots: [230, 110] } }; // prettier-ignore
    }
    case 'strand':
      return { marks: pen.shape('M10 318V282Q110 262 200 270T390 278V318Z', ROCK, { 'stroke-width': 2 }) + spiral(200, 150, 110), parts: { ...base, body: [200, 150] }, span: 220 }; // prettier-ignore
    case 'forams': {
      const star = (x: number, y: number, r: number) => pen.shape(curve(upTo(12).map((i) => polar(x, y, i % 2 ? r * 0.5 : r, i * 30)), true), FILLS.white); // prettier-ignore
      const knob = (x: number, y: number, r: number) => pen.skin(curve(upTo(10).map((i) => polar(x, y, r * (i % 2 ? 1.1 : 0.88), i * 36)), true)) + upTo(6).map((i) => { const [px, py] = polar(x, y, r * 0.5, i * 60); return pen.dot(px, py, r * 0.13, pen.detail); }).join(''); // prettier-ignore
      return { marks: pen.shape('M6 318V120Q110 80 200 96T394 116V318Z', ROCK, { 'stroke-width': 2 }) + knob(128, 178, 50) + knob(250, 236, 30) + knob(300, 150, 22) + knob(64, 262, 17) + star(350, 250, 24) + star(204, 290, 17), parts: { ...base, body: [128, 178], edge: [82, 160], side: [82, 160], skin: [150, 180], surface: [150, 180], shell: [128, 178] }, span: 100 }; // prettier-ignore
    }
  }
}
