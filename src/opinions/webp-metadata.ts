const CONTAINER = 'RIFF';
const FORM = 'WEBP';
const KEPT: ReadonlySet<string> = new Set(['VP8 ', 'VP8L', 'VP8X', 'ANIM', 'ANMF', 'ALPH', 'ICCP']);
/** Bits of the extended header that promise EXIF and XMP. */
const EXIF_AND_XMP = 0x08 | 0x04;
const FRAME_HEADER = 16;

/** A WebP with only the chunks that make its picture. Null when it is not a whole WebP. */
export function webpWithoutMetadata(bytes: Buffer): Buffer | null {
  if (bytes.length < 20 || bytes.toString('latin1', 0, 4) !== CONTAINER || bytes.toString('latin1', 8, 12) !== FORM)
    return null;
  const end = 8 + bytes.readUInt32LE(4);
  if (end > bytes.length) return null;
  const chunks = keptChunks(bytes.subarray(12, end));
  if (!chunks) return null;
  const body = Buffer.concat([Buffer.from(FORM, 'latin1'), ...chunks]);
  return chunk(CONTAINER, body);
}

function keptChunks(bytes: Buffer): Buffer[] | null {
  const kept: Buffer[] = [];
  for (let at = 0; at < bytes.length;) {
    if (at + 8 > bytes.length) return null;
    const type = bytes.toString('latin1', at, at + 4);
    const size = bytes.readUInt32LE(at + 4);
    if (at + 8 + size > bytes.length) return null;
    const data = bytes.subarray(at + 8, at + 8 + size);
    const clean = KEPT.has(type) ? cleanData(type, data) : undefined;
    if (clean === null) return null;
    if (clean) kept.push(chunk(type, clean));
    // Chunks begin at even places.
    at += 8 + size + (size % 2);
  }
  return kept;
}

/** The data of a chunk as it may stay; a frame of an animation holds chunks of its own. */
function cleanData(type: string, data: Buffer): Buffer | null {
  if (type === 'VP8X') {
    const header = Buffer.from(data);
    header[0] = (header[0] ?? 0) & ~EXIF_AND_XMP;
    return header;
  }
  if (type !== 'ANMF') return data;
  const inner = keptChunks(data.subarray(FRAME_HEADER));
  return inner && Buffer.concat([data.subarray(0, FRAME_HEADER), ...inner]);
}

function chunk(type: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(type, 0, 'latin1');
  head.writeUInt32LE(data.length, 4);
  return Buffer.concat([head, data, ...(data.length % 2 ? [Buffer.alloc(1)] : [])]);
}
