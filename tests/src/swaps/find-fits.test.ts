import { describe, expect, test } from 'vitest';
import { fits } from '../../../src/swaps/find.ts';
import type { OfferDetails, Want } from '../../../src/swaps/offer.ts';
import { knowledge } from '../../set-up-club.ts';
import { offerOf, wantOf } from './find-stage.ts';

type Row = [Partial<Want>, Partial<OfferDetails>];
const says = ([want, offer]: Row) => fits(wantOf(want), offerOf(offer), knowledge());

describe('what fits', () => {
  test.each<Row>([
    [
      { coral: 'euphyllia', words: 'torch' },
      { coral: 'euphyllia', name: 'Torch coral' },
    ],
    // The member has only written its name.
    [{ coral: 'euphyllia', words: 'torch' }, { name: 'gold torch coral' }],
    [{ coral: 'fimbriaphyllia', words: 'hammer' }, { name: 'hamer coral' }],
    [
      { group: 'zoanthid', words: 'zoanthid' },
      { coral: 'palythoa', name: 'Palythoa' },
    ],
    [
      { group: 'plating', words: 'plating' },
      { coral: 'montipora-plating', name: 'Monti cap' },
    ],
    // One of them says nothing of colour, or they name the same.
    [
      { coral: 'euphyllia', words: 'green torch' },
      { coral: 'euphyllia', name: 'Torch' },
    ],
    [
      { coral: 'euphyllia', words: 'torch' },
      { coral: 'euphyllia', name: 'Torch', colour: 'gold' },
    ],
    [
      { coral: 'euphyllia', words: 'green torch' },
      { coral: 'euphyllia', name: 'Torch', colour: 'toxic green' },
    ],
    [{ coral: 'euphyllia', words: 'green torch' }, { coral: 'euphyllia', name: 'Torch', colour: 'gold', special: 'green tips' }], // prettier-ignore
    [
      { coral: 'zoanthus', words: 'pink zoas' },
      { coral: 'zoanthus', name: 'Zoas', colour: 'rainbow' },
    ],
    // Green is a part of the name here, not a colour that is wanted.
    [{ coral: 'briareum', words: 'green star polyps' }, { coral: 'briareum', name: 'Star polyps', colour: 'purple mat' }], // prettier-ignore
    // Words alone: every one of them, by its beginning or with a slip.
    [{ words: 'something pulsing' }, { coral: 'xenia-coral', name: 'Xenia', special: 'something that never stops' }],
    [{ words: 'teal frag' }, { coral: 'acropora', name: 'Acro', colour: 'teal' }],
    [{ words: 'tael' }, { coral: 'acropora', name: 'Acro', colour: 'teal' }],
    [{ words: 'acroporra' }, { coral: 'acropora', name: 'Acro' }],
  ])('%o is met by %o', (...row) => expect(says(row)).toBe(true));

  test.each<Row>([
    [
      { coral: 'euphyllia', words: 'torch' },
      { coral: 'fimbriaphyllia', name: 'Hammer' },
    ],
    [{ coral: 'euphyllia', words: 'torch' }, { name: 'a mystery from the sump' }],
    [
      { group: 'soft', words: 'soft' },
      { coral: 'acropora', name: 'Acro' },
    ],
    [{ group: 'soft', words: 'soft' }, { name: 'something soft' }],
    [
      { coral: 'euphyllia', words: 'green torch' },
      { coral: 'euphyllia', name: 'Torch', colour: 'gold' },
    ],
    [{ words: 'teal' }, { coral: 'acropora', name: 'Acro', colour: 'green' }],
    [{ words: 'teal torch' }, { coral: 'acropora', name: 'Acro', colour: 'teal' }],
    // Short words have to be right: "zo" is no beginning, and a slip in "gold" could be "bold".
    [{ words: 'zo' }, { coral: 'zoanthus', name: 'Zoas' }],
    [{ words: 'bold' }, { coral: 'euphyllia', name: 'Torch', colour: 'gold' }],
    [{ words: '♥' }, { coral: 'euphyllia', name: 'Torch' }],
  ])('%o is not met by %o', (...row) => expect(says(row)).toBe(false));

  test('nothing of one’s own fits, nor of another club', () => {
    const want = wantOf({ coral: 'euphyllia', words: 'torch' });
    const torch = { coral: 'euphyllia', name: 'Torch' };
    expect(fits(want, offerOf(torch, { memberId: want.memberId }), knowledge())).toBe(false);
    expect(fits(want, offerOf(torch, { guildId: '8' }), knowledge())).toBe(false);
  });
});
