import { jpegWithoutMetadata } from './jpeg-metadata.ts';
import { pngWithoutMetadata } from './png-metadata.ts';
import { webpWithoutMetadata } from './webp-metadata.ts';

/** Discord takes files up to this size from a bot. */
export const MOST_PHOTO_BYTES = 10 * 1024 * 1024;

/** A photo as it may be shown: under a name of ours, without a word about where and with what it was taken. */
export type CleanPhoto =
  | { kind: 'clean'; name: 'photo.jpg' | 'photo.png' | 'photo.webp'; bytes: Buffer }
  /** Not a picture of a kind we can clean, or not a whole one. */
  | { kind: 'other-kind' }
  | { kind: 'damaged' };

/** Takes out the metadata without drawing the picture anew. The kind is read from the bytes, never from the name. */
export function cleanPhoto(bytes: Buffer): CleanPhoto {
  const kind = kindOf(bytes);
  if (!kind) return { kind: 'other-kind' };
  const clean = kind.clean(bytes);
  return clean ? { kind: 'clean', name: kind.name, bytes: clean } : { kind: 'damaged' };
}

function kindOf(bytes: Buffer) {
  const head = bytes.toString('latin1', 0, 12);
  if (head.startsWith('\xff\xd8\xff')) return { name: 'photo.jpg', clean: jpegWithoutMetadata } as const;
  if (head.startsWith('\x89PNG')) return { name: 'photo.png', clean: pngWithoutMetadata } as const;
  if (head.startsWith('RIFF') && head.endsWith('WEBP'))
    return { name: 'photo.webp', clean: webpWithoutMetadata } as const;
  return null;
}
