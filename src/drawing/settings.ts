// What an animal sits on, drawn behind it along the lower edge of the box.
import { curve } from './curve.ts';
import { FILLS, INK, ROCK, SAND } from './ink.ts';
import { limb, type Pen } from './pen.ts';
import { polar, steps, tag, upTo, type Point } from './svg.ts';

type Scene = { marks: string; at: Point };
const QUIET = { stroke: '#8a8375', 'stroke-width': 2 };
const AT: Point = [86, 290];

const rock = 'M10 318V292Q70 268 140 280Q220 290 290 274Q350 266 390 288V318Z';

/** Every setting by name; whoever draws one clips it to the box. */
export const SETTINGS = {
  rock: (pen: Pen): Scene => ({ marks: pen.shape(rock, ROCK, QUIET), at: AT }),
  sand: (pen: Pen): Scene => ({
    marks: pen.shape('M10 318V290Q120 276 200 286T390 284V318Z', SAND, QUIET) + upTo(26).map((i) => pen.dot(20 + i * 14, 296 + ((i * 7) % 16), 1.8, '#a58d5f')).join(''),
    at: AT,
  }),
  glass: (pen: Pen): Scene => ({
    marks: tag('rect', { x: 6, y: 6, width: 388, height: 308, fill: '#e3eff0', stroke: '#a9bcc0', 'stroke-width': 3 }) + pen.line('M24 92L92 24M24 130L130 24M300 296L376 220', { stroke: '#ffffff', 'stroke-width': 5 }),
    at: [340, 60],
  }),
  'branching-coral': (pen: Pen): Scene => ({
    marks: [[40, -14], [110, 8], [190, -6], [270, 10], [352, -8]].map(([x, lean]) => branch(pen, x ?? 0, lean ?? 0)).join(''),
    at: [40, 262],
  }),
  'plate-coral': (pen: Pen): Scene => ({
    marks: pen.shape('M8 318V282Q100 260 200 268T392 276V318Z', '#c98f7c', QUIET) + dots(pen, '#8b5a4c', 5) + pen.line('M8 280Q100 258 200 266T392 274', { stroke: '#fff7ea', 'stroke-width': 8 }),
    at: AT,
  }),
  'daisy-coral': (pen: Pen): Scene => ({
    marks: steps(40, 360, 6).map((x, i) => limb(pen, `M${x} 318L${x} ${282 - (i % 2) * 10}`, 7, '#c7d08c') + upTo(9).map((k) => { const [px, py] = polar(x, 280 - (i % 2) * 10, 19, k * 40); return pen.oval(px, py, 6, 6, '#c7d08c', { 'stroke-width': 1.6 }); }).join('')).join(''),
    at: [40, 280],
  }),
  'lump-coral': (pen: Pen): Scene => ({ marks: pen.shape('M8 318V292Q60 262 130 276Q210 256 280 272Q350 262 392 290V318Z', '#b8b27a', QUIET) + dots(pen, '#6f6b45', 3), at: AT }),
  'torch-coral': (pen: Pen): Scene => ({
    marks: pen.shape('M20 318V300H380V318Z', '#d9cfc0', QUIET) + steps(30, 370, 15).map((x, i) => limb(pen, curve([[x, 312], [x + (i % 2 ? 6 : -6), 292], [x + (i % 3) * 4 - 4, 268 - (i % 2) * 10]]), 11, '#8fbf7c') + pen.dot(x + (i % 3) * 4 - 4, 264 - (i % 2) * 10, 8, '#f3e6b8', QUIET)).join(''),
    at: [58, 290],
  }),
  'sun-coral': (pen: Pen): Scene => ({
    marks: steps(50, 350, 5).map((x) => pen.shape(`M${x - 24} 318V288H${x + 24}V318Z`, FILLS.orange, QUIET) + upTo(11).map((k) => limb(pen, curve([[x, 286], polar(x, 284, 26, -180 + k * 18)]), 4, FILLS.yellow)).join('') + pen.oval(x, 287, 20, 7, FILLS.orange, QUIET)).join(''),
    at: [50, 290],
  }),
  zoanthids: (pen: Pen): Scene => ({
    marks: pen.shape('M8 318V304Q200 290 392 304V318Z', '#a88e6d', QUIET) + steps(36, 364, 7).map((x, i) => pen.shape(`M${x - 11} 310V${286 - (i % 2) * 8}H${x + 11}V310Z`, '#a88e6d', QUIET) + fringe(pen, x, 284 - (i % 2) * 8, 24, i % 2 ? FILLS.pink : FILLS.green)).join(''),
    at: [36, 286],
  }),
  'soft-coral': (pen: Pen): Scene => ({ marks: pen.shape('M60 318Q70 290 18 284Q10 262 60 268Q120 252 200 266Q290 250 350 268Q396 264 384 286Q330 292 340 318Z', '#d6b98c', QUIET) + dots(pen, '#8f7247', 2), at: [40, 276] }),
  'sea-fan': (pen: Pen): Scene => ({ marks: steps(-160, 160, 9).map((x) => pen.line(curve([[200, 330], [200 + x * 0.6, 296], [200 + x * 1.15, 250]]), { stroke: FILLS.purple, 'stroke-width': 7 })).join(''), at: [56, 262] }),
  'star-arm': (pen: Pen): Scene => ({ marks: pen.shape('M-4 314V276Q200 256 404 286V318Z', FILLS.blue, QUIET) + dots(pen, '#2d5a90', 3), at: AT }),
  clam: (pen: Pen): Scene => ({ marks: pen.shape('M10 318V294Q50 258 90 290Q130 258 170 290Q210 258 250 290Q290 258 330 290Q370 262 392 296V318Z', '#dccdb0', QUIET) + pen.line('M14 304Q50 270 90 302Q130 270 170 302Q210 270 250 302Q290 270 330 302Q366 274 388 304', { stroke: FILLS.blue, 'stroke-width': 8 }), at: AT }),
  'fish-skin': (pen: Pen): Scene => ({ marks: pen.shape('M-4 322V262Q200 226 404 262V322Z', '#f0cf63', QUIET) + pen.line(steps(20, 380, 10).flatMap((x) => [276, 298].map((y, i) => `M${x + i * 18} ${y}q11 11 22 0`)).join(''), { stroke: '#b18f2c', 'stroke-width': 2 }), at: [70, 284] }),
  algae: (pen: Pen): Scene => ({ marks: steps(16, 384, 40).map((x, i) => pen.line(`M${Math.round(x)} 320q${i % 2 ? 9 : -9} -22 ${i % 3 ? 2 : -5} -${38 + (i % 4) * 6}`, { stroke: '#5f8f4b', 'stroke-width': 4 })).join(''), at: [50, 290] }),
} as const; // prettier-ignore

export type Setting = keyof typeof SETTINGS;

const IN_WORDS: readonly (readonly [RegExp, Setting])[] = [
  [/\bacropora|branching coral|\bpocillopora/i, 'branching-coral'], [/\bmontipora/i, 'plate-coral'], [/\bgoniopora/i, 'daisy-coral'], [/\bporites/i, 'lump-coral'],
  [/\b(torch|hammer|frogspawn)\b/i, 'torch-coral'], [/\b(sun|dendro|cup|scroll)\b.*\bcoral/i, 'sun-coral'], [/\bzoanthid/i, 'zoanthids'], [/\bleathers?\b|soft coral|mushroom/i, 'soft-coral'], [/gorgonian|sea fan/i, 'sea-fan'],
  [/\bstars?\b/i, 'star-arm'], [/\bclam|\boyster/i, 'clam'], [/\balgae\b/i, 'algae'], [/\bsand\b/i, 'sand'], [/\bglass\b/i, 'glass'], [/\brocks?\b/i, 'rock'], [/\bcorals?\b/i, 'lump-coral'],
]; // prettier-ignore

/** The place that words name first, as a setting; nothing when they name none that can be drawn. */
export function settingInWords(words: string): Setting | undefined {
  const [first] = IN_WORDS.map(([pattern, setting]) => ({ found: words.search(pattern), setting }))
    .filter(({ found }) => found >= 0)
    .sort((one, other) => one.found - other.found);
  return first?.setting;
}

function branch(pen: Pen, x: number, lean: number): string {
  const fill = '#e3c9a2';
  const tip: Point = [x + lean * 2, 236];
  const side = [[0.35, 22], [0.6, -22]].map(([share, out]) => limb(pen, `M${x + lean * 2 * (share ?? 0)} ${318 - 82 * (share ?? 0)}l${out} -24`, 13, fill)); // prettier-ignore
  return side.join('') + limb(pen, `M${x} 320L${tip[0]} ${tip[1]}`, 18, fill) + upTo(3).map((i) => pen.dot(x + lean * 0.5 * i, 300 - i * 22, 3, INK)).join(''); // prettier-ignore
}

function dots(pen: Pen, fill: string, radius: number): string {
  return upTo(14).map((i) => pen.dot(24 + i * 27, 296 + ((i * 11) % 15), radius, fill)).join(''); // prettier-ignore
}

function fringe(pen: Pen, x: number, y: number, radius: number, fill: string): string {
  const d = upTo(14).map((i) => curve([polar(x, y, radius - 4, i * 25.7), polar(x, y, radius + 5, i * 25.7)])).join(''); // prettier-ignore
  return pen.line(d, { 'stroke-width': 2 }) + pen.oval(x, y, radius, radius * 0.42, fill, QUIET);
}
