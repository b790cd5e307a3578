// Shrimps from the side, told by their claws, back, eyes and bands; and mantis shrimps with folded claws.
import { curve } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { steps, tag, type Point } from '../svg.ts';

export type ShrimpShape = {
  claws: 'small' | 'one-big' | 'long-pair' | 'raptorial' | 'shields' | 'none';
  back?: 'even' | 'humped';
  eyes?: 'stalked' | 'hidden' | 'large' | 'empty';
  feelers?: 'long-white' | 'short';
  beak?: 'short' | 'long';
  coat?: 'plain' | 'bands' | 'lines-along' | 'stripe' | 'dots' | 'patches' | 'saddles';
  tailUp?: boolean;
  legFill?: string;
  /** An empty skin: see-through and split behind the head. */
  husk?: boolean;
  /** Only short legs for swimming below. */
  swimmer?: boolean;
};

export function drawShrimp(pen: Pen, shape: ShrimpShape): Sketch {
  const hump = shape.back === 'humped';
  const mantis = shape.claws === 'raptorial';
  const end: Point = shape.tailUp ? [346, 84] : hump ? [330, 248] : [352, 196];
  const back: Point[] = [[92, 148], [130, 118], [178, hump ? 92 : 108], hump ? [230, 46] : [226, 112], hump ? [296, 92] : shape.tailUp ? [276, 120] : [286, 128], shape.tailUp ? [316, 106] : [328, hump ? 184 : 164], end]; // prettier-ignore
  const under: Point[] = [[end[0] - 16, end[1] + 20], shape.tailUp ? [300, 166] : hump ? [284, 204] : [296, 192], [240, hump ? 172 : 186], [180, 186], [124, 182], [96, 170]]; // prettier-ignore
  const body = mantis ? curve([[84, 150], [120, 126], [200, 124], [290, 126], [344, 140], [344, 186], [290, 192], [200, 188], [120, 186], [86, 174]], true) : curve([...back, ...under], true); // prettier-ignore
  const tailAt: Point = mantis ? [344, 164] : end;
  const fan = [-28, 0, 28].map((d) => pen.shape(curve([[tailAt[0] - 6, tailAt[1]], [tailAt[0] + 20, tailAt[1] + (shape.tailUp ? -26 + d * 0.4 : d - 8)], [tailAt[0] + 38, tailAt[1] + (shape.tailUp ? -22 : 6) + d], [tailAt[0] + 16, tailAt[1] + d * 0.5 + 14]], true), pen.fill)).join(''); // prettier-ignore
  const legs = shape.swimmer ? steps(140, 280, 9).map((x) => limb(pen, `M${x} 182l-8 26`, 3)).join('') : steps(132, 208, 5).map((x, i) => limb(pen, curve([[x, 180], [x - 24 + i * 10, 216], [x - 36 + i * 15, 262]]), 4.5, shape.legFill ?? pen.fill)).join('') + steps(226, 290, 4).map((x) => pen.oval(x, 196, 8, 15)).join(''); // prettier-ignore
  const seams = pen.line((mantis ? steps(180, 326, 7) : [212, 238, 264, 288, 310]).map((x) => `M${x} 70Q${x + 14} 150 ${x - 8} 214`).join('') + 'M96 162Q150 176 196 178', { stroke: pen.detail, 'stroke-width': 2.2 }); // prettier-ignore
  const parts: Parts & { body: Point } = {
    body: [190, 146], head: [98, 158], eyes: [96, 130], feelers: [34, 84], claws: [40, 200], legs: [140, 232], back: hump ? [230, 50] : [230, 114], beak: [76, 132], tail: [tailAt[0] + 22, tailAt[1]], rear: tailAt, skin: [170, 146], pattern: [190, 140], spots: [160, 134], surface: [170, 146], side: [210, 168], edge: [210, 112], shell: [150, 130], 'claw-tips': [40, 200],
  }; // prettier-ignore
  const feelers = shape.feelers === 'long-white'
    ? [[10, 24], [60, 10]].map(([x, y]) => limb(pen, curve([[90, 146], [58, 104], [x ?? 0, y ?? 0]]), 3.5, '#ffffff')).join('') // prettier-ignore
    : [[34, 84], [22, 124]].map(([x, y]) => pen.line(curve([[90, 146], [62, 120], [x ?? 0, y ?? 0]]), { 'stroke-width': 2.6 })).join(''); // prettier-ignore
  const beak = shape.beak === 'long' ? pen.shape('M104 136L50 102L60 124L92 148Z', pen.fill) + pen.line('M60 110l-3 10m14 -2l-3 10m15 -2l-3 10', { 'stroke-width': 2.4 }) : pen.shape('M108 132L70 130L98 148Z', pen.fill); // prettier-ignore
  const inner = pen.inside(body, coat(pen, shape) + seams);
  if (shape.husk) return { marks: huskMarks(pen, fan + feelers, legs, beak, eyes(pen, shape, parts) + claws(pen, shape, parts)), parts, span: 300 }; // prettier-ignore
  const marks =
    fan +
    feelers +
    legs +
    (mantis ? '' : beak) +
    pen.skin(body) +
    inner +
    pen.line(body) +
    eyes(pen, shape, parts) +
    claws(pen, shape, parts);
  return { marks, parts, span: 300 };
}

/** An empty skin in two pieces: the head shield tipped up, the tail behind it, and a dark gap where the animal left. */
function huskMarks(pen: Pen, ends: string, legs: string, beak: string, front: string): string {
  const shield = curve([[92, 148], [130, 118], [178, 104], [206, 100], [214, 140], [200, 176], [124, 182], [96, 170]], true); // prettier-ignore
  const rear = curve([[226, 124], [262, 120], [300, 138], [332, 170], [352, 196], [336, 216], [296, 200], [250, 192], [224, 186], [236, 156]], true); // prettier-ignore
  const gap = pen.shape(curve([[196, 110], [230, 116], [238, 156], [224, 190], [192, 178]], true), '#5a524a', { 'stroke-width': 2 }); // prettier-ignore
  const clear = { 'stroke-dasharray': '11 7' };
  const rings = pen.line('M258 122Q270 156 256 192M288 132Q300 164 286 198M314 154Q320 180 308 206', {
    'stroke-width': 2,
  });
  const tipped = tag('g', { transform: 'rotate(-17 110 170)' }, pen.shape(shield, pen.fill, clear) + pen.line('M110 160Q150 172 190 160', { 'stroke-width': 2 }) + beak + front); // prettier-ignore
  return ends + legs + gap + pen.shape(rear, pen.fill, clear) + rings + tipped;
}

function coat(pen: Pen, shape: ShrimpShape): string {
  switch (shape.coat ?? 'plain') {
    case 'plain':
      return '';
    case 'bands':
      return pen.line([112, 164, 216, 268, 316].map((x) => `M${x} 60Q${x + 16} 150 ${x - 6} 220`).join(''), { stroke: pen.second, 'stroke-width': 22 }); // prettier-ignore
    case 'lines-along':
      return pen.line([128, 144, 160, 176].map((y) => curve([[90, 156 + (y - 152) * 0.3], [180, y], [270, y + 6], [346, 200]])).join(''), { stroke: FILLS.red, 'stroke-width': 3.4 }); // prettier-ignore
    case 'stripe':
      return pen.line(curve([[84, 136], [180, 118], [270, 132], [352, 196]]), { stroke: FILLS.red, 'stroke-width': 44 }) + pen.line(curve([[84, 124], [180, 104], [262, 112], [330, 160]]), { stroke: '#ffffff', 'stroke-width': 13 }); // prettier-ignore
    case 'dots':
      return [[112, 140], [132, 160], [138, 132], [160, 148], [162, 122], [182, 136], [186, 164], [120, 168], [156, 170]].map(([x, y]) => pen.dot(x ?? 0, y ?? 0, 6, '#ffffff', { stroke: INK, 'stroke-width': 1.6 })).join(''); // prettier-ignore
    case 'patches':
      return [[140, 140, 24, 20], [210, 130, 26, 18], [180, 172, 20, 12], [270, 150, 24, 22], [320, 180, 20, 16]].map(([x, y, rx, ry]) => pen.oval(x ?? 0, y ?? 0, rx ?? 9, ry ?? 9, pen.second)).join(''); // prettier-ignore
    case 'saddles':
      return [[150, 112], [228, 112], [306, 118]].map(([x, y]) => pen.oval(x ?? 0, y ?? 0, 27, 22, '#ffffff', { stroke: FILLS.blue, 'stroke-width': 5 })).join(''); // prettier-ignore
  }
}

function eyes(pen: Pen, shape: ShrimpShape, parts: Parts): string {
  switch (shape.eyes ?? 'stalked') {
    case 'stalked': {
      if (shape.claws === 'raptorial') {
        parts.eyes = [82, 100];
        return [[82, 100], [116, 94]].map(([x, y]) => limb(pen, `M${(x ?? 0) + 14} 134L${x} ${y}`, 7) + pen.oval(x ?? 0, y ?? 0, 19, 16, '#f3e6b8') + pen.line(`M${(x ?? 0) - 17} ${y}h34`, { 'stroke-width': 7 })).join(''); // prettier-ignore
      }
      parts.eyes = [88, 120];
      return limb(pen, 'M108 138L90 122', 5) + pen.dot(88, 120, 9.5);
    }
    case 'large':
      parts.eyes = [92, 122];
      return limb(pen, 'M110 138L94 124', 6) + pen.dot(92, 122, 17, '#201e1c') + pen.dot(88, 117, 5, '#ffffff');
    case 'hidden':
      parts.eyes = [108, 146];
      return pen.shape('M88 150Q104 126 132 128L124 150Q104 158 88 150Z', pen.fill) + pen.dot(108, 146, 4.5);
    case 'empty':
      parts.eyes = [88, 120];
      return limb(pen, 'M108 138L90 122', 5) + pen.oval(88, 120, 10, 10, '#ffffff', { 'fill-opacity': 0.6 });
  }
}

function claws(pen: Pen, shape: ShrimpShape, parts: Parts): string {
  const pinch = (x: number, y: number, size: number, fill = pen.fill) =>
    pen.shape(curve([[x + 26 * size, y - 6 * size], [x, y - 20 * size], [x - 36 * size, y - 12 * size], [x - 20 * size, y], [x - 34 * size, y + 12 * size], [x, y + 18 * size], [x + 26 * size, y + 8 * size]], true), fill) + pen.line(`M${x - 34 * size} ${y - 4 * size}L${x - 8 * size} ${y + size}`, { 'stroke-width': 3 }); // prettier-ignore
  switch (shape.claws) {
    case 'none':
      return '';
    case 'small':
      parts.claws = parts['claw-tips'] = [58, 222];
      return (
        limb(
          pen,
          curve([
            [116, 176],
            [84, 206],
            [60, 222],
          ]),
          5,
          shape.legFill ?? pen.fill,
        ) + pinch(56, 222, 0.36)
      );
    case 'one-big':
      parts.claws = [52, 196];
      return limb(pen, curve([[118, 176], [104, 226], [76, 240]]), 6) + pinch(70, 240, 0.45) + limb(pen, curve([[116, 172], [104, 198], [92, 198]]), 13) + pinch(58, 196, 1.45); // prettier-ignore
    case 'long-pair': {
      parts.claws = [24, 176];
      const arm = (dy: number) => limb(pen, curve([[116, 174], [90, 214 + dy], [50, 206 + dy]]), 9, '#ffffff') + pen.line(`M92 ${206 + dy}l-4 14m-18 -16l-2 14`, { stroke: FILLS.red, 'stroke-width': 8 }) + pinch(34, 186 + dy * 1.3, 0.74, FILLS.red) + pen.line(`M${24} ${176 + dy * 1.3}v18`, { stroke: '#ffffff', 'stroke-width': 7 }); // prettier-ignore
      return arm(40) + arm(-6);
    }
    case 'raptorial': {
      parts.claws = parts['claw-tips'] = [62, 216];
      // The far claw is drawn without its spikes, so that the near one stays clear.
      const arm = (dx: number, dy: number, spiked: boolean) => {
        const at = (x: number, y: number): Point => [x + dx, y + dy];
        const [elbow, wrist, fist] = [at(128, 238), at(46, 196), at(116, 232)];
        const spikes = steps(0.12, 0.84, 5)
          .map((s) => `M${40 + dx + 72 * s} ${236 + dy + 6 * s}l${-3} -17`)
          .join('');
        return (
          limb(pen, curve([at(142, 178), at(148, 214), elbow]), 14) +
          limb(pen, curve([elbow, at(86, 204), wrist]), 20) +
          limb(pen, curve([wrist, at(30, 220), at(40, 240), at(80, 246), fist]), 9) +
          (spiked ? pen.line(spikes, { 'stroke-width': 3.6 }) : '')
        );
      };
      return arm(40, -4, false) + arm(0, 12, true);
    }
    case 'shields':
      parts.claws = [44, 196];
      return [[34, 16], [0, 0]].map(([dx, dy]) => limb(pen, curve([[116, 174], [90, 196 + (dy ?? 0)], [64 + (dx ?? 0), 200]]), 7) + pen.oval(44 + (dx ?? 0), 196 + (dy ?? 0), 34, 40, pen.fill) + pen.oval(44 + (dx ?? 0), 196 + (dy ?? 0), 15, 19, pen.second, { 'stroke-width': 2 })).join(''); // prettier-ignore
  }
}
