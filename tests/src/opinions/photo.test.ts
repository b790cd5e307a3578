import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cleanPhoto } from '../../../src/opinions/photo.ts';
import { drawDemoPhoto } from '../../../src/room/demo-photo.ts';
import {
  CAMERA,
  PICTURE_PARTS,
  phoneJpeg,
  plainPng,
  riffChunk,
  SCAN,
  SECRET,
  tellingPng,
  tellingWebp,
  VP8,
  webpOf,
} from './pictures.ts';

const cleaned = (bytes: Buffer) => {
  const clean = cleanPhoto(bytes);
  if (clean.kind !== 'clean') throw new Error(`expected a clean photo, came ${clean.kind}`);
  return clean;
};
const telling = [
  ['a phone’s JPEG', phoneJpeg()],
  ['a PNG with eXIf and texts', tellingPng()],
  ['a WebP with EXIF and XMP', tellingWebp()],
] as const;

test.each(telling)('%s says nothing of where and with what it was made', (_what, photo) => {
  expect(photo.includes(SECRET)).toBe(true);
  const { bytes } = cleaned(photo);
  for (const word of [SECRET, CAMERA, 'adobe', 'GPS', 'MPF', 'Photoshop']) expect(bytes.includes(word)).toBe(false);
});

test.each(telling)('%s is clean after one time: a second changes nothing', (_what, photo) => {
  const { bytes } = cleaned(photo);
  expect(cleaned(bytes).bytes.equals(bytes)).toBe(true);
});

describe('a JPEG', () => {
  test('keeps every byte of its picture and its colour profile, with both scans', () => {
    const { name, bytes } = cleaned(phoneJpeg());
    expect(name).toBe('photo.jpg');
    for (const part of PICTURE_PARTS) expect(bytes.includes(part)).toBe(true);
    expect(bytes.lastIndexOf(SCAN)).toBeGreaterThan(bytes.indexOf(SCAN));
    expect(bytes.subarray(-2)).toEqual(Buffer.from([0xff, 0xd9]));
  });

  test.each([1, 3, 6, 8])('turned by %s is still shown upright', (orientation) => {
    const { bytes } = cleaned(phoneJpeg(orientation));
    const exif = bytes.indexOf('Exif\0\0', 0, 'latin1');
    if (orientation === 1) expect(exif).toBe(-1);
    else {
      // A big-endian directory of one entry: tag 0x0112, a short, once, its value.
      expect([...bytes.subarray(exif + 14, exif + 26)]).toEqual([0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation]);
    }
  });

  test('loses the thumbnail of its JFIF header', () => {
    const { bytes } = cleaned(phoneJpeg());
    const jfif = bytes.indexOf('JFIF\0', 0, 'latin1');
    expect(bytes.readUInt16BE(jfif - 2)).toBe(16);
    expect(bytes.includes('thu')).toBe(false);
  });
});

describe('a PNG', () => {
  test('keeps exactly what makes the picture', () => {
    expect(cleaned(tellingPng()).bytes.equals(plainPng())).toBe(true);
    expect(cleaned(drawDemoPhoto()).bytes.equals(drawDemoPhoto())).toBe(true);
  });
});

describe('a WebP', () => {
  test('keeps its picture, and its header no longer promises EXIF and XMP', () => {
    const { bytes } = cleaned(tellingWebp());
    const header = riffChunk('VP8X', Buffer.from([0x10, 0, 0, 0, 0, 0, 0, 0, 0, 0]));
    expect(bytes.equals(webpOf(header, VP8))).toBe(true);
  });

  test('that is animated is cleaned frame by frame', () => {
    const frame = (...chunks: Buffer[]) => riffChunk('ANMF', Buffer.concat([Buffer.alloc(16), ...chunks]));
    const { bytes } = cleaned(webpOf(frame(VP8, riffChunk('note', Buffer.from(SECRET)))));
    expect(bytes.equals(webpOf(frame(VP8)))).toBe(true);
  });
});

test.each([
  ['a GIF', Buffer.from('GIF89a………………')],
  ['a text named photo.jpg', Buffer.from('this is no picture at all')],
  ['nothing', Buffer.alloc(0)],
])('%s is another kind of file', (_what, bytes) => {
  expect(cleanPhoto(bytes)).toEqual({ kind: 'other-kind' });
});

test('a photo cut off anywhere is refused as damaged or another kind, and never handed on half clean', () => {
  for (const [, photo] of telling) {
    const whole = cleaned(photo).bytes;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: photo.length - 1 }), (length) => {
        const clean = cleanPhoto(photo.subarray(0, length));
        // What lies behind the end of a picture may go missing.
        if (clean.kind === 'clean') expect(clean.bytes.equals(whole)).toBe(true);
      }),
      { numRuns: 300 },
    );
  }
});

test('any bytes behind a picture’s first ones are dealt with, and no secret gets through', () => {
  const heads = [
    Buffer.from([0xff, 0xd8, 0xff]),
    plainPng().subarray(0, 8),
    Buffer.from('RIFF\u0010\0\0\0WEBP', 'latin1'),
  ];
  fc.assert(
    fc.property(fc.constantFrom(...heads), fc.uint8Array({ maxLength: 400 }), (head, rest) => {
      expect(['clean', 'damaged', 'other-kind']).toContain(cleanPhoto(Buffer.concat([head, rest])).kind);
    }),
    { numRuns: 2_000 },
  );
});
