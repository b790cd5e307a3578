const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const APP0 = 0xe0;
const APP1 = 0xe1;
const APP2 = 0xe2;
const APP14 = 0xee;
const COMMENT = 0xfe;
const ORIENTATION = 0x0112;
const EXIF = 'Exif\0\0';

/**
 * A JPEG without what it tells about the camera, the place and the person: EXIF, XMP, IPTC, comments, thumbnails and
 * anything after its end are left out. Picture data, colour profile and colour transform stay as they are, and of the
 * EXIF only which way is up, so that the photo is not shown lying. Null when it is not a whole JPEG.
 */
export function jpegWithoutMetadata(bytes: Buffer): Buffer | null {
  if (bytes.length < 4 || bytes[0] !== 0xff || bytes[1] !== SOI) return null;
  const kept: Buffer[] = [bytes.subarray(0, 2)];
  let orientation = 1;
  for (let at = 2; at < bytes.length;) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1];
    if (marker === undefined) return null;
    // Any number of fill bytes may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === EOI) return finished(kept, orientation);
    if (isAlone(marker)) {
      kept.push(bytes.subarray(at, at + 2));
      at += 2;
      continue;
    }
    if (at + 4 > bytes.length) return null;
    const end = at + 2 + bytes.readUInt16BE(at + 2);
    if (end > bytes.length || end < at + 4) return null;
    const segment = bytes.subarray(at, end);
    if (marker === APP1 && isExif(segment)) orientation = orientationOf(segment) ?? orientation;
    const clean = cleanSegment(marker, segment);
    if (clean) kept.push(clean);
    at = end;
    if (marker === SOS) {
      const scanEnd = endOfScan(bytes, end);
      kept.push(bytes.subarray(end, scanEnd));
      at = scanEnd;
    }
  }
  return null;
}

const isAlone = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);

/** A segment as it may stay; null when it goes. */
function cleanSegment(marker: number, segment: Buffer): Buffer | null {
  if (marker === COMMENT) return null;
  if (marker < APP0 || marker > 0xef) return segment;
  if (marker === APP0 && segment.toString('latin1', 4, 9) === 'JFIF\0' && segment.length >= 18) {
    // Without its thumbnail.
    const head = Buffer.from(segment.subarray(0, 18));
    head.writeUInt16BE(16, 2);
    head.writeUInt16BE(0, 16);
    return head;
  }
  if (marker === APP2 && segment.toString('latin1', 4, 16) === 'ICC_PROFILE\0') return segment;
  if (marker === APP14 && segment.toString('latin1', 4, 9) === 'Adobe') return segment;
  return null;
}

/** Where the compressed data ends: at the first marker that is neither a stuffed byte nor a restart. */
function endOfScan(bytes: Buffer, from: number): number {
  for (let at = from; at + 1 < bytes.length; at += 1) {
    if (bytes[at] !== 0xff) continue;
    const next = bytes[at + 1] ?? 0;
    if (next !== 0 && next !== 0xff && !isAlone(next)) return at;
  }
  return bytes.length;
}

const isExif = (segment: Buffer) => segment.toString('latin1', 4, 10) === EXIF;

/** Which way is up, out of the first directory of an EXIF segment; undefined when it does not say. */
function orientationOf(segment: Buffer): number | undefined {
  const tiff = segment.subarray(10);
  const order = tiff.toString('latin1', 0, 2);
  if (tiff.length < 14 || (order !== 'II' && order !== 'MM')) return undefined;
  const u16 = (at: number) => (order === 'II' ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const directory = order === 'II' ? tiff.readUInt32LE(4) : tiff.readUInt32BE(4);
  if (directory + 2 > tiff.length) return undefined;
  const entries = u16(directory);
  for (let n = 0; n < entries; n += 1) {
    const at = directory + 2 + n * 12;
    if (at + 12 > tiff.length) return undefined;
    if (u16(at) === ORIENTATION) {
      const value = u16(at + 8);
      return value >= 1 && value <= 8 ? value : undefined;
    }
  }
  return undefined;
}

function finished(kept: readonly Buffer[], orientation: number): Buffer {
  const [start, ...rest] = kept;
  const turned = orientation === 1 ? [] : [uprightSegment(orientation)];
  // JFIF wants to be the first segment, so the way up goes behind it.
  const jfif = rest[0]?.[1] === APP0 ? 1 : 0;
  return Buffer.concat([
    ...(start ? [start] : []),
    ...rest.slice(0, jfif),
    ...turned,
    ...rest.slice(jfif),
    Buffer.from([0xff, EOI]),
  ]);
}

/** An EXIF segment that says which way is up, and nothing else. */
function uprightSegment(orientation: number): Buffer {
  const tiff = Buffer.alloc(26);
  tiff.write('MM\0*', 0, 'latin1');
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(1, 8);
  tiff.writeUInt16BE(ORIENTATION, 10);
  tiff.writeUInt16BE(3, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt16BE(orientation, 18);
  const body = Buffer.concat([Buffer.from(EXIF, 'latin1'), tiff]);
  const head = Buffer.from([0xff, APP1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}
