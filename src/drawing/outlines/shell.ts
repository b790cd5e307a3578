// Coiled shells with the right mouth: a round door, an oval, a slit along the side, or a canal.
import { corners, curve } from '../curve.ts';
import { FILLS, INK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { steps, upTo, type Point } from '../svg.ts';
import { PROFILES, type Profile, type ShellProfile } from './shell-profiles.ts';

export type ShellMouth = 'round-door' | 'round-hole' | 'oval' | 'slit' | 'canal' | 'half-moon' | 'toothed';

export type ShellShape = {
  profile: ShellProfile;
  mouth: ShellMouth;
  relief?: 'smooth' | 'ribs' | 'beads' | 'knobs' | 'spines' | 'keels' | 'checks' | 'bands' | 'zigzag';
  /** The soft animal below: a plain foot with feelers, a trunk, or eyes on stalks. */
  soft?: 'none' | 'feelers' | 'trunk' | 'stalked-eyes';
  mouthFill?: string;
  /** Draws the lid beside the shell: a domed disc or a pointed cone. */
  lid?: 'disc' | 'pointed' | 'claw';
  /** Draws the coil from below with a wide open hole. */
  below?: boolean;
};

const X = 200;

export function drawShell(pen: Pen, shape: ShellShape): Sketch {
  const profile = PROFILES[shape.profile];
  const shift = shape.lid || shape.below ? -46 : 0;
  const tall = profile.bottom - profile.top;
  const y = (t: number) => profile.top + tall * t;
  const seams = seamsOf(profile);
  const outline = sideLine(profile, seams);
  const mouth = mouthMarks(pen, shape, profile);
  const parts: Parts & { body: Point } = {
    body: [X - profile.half * 0.3, y(1 - profile.last * 0.6)], shell: [X - profile.half * 0.4, y(1 - profile.last * 0.6)], surface: [X - profile.half * 0.45, y(1 - profile.last * 0.7)],
    pattern: [X - profile.half * 0.4, y(1 - profile.last * 0.75)], top: [X, y(0.03)], mouth: mouth.at, lid: mouth.at, lip: [mouth.at[0] + 14, mouth.at[1]],
    side: [X - profile.half * profile.side(0.6) + 3, y(0.6)], edge: [X - profile.half * 0.5, y(0.9)], base: [X, y(1)], skin: [X - profile.half * 0.4, y(0.6)], knobs: [X - profile.half * 0.5, y(1 - profile.last * 0.8)],
  }; // prettier-ignore
  const soft = softMarks(pen, shape, profile, parts);
  const canal = shape.mouth === 'canal' ? pen.shape(corners([[X - 8, y(0.86)], [X + 4, y(1) + 14], [X + 20, y(1) + 12], [X + 26, y(0.84)]]), pen.fill) : ''; // prettier-ignore
  const spines = shape.relief === 'spines' ? spineMarks(pen, profile, seams) : '';
  const inner = pen.inside(outline, relief(pen, shape, profile, seams));
  const body =
    soft + canal + spines + pen.skin(outline) + inner + pen.line(outline, { 'stroke-width': 3.5 }) + mouth.marks;
  const aside = lidMarks(pen, shape, parts) + (shape.below ? belowMarks(pen, parts) : '');
  const moved = shift ? `<g transform="translate(${shift} 0)">${body}</g>` : body;
  const beside = new Set<string>([...(shape.below ? ['hole'] : []), ...(shape.lid ? ['lid'] : [])]);
  if (shift)
    for (const key of Object.keys(parts) as (keyof Parts)[])
      if (!beside.has(key)) parts[key] = shifted(parts[key], shift);
  return { marks: moved + aside, parts: { ...parts, body: parts.body }, span: Math.max(tall, profile.half * 2) };
}

const shifted = (point: Point | undefined, by: number): Point => [(point?.[0] ?? X) + by, point?.[1] ?? 0];

/** The heights of the seams between turns, closer together towards the tip. */
function seamsOf(profile: Profile): number[] {
  const spire = 1 - profile.last;
  const share = 0.72;
  const sizes = upTo(profile.whorls).map((i) => share ** (profile.whorls - 1 - i));
  const total = sizes.reduce((sum, size) => sum + size, 0);
  let t = 0;
  return [0, ...sizes.map((size) => (t += (size / total) * spire))];
}

function sideLine(profile: Profile, seams: readonly number[]): string {
  const tall = profile.bottom - profile.top;
  const heights = [...seams.flatMap((seam, i) => [{ t: seam, out: -1 }, { t: (seam + (seams[i + 1] ?? seam)) / 2, out: 1 }]), ...steps(seams.at(-1) ?? 0.4, 1, 9).slice(1).map((t) => ({ t, out: 0 }))]; // prettier-ignore
  const wide = heights.map(({ t, out }) => ({ t, w: profile.half * profile.side(t) * (1 + profile.bulge * out) }));
  const left = wide.map(({ t, w }): Point => [X - w, profile.top + tall * t]);
  const right = wide.map(({ t, w }): Point => [X + w, profile.top + tall * t]).reverse();
  return profile.sharp ? corners([...left, ...right]) : curve([...left, ...right], true);
}

function relief(pen: Pen, shape: ShellShape, profile: Profile, seams: readonly number[]): string {
  const tall = profile.bottom - profile.top;
  const y = (t: number) => profile.top + tall * t;
  const arc = (t: number, from = -1, to = 1): string => {
    const w = profile.half * profile.side(t);
    return curve([[X + w * from, y(t) - 5], [X + (w * (from + to)) / 2, y(t) + 7], [X + w * to, y(t) - 1]]); // prettier-ignore
  };
  const seamLines = pen.line(seams.slice(1).map((seam) => arc(seam)).join(''), { stroke: pen.detail, 'stroke-width': 2.4 }); // prettier-ignore
  const turns = [...seams.slice(1), 1 - profile.last * 0.55, 1 - profile.last * 0.25];
  const rows = turns.map((t, i) => ({
    t: (t + (seams[i] ?? turns[i - 1] ?? 0)) / 2,
    w: profile.half * profile.side(t),
  }));
  const light = { stroke: pen.detail, 'stroke-width': 1.8 };
  const across = (count: number, draw: (x: number, t: number, i: number) => string) =>
    rows.flatMap(({ t, w }, row) => steps(-0.84, 0.84, Math.max(3, Math.round((w / profile.half) * count))).map((s, i) => draw(X + s * w, t + (1 - s * s) * 0.02, i + row))).join(''); // prettier-ignore
  switch (shape.relief ?? 'smooth') {
    case 'smooth':
      return seamLines;
    case 'ribs':
      return seamLines + pen.line(seams.slice(1).concat(1 - profile.last * 0.1).map((t, i) => { const from = seams[i] ?? 0;
            if (profile.half * profile.side(t) < 14) return ''; return steps(-0.9, 0.9, 9).map((s) => curve([[X + s * profile.half * profile.side(from), y(from)], [X + s * 1.05 * profile.half * profile.side((from + t) / 2), y((from + t) / 2)], [X + s * profile.half * profile.side(t), y(t)]])).join(''); }).join(''), { stroke: pen.detail, 'stroke-width': 3 }); // prettier-ignore
    case 'beads':
      return seamLines + across(9, (x, t) => pen.dot(x, y(t), 4, pen.second, { stroke: INK, 'stroke-width': 1.2 }));
    case 'knobs':
      return seamLines + across(5, (x, t) => pen.oval(x, y(t), 10, 8, pen.second, { 'stroke-width': 2 }));
    case 'spines':
      return seamLines + pen.line([...seams.slice(1), 0.75].map((t) => arc(t + 0.04)).join(''), light);
    case 'keels':
      return seamLines + pen.line(steps(0.2, 0.86, 9).map((t) => arc(t)).join(''), light); // prettier-ignore
    case 'bands':
      return pen.line(steps(0.2, 0.9, 5).map((t) => arc(t)).join(''), { stroke: pen.second, 'stroke-width': 15, 'stroke-linecap': 'butt' }) + seamLines; // prettier-ignore
    case 'checks':
      return seamLines + across(13, (x, t, i) => (i % 2 ? `<rect x="${Math.round(x - 8)}" y="${Math.round(y(t) - 6)}" width="16" height="12" fill="${FILLS.black}"/>` : '')); // prettier-ignore
    case 'zigzag':
      return seamLines + pen.line(steps(-0.75, 0.75, 6).map((s) => curve(steps(0.12, 0.95, 12).map((t, i): Point => [X + s * profile.half * profile.side(t) + (i % 2 ? 7 : -7), y(t)]))).join(''), { stroke: pen.second, 'stroke-width': 4 }); // prettier-ignore
  }
}

function mouthMarks(pen: Pen, shape: ShellShape, profile: Profile): { marks: string; at: Point } {
  const tall = profile.bottom - profile.top;
  const y = (t: number) => profile.top + tall * t;
  const dark = shape.mouthFill ?? '#5a463b';
  const half = profile.half;
  switch (shape.mouth) {
    case 'slit': {
      const start = profile.last > 0.8 ? 1 - profile.last + 0.03 : 0.3;
      const right = steps(start, 0.99, 6).map((t): Point => [X + half * profile.side(t) * 0.98 - 3, y(t)]);
      const left = steps(start, 0.99, 6).map((t, i): Point => [X + half * profile.side(t) * 0.98 - 10 - (i > 3 ? 4 : 2) - half * 0.06, y(t)]).reverse(); // prettier-ignore
      const at: Point = [X + half * profile.side(0.55) * 0.98 - 9, y(0.55)];
      return { marks: pen.shape(corners([...right, ...left]), dark, { 'stroke-width': 2.4 }), at };
    }
    case 'round-door':
    case 'round-hole': {
      const r = Math.min(46, Math.max(20, half * 0.44));
      const at: Point = [X + half * 0.3, y(1) - r * 0.95];
      const rim = pen.oval(at[0], at[1], r + 7, r + 6, pen.fill);
      if (shape.mouth === 'round-hole') return { marks: rim + pen.oval(at[0], at[1], r, r, dark), at };
      const coil = `M${at[0]} ${at[1]}m0 4c-9 0 -12 -14 0 -14c16 0 18 24 0 25c-24 1 -27 -36 0 -36`;
      return { marks: rim + pen.oval(at[0], at[1], r, r, '#d8c49a') + pen.line(coil, { 'stroke-width': 2.6 }), at };
    }
    case 'oval':
    case 'toothed':
      return lippedMouth(pen, profile, dark, shape.mouth === 'toothed');
    case 'canal': {
      const at: Point = [X + half * 0.34, y(0.68)];
      const d = `M${X + half * 0.42} ${y(0.46)}C${X + half * 0.9} ${y(0.52)} ${X + half * 0.66} ${y(0.82)} ${X + 18} ${y(1) + 10}L${X + 7} ${y(1) + 10}C${X + 8} ${y(0.84)} ${X - half * 0.1} ${y(0.7)} ${X + half * 0.42} ${y(0.46)}Z`;
      return { marks: pen.shape(d, dark, { 'stroke-width': 2.6 }), at };
    }
    case 'half-moon': {
      const at: Point = [X + half * 0.16, y(0.78)];
      const d = `M${X - half * 0.36} ${y(0.6)}L${X + half * 0.42} ${y(0.94)}C${X + half * 0.94} ${y(0.7)} ${X + half * 0.4} ${y(0.42)} ${X - half * 0.36} ${y(0.6)}Z`;
      return { marks: pen.shape(d, dark, { 'stroke-width': 3 }), at };
    }
  }
}

/** A mouth whose outer lip is the side of the last turn itself, a little flared. */
function lippedMouth(pen: Pen, profile: Profile, dark: string, toothed: boolean): { marks: string; at: Point } {
  const { top, bottom, half, last, side } = profile;
  const [from, to] = [1 - last * 0.66, 0.99];
  const rim = Math.max(6, half * 0.09);
  const place = (u: number) => {
    const t = from + (to - from) * u;
    return { y: top + (bottom - top) * t, out: X + half * side(t) + Math.sin(u * Math.PI) * rim * 0.9 };
  };
  // The inner edge runs from the seam down the pillar to the foot of the shell.
  const pillar = (u: number) => X + half * (0.02 + 0.12 * (1 - u) + 0.5 * Math.max(0, 1 - u * 2.6) ** 2);
  const edge = (pad: number, a: number, b: number): string => {
    const us = steps(a, b, 9);
    const outer = us.map((u): Point => [place(u).out - pad, place(u).y]);
    const inner = us.slice(1, -1).map((u): Point => {
      const full = Math.sin((Math.PI * (u - a)) / (b - a)) ** 0.45;
      const [near, far] = [place(u).out - pad, pillar(u) + pad * 0.7];
      return [near - Math.max(4, near - far) * full, place(u).y];
    });
    return curve([...outer, ...inner.reverse()], true);
  };
  const teeth = steps(0.36, 0.78, 5).map((u) => `M${place(u).out - rim * 0.9} ${place(u).y}l${-rim * 1.1} 1`).join(''); // prettier-ignore
  const middle = place(0.56);
  return {
    marks: pen.shape(edge(0, 0, 1), pen.fill, { 'stroke-width': 3 }) + pen.shape(edge(rim, 0.13, 0.95), dark, { 'stroke-width': 2.2 }) + (toothed ? pen.line(teeth, { 'stroke-width': 7 }) + pen.line(teeth, { stroke: '#ffffff', 'stroke-width': 4 }) : ''),
    at: [(pillar(0.56) + middle.out) / 2, middle.y],
  }; // prettier-ignore
}

function softMarks(pen: Pen, shape: ShellShape, profile: Profile, parts: Parts): string {
  const kind = shape.soft ?? 'none';
  if (kind === 'none') return '';
  const y = Math.min(292, profile.bottom + 4);
  const left = X - Math.max(72, profile.half * 0.9);
  const flesh = '#e9d2b0';
  const foot = pen.shape(curve([[left, y], [X, y - 16], [X + 84, y - 2], [X + 96, y + 12], [X, y + 16], [left + 6, y + 14]], true), flesh); // prettier-ignore
  parts.foot = [X + 78, y + 6];
  parts.feelers = [left - 24, y - 18];
  parts.eyes = [left, y - 4];
  parts.trunk = [left - 30, y - 24];
  if (kind === 'trunk') {
    parts.head = [left, y];
    return limb(pen, curve([[left + 10, y], [left - 22, y - 8], [left - 40, y - 46]]), 9, flesh) + limb(pen, `M${left + 12} ${y - 2}l-14 -26`, 3, flesh) + foot + pen.dot(left + 5, y - 16, 3); // prettier-ignore
  }
  const stalks = kind === 'stalked-eyes';
  const feelers = [-10, 12].map((dx) => limb(pen, curve([[left + 14, y + 2], [left + dx - 10, y - 22], [left + dx - 18, y - 50]]), stalks ? 6 : 3, flesh)); // prettier-ignore
  const eyes = stalks ? [-10, 12].map((dx) => pen.dot(left + dx - 18, y - 52, 9.5, '#ffffff', { stroke: INK, 'stroke-width': 2.5 }) + pen.dot(left + dx - 18, y - 52, 4.6)).join('') : ''; // prettier-ignore
  if (stalks) parts.eyes = [left - 28, y - 52];
  return feelers.join('') + eyes + foot + (stalks ? '' : pen.dot(left + 2, y - 6, 3));
}

function lidMarks(pen: Pen, shape: ShellShape, parts: Parts): string {
  if (!shape.lid) return '';
  const [x, y]: Point = [340, 236];
  parts.lid = [x, y];
  const fill = '#c9a878';
  if (shape.lid === 'disc') return pen.oval(x, y, 32, 30, fill) + pen.line(`M${x} ${y}m0 3c-7 0 -9 -11 0 -11c12 0 14 19 0 20c-19 1 -21 -29 0 -29`, { 'stroke-width': 2 }); // prettier-ignore
  if (shape.lid === 'claw') return pen.shape(`M${x - 30} ${y - 24}Q${x + 16} ${y - 20} ${x + 26} ${y + 34}Q${x - 14} ${y + 10} ${x - 30} ${y - 24}Z`, fill); // prettier-ignore
  return pen.shape(`M${x - 32} ${y + 22}Q${x} ${y + 34} ${x + 32} ${y + 22}L${x} ${y - 50}Z`, fill) + pen.line(`M${x - 22} ${y + 4}q22 9 44 0m-35 -20q13 6 26 0`, { 'stroke-width': 2 }); // prettier-ignore
}

function belowMarks(pen: Pen, parts: Parts): string {
  const [x, y]: Point = [338, 90];
  parts.hole = [x, y];
  const beads = upTo(12).map((i) => pen.dot(x + Math.cos((i * Math.PI) / 6) * 24, y + Math.sin((i * Math.PI) / 6) * 24, 4, '#ffffff', { stroke: INK, 'stroke-width': 1.4 })); // prettier-ignore
  return pen.oval(x, y, 52, 52) + pen.line(`M${x - 38} ${y}a38 38 0 1 1 30 37`, { 'stroke-width': 2 }) + pen.oval(x, y, 17, 17, '#4a4038') + beads.join(''); // prettier-ignore
}

function spineMarks(pen: Pen, profile: Profile, seams: readonly number[]): string {
  const tall = profile.bottom - profile.top;
  return [...seams.slice(1), 1 - profile.last * 0.7, 1 - profile.last * 0.4, 1 - profile.last * 0.15]
    .flatMap((t) =>
      [-1, 1].map((side) => {
        const [w, y] = [profile.half * profile.side(t), profile.top + tall * t];
        const out = 14 + w * 0.28;
        return pen.shape(corners([[X + side * (w - 8), y - 8], [X + side * (w + out), y - 14], [X + side * (w - 8), y + 9]]), pen.fill); // prettier-ignore
      }),
    )
    .join('');
}
