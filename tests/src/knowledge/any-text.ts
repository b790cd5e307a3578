import fc from 'fast-check';

const typed = fc.integer({ min: 0x20, max: 0x7e }).map((code) => String.fromCharCode(code));
/** Any UTF-16 unit: control characters, right-to-left marks, combining marks, lone surrogates. */
const unit = fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code));
const beyond = fc.integer({ min: 0x1_0000, max: 0x10_ffff }).map((code) => String.fromCodePoint(code));

/** Text of any characters, well-formed or not, of all lengths up to `most` characters. */
export const anyText = (most: number): fc.Arbitrary<string> =>
  fc
    .array(
      fc.oneof({ weight: 5, arbitrary: typed }, { weight: 2, arbitrary: unit }, { weight: 1, arbitrary: beyond }),
      { maxLength: most, size: 'max' },
    )
    .map((pieces) => pieces.join(''));
