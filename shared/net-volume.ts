import type { OutOfRange } from './range.ts';

/** Lengths of a tank in centimetres. The water's depth is from the glass at the bottom to the surface. */
export type TankShape =
  | { kind: 'box'; lengthCm: number; widthCm: number; waterDepthCm: number }
  | { kind: 'cylinder'; diameterCm: number; waterDepthCm: number }
  /** A regular hexagon. */
  | { kind: 'hexagon'; sideCm: number; waterDepthCm: number }
  /** A corner tank: two straight sides and a round front. */
  | { kind: 'quarter-cylinder'; radiusCm: number; waterDepthCm: number }
  /** A box whose front bulges: `bowCm` is how far the middle stands out beyond the ends. */
  | { kind: 'bow-front'; lengthCm: number; widthCm: number; bowCm: number; waterDepthCm: number };

const CM3_PER_L = 1000;

const RANGES = {
  lengthCm: [1, 5000],
  widthCm: [1, 5000],
  diameterCm: [1, 5000],
  sideCm: [1, 5000],
  radiusCm: [1, 5000],
  bowCm: [0, 500],
  waterDepthCm: [1, 1000],
  glassCm: [0, 10],
  rockKg: [0, 20_000],
  rockDensityKgPerL: [1.1, 5],
  sandKg: [0, 20_000],
  sandDensityKgPerL: [1.1, 5],
  sumpL: [0, 100_000],
  lengthErrorCm: [0, 10],
  displacedErrorFraction: [0, 1],
} as const;
const LIMITS = Object.entries(RANGES);

/** Area of the floor in cm². */
function floorCm2(shape: TankShape): number {
  switch (shape.kind) {
    case 'box':
      return shape.lengthCm * shape.widthCm;
    case 'cylinder':
      return (Math.PI / 4) * shape.diameterCm ** 2;
    case 'hexagon':
      return ((3 * Math.sqrt(3)) / 2) * shape.sideCm ** 2;
    case 'quarter-cylinder':
      return (Math.PI * shape.radiusCm ** 2) / 4;
    case 'bow-front':
      return shape.lengthCm * shape.widthCm + segmentCm2(shape.lengthCm, shape.bowCm);
  }
}

/** Area between a chord and the arc of a circle over it that stands out by `riseCm`. */
function segmentCm2(chordCm: number, riseCm: number): number {
  if (riseCm === 0) return 0;
  const radius = (chordCm ** 2 / 4 + riseCm ** 2) / (2 * riseCm);
  const angle = 2 * Math.acos((radius - riseCm) / radius);
  return (radius ** 2 / 2) * (angle - Math.sin(angle));
}

/**
 * Water that fills a shape up to its depth, by inner lengths, without rock and sand.
 *
 * Relation: floor × depth; of a bow front, the box and the circular segment with R = (c²/4 + s²)/(2s).
 * Units: cm in, litres out. Source: geometry. Error: none but that of the lengths.
 */
export const shapeL = (shape: TankShape): number => (floorCm2(shape) * shape.waterDepthCm) / CM3_PER_L;

/**
 * The inner lengths of a tank that was measured outside.
 *
 * Relation: two panes off each length, two panes across a hexagon (its side loses 2g/√3); the depth stays, since it is measured inside.
 * Units: cm. Source: geometry. Error: a corner tank's round front is taken as centred in its inner corner, which is off by
 * less than a pane.
 */
export function innerShape(shape: TankShape, glassCm: number): TankShape {
  const both = 2 * glassCm;
  switch (shape.kind) {
    case 'box':
    case 'bow-front':
      return { ...shape, lengthCm: shape.lengthCm - both, widthCm: shape.widthCm - both };
    case 'cylinder':
      return { ...shape, diameterCm: shape.diameterCm - both };
    case 'hexagon':
      return { ...shape, sideCm: shape.sideCm - both / Math.sqrt(3) };
    case 'quarter-cylinder':
      return { ...shape, radiusCm: shape.radiusCm - both };
  }
}

export type NetVolumeInput = {
  shape: TankShape;
  /** Thickness of the glass when the lengths are outer ones; 0 or absent when they are inner ones. */
  glassCm?: number;
  rockKg?: number;
  rockDensityKgPerL?: number;
  sandKg?: number;
  sandDensityKgPerL?: number;
  /** Water in the sump while it runs. */
  sumpL?: number;
  /** How far each length may be off, either way. */
  lengthErrorCm?: number;
  /** How far what rock and sand push aside may be off, as a share of it. */
  displacedErrorFraction?: number;
};
export type NetVolume = {
  kind: 'volume';
  grossL: number;
  displacedL: number;
  sumpL: number;
  netL: number;
  errorL: number;
};

/** The displacement of rock and sand has to be computed by somebody's density; these are required wherever there is any. */
const displaced = (massKg: number, densityKgPerL: number | undefined, what: string): number => {
  if (massKg === 0) return 0;
  if (densityKgPerL === undefined) throw new RangeError(`${what} needs a density`);
  return massKg / densityKgPerL;
};

/**
 * Net water of a tank: its shape, less what rock and sand push aside, plus the sump; and how far that may be off.
 *
 * Relation: net = inner shape − rock ÷ density − sand ÷ density + sump. The error adds the lengths' and the displacement's in
 * quadrature (first order). Units: cm, kg, kg/L, litres. Source: geometry; densities are the caller's.
 * Error: `errorL`; pipes, pumps and a braced rim are not in it.
 *
 * @throws RangeError when there is rock or sand without its density.
 */
export function netVolume(
  input: NetVolumeInput,
): NetVolume | { kind: 'more-rock-than-tank'; grossL: number; displacedL: number } | OutOfRange {
  const {
    shape,
    glassCm = 0,
    rockKg = 0,
    sandKg = 0,
    sumpL = 0,
    lengthErrorCm = 0,
    displacedErrorFraction = 0,
  } = input;
  const inner = innerShape(shape, glassCm);
  const outside = firstOutside(shape, input) ?? firstOutside(inner);
  if (outside) return outside;
  const grossL = shapeL(inner);
  const displacedL =
    displaced(rockKg, input.rockDensityKgPerL, 'rock') + displaced(sandKg, input.sandDensityKgPerL, 'sand');
  if (displacedL >= grossL) return { kind: 'more-rock-than-tank', grossL, displacedL };
  const byLength = Object.entries(inner).map(([key, cm]) =>
    typeof cm === 'number' ? shapeL({ ...inner, [key]: cm + lengthErrorCm }) - grossL : 0,
  );
  return {
    kind: 'volume',
    grossL,
    displacedL,
    sumpL,
    netL: grossL - displacedL + sumpL,
    errorL: Math.hypot(...byLength, displacedL * displacedErrorFraction),
  };
}

/** The first number outside its range, in the order of the ranges; looked up in place, since one answer asks twice. */
function firstOutside(shape: TankShape, rest?: NetVolumeInput): OutOfRange | null {
  const [ofShape, others]: Readonly<Record<string, unknown>>[] = [shape, rest ?? shape];
  for (const [quantity, [least, most]] of LIMITS) {
    const given = ofShape?.[quantity] ?? others?.[quantity];
    if (typeof given === 'number' && !(given >= least && given <= most))
      return { kind: 'out-of-range', quantity, given, least, most };
  }
  return null;
}
