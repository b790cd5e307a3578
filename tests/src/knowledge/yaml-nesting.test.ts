import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nestingTooDeep } from '../../../src/knowledge/yaml-nesting.ts';

const steps = (levels: number, open: (level: number) => string, width = 1) =>
  Array.from({ length: levels }, (_, level) => `${' '.repeat(level * width)}${open(level)}`).join('\n');

const MOST = 32;
/** The scanner may let a level or two more pass than the limit says, since a scalar also takes a place. */
const SURELY_TOO_DEEP = MOST + 4;
const deep = '['.repeat(SURELY_TOO_DEEP);

describe('nestingTooDeep', () => {
  test.each([
    ['brackets', (levels: number) => '['.repeat(levels) + ']'.repeat(levels)],
    ['brackets never closed', (levels: number) => '['.repeat(levels)],
    ['braces', (levels: number) => '{a: '.repeat(levels) + '}'.repeat(levels)],
    ['brackets over many lines', (levels: number) => '[\n'.repeat(levels)],
    ['dashes on one line', (levels: number) => `${'- '.repeat(levels)}x`],
    ['question marks on one line', (levels: number) => `${'? '.repeat(levels)}x`],
    ['mappings by indentation', (levels: number) => steps(levels, (level) => `k${level}:`)],
    ['lists by indentation', (levels: number) => steps(levels, () => '-')],
    ['lists of mappings', (levels: number) => steps(levels / 2, () => '- a:', 4)],
  ])('lets %s of the limit pass and refuses deeper ones', (_kind, write) => {
    expect(nestingTooDeep(write(MOST), MOST)).toBeNull();
    expect(nestingTooDeep(write(SURELY_TOO_DEEP), MOST)).not.toBeNull();
    expect(nestingTooDeep(write(1_000), MOST)).not.toBeNull();
  });

  test('says where it becomes too deep', () => {
    const before = 'a: 1\nb: ';
    const { offset = 0 } = nestingTooDeep(before + '['.repeat(500), MOST) ?? {};
    expect(offset).toBeGreaterThanOrEqual(before.length + MOST);
    expect(offset).toBeLessThanOrEqual(before.length + SURELY_TOO_DEEP);
  });

  test('brackets in quotes, comments and plain text, and closed brackets, do not add up', () => {
    const many = '['.repeat(100);
    for (const text of [
      `a: "${many}"`,
      `a: '${many}'`,
      `a: "\\"${many}"`,
      `# ${many}\na: 1`,
      `a: x${many}`,
      `a: |\n  ${many}`,
    ])
      expect(nestingTooDeep(text, MOST), text).toBeNull();
    expect(nestingTooDeep('- [a, [b]]\n'.repeat(500), MOST)).toBeNull();
  });

  test.each([
    ['a closed quote', 'a: "x"\nb: '],
    ['a doubled quote', "a: 'it''s'\nb: "],
    ['an escaped backslash', 'a: "\\\\"\nb: '],
    ['a quote in a comment', '# say "hi\n'],
    ['an apostrophe in a comment', "# the worm's 'name\n"],
    ['a quote in plain text', 'a: x "y\nb: '],
    ['an apostrophe in plain text', "a: don't -'x\nb: "],
    ['a quote in block text', 'a: |\n  "\nb: '],
    ['brackets closed in a comment', `# ${']'.repeat(99)}\na: `],
    ['brackets closed in plain text', `a: x${']'.repeat(99)}\nb: `],
  ])('%s hides no bracket behind it', (_what, before) => {
    expect(nestingTooDeep(before + deep, MOST)).not.toBeNull();
  });

  test('a bracket or quote in plain text hides no indentation behind it', () => {
    for (const before of ['t: x[y\n', 't: x "y\n'])
      expect(nestingTooDeep(before + steps(600, (level) => `k${level}:`), MOST), before).not.toBeNull();
  });

  test('never throws, and points into the text', () => {
    const noise = fc.string({ unit: fc.constantFrom(...'[]{}"\'\\-?: \n\tab#'), maxLength: 400 });
    fc.assert(
      fc.property(noise, fc.integer({ min: 1, max: 6 }), (text, most) => {
        const found = nestingTooDeep(text, most);
        if (!found) return;
        expect(found.offset).toBeGreaterThanOrEqual(0);
        expect(found.offset).toBeLessThanOrEqual(text.length);
      }),
      { numRuns: 300 },
    );
  });

  test('every entry of the base is far from the limit', () => {
    const files = readdirSync('knowledge', { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.yaml'),
    );
    expect(files.length).toBeGreaterThan(500);
    const near = files.filter((name) => nestingTooDeep(readFileSync(join('knowledge', name), 'utf8'), MOST / 2));
    expect(near).toEqual([]);
  });
});
