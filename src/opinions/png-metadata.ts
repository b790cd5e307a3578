const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Chunks that the picture needs or that say how to show it. Text, times, EXIF and whatever is unknown are not here. */
const KEPT: ReadonlySet<string> = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'iCCP',
  'cICP',
  'sBIT',
  'bKGD',
  'pHYs',
  'acTL',
  'fcTL',
  'fdAT',
]);

/** A PNG with only the chunks that make its picture, and nothing after its end. Null when it is not a whole PNG. */
export function pngWithoutMetadata(bytes: Buffer): Buffer | null {
  if (!bytes.subarray(0, 8).equals(SIGNATURE)) return null;
  const kept: Buffer[] = [SIGNATURE];
  for (let at = 8; at + 12 <= bytes.length;) {
    const end = at + 12 + bytes.readUInt32BE(at);
    if (end > bytes.length) return null;
    const type = bytes.toString('latin1', at + 4, at + 8);
    if (KEPT.has(type)) kept.push(bytes.subarray(at, end));
    if (type === 'IEND') return Buffer.concat(kept);
    at = end;
  }
  return null;
}
