// Small crustaceans: copepods with a tail fork, amphipods bent on their side, isopods flat from above, and kin.
import { curve } from '../curve.ts';
import { INK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, type Point } from '../svg.ts';

export type FlatPodShape = {
  /** Seven rings: broad, slim, or with a swollen middle. */
  form?: 'pill' | 'bullet' | 'slim' | 'swollen' | 'disc' | 'tadpole';
  eyes?: 'small' | 'large' | 'none';
  legs?: 'walking' | 'long' | 'hooks' | 'short' | 'none';
  feelers?: boolean;
  /** A spot in the middle, such as a red one on a yellow body. */
  spot?: string;
  /** Two round suckers at the front. */
  suckers?: boolean;
  tail?: 'fan' | 'fork' | 'none';
  pincers?: boolean;
  bellyFill?: string;
};

const Y = 160;

/** A pod seen from above, head to the left. */
export function drawFlatPod(pen: Pen, shape: FlatPodShape): Sketch {
  const form = shape.form ?? 'pill';
  const [rx, ry, rings] = { pill: [116, 78, 8], bullet: [142, 50, 9], slim: [140, 36, 9], swollen: [124, 62, 7], disc: [112, 96, 3], tadpole: [104, 54, 6] }[form] as [number, number, number]; // prettier-ignore
  const x = 196;
  const half = (s: number) => (form === 'tadpole' ? ry * Math.sqrt(Math.max(0, 1 - s * s)) * (1 - 0.5 * Math.max(0, s)) : form === 'swollen' ? ry * (0.42 + 0.58 * Math.exp(-((s * 2.3) ** 2))) * Math.sqrt(Math.max(0, 1 - s ** 4)) : ry * Math.sqrt(Math.max(0, 1 - s * s)) ** (form === 'slim' ? 0.55 : 0.85)); // prettier-ignore
  const line = steps(-1, 1, 22);
  const body = curve([...line.map((s): Point => [x + s * rx, Y - half(s)]), ...line.slice(1, -1).reverse().map((s): Point => [x + s * rx, Y + half(s)])], true); // prettier-ignore
  const seams = steps(-0.66, 0.72, rings).map((s) => curve([[x + s * rx, Y - half(s)], [x + s * rx + 8, Y], [x + s * rx, Y + half(s)]])).join(''); // prettier-ignore
  const legs = legMarks(pen, shape, x, rx, half);
  const belly = shape.bellyFill ? pen.inside(body, pen.oval(x + 6, Y, rx * 0.52, ry * 1.1, shape.bellyFill)) : '';
  const eyeSize = { small: 4.5, large: 22, none: 0 }[shape.eyes ?? 'small'];
  const eyeX = x - rx * (shape.eyes === 'large' ? 0.82 : 0.8);
  const eyes = eyeSize
    ? [-1, 1].map((s) => pen.oval(eyeX, Y + s * half(-0.78) * 0.86, eyeSize * 0.8, eyeSize, '#1f1d1b')).join('')
    : '';
  const feelers = shape.feelers === false ? '' : [-1, 1].map((s) => limb(pen, curve([[x - rx * 0.94, Y + s * 8], [x - rx - 26, Y + s * 26], [x - rx - 44, Y + s * 56]]), 3) + limb(pen, curve([[x - rx * 0.96, Y + s * 5], [x - rx - 22, Y + s * 12]]), 2.4)).join(''); // prettier-ignore
  const tail = tailMarks(pen, shape.tail ?? 'fan', x, rx, half);
  const spot = shape.spot ? pen.oval(x - rx * 0.1, Y, rx * 0.2, ry * 0.3, shape.spot, { 'stroke-width': 2 }) : '';
  const suckers = shape.suckers ? [-1, 1].map((s) => pen.oval(x - rx * 0.52, Y + s * 30, 20, 20, '#f4f1e6') + pen.oval(x - rx * 0.52, Y + s * 30, 9, 9, '#cfc8b4', { 'stroke-width': 2 })).join('') : ''; // prettier-ignore
  const pincers = shape.pincers ? [-1, 1].map((s) => limb(pen, curve([[x - rx * 0.8, Y + s * 18], [x - rx - 14, Y + s * 36], [x - rx - 34, Y + s * 24]]), 9) + pen.line(`M${x - rx - 34} ${Y + s * 24}l-20 ${-s * 4}m20 ${s * 4}l-18 ${s * 10}`, { 'stroke-width': 5 })).join('') : ''; // prettier-ignore
  const parts: Parts & { body: Point } = {
    body: [x + 10, Y], head: [x - rx * 0.9, Y], eyes: [eyeX, Y - half(-0.78) * 0.86], feelers: [x - rx - 34, Y + 40], legs: [x + 10, Y + half(0.1) + 26], claws: shape.pincers ? [x - rx - 36, Y - 24] : [x - rx * 0.7, Y + half(-0.6) + 14],
    'last-legs': [x + rx * 0.7, Y + half(0.6) + 20], tail: [x + rx + 22, Y], rear: [x + rx + 10, Y], side: [x + 30, Y - half(0.2)], edge: [x + 30, Y - half(0.2)], back: [x + 20, Y - 14], skin: [x + 30, Y + 20], shell: [x + 30, Y - 14], pattern: shape.spot ? [x - rx * 0.1, Y] : [x + 30, Y + 20], spots: [x - rx * 0.1, Y], surface: [x + 30, Y + 20], top: [x, Y],
  }; // prettier-ignore
  return { marks: tail + legs + feelers + pincers + pen.skin(body) + belly + pen.inside(body, pen.line(seams, { stroke: pen.detail, 'stroke-width': 2.4 })) + pen.line(body) + spot + eyes + suckers, parts, span: rx * 2.1 }; // prettier-ignore
}

function legMarks(pen: Pen, shape: FlatPodShape, x: number, rx: number, half: (s: number) => number): string {
  const kind = shape.legs ?? 'walking';
  if (kind === 'none') return '';
  const pairs = shape.form === 'swollen' ? 5 : shape.form === 'disc' || shape.form === 'tadpole' ? 4 : 7;
  const reach = { walking: 30, long: 78, hooks: 26, short: 13 }[kind];
  return steps(-0.6, shape.form === 'tadpole' ? 0 : 0.62, pairs)
    .flatMap((s) =>
      [-1, 1].map((side) => {
        const from: Point = [x + s * rx, Y + side * (half(s) - 6)];
        const knee: Point = [from[0] + s * 14, from[1] + side * reach * 0.7];
        const end: Point = [from[0] + s * 30 + 6, from[1] + side * reach * 1.15];
        const leg = limb(pen, curve([from, knee, end]), kind === 'short' ? 2.6 : 4);
        return (
          leg +
          (kind === 'hooks'
            ? pen.line(`M${end[0]} ${end[1]}q-16 ${side * 10} -20 ${-side * 6}`, { 'stroke-width': 5 })
            : '')
        );
      }),
    )
    .join('');
}

function tailMarks(
  pen: Pen,
  kind: 'fan' | 'fork' | 'none',
  x: number,
  rx: number,
  half: (s: number) => number,
): string {
  if (kind === 'none') return '';
  if (kind === 'fan') return [-1, 1].map((s) => pen.shape(curve([[x + rx * 0.84, Y + s * half(0.84) * 0.6], [x + rx + 30, Y + s * 34], [x + rx + 26, Y + s * 12], [x + rx * 0.92, Y]], true), pen.fill)).join(''); // prettier-ignore
  const stem = pen.shape(
    `M${x + rx * 0.8} ${Y - 15}L${x + rx + 40} ${Y - 9}V${Y + 9}L${x + rx * 0.8} ${Y + 15}Z`,
    pen.fill,
  );
  const prongs = [-1, 1].map((s) => pen.line(`M${x + rx + 40} ${Y + s * 7}l34 ${s * 15}m-34 ${-s * 15}l22 ${s * 22}`, { 'stroke-width': 3.5 })).join(''); // prettier-ignore
  return prongs + stem + pen.line(`M${x + rx + 4} ${Y - 13}v26m18 -23v20`, { 'stroke-width': 2.2 });
}

export type SidePodShape = { bend?: 'curled' | 'straight'; feelers?: boolean; pincers?: boolean };

/** A pod squeezed narrow from side to side, seen from the side: an amphipod or a tanaid. */
export function drawSidePod(pen: Pen, shape: SidePodShape): Sketch {
  const straight = shape.bend === 'straight';
  const back: Point[] = straight ? [[60, 142], [130, 126], [210, 124], [290, 128], [352, 140]] : [[70, 196], [86, 136], [146, 88], [226, 82], [296, 118], [330, 184], [310, 236]]; // prettier-ignore
  const belly: Point[] = straight ? [[352, 160], [290, 176], [210, 180], [130, 178], [60, 172]] : [[284, 226], [288, 190], [258, 160], [206, 146], [156, 160], [120, 200], [84, 214]]; // prettier-ignore
  const body = curve([...back, ...belly], true);
  const seams = straight ? steps(110, 330, 7).map((x) => `M${x} 124Q${x + 8} 150 ${x} 180`).join('') : [[112, 116, 128, 190], [150, 86, 158, 160], [190, 80, 190, 148], [228, 82, 220, 150], [262, 96, 244, 156], [296, 120, 264, 166], [318, 152, 284, 188], [328, 190, 290, 206]].map(([a, b, c, d]) => `M${a} ${b}Q${((a ?? 0) + (c ?? 0)) / 2 + 6} ${((b ?? 0) + (d ?? 0)) / 2} ${c} ${d}`).join(''); // prettier-ignore
  const legs = straight
    ? steps(130, 300, 6).map((x) => limb(pen, `M${x} 172l-8 24l6 22`, 4)).join('')
    : steps(132, 262, 7).map((x, i) => limb(pen, curve([[x, 166 - Math.abs(i - 3) * -6], [x - 14, 204], [x + 4 + (i - 3) * 5, 240]]), 5)).join('') + steps(286, 312, 3).map((x, i) => limb(pen, `M${x} ${226 + i * 2}l-8 26`, 4)).join(''); // prettier-ignore
  const hx = straight ? 62 : 76;
  const hy = straight ? 152 : 190;
  const feelers = shape.feelers === false ? '' : limb(pen, curve([[hx, hy - 8], [hx - 34, hy - 50], [hx - 44, hy - 92]]), 4) + limb(pen, curve([[hx - 2, hy], [hx - 40, hy - 14], [hx - 62, hy - 44]]), 4); // prettier-ignore
  const pincers = shape.pincers ? [0, 1].map((i) => limb(pen, curve([[92, 172], [64, 200 + i * 14], [30, 190 + i * 22]]), 9) + pen.line(`M30 ${190 + i * 22}l-16 -10m16 10l-20 6`, { 'stroke-width': 5 })).join('') : ''; // prettier-ignore
  const parts: Parts & { body: Point } = {
    body: straight ? [210, 150] : [200, 116], head: [hx, hy], eyes: [hx + 10, hy - 12], feelers: [hx - 40, hy - 70], legs: straight ? [220, 206] : [190, 226], back: [210, straight ? 124 : 82], edge: [230, straight ? 124 : 82], side: [230, straight ? 126 : 100], tail: straight ? [350, 150] : [310, 236], rear: straight ? [350, 150] : [310, 236], claws: shape.pincers ? [26, 192] : [hx + 30, hy + 30], skin: [240, straight ? 150 : 118], shell: [200, straight ? 140 : 110], tube: [300, straight ? 150 : 150],
  }; // prettier-ignore
  return {
    marks:
      legs +
      feelers +
      pincers +
      pen.skin(body) +
      pen.line(seams, { stroke: pen.detail, 'stroke-width': 2.2 }) +
      pen.dot(hx + 10, hy - 12, 7),
    parts,
    span: 280,
  };
}

/** A seed shrimp: a bean of two halves with only the tips of its feelers out. */
export function drawBean(pen: Pen): Sketch {
  const bean = curve(
    [
      [78, 176],
      [110, 96],
      [200, 64],
      [292, 96],
      [324, 176],
      [276, 222],
      [200, 210],
      [126, 222],
    ],
    true,
  );
  return {
    marks: pen.line(steps(-28, 22, 5).map((d) => curve([[96, 196 + d * 0.4], [62, 206 + d], [40, 196 + d * 1.6]])).join(''), { 'stroke-width': 2.6 }) + pen.skin(bean) + pen.line('M92 198Q200 160 312 196', { stroke: pen.detail, 'stroke-width': 2.6 }) + pen.dot(128, 142, 9) + pen.line('M196 90q46 4 72 34', { stroke: '#ffffff', 'stroke-width': 8 }),
    parts: { body: [210, 140], shell: [240, 130], edge: [310, 130], side: [310, 130], feelers: [46, 200], legs: [60, 206], skin: [240, 130], eyes: [128, 142], tail: [318, 186], rear: [318, 186] },
    span: 246,
  }; // prettier-ignore
}

/** A skeleton shrimp: a jointed twig with folded claws in front and legs only at the two ends. */
export function drawStick(pen: Pen): Sketch {
  const joints: readonly Point[] = [
    [86, 78],
    [132, 100],
    [178, 134],
    [224, 170],
    [262, 214],
    [292, 262],
  ];
  const body = joints.slice(1).map((to, i) => limb(pen, curve([joints[i] ?? to, to]), 15 - i)).join(''); // prettier-ignore
  const knots = joints
    .slice(1, -1)
    .map(([x, y]) => pen.dot(x, y, 9.5, pen.fill, { stroke: INK, 'stroke-width': 2.5 }))
    .join('');
  const claw = (x: number, y: number, size: number) => limb(pen, curve([[x, y], [x - 26 * size, y + 36 * size], [x - 2, y + 64 * size]]), 12 * size) + limb(pen, curve([[x - 2, y + 64 * size], [x - 32 * size, y + 58 * size], [x - 40 * size, y + 30 * size]]), 6 * size); // prettier-ignore
  const legs = [[254, 206], [276, 236], [292, 262]].map(([x, y], i) => limb(pen, curve([[x ?? 0, y ?? 0], [(x ?? 0) + 46, (y ?? 0) - 4 + i * 8], [(x ?? 0) + 58, (y ?? 0) + 34]]), 5)).join(''); // prettier-ignore
  const feelers =
    limb(
      pen,
      curve([
        [78, 72],
        [52, 44],
        [20, 40],
      ]),
      4,
    ) +
    limb(
      pen,
      curve([
        [76, 80],
        [48, 74],
        [22, 84],
      ]),
      4,
    );
  return {
    marks: legs + feelers + claw(120, 98, 0.7) + body + knots + claw(162, 124, 1) + pen.oval(84, 78, 20, 16) + pen.dot(80, 74, 4.5),
    parts: { body: [210, 158], head: [84, 78], claws: [126, 172], legs: [320, 222], feelers: [40, 44], eyes: [80, 74], side: [210, 158], edge: [210, 158], skin: [240, 186], tail: [292, 262] },
    span: 260,
  }; // prettier-ignore
}

export type SpiderShape = { kind: 'sea-spider' | 'arrow-crab' };

/** All legs: a sea spider with hardly a body, or an arrow crab with a long snout. */
export function drawSpider(pen: Pen, shape: SpiderShape): Sketch {
  const arrow = shape.kind === 'arrow-crab';
  const y = 150;
  const legs = [-1, 1].flatMap((side) =>
    [-46, -16, 14, 44].map((angle, i) => {
      const turn = side < 0 ? 180 - angle : angle;
      const from: Point = [200 + side * 12, y + (i - 1.5) * 10];
      const knee = polar(from[0], from[1], 84, turn - side * 22);
      const end = polar(knee[0], knee[1], 92, turn + side * (arrow ? 52 : 34));
      return (
        limb(pen, curve([from, knee, end]), arrow ? 4 : 5) +
        pen.dot(knee[0], knee[1], 5, pen.fill, { stroke: INK, 'stroke-width': 2 })
      );
    }),
  );
  if (!arrow) {
    const trunk = steps(112, 192, 5).map((yy) => pen.oval(200, yy, 12, 12)).join('') + pen.shape('M194 106L200 74L206 106Z', pen.fill); // prettier-ignore
    return { marks: legs.join('') + trunk + pen.dot(200, 112, 3.5), parts: { body: [200, 150], legs: [296, 90], head: [200, 84], claws: [200, 84], feelers: [200, 84], side: [200, 170], skin: [290, 96], edge: [296, 90] }, span: 320 }; // prettier-ignore
  }
  const claws = [-1, 1].map((s) => limb(pen, curve([[200 + s * 10, 126], [200 + s * 44, 92], [200 + s * 30, 40]]), 5) + limb(pen, `M${200 + s * 30} 42l${s * 5} -24`, 6, '#4d7fd0') + limb(pen, `M${200 + s * 30} 42l${-s * 6} -20`, 4, '#4d7fd0')).join(''); // prettier-ignore
  const body = 'M200 20L228 150Q232 190 200 200Q168 190 172 150Z';
  return {
    marks: legs.join('') + claws + pen.skin(body) + pen.line('M200 60V190M188 120Q182 160 190 190M212 120Q218 160 210 190', { 'stroke-width': 2.2 }) + pen.dot(184, 126, 6) + pen.dot(216, 126, 6),
    parts: { body: [200, 160], legs: [300, 92], head: [200, 40], beak: [200, 30], claws: [232, 30], eyes: [184, 126], skin: [206, 170], cover: [200, 170], edge: [178, 130], side: [178, 130], shell: [200, 160] },
    span: 320,
  }; // prettier-ignore
}
