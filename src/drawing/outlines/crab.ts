// Crabs from above and in front: the carapace, the claws and their tips, hair, fans and paddles.
import { corners, curve } from '../curve.ts';
import { FILLS } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { polar, steps, strewn, upTo, type Point } from '../svg.ts';
import { hairOn, shaggyLimb, shaggyRound, tufts } from './crab-hair.ts';

export type CrabShape = {
  carapace?: 'wide' | 'round' | 'small' | 'disc' | 'saw' | 'high' | 'furrowed';
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
  const [rx, ry] = { wide: [92, 62], round: [76, 68], disc: [80, 78], small: [62, 54], saw: [110, 56], high: [86, 78], furrowed: [84, 62] }[carapace] as [number, number]; // prettier-ignore
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
  const feelers = [-1, 1].map((s) => pen.line(shape.feelers === 'long' ? curve([[X + s * 8, Y - ry + 4], [X + s * 70, Y - ry - 40], [X + s * 176, Y - ry + 4]]) : `M${X + s * 8} ${Y - ry + 4}l${s * 4} -22`, { 'stroke-width': 2.6 })).join(''); // prettier-ignore
  if (shape.feelers === 'long') parts.feelers = [X + 150, Y - ry - 12];
  const fans = shape.fans ? [-1, 1].map((s) => fan(pen, X + s * 26, Y - ry + 4, s)).join('') : '';
  if (shape.fans) parts.fans = [X - 52, Y - ry - 58];
  const tail = shape.tail ? steps(0, 2, 3).map((i) => pen.shape(curve([[X - 46 + i * 6, Y + ry - 10 + i * 17], [X, Y + ry + 22 + i * 17], [X + 46 - i * 6, Y + ry - 10 + i * 17], [X, Y + ry + 4 + i * 15]], true), pen.fill)).join('') : ''; // prettier-ignore
  if (shape.hair === 'patches') parts.bristles = [X - rx * 0.4, Y + ry * 0.4 + 14];
  const texture = textureMarks(pen, shape, body, rx, ry);
  const marks =
    legs +
    tail +
    fans +
    feelers +
    (shape.hair === 'thick' ? shaggyRound(pen, [X, Y], rx * 0.96, ry * 0.96, 21, 11) : pen.skin(body)) +
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
    case 'furrowed': {
      const side = (s: number): Point[] => [[X + s * 34, Y - ry - 2], [X + s * 52, Y - ry + 12], [X + s * 60, Y - ry * 0.66], [X + s * 74, Y - ry * 0.56], [X + s * 76, Y - ry * 0.3], [X + s * 90, Y - ry * 0.18], [X + s * 88, Y + ry * 0.16], [X + s * 80, Y + ry * 0.6], [X + s * 44, Y + ry * 1.02]]; // prettier-ignore
      return curve(
        [[X, Y - ry + 2], [X + 14, Y - ry - 8], ...side(1), ...side(-1).reverse(), [X - 14, Y - ry - 8]],
        true,
      );
    }
    case 'round':
    case 'small':
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
        if (shape.hair === 'thick') return shaggyLimb(pen, [from, knee], 10, 13, i + 3) + limb(pen, curve([polar(end[0], end[1], 12, turn + s * 40 + 180), polar(end[0], end[1], 12, turn + s * 40)]), 4, '#2f2b29') + shaggyLimb(pen, [knee, end], 7, 12, i + 9); // prettier-ignore
        return (shape.hairyLegs ? hairOn(pen, from, knee, end, 9) : '') + leg + paddle + ring;
      }),
    )
    .join('');
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
    if (kind === 'flat') return flatClaw(pen, s, rx, ry, parts);
    const arm = limb(pen, curve([[X + s * rx * 0.66, Y - ry * 0.5], elbow, hand]), 17 * size);
    const palm = pen.oval(hand[0] - s * 4, hand[1], 36 * size, 27 * size, pen.fill, {
      transform: `rotate(${s * 34} ${hand[0]} ${hand[1]})`,
    });
    const [fx, fy] = [hand[0] - s * 20 * size, hand[1] - 22 * size];
    const wide = 9;
    const upper = pen.shape(curve([[fx + s * 30 * size, fy - wide * size], [fx - s * 2, fy - 40 * size], [fx - s * 18 * size, fy - 44 * size], [fx - s * 4, fy - 18 * size], [fx + s * 8, fy + 4]], true), pen.fill); // prettier-ignore
    const lower = pen.shape(curve([[fx + s * 8, fy + 12], [fx - s * 22 * size, fy - 2], [fx - s * 34 * size, fy - 24 * size], [fx - s * 36 * size, fy + 2], [fx - s * 16 * size, fy + 26 * size]], true), pen.fill); // prettier-ignore
    const [ux, uy] = [fx - s * 12 * size, fy - 38 * size];
    const [lx, ly] = [fx - s * 35 * size, fy - 16 * size];
    const spoon = (cx: number, cy: number, turn: number) => pen.oval(cx, cy, 19, 12, tip, { 'stroke-width': 3, transform: `rotate(${turn} ${cx} ${cy})` }) + pen.oval(cx, cy, 10, 5, '#cfc4a4', { 'stroke-width': 1.8, transform: `rotate(${turn} ${cx} ${cy})` }); // prettier-ignore
    const ends = kind === 'spoon'
      ? spoon(ux, uy - 4, s * 36) + spoon(lx - s * 3, ly - 4, s * 84)
      : shape.tipFill ? pen.shape(`M${ux - s * 12} ${uy - 9}L${ux + s * 10} ${uy - 2}L${ux + s * 4} ${uy + 14}L${ux - s * 4} ${uy + 8}Z`, tip) + pen.shape(`M${lx + s * 1} ${ly - 15}L${lx + s * 12} ${ly + 10}L${lx - s * 4} ${ly + 12}Z`, tip) : ''; // prettier-ignore
    const tuft = kind === 'poms' ? steps(-160, -20, 9).map((a) => limb(pen, curve([[fx - s * 20, fy - 12], polar(fx - s * 20, fy - 14, 34, a)]), 4, '#f6ead2')).join('') + pen.oval(fx - s * 20, fy - 8, 13, 10, '#f6ead2') : ''; // prettier-ignore
    if (s < 0) {
      parts.claws = kind === 'poms' ? [fx + 20, fy - 34] : [hand[0], hand[1]];
      parts['claw-tips'] = [ux, uy - 4];
    }
    if (shape.hair === 'thick') return upper + lower + ends + shaggyLimb(pen, [[X + s * rx * 0.66, Y - ry * 0.5], elbow, hand], 12, 14, 5) + shaggyRound(pen, [hand[0] + s * 2, hand[1] + 3], 31, 25, 15, 7); // prettier-ignore
    return arm + upper + lower + palm + ends + tuft;
  });
  return drawn.join('');
}

/** A claw as flat and broad as a shovel, held low beside the body. */
function flatClaw(pen: Pen, s: number, rx: number, ry: number, parts: Parts): string {
  const [x, y]: Point = [X + s * (rx + 34), Y - ry * 0.5];
  const palm = pen.skin(curve([[x - s * 30, y + 30], [x + s * 12, y + 34], [x + s * 38, y], [x + s * 40, y - 46], [x + s * 30, y - 66], [x + s * 16, y - 40], [x + s * 8, y - 62], [x - s * 6, y - 56], [x - s * 22, y - 14]], true)); // prettier-ignore
  const hinge = pen.line(
    curve([
      [x + s * 16, y - 40],
      [x + s * 10, y - 18],
    ]),
    { 'stroke-width': 2.6 },
  );
  if (s < 0) {
    parts.claws = [x - 16, y];
    parts['claw-tips'] = [x - 30, y - 58];
  }
  return (
    limb(
      pen,
      curve([
        [X + s * rx * 0.7, Y - ry * 0.2],
        [x - s * 10, y + 20],
      ]),
      17,
    ) +
    palm +
    hinge
  );
}

/** A mouth fan on a bent limb: few long rays with a fringe, swept up and outwards so that both can be told apart. */
function fan(pen: Pen, x: number, y: number, s: number): string {
  const wrist: Point = [x + s * 8, y - 34];
  const rays = steps(-124, -66, 5).map((angle, i) => {
    const turn = s < 0 ? angle : -180 - angle;
    const tip = polar(wrist[0], wrist[1], 50 + (i === 2 ? 6 : 0), turn);
    const barbs = [0.4, 0.6, 0.8, 1].flatMap((k) => [-46, 46].map((lean) => { const at: Point = [wrist[0] + (tip[0] - wrist[0]) * k, wrist[1] + (tip[1] - wrist[1]) * k]; return curve([at, polar(at[0], at[1], 9, turn + lean)]); })).join(''); // prettier-ignore
    return pen.line(barbs, { 'stroke-width': 1.8 }) + pen.line(curve([wrist, tip]), { 'stroke-width': 3 });
  });
  return limb(pen, curve([[x, y], [x + s * 14, y - 16], wrist]), 7) + rays.join('');
}

function textureMarks(pen: Pen, shape: CrabShape, body: string, rx: number, ry: number): string {
  const places = strewn(90, X - rx * 0.75, Y - ry * 0.5, rx * 1.5, ry * 1.3);
  const at = (i: number): Point => places[i % places.length] ?? [X, Y];
  const fuzzy = shape.hair === 'fuzz';
  // A crab with hair in patches has a few warts along its front only, so that the tufts can be seen.
  const warts = shape.hair === 'patches' ? [[-0.24, -0.5], [0.24, -0.5], [0, -0.3], [-0.2, 0], [0.2, 0]].map(([sx = 0, sy = 0]): Point => [X + sx * rx, Y + sy * ry]) : upTo(18).map(at); // prettier-ignore
  const rough = shape.rough ? warts.map((spot) => pen.oval(...spot, fuzzy ? 11 : 6.5, fuzzy ? 9 : 5, pen.fill, { 'stroke-width': 1.8, stroke: pen.detail })).join('') : ''; // prettier-ignore
  const gloss = shape.gloss ? pen.line(curve([[X - rx * 0.55, Y - ry * 0.3], [X - rx * 0.2, Y - ry * 0.58], [X + rx * 0.2, Y - ry * 0.58]]), { stroke: '#ffffff', 'stroke-width': 9 }) : ''; // prettier-ignore
  const grooves = shape.carapace === 'furrowed' ? pen.line([-1, 1].map((s) => `M${X + s * 22} ${Y - ry + 12}L${X + s * 16} ${Y + ry - 16}` + [-22, -2, 18, 36].map((d, i) => `M${X + s * (rx - 7 - (i > 2 ? 8 : 0))} ${Y + d}l${-s * 30} ${10 - i * 5}`).join('')).join('') + `M${X - 18} ${Y + 12}H${X + 18}`, { stroke: pen.detail, 'stroke-width': 3 }) : ''; // prettier-ignore
  if (!shape.hair || shape.hair === 'none') return rough + grooves + gloss;
  if (shape.hair === 'thick') return '';
  if (shape.hair === 'patches') return rough + tufts(pen, [[X - rx * 0.72, Y], [X + rx * 0.72, Y], [X - rx * 0.4, Y + ry * 0.4], [X + rx * 0.4, Y + ry * 0.4]], 24); // prettier-ignore
  const long = 8;
  const hairs = upTo(24).map((i) => { const [x, y] = at(i); return `M${x} ${y}l${((i % 5) - 2) * 2} ${long}`; }).join(''); // prettier-ignore
  const rim = pen.line(steps(0, 350, 40).map((a) => { const [c, d] = [Math.cos((a * Math.PI) / 180), Math.sin((a * Math.PI) / 180)]; return curve([[X + c * rx * 0.95, Y + d * ry * 0.95], [X + c * (rx + long), Y + d * (ry + long)]]); }).join(''), { 'stroke-width': 1.8 }); // prettier-ignore
  return rim + rough + pen.inside(body, pen.line(hairs, { 'stroke-width': 1.8, stroke: pen.detail }));
}

function coverMarks(pen: Pen, rx: number, ry: number): string {
  const tufts = ([[-0.5, -0.3, FILLS.green], [0.3, -0.5, FILLS.orange], [0.6, 0.2, FILLS.green], [-0.2, 0.4, FILLS.red], [-0.7, 0.4, FILLS.yellow], [0.1, 0, FILLS.pink]] as const); // prettier-ignore
  return tufts.map(([s, t, fill], i) => { const [x, y] = [X + s * rx, Y + t * ry]; return i % 2 ? pen.shape(curve(upTo(7).map((k) => polar(x, y, k % 2 ? 25 : 17, k * 51)), true), fill) : steps(-150, -30, 6).map((a) => limb(pen, curve([[x, y], polar(x, y, 32, a)]), 4, fill)).join(''); }).join(''); // prettier-ignore
}
