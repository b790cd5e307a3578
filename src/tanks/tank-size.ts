import { netVolume, type TankShape } from '../../shared/net-volume.ts';
import { readQuantity, type UnreadQuantity } from '../../shared/quantity-text.ts';
import type { OutOfRange } from '../../shared/range.ts';
import { usualUnit } from '../calculators/units-in-words.ts';
import type { TankUnits } from './tank.ts';

export const SHAPES = ['box', 'cylinder', 'hexagon', 'corner', 'bow front'] as const;
export type Shape = (typeof SHAPES)[number];

/** Which lengths a shape wants, in the order in which they are typed. All are inner ones, the last up to the water. */
export const LENGTHS_OF: Readonly<Record<Shape, readonly string[]>> = {
  box: ['length', 'width', 'water depth'],
  cylinder: ['diameter', 'water depth'],
  hexagon: ['one side', 'water depth'],
  corner: ['radius', 'water depth'],
  'bow front': ['length', 'width', 'bow', 'water depth'],
};

export type TankSize =
  | { kind: 'size'; grossL: number; understood: string }
  | { kind: 'wrong-count'; shape: Shape; given: number }
  | { kind: 'unreadable'; outcome: UnreadQuantity }
  | OutOfRange;

/** Water that fills a tank of these lengths: "120 x 60 x 55 cm". A unit at the end counts for all that have none. */
export function readSize(shape: Shape, text: string, units: TankUnits): TankSize {
  const parts = text
    .slice(0, 200)
    .split(/\s*(?:[x×*,;]|\bby\b)\s+|\s*[x×*]\s*/i)
    .filter((part) => part.trim() !== '');
  if (parts.length !== LENGTHS_OF[shape].length) return { kind: 'wrong-count', shape, given: parts.length };
  const unit = /[\p{L}"'′″]+\s*$/u.exec(parts.at(-1) ?? '')?.[0].trim() ?? '';
  const lengths = parts.map((part) => {
    const bare = /^[\d.,\s]+$/.test(part);
    const fallback = usualUnit('length', units);
    return readQuantity(bare ? `${part} ${unit}` : part, {
      quantity: 'length',
      example: '60 cm',
      ...(fallback === null ? {} : { unit: fallback }),
    });
  });
  const unread = lengths.find((length) => length.kind !== 'read');
  if (unread) return { kind: 'unreadable', outcome: unread };
  const read = lengths.flatMap((length) => (length.kind === 'read' ? [length] : []));
  const volume = netVolume({
    shape: shapeOf(
      shape,
      read.map(({ si }) => si),
    ),
  });
  if (volume.kind !== 'volume') {
    if (volume.kind === 'out-of-range') return volume;
    throw new RangeError('a tank without rock cannot hold more rock than water');
  }
  return { kind: 'size', grossL: volume.grossL, understood: read.map(({ understood }) => understood).join(' × ') };
}

function shapeOf(shape: Shape, [first = 0, second = 0, third = 0, fourth = 0]: readonly number[]): TankShape {
  switch (shape) {
    case 'box':
      return { kind: 'box', lengthCm: first, widthCm: second, waterDepthCm: third };
    case 'cylinder':
      return { kind: 'cylinder', diameterCm: first, waterDepthCm: second };
    case 'hexagon':
      return { kind: 'hexagon', sideCm: first, waterDepthCm: second };
    case 'corner':
      return { kind: 'quarter-cylinder', radiusCm: first, waterDepthCm: second };
    case 'bow front':
      return { kind: 'bow-front', lengthCm: first, widthCm: second, bowCm: third, waterDepthCm: fourth };
  }
}

/** The water of a tank with rock in it, as a share of what its glass would hold, and how far that may be off. */
export const netOfGlass = (grossL: number, { low, high }: { low: number; high: number }) => ({
  netVolumeL: (grossL * (low + high)) / 200,
  volumeError: (high - low) / (high + low),
});
