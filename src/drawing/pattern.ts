// Patterns as strokes, so that what is striped looks striped to somebody who sees no colours.
import { CHALK, FILLS, INK, isDark, type Pattern } from './ink.ts';
import { chance, round, steps, tag, upTo } from './svg.ts';

const WIDTH = 400;
const HEIGHT = 320;

/** The strokes of a pattern over the whole box; the caller clips them to the body. */
export function patternMarks(pattern: Pattern, fill: string, second: string): string {
  const colour = second === fill ? (isDark(fill) ? CHALK : INK) : second;
  switch (pattern) {
    case 'striped':
      return stripes(colour);
    case 'spotted':
      return spots(colour);
    case 'mottled':
      return blotches(colour);
    case 'iridescent':
      return shimmer();
    case 'fluorescent':
      return glow(fill);
  }
}

function stripes(colour: string): string {
  const d = steps(-300, 420, 22)
    .map((x) => `M${round(x)} ${HEIGHT + 10}l260 -340`)
    .join('');
  return tag('path', { d, fill: 'none', stroke: colour, 'stroke-width': 9, opacity: 0.85 });
}

function spots(colour: string): string {
  const next = chance(7);
  return steps(6, WIDTH, 15)
    .flatMap((x, column) =>
      steps(6, HEIGHT, 12).map((y) =>
        tag('circle', {
          cx: x + next() * 12 - 6,
          cy: y + (column % 2) * 13 + next() * 10 - 5,
          r: 3.4 + next() * 2.6,
          fill: colour,
          stroke: INK,
          'stroke-width': 1,
        }),
      ),
    )
    .join('');
}

function blotches(colour: string): string {
  const next = chance(11);
  return upTo(90)
    .map(() => {
      const [x, y, turn] = [next() * WIDTH, next() * HEIGHT, next() * 180];
      return tag('ellipse', {
        cx: x,
        cy: y,
        rx: 7 + next() * 11,
        ry: 4 + next() * 6,
        fill: colour,
        opacity: 0.6,
        transform: `rotate(${round(turn)} ${round(x)} ${round(y)})`,
      });
    })
    .join('');
}

function shimmer(): string {
  return [FILLS.blue, FILLS.pink, FILLS.green]
    .map((stroke, shift) => {
      const d = steps(-320, 410, 30)
        .map((x) => `M${round(x + shift * 8)} ${HEIGHT}l320 -320`)
        .join('');
      return tag('path', { d, fill: 'none', stroke, 'stroke-width': 3, 'stroke-dasharray': '16 10', opacity: 0.9 });
    })
    .join('');
}

function glow(fill: string): string {
  const stroke = isDark(fill) ? '#d8f7a0' : '#f7ffd9';
  const d = steps(8, WIDTH, 14)
    .flatMap((x, column) => steps(8, HEIGHT, 11).map((y) => `M${round(x)} ${round(y + (column % 2) * 14)}h8m-4 -4v8`))
    .join('');
  return tag('path', { d, fill: 'none', stroke, 'stroke-width': 2.2 });
}
