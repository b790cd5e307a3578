// Crabs from above and in front: the carapace, the claws and their tips, hair, fans, paddles, and borrowed shells.
import { corners, curve } from '../curve.ts';
import { FILLS } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, strewn, upTo, type Point } from '../svg.ts';

export type CrabShape = {
  carapace?: 'wide' | 'round' | 'disc' | 'saw' | 'high' | 'furrowed';
  claws?: 'pointed' | 'spoon' | 'flat' | 'slim' | 'mask' | 'poms';
  tipFill?: string;
  hair?: 'none' | 'patches' | 'thick' | 'fuzz';
  hairyLegs?: boolean;
  legs?: 'normal' | 'flat' | 'spindly' | 'three-pairs' | 'paddles';
  legRings?: string;
  feelers?: 'short' | 'long';
  fans?: boolean;
  /** Bits of sponge and algae worn on top. */
  cover?: boolean;
  /** A tail tucked under but in view. */
  tail?: boolean;
  rough?: boolean;
  gloss?: boolean;
};

const X = 200;
const Y = 164;

export function drawCrab(pen: Pen, shape: CrabShape): Sketch {
  const carapace = shape.carapace ?? 'wide';
  const [rx, ry] = { wide: [92, 62], round: [76, 68], disc: [80, 78], saw: [110, 56], high: [86, 78], furrowed: [84, 62] }[carapace] as [number, number]; // prettier-ignore
  const body = carapacePath(carapace, rx, ry);
  const parts: Parts & { body: Point } = {
    body: [X, Y], shell: [X + 30, Y + 14], surface: [X + 30, Y + 14], skin: [X - 26, Y + 20], back: [X, Y + 20], head: [X, Y - ry * 0.8], eyes: [X - 26, Y - ry - 6], edge: [X + rx, Y], side: [X + rx, Y], pattern: [X - 26, Y + 20],
    legs: [X + rx + 56, Y + 40], 'last-legs': [X + rx + 40, Y + 100], claws: [X - 112, Y - 76], 'claw-tips': [X - 76, Y - 128], feelers: [X + 12, Y - ry - 40], mouth: [X, Y - ry * 0.9], cover: [X, Y - 10], tail: [X, Y + ry + 8], spots: [X - 26, Y + 20],
  }; // prettier-ignore
  const legs = legMarks(pen, shape, rx, ry, parts);
  const claws = clawMarks(pen, shape, rx, ry, parts);
  const eyes = [-1, 1]
    .map(
      (s) =>
        limb(pen, `M${X + s * 22} ${Y - ry + 6}L${X + s * 26} ${Y - ry - 8}`, 5) +
        pen.dot(X + s * 26, Y - ry - 10, 7.5),
    )
    .join('');
  const feelers = [-1, 1].map((s) => pen.line(shape.feelers === 'long' ? curve([[X + s * 8, Y - ry + 4], [X + s * 26, Y - ry - 70], [X + s * 78, Y - ry - 92]]) : `M${X + s * 8} ${Y - ry + 4}l${s * 4} -22`, { 'stroke-width': 2.6 })).join(''); // prettier-ignore
  if (shape.feelers === 'long') parts.feelers = [X + 40, Y - ry - 80];
  const fans = shape.fans ? [-1, 1].map((s) => fan(pen, X + s * 16, Y - ry + 6, s)).join('') : '';
  if (shape.fans) parts.fans = [X - 34, Y - ry - 62];
  const tail = shape.tail ? steps(0, 2, 3).map((i) => pen.shape(curve([[X - 46 + i * 6, Y + ry - 10 + i * 17], [X, Y + ry + 22 + i * 17], [X + 46 - i * 6, Y + ry - 10 + i * 17], [X, Y + ry + 4 + i * 15]], true), pen.fill)).join('') : ''; // prettier-ignore
  const texture = textureMarks(pen, shape, body, rx, ry);
  const marks =
    legs +
    tail +
    fans +
    feelers +
    pen.skin(body) +
    texture +
    eyes +
    claws +
    (shape.cover ? coverMarks(pen, rx, ry) : '');
  return { marks, parts, span: rx * 2 };
}

function carapacePath(kind: NonNullable<CrabShape['carapace']>, rx: number, ry: number): string {
  switch (kind) {
    case 'saw': {
      const side = (s: number) => upTo(11).map((i): Point => { const t = i / 10; const y = Y - ry * 0.62 + t * ry * 0.8; return [X + s * (rx * (0.62 + 0.38 * t) + (i % 2 ? 12 : -3)), y]; }); // prettier-ignore
      return corners([[X - 30, Y - ry], [X + 30, Y - ry], ...side(1), [X + rx * 0.5, Y + ry], [X - rx * 0.5, Y + ry], ...side(-1).reverse()]); // prettier-ignore
    }
    case 'wide':
      return curve([[X - 34, Y - ry], [X + 34, Y - ry], [X + rx * 0.86, Y - ry * 0.5], [X + rx, Y], [X + rx * 0.55, Y + ry * 0.92], [X, Y + ry], [X - rx * 0.55, Y + ry * 0.92], [X - rx, Y], [X - rx * 0.86, Y - ry * 0.5]], true); // prettier-ignore
    case 'furrowed':
      return curve([[X - 40, Y - ry], [X - 14, Y - ry - 6], [X, Y - ry + 5], [X + 14, Y - ry - 6], [X + 40, Y - ry], [X + rx, Y - ry * 0.3], [X + rx * 0.9, Y + ry * 0.4], [X + rx * 0.45, Y + ry], [X - rx * 0.45, Y + ry], [X - rx * 0.9, Y + ry * 0.4], [X - rx, Y - ry * 0.3]], true); // prettier-ignore
    case 'round':
    case 'disc':
    case 'high':
      return `M${X - rx} ${Y}C${X - rx} ${Y - ry * 1.3} ${X + rx} ${Y - ry * 1.3} ${X + rx} ${Y}C${X + rx} ${Y + ry * 1.3} ${X - rx} ${Y + ry * 1.3} ${X - rx} ${Y}Z`;
  }
}

function legMarks(pen: Pen, shape: CrabShape, rx: number, ry: number, parts: Parts): string {
  const kind = shape.legs ?? 'normal';
  const angles = kind === 'three-pairs' ? [-6, 20, 46] : [-10, 12, 34, 56];
  const wide = { normal: 12, flat: 19, spindly: 5, 'three-pairs': 11, paddles: 11 }[kind];
  return [-1, 1]
    .flatMap((s) =>
      angles.map((angle, i) => {
        const turn = s < 0 ? 180 - angle : angle;
        const from: Point = [X + s * rx * 0.7, Y + (i - 1) * ry * 0.3];
        const knee = polar(from[0], from[1], 66, turn - s * 14);
        const last = i === angles.length - 1;
        const end = polar(knee[0], knee[1], kind === 'spindly' ? 66 : 48, turn + s * 40);
        if (last && s > 0) parts['last-legs'] = end;
        if (i === 1 && s > 0) parts.legs = knee;
        const leg = limb(pen, curve([from, knee]), wide) + limb(pen, curve([knee, end]), wide * 0.66);
        const paddle = kind === 'paddles' && last ? pen.oval(end[0], end[1], 30, 17, pen.fill, { transform: `rotate(${turn + s * 40} ${end[0]} ${end[1]})` }) : ''; // prettier-ignore
        const ring = shape.legRings
          ? pen.line(`M${knee[0] - 7} ${knee[1] - 7}l14 14`, { stroke: shape.legRings, 'stroke-width': 8 })
          : '';
        const hairy = shape.hairyLegs || shape.hair === 'thick' || shape.hair === 'fuzz';
        return (hairy ? hairOn(pen, from, knee, end, shape.hair === 'thick' ? 13 : 9) : '') + leg + paddle + ring;
      }),
    )
    .join('');
}

function hairOn(pen: Pen, from: Point, knee: Point, end: Point, length: number): string {
  const lines = (
    [
      [from, knee],
      [knee, end],
    ] as const
  ).flatMap(([a, b]) => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const size = Math.hypot(dx, dy) || 1;
    return steps(0.15, 1, 8).flatMap((s) => [-1, 1].map((side) => { const at: Point = [a[0] + dx * s, a[1] + dy * s]; return curve([at, [at[0] + (-dy / size) * (length + 6) * side + dx * 0.05, at[1] + (dx / size) * (length + 6) * side + dy * 0.05]]); })); // prettier-ignore
  });
  return pen.line(lines.join(''), { 'stroke-width': 1.8 });
}

function clawMarks(pen: Pen, shape: CrabShape, rx: number, ry: number, parts: Parts): string {
  const kind = shape.claws ?? 'pointed';
  if (kind === 'mask') {
    parts.claws = [X - 50, Y - 20];
    return [-1, 1].map((s) => pen.shape(curve([[X + s * 4, Y - 56], [X + s * 50, Y - 72], [X + s * 96, Y - 50], [X + s * 98, Y + 14], [X + s * 56, Y + 36], [X + s * 4, Y + 24]], true), pen.fill) + pen.line(steps(-58, -20, 4).map((d) => `M${X + s * (24 + (d + 58))} ${Y - 66}l${s * 3} -14`).join(''), { 'stroke-width': 7 })).join(''); // prettier-ignore
  }
  const small = kind === 'slim' || kind === 'poms';
  const size = small ? 0.6 : 1;
  const tip = shape.tipFill ?? pen.fill;
  const drawn = [-1, 1].map((s) => {
    const elbow: Point = [X + s * (rx + 34), Y - ry * 0.66];
    const hand: Point = [X + s * (rx + 14), Y - ry - 22 * size];
    const arm = limb(pen, curve([[X + s * rx * 0.66, Y - ry * 0.5], elbow, hand]), 17 * size);
    const palm = pen.oval(hand[0] - s * 4, hand[1], 36 * size, 27 * size, pen.fill, {
      transform: `rotate(${s * 34} ${hand[0]} ${hand[1]})`,
    });
    const [fx, fy] = [hand[0] - s * 20 * size, hand[1] - 22 * size];
    const wide = kind === 'flat' ? 13 : 9;
    const upper = pen.shape(curve([[fx + s * 30 * size, fy - wide * size], [fx - s * 2, fy - 40 * size], [fx - s * 18 * size, fy - 44 * size], [fx - s * 4, fy - 18 * size], [fx + s * 8, fy + 4]], true), pen.fill); // prettier-ignore
    const lower = pen.shape(curve([[fx + s * 8, fy + 12], [fx - s * 22 * size, fy - 2], [fx - s * 34 * size, fy - 24 * size], [fx - s * 36 * size, fy + 2], [fx - s * 16 * size, fy + 26 * size]], true), pen.fill); // prettier-ignore
    const [ux, uy] = [fx - s * 12 * size, fy - 38 * size];
    const [lx, ly] = [fx - s * 35 * size, fy - 16 * size];
    const ends = kind === 'spoon'
      ? pen.oval(ux, uy, 11, 9, tip, { 'stroke-width': 2.6 }) + pen.oval(lx, ly, 9, 11, tip, { 'stroke-width': 2.6 })
      : shape.tipFill ? pen.shape(`M${ux - s * 12} ${uy - 9}L${ux + s * 10} ${uy - 2}L${ux + s * 4} ${uy + 14}L${ux - s * 4} ${uy + 8}Z`, tip) + pen.shape(`M${lx + s * 1} ${ly - 15}L${lx + s * 12} ${ly + 10}L${lx - s * 4} ${ly + 12}Z`, tip) : ''; // prettier-ignore
    const tuft = kind === 'poms' ? steps(-160, -20, 9).map((a) => limb(pen, curve([[fx - s * 20, fy - 12], polar(fx - s * 20, fy - 14, 34, a)]), 4, '#f6ead2')).join('') + pen.oval(fx - s * 20, fy - 8, 13, 10, '#f6ead2') : ''; // prettier-ignore
    if (s < 0) {
      parts.claws = kind === 'poms' ? [fx + 20, fy - 34] : [hand[0], hand[1]];
      parts['claw-tips'] = [ux, uy - 4];
    }
    const hair = shape.hair === 'thick' ? pen.line(steps(0, 340, 15).map((a) => curve([polar(hand[0], hand[1], 28, a), polar(hand[0], hand[1], 46, a)])).join(''), { 'stroke-width': 1.8 }) : ''; // prettier-ignore
    return hair + arm + upper + lower + palm + ends + tuft;
  });
  return drawn.join('');
}

function fan(pen: Pen, x: number, y: number, s: number): string {
  return steps(-150, -70, 8).map((angle) => { const a = s < 0 ? angle : -180 - angle; const tip = polar(x, y, 88, a); const barbs = [0.5, 0.75, 1].map((k) => { const at: Point = [x + (tip[0] - x) * k, y + (tip[1] - y) * k]; return curve([at, polar(at[0], at[1], 10, a - 35)]); }).join(''); return (
        pen.line(curve([[x, y], tip]) + barbs, { 'stroke-width': 6, stroke: '#fffaf0' }) +
        pen.line(curve([[x, y], tip]) + barbs, { 'stroke-width': 2.2 })
      ); }).join(''); // prettier-ignore
}

function textureMarks(pen: Pen, shape: CrabShape, body: string, rx: number, ry: number): string {
  const places = strewn(90, X - rx * 0.75, Y - ry * 0.5, rx * 1.5, ry * 1.3);
  const at = (i: number): Point => places[i % places.length] ?? [X, Y];
  const rough = shape.rough ? upTo(18).map((i) => pen.oval(...at(i), 6.5, 5, pen.fill, { 'stroke-width': 1.8, stroke: pen.detail })).join('') : ''; // prettier-ignore
  const gloss = shape.gloss ? pen.line(curve([[X - rx * 0.55, Y - ry * 0.3], [X - rx * 0.2, Y - ry * 0.58], [X + rx * 0.2, Y - ry * 0.58]]), { stroke: '#ffffff', 'stroke-width': 9 }) : ''; // prettier-ignore
  const grooves = shape.carapace === 'furrowed' ? pen.line(`M${X - 50} ${Y + 6}q26 -20 50 0q26 -20 50 0M${X - 22} ${Y + 30}q22 12 44 0`, { stroke: pen.detail, 'stroke-width': 2.4 }) : ''; // prettier-ignore
  if (!shape.hair || shape.hair === 'none') return rough + grooves + gloss;
  const count = { patches: 26, thick: 80, fuzz: 70 }[shape.hair];
  const long = shape.hair === 'fuzz' ? 9 : 17;
  const hairs = upTo(count).map((i) => { const [x, y] = at(i); return `M${x} ${y}l${((i % 5) - 2) * 2} ${long}`; }).join(''); // prettier-ignore
  const rim = shape.hair === 'patches' ? '' : pen.line(steps(0, 350, 40).map((a) => { const [c, d] = [Math.cos((a * Math.PI) / 180), Math.sin((a * Math.PI) / 180)]; return curve([[X + c * rx * 0.95, Y + d * ry * 0.95], [X + c * (rx + long), Y + d * (ry + long)]]); }).join(''), { 'stroke-width': 1.8 }); // prettier-ignore
  return rim + rough + pen.inside(body, pen.line(hairs, { 'stroke-width': 1.8, stroke: pen.detail }));
}

function coverMarks(pen: Pen, rx: number, ry: number): string {
  const tufts = ([[-0.5, -0.3, FILLS.green], [0.3, -0.5, FILLS.orange], [0.6, 0.2, FILLS.green], [-0.2, 0.4, FILLS.red], [-0.7, 0.4, FILLS.yellow], [0.1, 0, FILLS.pink]] as const); // prettier-ignore
  return tufts.map(([s, t, fill], i) => { const [x, y] = [X + s * rx, Y + t * ry]; return i % 2 ? pen.shape(curve(upTo(7).map((k) => polar(x, y, k % 2 ? 25 : 17, k * 51)), true), fill) : steps(-150, -30, 6).map((a) => limb(pen, curve([[x, y], polar(x, y, 32, a)]), 4, fill)).join(''); }).join(''); // prettier-ignore
}

export type HermitShape = {
  legs: 'smooth' | 'banded' | 'hairy';
  bandFill?: string;
  legFill?: string;
  heavyClaw?: boolean;
  shellFill?: string;
};

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
      (shape.legs === 'hairy' ? hairOn(pen, from, knee, end, 12) : '') +
      limb(pen, curve([from, knee, end]), 14, legFill) +
      bands
    );
  });
  const big = shape.heavyClaw ? 1.5 : 0.9;
  const claw = limb(pen, curve([[184, 176], [142, 192], [116, 176]]), 15 * big * 0.8, legFill) + pen.shape(curve([[128, 186], [100 - 16 * big, 190 + 14 * big], [64 - 20 * big, 172], [84 - 8 * big, 168], [58 - 16 * big, 152 - 6 * big], [104, 146 - 8 * big], [130, 164]], true), legFill) + (shape.legs === 'hairy' ? pen.line(steps(0, 330, 12).map((a) => curve([polar(98, 168, 26 * big, a), polar(98, 168, 26 * big + 15, a)])).join(''), { 'stroke-width': 1.8 }) : ''); // prettier-ignore
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
