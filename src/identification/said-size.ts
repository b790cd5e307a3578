import { MM_PER, type LengthUnit } from '../../shared/length.ts';

/** A length that somebody said, as a span in millimetres, and the words it stood in. */
export type SaidSize = { lowMm: number; highMm: number; words: string; from: number; to: number };

/** The unit that a written one begins like. */
function unitOf(written: string): LengthUnit {
  if (/^(mm|mil)/.test(written)) return 'mm';
  if (/^(cm|centi)/.test(written)) return 'cm';
  if (/^(ft|foot|feet)/.test(written)) return 'ft';
  return 'in';
}

const WORD_NUMBERS: Record<string, number> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  twelve: 12,
  half: 0.5,
  quarter: 0.25,
  couple: 2,
  few: 3,
};
/** A said length is good to about this factor either way. */
const LATITUDE = 1.5;

const NUMBER = String.raw`(?:\d+\s+)?\d+\/\d+|\d+\s*[½¼¾]|three quarters|\d+(?:[.,]\d+)?|[½¼¾]|half an?|a quarter|a couple(?: of)?|a few|(?:${Object.keys(WORD_NUMBERS).join('|')})(?: and a half)?`;
const UNIT = String.raw`millimet(?:er|re)s?|centimet(?:er|re)s?|inch(?:e?s)?|mm|cms?|mils?|ins?(?![a-z])|feet|foot|ft|"|”|''`;
const SIZE = new RegExp(
  String.raw`(?<![\w/])(${NUMBER})\s*(?:(?:-|–|to|or|x)\s*(${NUMBER})\s*)?(?:of an\s*)?(${UNIT})(?![a-z])(?:\s*(thick|wide|across|diameter|in diameter))?`,
  'gi',
);

/**
 * Every length in a text: metric and inches, figures and words, fractions and ranges.
 *
 * Thicknesses ("2 mm thick") are found too and marked, since entries record lengths: they must not be taken for one.
 */
export function sizesInText(text: string): (SaidSize & { isThickness: boolean })[] {
  return [...text.matchAll(SIZE)].flatMap((match) => {
    const [whole, first = '', second, unit = '', dimension] = match;
    const scale = MM_PER[unitOf(unit.toLowerCase())];
    const low = amountOf(first);
    const high = second === undefined ? low : amountOf(second);
    if (low === null || high === null || low <= 0 || high <= 0) return [];
    const span = [Math.min(low, high) * scale, Math.max(low, high) * scale] as const;
    if (span[1] > 5_000) return [];
    return [
      {
        lowMm: span[0] / LATITUDE,
        highMm: span[1] * LATITUDE,
        words: whole.trim().toLowerCase(),
        from: match.index,
        to: match.index + whole.length,
        isThickness: /^(thick|wide)$/i.test(dimension ?? ''),
      },
    ];
  });
}

function amountOf(text: string): number | null {
  const plain = text.trim().toLowerCase().replace(',', '.');
  const signs: Record<string, number> = { '½': 0.5, '¼': 0.25, '¾': 0.75 };
  if (signs[plain] !== undefined) return signs[plain];
  const mixed = /^(\d+)\s*([½¼¾])$/.exec(plain);
  if (mixed) return Number(mixed[1]) + (signs[mixed[2] ?? ''] ?? 0);
  if (plain === 'three quarters') return 0.75;
  const fraction = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(plain);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  if (/^[\d.]+$/.test(plain)) return Number(plain);
  if (plain.startsWith('half')) return 0.5;
  if (plain === 'a quarter') return 0.25;
  if (plain.startsWith('a couple')) return 2;
  if (plain === 'a few') return 3;
  const [word = '', ...rest] = plain.split(' ');
  const value = WORD_NUMBERS[word];
  return value === undefined ? null : value + (rest.join(' ') === 'and a half' ? 0.5 : 0);
}
