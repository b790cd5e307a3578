// Sponges on rock: lobes with pores and open holes, a thick shiny piece like liver, or a black skin over a coral.
import { curve } from '../curve.ts';
import { ROCK } from '../ink.ts';
import { limb, type Pen, type Sketch } from '../pen.ts';
import { steps, strewn, upTo, type Point } from '../svg.ts';

export type SpongeShape = {
  kind: 'lobes' | 'liver' | 'skin';
};

const rockUnder = (pen: Pen) => pen.shape('M6 318V262L44 236L96 246L150 226L236 240L300 226L360 248L394 270V318Z', ROCK, { 'stroke-width': 2 }); // prettier-ignore

export function drawSponge(pen: Pen, shape: SpongeShape): Sketch {
  switch (shape.kind) {
    case 'lobes':
      return lobes(pen);
    case 'liver':
      return liver(pen);
    case 'skin':
      return skin(pen);
  }
}

/** A hole that never shuts, on a low chimney of its own. */
function chimney(pen: Pen, x: number, y: number, r: number): string {
  const wall = `M${x - r * 1.5} ${y + r * 1.5}Q${x - r} ${y + r * 0.5} ${x - r} ${y}H${x + r}Q${x + r} ${y + r * 0.5} ${x + r * 1.5} ${y + r * 1.5}`;
  return pen.shape(wall, pen.fill, { 'stroke-width': 2.4, stroke: pen.detail }) + pen.oval(x, y, r, r * 0.5, pen.fill, { 'stroke-width': 3 }) + pen.oval(x, y + 1, r * 0.66, r * 0.3, '#4a2f28', { 'stroke-width': 2 }); // prettier-ignore
}

function lobes(pen: Pen): Sketch {
  const body = curve([[22, 262], [20, 214], [48, 184], [84, 190], [96, 150], [92, 108], [116, 84], [146, 98], [150, 144], [172, 166], [198, 130], [200, 74], [226, 50], [256, 68], [258, 122], [272, 168], [296, 160], [308, 124], [338, 118], [356, 146], [346, 190], [378, 222], [374, 268], [330, 282], [260, 268], [206, 286], [140, 270], [80, 288]], true); // prettier-ignore
  const pores = strewn(110, 24, 60, 350, 220)
    .map(([x, y]) => pen.dot(x, y, 2.6, pen.detail))
    .join('');
  const folds = pen.line('M96 168Q104 220 92 262M168 172Q182 220 176 262M268 176Q262 226 276 258M330 196Q336 226 326 258', { stroke: pen.detail, 'stroke-width': 2.4 }); // prettier-ignore
  return {
    marks: rockUnder(pen) + pen.skin(body) + pen.inside(body, pores + folds) + [[120, 96, 15], [228, 66, 18], [334, 132, 14], [54, 200, 12], [216, 200, 14], [130, 214, 12], [306, 220, 12]].map(([x, y, r]) => chimney(pen, x ?? 0, y ?? 0, r ?? 12)).join(''),
    parts: { body: [216, 180], surface: [160, 236], skin: [284, 240], edge: [376, 240], ground: [60, 304], hole: [228, 66], base: [60, 304], thickness: [376, 240], top: [228, 60], pattern: [284, 240], strand: [216, 200], side: [376, 240], mouth: [228, 66], tentacles: [228, 66], spots: [284, 240] },
    span: 350,
  }; // prettier-ignore
}

function liver(pen: Pen): Sketch {
  const back = curve([[150, 262], [168, 196], [214, 166], [262, 172], [300, 152], [346, 168], [388, 214], [386, 262], [330, 288], [230, 284]], true); // prettier-ignore
  const front = curve([[14, 284], [12, 240], [40, 204], [84, 214], [118, 186], [166, 192], [196, 222], [240, 226], [262, 262], [244, 292], [190, 284], [140, 304], [80, 290], [40, 304]], true); // prettier-ignore
  const shine = { stroke: '#ffffff', 'stroke-width': 9, 'stroke-opacity': 0.75 };
  const hole = (x: number, y: number) => pen.oval(x, y, 13, 8, '#2e2a26') + pen.line(`M${x - 20} ${y + 4}a20 14 0 0 0 40 0`, { stroke: pen.detail, 'stroke-width': 1.8 }); // prettier-ignore
  return {
    marks: rockUnder(pen) + pen.skin(back, { width: 4 }) + pen.line('M186 206Q210 180 258 190M292 178Q320 170 344 190', shine) + hole(318, 218) + pen.skin(front, { width: 4 }) + pen.line('M34 238Q50 220 78 230M104 216Q128 204 164 212', shine) + hole(138, 248) + hole(70, 262),
    parts: { body: [110, 220], surface: [110, 212], skin: [186, 256], edge: [14, 256], ground: [60, 306], hole: [138, 248], base: [60, 306], thickness: [14, 256], top: [126, 190], pattern: [186, 256], side: [14, 256], strand: [110, 196] },
    span: 360,
  }; // prettier-ignore
}

function skin(pen: Pen): Sketch {
  const coral = '#e2bd8f';
  const twigs: Point[][] = [[[70, 300], [64, 210], [40, 130]], [[130, 300], [128, 190], [150, 70]], [[210, 300], [214, 190], [206, 96]], [[284, 300], [290, 190], [318, 84]], [[344, 300], [346, 220], [364, 156]]]; // prettier-ignore
  const branches = twigs.map((line) => limb(pen, curve(line), 36, coral) + [0.35, 0.6, 0.85].map((s) => { const [[ax, ay], [bx, by]] = [line[1] ?? [0, 0], line[2] ?? [0, 0]]; return pen.dot(ax + (bx - ax) * s + (s > 0.5 ? 8 : -8), ay + (by - ay) * s, 5, '#b98a5c'); }).join('')).join(''); // prettier-ignore
  // The skin ends in fine threads at a level of its own on every branch.
  const tops = [196, 150, 176, 160, 216];
  const cover = curve([[38, 306], [38, 250], [46, tops[0] ?? 0], [84, (tops[0] ?? 0) + 4], [98, 256], [112, 200], [116, tops[1] ?? 0], [156, (tops[1] ?? 0) + 4], [166, 230], [180, 264], [192, 220], [194, tops[2] ?? 0], [234, tops[2] ?? 0], [244, 240], [256, 262], [268, 220], [276, tops[3] ?? 0], [316, (tops[3] ?? 0) + 8], [316, 230], [326, 254], [330, tops[4] ?? 0], [370, tops[4] ?? 0], [366, 262], [358, 306]], true); // prettier-ignore
  const threads = pen.line([[46, 84, 0], [116, 156, 1], [194, 234, 2], [276, 316, 3], [332, 370, 4]].flatMap(([from, to, i]) => steps(from ?? 0, to ?? 0, 6).map((x, k) => `M${x} ${(tops[i ?? 0] ?? 0) + 6}q${k % 2 ? 5 : -5} -12 ${k % 2 ? -2 : 2} -${24 + (k % 3) * 8}`)).join(''), { 'stroke-width': 2.6 }); // prettier-ignore
  const pits = upTo(16).map((i) => pen.oval(40 + ((i * 83) % 320), 232 + ((i * 29) % 66), 6, 4, 'none', { stroke: pen.detail, 'stroke-width': 1.8 })).join(''); // prettier-ignore
  return {
    marks: branches + threads + pen.skin(cover) + pen.inside(cover, pits),
    parts: { body: [130, 220], surface: [214, 220], skin: [214, 240], edge: [64, 178], ground: [150, 84], hole: [290, 220], base: [150, 84], thickness: [316, 200], top: [130, 140], pattern: [214, 240], side: [316, 200], strand: [64, 178], threads: [64, 178] },
    span: 350,
  }; // prettier-ignore
}
