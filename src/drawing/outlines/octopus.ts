// An octopus: in the open with curled arms, with blue rings where the kind has them; or peeping from its den.
import { along, curve, tapered } from '../curve.ts';
import { INK, ROCK } from '../ink.ts';
import type { Pen, Sketch } from '../pen.ts';
import { type Point } from '../svg.ts';

export type OctopusShape = {
  rings?: boolean;
  /** Peeps from a hole in the rock, with empty shells at the door. */
  den?: boolean;
};

export function drawOctopus(pen: Pen, shape: OctopusShape): Sketch {
  return shape.den ? inDen(pen) : inOpen(pen, shape.rings ?? false);
}

/** Large enough to be counted on a phone: a blue ring with a dark line on both sides. */
function ring(pen: Pen, x: number, y: number, r: number): string {
  return (
    pen.dot(x, y, r, '#1f6fe0', { stroke: INK, 'stroke-width': 2.4 }) +
    pen.dot(x, y, r * 0.46, '#fff3c4', { stroke: INK, 'stroke-width': 2 })
  );
}

function armMarks(pen: Pen, line: readonly Point[], wide: number, rings: boolean): string {
  const half = (t: number) => wide * (1 - 0.76 * t);
  const suckers = along(line, 13).slice(2, 12).map((p) => pen.dot(p.x + p.nx * half(p.t) * 0.5, p.y + p.ny * half(p.t) * 0.5, 4.4 - 2.4 * p.t, '#fbeede', { stroke: INK, 'stroke-width': 1.2 })).join(''); // prettier-ignore
  const marks = along(line, 6).slice(1, 5).map((p) => ring(pen, p.x, p.y, half(p.t) * 0.86)).join(''); // prettier-ignore
  return pen.skin(tapered(line, half)) + (rings ? marks : suckers);
}

function inOpen(pen: Pen, rings: boolean): Sketch {
  const left: Point[][] = [
    [[166, 172], [108, 190], [58, 168], [40, 126], [66, 112]],
    [[172, 190], [116, 226], [56, 222], [26, 242], [48, 270]],
    [[184, 200], [150, 254], [100, 272], [86, 302], [118, 306]],
    [[196, 204], [190, 250], [174, 276], [188, 306], [208, 302]],
  ]; // prettier-ignore
  const right = left.map((line) => line.map(([x, y], i): Point => [408 - x - (i === 4 ? 4 : 0), y - (i > 2 ? 6 : 0)]));
  const arms = [...left, ...right].map((line) => armMarks(pen, line, 17, rings)).join('');
  const bag = curve([[158, 180], [148, 124], [158, 58], [204, 22], [250, 58], [260, 124], [250, 180], [204, 206]], true); // prettier-ignore
  const eyes = [-1, 1].map((s) => pen.oval(204 + s * 42, 164, 15, 13, '#fbf4e2') + pen.line(`M${204 + s * 42 - 8} 164h16`, { 'stroke-width': 5 })).join(''); // prettier-ignore
  const spots = [[204, 54], [178, 88], [230, 88], [204, 120], [172, 132], [236, 132], [204, 172]] as const; // prettier-ignore
  return {
    marks: arms + pen.skin(bag) + (rings ? spots.map(([x, y]) => ring(pen, x, y, 15)).join('') : '') + eyes,
    parts: { body: [204, 112], pattern: rings ? [178, 88] : [186, 90], spots: [178, 88], skin: [226, 108], arms: [40, 236], eyes: [162, 164], head: [204, 164], tentacles: [40, 236], edge: [152, 100] },
    span: 372,
  }; // prettier-ignore
}

function inDen(pen: Pen): Sketch {
  const rock = pen.shape('M4 318V196Q30 96 128 76Q206 46 296 82Q384 120 396 214V318Z', ROCK, { 'stroke-width': 2 });
  const hole = pen.shape(curve([[92, 214], [106, 134], [166, 98], [246, 98], [300, 140], [306, 216], [254, 254], [140, 254]], true), '#4a4038'); // prettier-ignore
  const head = curve([[128, 222], [126, 176], [138, 142], [166, 130], [190, 140], [206, 140], [230, 130], [258, 142], [270, 176], [270, 222], [200, 246]], true); // prettier-ignore
  const eyes = [160, 238].map((x) => pen.oval(x, 160, 25, 21, '#fbf4e2') + pen.line(`M${x - 13} 160h26`, { 'stroke-width': 8 })).join(''); // prettier-ignore
  const arms: Point[][] = [
    [[136, 220], [88, 240], [50, 214], [28, 166], [54, 146]],
    [[156, 232], [118, 268], [66, 266], [20, 296]],
    [[190, 238], [168, 276], [134, 300], [96, 304]],
    [[214, 238], [236, 280], [276, 296], [300, 282]],
    [[262, 222], [316, 240], [348, 206], [372, 158]],
  ]; // prettier-ignore
  const whelk = (x: number, y: number) => pen.shape(`M${x - 26} ${y + 14}Q${x - 30} ${y - 14} ${x} ${y - 16}L${x + 34} ${y + 2}L${x + 4} ${y + 18}Z`, '#f3ead9', { 'stroke-width': 2.6 }) + pen.line(`M${x + 4} ${y - 14}q-8 14 2 30m12 -22q-6 8 0 16`, { 'stroke-width': 2 }) + pen.oval(x - 14, y + 4, 8, 11, '#54453a', { 'stroke-width': 2 }); // prettier-ignore
  return {
    marks: rock + hole + pen.skin(head) + eyes + arms.map((line) => armMarks(pen, line, 20, false)).join('') + whelk(338, 290) + whelk(220, 300),
    parts: { body: [200, 190], pattern: [200, 200], spots: [200, 200], skin: [200, 200], arms: [30, 180], eyes: [160, 160], head: [200, 176], tentacles: [30, 180], edge: [128, 200], ground: [338, 120], hole: [110, 160] },
    span: 372,
  }; // prettier-ignore
}
