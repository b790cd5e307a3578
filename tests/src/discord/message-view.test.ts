import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { escapeText, joined, md } from '../../../src/discord/message-view.ts';
import { anyText } from '../knowledge/any-text.ts';
import { liveMarkdown, readMarkdown } from './shown-text.ts';

/** Text made of what Discord acts upon, so that a property meets it often. */
const alive = fc
  .array(
    fc.oneof(
      fc.constantFrom(...'*_~`|<>[]()#-+.@:/\\ \n1a'.split('')),
      fc.constantFrom('**', '__', '||', '```', '> ', '>>> ', '- ', '1. ', '-# ', '[a](https://b.c)', '<@123>', '<#1>'),
      fc.constantFrom(
        '@everyone',
        ':smile:',
        '<t:1:R>',
        '</x:1>',
        'https://',
        '\r',
        '\u2028',
        '\u202e',
        '\u200f',
        '\ud800',
      ),
    ),
    { maxLength: 60 },
  )
  .map((pieces) => pieces.join(''));

/** What nobody can see is dropped: marks that turn the direction, and control characters. */
const withoutTurns = (text: string) =>
  [...text.replace(/[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, '')]
    .filter((character) => character === '\t' || character === '\n' || (character >= ' ' && character !== '\u007f'))
    .join('');

describe('escapeText', () => {
  test.each([
    ['**bold**', '\\*\\*bold\\*\\*'],
    ['snake_case', 'snake\\_case'],
    ['- item', '\\- item'],
    ['a - b', 'a - b'],
    ['12. item', '12\\. item'],
    ['3.5 mm', '3\\.5 mm'],
    ['about 3.5 mm', 'about 3.5 mm'],
    ['@everyone', '@\u200beveryone'],
    ['https://example.org', 'https\\://example.org'],
    [':skull:', '\\:skull:'],
    ['note: so', 'note: so'],
    ['C:\\tank', 'C:\\\\tank'],
    ['abc\u202edef', 'abcdef'],
    ['half \ud83d', 'half \ufffd'],
    ['🦀 worm', '🦀 worm'],
  ])('%j becomes %j', (text, escaped) => {
    expect(escapeText(text)).toBe(escaped);
  });

  test.each([
    ['what is made to come alive', alive],
    ['any text', anyText(300)],
  ])('%s is shown to the letter, and nothing in it acts', (_what, texts) => {
    fc.assert(
      fc.property(texts, (text) => {
        const escaped = escapeText(text);
        expect(liveMarkdown(escaped)).toEqual([]);
        expect(readMarkdown(escaped).shown.replaceAll('@\u200b', '@')).toBe(
          withoutTurns(text.toWellFormed()).replaceAll('@\u200b', '@'),
        );
      }),
      { numRuns: 500 },
    );
  });

  test('the reader that judges it sees what is alive', () => {
    for (const text of ['**a**', '- a', ' 1. a', '@here', ':a:', 'a://b', '[a](b)', '# a', 'x\n+ y', '\\\\*a'])
      expect(liveMarkdown(text), text).not.toEqual([]);
    expect(readMarkdown('\\*a\\* \\b').shown).toBe('*a* \\b');
  });
});

describe('md', () => {
  test('escapes strings; numbers, Markdown and its own text stay as they are', () => {
    const inner = md`_${'in*ner'}_`;
    expect(md`**${'a*b'}** ${-1.5} ${inner} - ${'c'}`).toEqual({ markdown: '**a\\*b** -1.5 _in\\*ner_ - c' });
  });

  test('a text without values, and values at its ends', () => {
    expect(md`- **all** is mine`).toEqual({ markdown: '- **all** is mine' });
    expect(md`${'*'}${'_'}`).toEqual({ markdown: '\\*\\_' });
    expect(md`${''}`).toEqual({ markdown: '' });
  });

  test('no value breaks out of the bold or the list it stands in', () => {
    fc.assert(
      fc.property(alive, alive, (one, other) => {
        const { markdown } = md`- **${one}**: ${other}`;
        const own = ['*', '*', '*', '*'];
        const lists = liveMarkdown(markdown).filter((sign) => sign.startsWith('list: - **'));
        expect(liveMarkdown(markdown)).toEqual([...own, ...lists]);
        expect(lists).toHaveLength(1);
      }),
    );
  });
});

describe('joined', () => {
  test('puts pieces on lines of their own, or whatever stands between', () => {
    const pieces = [md`a`, md`**${'b*'}**`];
    expect(joined(pieces)).toEqual({ markdown: 'a\n**b\\***' });
    expect(joined(pieces, '; ')).toEqual({ markdown: 'a; **b\\***' });
    expect(joined([])).toEqual({ markdown: '' });
  });
});
