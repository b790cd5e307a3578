// Films and slimes: thin sheets that follow the ground and tear at the edge, dust, strings with bubbles, a haze, jelly.
import { curve } from '../curve.ts';
import { INK, ROCK, SAND } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { chance, steps, strewn, upTo, type Point } from '../svg.ts';

export type FilmShape = {
  kind: 'sheet' | 'dust' | 'strings' | 'haze' | 'slime' | 'golden' | 'jelly-on-coral' | 'strings-from-mouth';
  on?: 'rock' | 'sand' | 'glass';
};

/** The upper line of a rock with ledges, and of rippled sand. */
const LEDGES: readonly Point[] = [[8, 262], [34, 214], [82, 206], [104, 158], [150, 146], [196, 152], [216, 192], [262, 200], [282, 168], [330, 160], [364, 184], [392, 244]]; // prettier-ignore
const RIPPLES: readonly Point[] = [[8, 236], [50, 222], [92, 234], [136, 216], [182, 230], [228, 214], [274, 230], [320, 216], [360, 230], [392, 222]]; // prettier-ignore

/** A sheet as thin as paper along the ground, with a ragged lower edge. */
function sheetPath(line: readonly Point[], depth: number, lift = 3): string {
  const below = [...line].reverse().flatMap(([x, y], i, all): Point[] => {
    const [nx, ny] = all[i + 1] ?? [x, y];
    return [[x, y + depth * (i % 2 ? 0.6 : 1.25)], [(x + nx) / 2, (y + ny) / 2 + depth * (i % 2 ? 1.5 : 0.5)]]; // prettier-ignore
  });
  return curve([...line.map(([x, y]): Point => [x, y - lift]), ...below.slice(0, -1)], true);
}

const bubble = (pen: Pen, x: number, y: number, r: number) => pen.dot(x, y, r, '#f4fbfd', { stroke: INK, 'stroke-width': 2.2 }); // prettier-ignore

export function drawFilm(pen: Pen, shape: FilmShape): Sketch {
  const next = chance(17);
  const sand = shape.on === 'sand';
  const line = sand ? RIPPLES : LEDGES;
  const at = (i: number): Point => line[i] ?? [200, 200];
  const under = (i: number, down: number): Point => [at(i)[0], at(i)[1] + down];
  const parts: Parts & { body: Point } = { body: under(4, 14), surface: under(4, 14), skin: under(8, 16), edge: under(2, 30), ground: [200, 292], spots: under(4, 14), strand: under(4, 14), base: [300, 288], thickness: under(9, 0) }; // prettier-ignore
  const floor = shape.on === 'glass' ? pen.shape('M6 8H394V312H6Z', '#e3eff0', { stroke: '#a9bcc0' }) : pen.shape(`${curve(line)}L394 318H6Z`, sand ? SAND : ROCK, { 'stroke-width': 2 }); // prettier-ignore
  const pits = sand ? upTo(40).map((i) => pen.dot(14 + ((i * 67) % 372), 262 + ((i * 23) % 50), 1.8, '#a58d5f')).join('') : pen.line('M60 270q14 10 30 2M140 240q12 10 28 2M230 262q14 10 30 0M316 236q12 8 26 0M120 296q14 8 30 0M290 296q14 8 28 0', { stroke: '#8a8375', 'stroke-width': 2 }); // prettier-ignore
  switch (shape.kind) {
    case 'sheet': {
      const felt = pen.skin(sheetPath(line, 44));
      // One end has come loose and waves in the current, as a sheet does and no crust can.
      const flap = pen.skin(curve([[300, 160], [326, 122], [352, 96], [386, 84], [392, 100], [370, 118], [356, 146], [352, 178], [326, 176]], true)); // prettier-ignore
      const hang = pen.skin(
        curve(
          [
            [92, 214],
            [108, 226],
            [112, 262],
            [104, 290],
            [94, 262],
            [84, 240],
          ],
          true,
        ),
      );
      parts.edge = parts.strand = [384, 92];
      parts.bubbles = [150, 136];
      const bubbles = [[56, 208], [120, 152], [150, 138], [184, 146], [240, 192], [312, 160]].map(([x, y], i) => bubble(pen, x ?? 0, y ?? 0, 8 + (i % 3) * 2)); // prettier-ignore
      return { marks: floor + pits + hang + felt + flap + bubbles.join(''), parts };
    }
    case 'dust': {
      const grains = upTo(620).map(() => { const t = next() * (line.length - 1); const [[ax, ay], [bx, by]] = [at(Math.floor(t)), at(Math.ceil(t))]; const s = t % 1; return pen.dot(ax + (bx - ax) * s, ay + (by - ay) * s + 3 + next() ** 1.6 * 66, 2.2, pen.fill, { stroke: INK, 'stroke-width': 0.4 }); }); // prettier-ignore
      return { marks: floor + pits + grains.join(''), parts };
    }
    case 'strings': {
      const mat = pen.shape(sheetPath(line, 22), pen.fill, { 'stroke-width': 2 });
      const strings = line.slice(1, -1).map(([x, y], i) => {
        const top: Point = [x + 14 - (i % 3) * 12, 44 + (i % 4) * 22];
        const thread = limb(pen, curve([[x, y + 4], [x + 12, y - (y - top[1]) * 0.3], [x - 10 + (i % 3) * 8, y - (y - top[1]) * 0.66], top]), 4); // prettier-ignore
        return thread + bubble(pen, top[0], top[1] - 8, 10) + bubble(pen, x + 4, y - (y - top[1]) * 0.46, 6);
      });
      const [x, y] = at(1);
      parts.bubbles = [x + 14, 36];
      parts.edge = parts.strand = parts.surface = [x + 10, y - 50];
      return { marks: floor + pits + mat + strings.join(''), parts };
    }
    case 'slime': {
      const patches = [line.slice(0, 5), line.slice(5)].map((part) => pen.shape(sheetPath(part, 30, 5), pen.fill, { 'stroke-width': 2 })); // prettier-ignore
      const drips = [1, 3, 6, 8].map((i) => limb(pen, curve([under(i, 8), [at(i)[0] + 6, at(i)[1] - 24], [at(i)[0] - 4, at(i)[1] - 44 - (i % 3) * 8]]), 5)); // prettier-ignore
      parts.bubbles = [at(4)[0] - 24, at(4)[1] + 2];
      const bubbles = [[160, 220], [70, 224], [300, 220], [346, 226]].map(([x, y]) => bubble(pen, x ?? 0, y ?? 0, 7)); // prettier-ignore
      return { marks: floor + pits + patches.join('') + drips.join('') + bubbles.join(''), parts: { ...parts, bubbles: [160, 220] } }; // prettier-ignore
    }
    case 'golden': {
      const mat = pen.shape(sheetPath(line, 30), pen.fill, { 'stroke-width': 2 });
      const fuzz = pen.line(line.slice(0, -1).flatMap(([x, y], i) => { const [nx, ny] = at(i + 1); return steps(0, 0.86, 6).map((s, k) => `M${x + (nx - x) * s} ${y + (ny - y) * s + 2}q${k % 2 ? 4 : -4} -10 ${k % 2 ? -3 : 3} -${20 + (k % 3) * 5}`); }).join(''), { 'stroke-width': 1.9 }); // prettier-ignore
      return { marks: floor + pits + fuzz + mat + bubble(pen, 150, 142, 7) + bubble(pen, 306, 164, 7), parts: { ...parts, bubbles: [150, 142], edge: [150, 130] } }; // prettier-ignore
    }
    case 'haze': {
      const onGlass = shape.on === 'glass';
      // On rock it is a veil along the ledges, with loose strands that wave.
      const veil = pen.shape(sheetPath(line, 40, 20), pen.fill, { stroke: '#8a8f90', 'stroke-width': 2, 'stroke-dasharray': '5 6', 'fill-opacity': 0.8 }) + [1, 3, 5, 8, 9].map((i) => limb(pen, curve([under(i, -8), [at(i)[0] + 14, at(i)[1] - 44], [at(i)[0] - 2, at(i)[1] - 70], [at(i)[0] + 22, at(i)[1] - 96]]), 5)).join(''); // prettier-ignore
      const patch = onGlass ? pen.shape(curve([[40, 160], [90, 70], [210, 50], [330, 80], [364, 170], [310, 256], [190, 272], [80, 240]], true), pen.fill, { stroke: 'none', 'fill-opacity': 0.65 }) : veil; // prettier-ignore
      const track =
        shape.on === 'glass'
          ? limb(
              pen,
              curve([
                [70, 250],
                [150, 190],
                [200, 120],
                [300, 96],
              ]),
              24,
              '#e3eff0',
            )
          : '';
      const dots = strewn(shape.on === 'glass' ? 34 : 0, 74, 84, 256, 160)
        .map(([x, y]) =>
          pen.dot(x, y, 4.5, pen.fill, { stroke: INK, 'stroke-width': 1.2 })).join(''); // prettier-ignore
      if (!onGlass) return { marks: floor + pits + patch, parts: { ...parts, strand: [at(3)[0] + 4, at(3)[1] - 50] } };
      return { marks: floor + patch + dots + track, parts: { ...parts, body: [210, 150], surface: [110, 130], skin: [280, 180], edge: [60, 160], ground: [366, 40], strand: [110, 130] } }; // prettier-ignore
    }
    case 'jelly-on-coral':
    case 'strings-from-mouth':
      return coralHead(pen, shape.kind === 'jelly-on-coral', parts);
  }
}

function coralHead(pen: Pen, jelly: boolean, parts: Parts & { body: Point }): Sketch {
  const skeleton = pen.shape('M112 318L124 206H276L288 318Z', '#f3efe6');
  const ridges = pen.line(
    steps(138, 262, 7)
      .map((x) => `M${x} 214V318`)
      .join(''),
    { 'stroke-width': 2 },
  );
  const finger = (x: number, lean: number) => limb(pen, curve([[x, 208], [x + lean * 0.6, 160], [x + lean, 122]]), 17, '#8fbf7c') + pen.dot(x + lean, 118, 9, '#f3d7e2', { stroke: INK, 'stroke-width': 2.4 }); // prettier-ignore
  const flesh = steps(112, 288, jelly ? 3 : 9).map((x) => finger(jelly ? 100 + (x - 112) * 0.34 : x, (x - 200) * 0.34)).join(''); // prettier-ignore
  const goo = jelly
    ? pen.skin(curve([[168, 214], [178, 160], [226, 128], [290, 120], [330, 160], [318, 210], [330, 258], [292, 244], [250, 232], [210, 240]], true)) + pen.line('M214 170q22 -14 44 0m-10 34q22 -14 44 0', { 'stroke-width': 2 }) // prettier-ignore
    : [[200, 130], [212, 126]].map(([x, y], i) => limb(pen, curve([[x ?? 0, 176], [(x ?? 0) - 6, y ?? 0], [(x ?? 0) + 30 + i * 24, 84], [(x ?? 0) + 16 + i * 60, 34]]), 6)).join('') + pen.oval(204, 180, 22, 9, '#5a4036'); // prettier-ignore
  return { marks: skeleton + ridges + flesh + goo, parts: { ...parts, body: jelly ? [250, 180] : [206, 120], ground: [140, 200], base: [140, 250], skin: jelly ? [270, 160] : [110, 150], mouth: [204, 178], surface: jelly ? [250, 180] : [230, 80], edge: jelly ? [280, 238] : [110, 150], strand: [230, 80] } }; // prettier-ignore
}
