import fc from 'fast-check';
import { knowledge } from './set-up-club.ts';

/** Every run sees the same inputs. */
export const SEED = 20_261_201;

const PIECES = [
  '@everyone',
  '@here',
  '<@100000000000000001>',
  '<@!100000000000000001>',
  '<@&100000000000000001>',
  '<#100000000000000001>',
  '</critter name:100000000000000001>',
  '<t:0:R>',
  '<:reef:100000000000000001>',
  ':fish:',
  'https://example.org/?a=b&c=d',
  '[press here](https://example.org)',
  '**bold** __under__ ~~gone~~ ||hidden|| *it*',
  '```js\nx\n```',
  '`',
  '> quote\n>>> more',
  '# Title\n## Title\n-# small',
  '- point\n1. first',
  '\\',
  '\\\\@everyone',
  "'; DROP TABLE runs; --",
  '" OR 1=1',
  '$(reboot) `id` ${x} %s %n {{7*7}}',
  '../../etc/passwd',
  '<script>alert(1)</script>',
  '(a+)+$',
  '((((((((((((((((((((',
  'a'.repeat(60) + '!',
  '\ud800',
  '\udc00',
  'x\ud83d',
  '\u202eevil\u202c',
  '\u2066rtl\u2069\u200f',
  '\u0000\u0007\u001b[31m',
  '\u200b\u200d\ufeff',
  'e\u0301'.repeat(20),
  'Z\u0351\u036b\u0343\u036a',
  '👩‍👩‍👧‍👦🏳️‍🌈',
  'ﷺ',
  'Ⅷ ﬁ ½',
  'İstanbul ẞ ǆ',
  '\r\n\t\n\n',
  '   ',
  ':::',
  '1:card:aiptasia',
  '__proto__',
  'constructor',
  'null',
  'NaN',
];

/** What a member in a bad mood may type, longer than any option takes. */
export const hostileText = (): fc.Arbitrary<string> => {
  const names = [...knowledge().critters.values()].flatMap(({ id, name, aliases }) => [id, name, ...aliases]);
  const piece = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...PIECES) },
    { weight: 2, arbitrary: fc.constantFrom(...names) },
    { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 12 }) },
    { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 12 }) },
    { weight: 1, arbitrary: codeUnits(12) },
  );
  const mixed = fc.array(piece, { maxLength: 6 }).map((pieces) => pieces.join(' '));
  const long = piece.map((one) => one.repeat(Math.ceil(6_000 / Math.max(1, one.length))).slice(0, 6_000));
  return fc.oneof({ weight: 9, arbitrary: mixed }, { weight: 1, arbitrary: long });
};

/** Any code units, so lone surrogates too. */
const codeUnits = (maxLength: number) =>
  fc
    .array(fc.integer({ min: 0, max: 0xffff }), { maxLength })
    .map((units) => units.map((unit) => String.fromCharCode(unit)).join(''));
