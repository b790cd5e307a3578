import { crc32, deflateSync } from 'node:zlib';

// Small pictures built by hand, so that a test knows every byte of them.

/** Where the asker lives, as EXIF would give it away. */
export const SECRET = 'GPS 38.7223 N 9.1393 W';
export const CAMERA = 'PhoneMaker X100 serial 77';

const u16 = (value: number) => Buffer.from([value >> 8, value & 255]);

export const jpegSegment = (marker: number, data: Buffer): Buffer =>
  Buffer.concat([Buffer.from([0xff, marker]), u16(data.length + 2), data]);

/** An EXIF segment with an orientation, a camera and a GPS directory whose text is `SECRET`. */
export function exifWithGps(orientation: number): Buffer {
  const tiff = Buffer.alloc(160);
  tiff.write('II*\0', 0, 'latin1');
  tiff.writeUInt32LE(8, 4);
  tiff.writeUInt16LE(3, 8);
  const entry = (at: number, tag: number, type: number, count: number, value: number) => {
    tiff.writeUInt16LE(tag, at);
    tiff.writeUInt16LE(type, at + 2);
    tiff.writeUInt32LE(count, at + 4);
    tiff.writeUInt32LE(value, at + 8);
  };
  entry(10, 0x0110, 2, CAMERA.length, 60);
  entry(22, 0x0112, 3, 1, orientation);
  entry(34, 0x8825, 4, 1, 100);
  tiff.write(CAMERA, 60, 'latin1');
  tiff.write(SECRET, 104, 'latin1');
  return jpegSegment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]));
}

/** The compressed data of two scans: stuffed bytes and restarts inside must not end it. */
export const SCAN = Buffer.from([0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56, 0xff, 0x00]);
const SOF = jpegSegment(0xc2, Buffer.from([8, 0, 1, 0, 1, 1, 1, 0x11, 0]));
const SOS = jpegSegment(0xda, Buffer.from([1, 1, 0, 0, 63, 0]));
const DHT = jpegSegment(0xc4, Buffer.from([0, ...Array<number>(16).fill(0)]));
const ICC = jpegSegment(0xe2, Buffer.from('ICC_PROFILE\0\u0001\u0001profile', 'latin1'));
export const JFIF = jpegSegment(0xe0, Buffer.from('JFIF\0\u0001\u0001\0\0\u0001\0\u0001\u0001\u0001thu', 'latin1'));

/** A JPEG as a phone makes it: EXIF with GPS, XMP, IPTC, a comment, a thumbnail, and a second photo after its end. */
export const phoneJpeg = (orientation = 6): Buffer =>
  Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    JFIF,
    exifWithGps(orientation),
    jpegSegment(0xe1, Buffer.from(`http://ns.adobe.com/xap/1.0/\0<x>${SECRET}</x>`, 'latin1')),
    ICC,
    jpegSegment(0xe2, Buffer.from(`MPF\0${SECRET}`, 'latin1')),
    jpegSegment(0xed, Buffer.from(`Photoshop 3.0\0${SECRET}`, 'latin1')),
    jpegSegment(0xfe, Buffer.from(SECRET, 'latin1')),
    SOF,
    SOS,
    SCAN,
    DHT,
    SOS,
    SCAN,
    Buffer.from([0xff, 0xd9]),
    Buffer.from([0xff, 0xd8]),
    exifWithGps(1),
    Buffer.from([0xff, 0xd9]),
  ]);

/** What of that photo is the picture itself. */
export const PICTURE_PARTS = [ICC, SOF, DHT, SCAN];

export function pngChunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

const PNG_START = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const IHDR = pngChunk('IHDR', Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 2, 0, 0, 0]));
const IDAT = pngChunk('IDAT', deflateSync(Buffer.from([0, 200, 100, 50])));
const IEND = pngChunk('IEND', Buffer.alloc(0));
export const plainPng = (): Buffer => Buffer.concat([PNG_START, IHDR, IDAT, IEND]);
export const tellingPng = (): Buffer =>
  Buffer.concat([
    PNG_START,
    IHDR,
    pngChunk('eXIf', Buffer.from(`MM\0*${SECRET}`, 'latin1')),
    pngChunk('tEXt', Buffer.from(`Comment\0${SECRET}`, 'latin1')),
    pngChunk('iTXt', Buffer.from(`XML:com.adobe.xmp\0\0\0\0\0${SECRET}`, 'latin1')),
    pngChunk('tIME', Buffer.from([7, 234, 11, 25, 12, 0, 0])),
    IDAT,
    IEND,
    Buffer.from(SECRET, 'latin1'),
  ]);

export function riffChunk(type: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(type, 0, 'latin1');
  head.writeUInt32LE(data.length, 4);
  return Buffer.concat([head, data, Buffer.alloc(data.length % 2)]);
}
export const webpOf = (...chunks: Buffer[]): Buffer =>
  riffChunk('RIFF', Buffer.concat([Buffer.from('WEBP', 'latin1'), ...chunks]));
export const VP8 = riffChunk('VP8 ', Buffer.from([1, 2, 3, 4, 5]));
export const tellingWebp = (): Buffer =>
  webpOf(
    riffChunk('VP8X', Buffer.from([0x08 | 0x04 | 0x10, 0, 0, 0, 0, 0, 0, 0, 0, 0])),
    VP8,
    riffChunk('EXIF', Buffer.from(SECRET, 'latin1')),
    riffChunk('XMP ', Buffer.from(SECRET, 'latin1')),
    riffChunk('what', Buffer.from(SECRET, 'latin1')),
  );
