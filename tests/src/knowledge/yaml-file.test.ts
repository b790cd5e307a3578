import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseYaml } from '../../../src/knowledge/yaml-file.ts';
import { anyText } from './any-text.ts';

const problemsOf = (text: string) => {
  const parsed = parseYaml('entry.yaml', text);
  return parsed.ok ? [] : parsed.problems;
};
const first = (text: string) => problemsOf(text)[0];

/** An alias that would unfold to ten to the power of nine values. */
const bomb = ['a0: &a0 [x, x, x, x, x, x, x, x, x, x]']
  .concat(Array.from({ length: 8 }, (_, at) => `a${at + 1}: &a${at + 1} [${Array(10).fill(`*a${at}`).join(', ')}]`))
  .join('\n');

describe('what an entry may not hold is refused with its place', () => {
  test.each([
    ['a tab as indentation', 'a:\n\tb: 1', { line: 2, column: 1, message: expect.stringContaining('came a tab') }],
    ['a key twice', 'a: 1\nb: 2\na: 3', { line: 3, column: 1, message: expect.stringContaining('came a key twice') }],
    ['an alias', 'a: &x 1\nb: *x', { line: 2, column: 4, message: expect.stringContaining('came an alias') }],
    ['an alias bomb', bomb, { line: 2, message: expect.stringContaining('came an alias') }],
    ['a custom tag', 'a: 1\nb: !thing 2', { line: 2, column: 4, message: expect.stringContaining('came a tag') }],
    ['a tag of another language', 'a: !!js/function x', { line: 1, message: expect.stringContaining('came a tag') }],
    ['brackets past 32', `a: 1\nb: ${'['.repeat(40)}`, { line: 2, message: expect.stringContaining('nesting') }],
    ['dashes past 32', '- '.repeat(40), { line: 1, message: expect.stringContaining('nesting') }],
    ['indentation past 32', steps(40), { message: expect.stringContaining('nesting') }],
    [
      'too large a file',
      'x'.repeat(1_000_000),
      { line: 1, column: 1, message: expect.stringContaining('1000000 bytes') },
    ],
    ['two documents', 'a: 1\n---\nb: 2', { line: 2, message: expect.stringContaining('not YAML') }],
    ['an unclosed bracket', 'a: [1, 2', { line: 1, message: expect.stringContaining('not YAML') }],
    ['an unclosed quote', 'a: 1\nb: "x', { line: 2, message: expect.stringContaining('not YAML') }],
    ['a colon inside plain text', 'a: it says: no', { line: 1, message: expect.stringContaining('quotes') }],
  ])('%s', (_what, text, problem) => {
    expect(first(text)).toMatchObject({ file: 'entry.yaml', column: expect.any(Number), ...problem });
    expect(first(text)?.message).toMatch(/^came .*, expected .*; .+/);
  });

  test('size counts bytes, not characters', () => {
    expect(first('é'.repeat(140_000))?.message).toContain('280000 bytes');
    expect(problemsOf(`a: ${'x'.repeat(200_000)}`)).toEqual([]);
  });

  test('a megabyte of noise is refused at once', () => {
    const start = performance.now();
    for (const unit of ['[', '{a: ', '- ', '"', '&a ', '\t', '\u0000', '#'])
      expect(problemsOf(unit.repeat(Math.ceil(1_000_000 / unit.length))).length).toBeGreaterThan(0);
    expect(performance.now() - start).toBeLessThan(1_000);
  });

  // The parser, once brought to the end of its stack, may end the whole process on the next unclosed brackets.
  test.each(['', '# say "hi\n', "# the worm's 'name\n", 'a: x "y\nb: ', 'a: |\n  "\nb: '])(
    'a long closed run of brackets and then an unclosed one, in one process, after %j',
    (before) => {
      for (const brackets of [
        '['.repeat(10_001) + ']'.repeat(10_001),
        '['.repeat(1_001),
        '{a: '.repeat(10_001),
        '['.repeat(1_001),
      ])
        expect(first(before + brackets)).toMatchObject({
          line: before.split('\n').length,
          message: expect.stringContaining('nesting'),
        });
      expect(problemsOf('a: 1')).toEqual([]);
    },
  );

  test('the place of nesting after many lines', () => {
    const [problem] = problemsOf(`${'key: value\n'.repeat(100)}last: ${'['.repeat(40)}`);
    expect(problem).toMatchObject({ line: 101, message: expect.stringContaining('nesting') });
    expect(problem?.column).toBeGreaterThan(32);
    expect(problem?.column).toBeLessThanOrEqual(46);
  });

  test('at most five problems are told of one file', () => {
    expect(problemsOf('a: !x 1\n'.repeat(20)).length).toBeLessThanOrEqual(5);
  });
});

describe('what was read', () => {
  test('values and their places', () => {
    const parsed = parseYaml('entry.yaml', 'name: Worm\ntraits:\n  colour: [red, blue]\n  shell: false\n');
    if (!parsed.ok) throw new Error('refused');
    expect(parsed.value).toEqual({ name: 'Worm', traits: { colour: ['red', 'blue'], shell: false } });
    expect(parsed.placeOf(['name'])).toEqual({ line: 1, column: 1 });
    expect(parsed.placeOf(['traits', 'shell'])).toEqual({ line: 4, column: 3 });
    expect(parsed.placeOf(['traits', 'colour', 1])).toEqual({ line: 3, column: 17 });
    // What is missing stands where its nearest parent does.
    expect(parsed.placeOf(['traits', 'size'])).toEqual({ line: 2, column: 1 });
    expect(parsed.placeOf(['nowhere', 'at', 'all'])).toEqual({ line: 1, column: 1 });
  });

  test('a key named __proto__ stays a key and changes no object', () => {
    const parsed = parseYaml('entry.yaml', '__proto__:\n  polluted: yes\nconstructor: x');
    if (!parsed.ok) throw new Error('refused');
    expect(Object.keys(parsed.value as object)).toEqual(['__proto__', 'constructor']);
    expect(Object.getPrototypeOf(parsed.value)).toBe(Object.prototype);
    expect('polluted' in {}).toBe(false);
  });

  test.each(['? - &\u2028', '? - a\n: b', '? {a: 1}\n: b', '[a, b]: c'])('a key that is no word is refused: %j', (text) => {
    const parsed = parseYaml('entry.yaml', text);
    expect(parsed.ok ? [] : parsed.problems.map(({ message }) => message)).toEqual([
      expect.stringContaining('came a key that is itself a list or a map'),
    ]);
  });

  test('plain words stay words', () => {
    const parsed = parseYaml('entry.yaml', 'a: no\nb: 012\nc: 2026-01-01\n<<: {d: 1}');
    expect(parsed.ok && parsed.value).toEqual({ a: 'no', b: 12, c: '2026-01-01', '<<': { d: 1 } });
  });
});

describe('any text', () => {
  const yamlish = fc
    .array(
      fc.constantFrom(
        ...'[]{}:,-?&*!|>\'"%@`#\\ \n\ta1'.split(''),
        '- ',
        ': ',
        '? ',
        '\n  ',
        '&a ',
        '*a',
        '!!map ',
        '---\n',
        '<<: ',
        '\r\n',
        '\u2028',
        '\ufeff',
      ),
      { maxLength: 300 },
    )
    .map((pieces) => pieces.join(''));

  function expectAnAnswer(text: string) {
    const parsed = parseYaml('entry.yaml', text);
    const problems = parsed.ok ? [{ ...parsed.placeOf(['a', 0, 'b']), message: 'read' }] : parsed.problems;
    expect(problems.length).toBeGreaterThan(0);
    for (const { line, column, message } of problems) {
      expect(line).toBeGreaterThanOrEqual(1);
      expect(column).toBeGreaterThanOrEqual(1);
      expect(message).not.toBe('');
    }
  }

  test('of any characters never throws', () => {
    fc.assert(fc.property(anyText(5_000), expectAnAnswer), { numRuns: 150 });
  });

  test('made of the signs of YAML never throws', () => {
    fc.assert(fc.property(yamlish, expectAnAnswer), { numRuns: 1_500 });
  });
});

function steps(levels: number): string {
  return Array.from({ length: levels }, (_, level) => `${' '.repeat(level)}k:`).join('\n');
}
