import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCustomId, writeCustomId } from '../../../src/discord/custom-id.ts';
import { entryId } from '../../../src/knowledge/critter.ts';

const word = fc.string({ maxLength: 20 }).filter((text) => !text.includes(':'));

describe('writeCustomId', () => {
  test('what was written is read again', () => {
    const act = word.filter((text) => text !== '');
    fc.assert(
      fc.property(act, fc.array(word, { maxLength: 3 }), (name, args) => {
        expect(readCustomId(writeCustomId(name, args))).toEqual({ act: name, args });
      }),
    );
  });

  test('refuses a colon in a word or in the act', () => {
    expect(() => writeCustomId('card', ['a:b'])).toThrow(RangeError);
    expect(() => writeCustomId('ca:rd', [])).toThrow(RangeError);
  });

  test('holds the two longest ids that an entry may have', () => {
    const longest = Array.from({ length: 100 }, (_, length) => 'x'.repeat(length + 1))
      .filter((id) => entryId.safeParse(id).success)
      .at(-1);
    expect(longest?.length).toBeGreaterThan(30);
    expect(() => writeCustomId('show-pair', [longest ?? '', longest ?? ''])).not.toThrow();
  });

  test('takes 100 characters and refuses 101', () => {
    const room = 100 - writeCustomId('card', ['']).length;
    expect(writeCustomId('card', ['x'.repeat(room)])).toHaveLength(100);
    expect(() => writeCustomId('card', ['x'.repeat(room + 1)])).toThrow(/100 characters, this one has 101/);
  });
});

describe('readCustomId', () => {
  test.each(['0:card:a', '2:card:a', '11:card', 'card:a', '', '1', '1:', ':card', 'some other bot'])(
    '%j is not one of ours',
    (id) => {
      expect(readCustomId(id)).toBeNull();
    },
  );

  test('never throws', () => {
    fc.assert(fc.property(fc.string(), (id) => void readCustomId(id)));
  });
});
