import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseMarkdown, type Block } from '../../../src/room/page/markdown.ts';
import { parseInline, type Inline } from '../../../src/room/page/markdown-inline.ts';

const words = (nodes: Inline[]): string =>
  nodes
    .map((node) =>
      'text' in node ? node.text : 'children' in node ? words(node.children) : node.kind === 'break' ? '\n' : '?',
    )
    .join('');
const shape = (nodes: Inline[]): unknown[] =>
  nodes.map((node) =>
    'children' in node ? [node.kind, ...shape(node.children)] : node.kind === 'text' ? node.text : node,
  );

test.each([
  ['**bold** and *slanted*', [['strong', 'bold'], ' and ', ['em', 'slanted']]],
  ['***both***', [['strong', ['em', 'both']]]],
  ['__under__ ~~gone~~ ||secret||', [['under', 'under'], ' ', ['strike', 'gone'], ' ', ['spoiler', 'secret']]],
  ['file_name_here stays', ['file_name_here stays']],
  ['\\*not slanted\\*', ['*not slanted*']],
  ['2 * 3 * 4', ['2 * 3 * 4']],
  ['`a * b * c`', [{ kind: 'code', text: 'a * b * c' }]],
  ['<@123> in <#45>', [{ kind: 'member', id: '123' }, ' in ', { kind: 'channel', id: '45' }]],
  ['</critter name:77>', [{ kind: 'command', name: 'critter name' }]],
  ['at <t:1700000000:R>', ['at ', { kind: 'time', seconds: 1700000000, style: 'R' }]],
  ['[a source](https://example.org/a_b)', [['link', 'a source']]],
  ['see https://example.org/x.', ['see ', ['link', 'https://example.org/x'], '.']],
  ['[evil](javascript:alert(1))', ['[evil](javascript:alert(1))']],
])('reads the marks of %s', (source, expected) => {
  expect(shape(parseInline(source))).toEqual(expected);
});

test('reads blocks in order', () => {
  const source =
    '# Usually harmless\nA first line\nand a second\n\n- one\n- two\n  - inside\n3. third\n> said\n-# small\n```js\nlet x\n```after';
  expect(parseMarkdown(source).map(({ kind }) => kind)).toEqual([
    'heading',
    'paragraph',
    'list',
    'list',
    'quote',
    'small',
    'code',
    'paragraph',
  ]);
  const list = parseMarkdown(source)[2] as Extract<Block, { kind: 'list' }>;
  expect(list.items).toHaveLength(2);
  expect(list.items[1]?.[1]).toMatchObject({ kind: 'list', ordered: false });
});

test('a quote with three marks takes the rest', () => {
  expect(parseMarkdown('>>> one\ntwo')).toMatchObject([{ kind: 'quote', blocks: [{ kind: 'paragraph' }] }]);
});

test('plain letters come through whole, whatever stands around them', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[a-zA-Z0-9 .,!?]{0,60}$/), (plain) => {
      fc.pre(!/https?:/.test(plain));
      expect(words(parseInline(plain))).toBe(plain);
    }),
  );
});

test('any text is read in good time and without an exception', () => {
  fc.assert(
    fc.property(
      fc.string({
        unit: fc.constantFrom('*', '_', '~', '|', '`', '<', '>', '[', ']', '(', ')', 'a', ' ', '\n', '\\', '-', '1.'),
        maxLength: 300,
      }),
      (text) => {
        const start = performance.now();
        parseMarkdown(text);
        expect(performance.now() - start).toBeLessThan(1000);
      },
    ),
  );
});
