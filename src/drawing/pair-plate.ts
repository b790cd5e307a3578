// The look-alike plate: two animals side by side, and the features that tell them apart in lines and words.
import { badge } from './callouts.ts';
import { figure, SCALE_HEIGHT } from './figure.ts';
import { isPattern, PAPERS, type Theme } from './ink.ts';
import { wrapped } from './letters.ts';
import { framed, lineHeight, writing, type Plate } from './page.ts';
import { sizeInWords } from './scale-bar.ts';
import { drawCritter, type Subject } from './subject.ts';
import { tag } from './svg.ts';
import { settingInWords } from './settings.ts';
import { coloursInFeature, tellsPlace } from './telling-parts.ts';

export type Named = { name: string; subject: Subject };
/** A telling feature as the pair entry has it; further fields of the entry do no harm. */
export type PairFeature = { feature: string; a: string; b: string };

export const PLATE_WIDTH = 900;
const SIDE = 18;
const GAP = 14;
const COLUMN = (PLATE_WIDTH - SIDE * 2 - GAP) / 2;
const DRAWING_HEIGHT = 396;
const NAME = 34;
const WORDS = 27;
const FEATURE = 28;

/** Draws a pair. One to three features, the most reliable first. */
export function pairPlate(
  pair: { a: Named; b: Named; features: readonly PairFeature[] },
  theme: Theme = 'light',
): Plate {
  const paper = PAPERS[theme];
  const features = pair.features.slice(0, 3);
  const columns = [
    { named: pair.a, x: SIDE, words: features.map(({ a }) => a), prefix: 'l' },
    { named: pair.b, x: SIDE + COLUMN + GAP, words: features.map(({ b }) => b), prefix: 'r' },
  ] as const;

  const names = columns.map(({ named }) => wrapped(named.name, COLUMN - 12, NAME, 'semibold'));
  const nameRows = Math.max(...names.map((lines) => lines.length));
  const sizeY = 22 + nameRows * lineHeight(NAME) + 26;
  const cardY = sizeY + (columns.some(({ named }) => named.subject.sizeMm) ? 18 : -20);
  const figures = columns.map(({ named, x, words, prefix }) =>
    figure(placed(coloured(named.subject, features, words), features, words), features.map(({ feature }) => feature), { x, y: cardY, width: COLUMN, drawingHeight: DRAWING_HEIGHT }, paper, prefix)); // prettier-ignore
  const heads = columns.map(({ named, x }, i) => {
    const middle = x + COLUMN / 2;
    const size = named.subject.sizeMm ? writing([sizeInWords(named.subject.sizeMm)], middle, sizeY, { size: 26, fill: paper.quiet, align: 'middle' }) : ''; // prettier-ignore
    return writing(names[i] ?? [], middle, 16 + NAME, { size: NAME, weight: 'semibold', fill: paper.words, align: 'middle' }) + size; // prettier-ignore
  });

  let y = cardY + DRAWING_HEIGHT + SCALE_HEIGHT + 18;
  const rows = features.map(({ feature }, i) => {
    const title = wrapped(feature, PLATE_WIDTH - SIDE * 2 - 60, FEATURE, 'semibold');
    const sides = columns.map(({ words }) => wrapped(words[i] ?? '', COLUMN - 16, WORDS));
    const pointed = figures.some((one) => one.pointed[i]);
    const titleY = y + 38;
    const textY = titleY + (title.length - 1) * lineHeight(FEATURE) + 40;
    const bottom = textY + (Math.max(...sides.map((lines) => lines.length)) - 1) * lineHeight(WORDS) + 8;
    const marks =
      (i
        ? tag('line', { x1: SIDE, y1: y, x2: PLATE_WIDTH - SIDE, y2: y, stroke: paper.rule, 'stroke-width': 2 })
        : '') +
      tag('line', {
        x1: PLATE_WIDTH / 2,
        y1: textY - 24,
        x2: PLATE_WIDTH / 2,
        y2: bottom,
        stroke: paper.rule,
        'stroke-width': 2,
      }) +
      badge([SIDE + 22, titleY - 10], i + 1, paper, !pointed) +
      writing(title, SIDE + 56, titleY, { size: FEATURE, weight: 'semibold', fill: paper.words }) +
      columns
        .map(({ x }, side) => writing(sides[side] ?? [], x + 8, textY, { size: WORDS, fill: paper.words }))
        .join('');
    y = bottom + 18;
    return marks;
  });
  const height = y + 6;
  const said = [
    `Two drawings side by side: ${pair.a.name} on the left, ${pair.b.name} on the right.`,
    ...features.map(({ feature, a, b }, i) => `${i + 1}. ${feature}: left ${lowered(a)}; right ${lowered(b)}.`),
    ...columns.flatMap(({ named }) => (named.subject.sizeMm ? [`${named.name}: ${sizeInWords(named.subject.sizeMm)}.`] : [])), // prettier-ignore
  ];
  const marks = heads.join('') + figures.map((one) => one.marks).join('') + rows.join('');
  return { svg: framed(PLATE_WIDTH, height, theme, marks), width: PLATE_WIDTH, height, said };
}

/** A colour feature colours its own side, so that the picture and the words never disagree. */
function coloured(subject: Subject, features: readonly PairFeature[], words: readonly string[]): Subject {
  const told = features
    .map(({ feature }, i) => coloursInFeature(feature, words[i] ?? ''))
    .find((found) => found.length);
  if (!told) return subject;
  const pattern = (subject.colour ?? []).filter(isPattern);
  const rest = (subject.colour ?? []).filter((word) => !isPattern(word) && !told.includes(word));
  return { ...subject, colour: [...told, ...rest, ...pattern] };
}

/** A place feature puts its side where its words say. Outlines that draw their own ground keep it. */
function placed(subject: Subject, features: readonly PairFeature[], words: readonly string[]): Subject {
  const told = features.flatMap(({ feature }, i) =>
    tellsPlace(feature) ? (settingInWords(words[i] ?? '') ?? []) : [],
  )[0];
  return told && !drawCritter(subject).parts.ground ? { ...subject, setting: told } : subject;
}

const lowered = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
