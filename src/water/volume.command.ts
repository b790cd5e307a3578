import { z } from 'zod';
import { innerShape, netVolume, type TankShape } from '../../shared/net-volume.ts';
import { shortly } from '../../shared/units/figures.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { joined, md, type Markdown } from '../discord/message-view.ts';
import type { WaterDeps } from './asked.ts';
import { cannotView, outOfRangeView } from './asked.view.ts';
import { known, middle } from './known.ts';
import { quantityOptions, quantityShape, readQuantities } from '../calculators/quantity-option.ts';
import { volumeView } from './volume.view.ts';

const SHAPES = ['box', 'cylinder', 'hexagon', 'quarter circle', 'bow front'] as const;
type Shape = (typeof SHAPES)[number];

const cm = (description: string, required = false) =>
  ({ description, required, quantity: 'length', least: 1, most: 3000 }) as const;
const kg = (description: string) =>
  ({
    description,
    required: false,
    quantity: 'mass',
    unit: 'kg',
    least: 0,
    most: 20_000_000,
    example: '25 kg',
  }) as const;
const ASKED = {
  length: { ...cm('Longest side; diameter, one side of a hexagon, or straight side of a corner tank'), required: true },
  depth: { ...cm('Depth of the water, from the bottom pane to the surface'), required: true },
  width: cm('Front to back; of a bow front at its ends'),
  bow: cm('Of a bow front: how far the middle stands out beyond the ends'),
  glass: { ...cm('Thickness of the panes, if you measured outside: "10 mm"'), least: 0.1, most: 10, unit: 'mm' },
  rock: kg('Rock in the tank: "25 kg"'),
  sand: kg('Dry sand in the tank: "10 kg"'),
  sump: { description: 'Water in the sump while it runs: "40 L"', required: false, quantity: 'volume', least: 0 },
} as const;

const EXAMPLE = md`**/water volume** shape: box length: 120 cm width: 50 cm depth: 45 cm glass: 10 mm rock: 25 kg sump: 40 L`;

/** `/water volume`: net water from the shape, less rock and sand, plus the sump. */
export function volumeCommand({ base, unitsOf }: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water volume',
    description: 'Net water of a tank from its shape, rock, sand and sump, and how far it may be off',
    options: [
      { name: 'shape', description: 'Seen from above', required: true, choices: SHAPES },
      ...quantityOptions(ASKED),
    ],
    input: z.object({ ...quantityShape(ASKED), shape: z.enum(SHAPES) }),
    run: (given, { guildId }) => {
      const units = unitsOf(guildId);
      const read = readQuantities(ASKED, given, units);
      if (read.kind === 'problem') return read.view;
      const { length, width, depth, bow, glass, rock, sand, sump } = read.values;
      const shape = shapeOf(given.shape, {
        lengthCm: length.si,
        waterDepthCm: depth.si,
        widthCm: width?.si,
        bowCm: bow?.si,
      });
      if (!shape) return missing(given.shape);
      const [rockDensity, sandDensity] = [
        known(base, 'net-volume', 'rock-density'),
        known(base, 'net-volume', 'sand-density'),
      ];
      const tape = known(base, 'net-volume', 'tape-error').high;
      const glassCm = glass?.si ?? 0;
      const found = netVolume({
        shape,
        glassCm,
        rockKg: (rock?.si ?? 0) / 1000,
        rockDensityKgPerL: middle(rockDensity),
        sandKg: (sand?.si ?? 0) / 1000,
        sandDensityKgPerL: middle(sandDensity),
        sumpL: sump?.si ?? 0,
        lengthErrorCm: tape,
        displacedErrorFraction: (rockDensity.high - rockDensity.low) / (rockDensity.high + rockDensity.low),
      });
      if (found.kind === 'out-of-range') return outOfRangeView(found, EXAMPLE);
      if (found.kind === 'more-rock-than-tank')
        return cannotView('More rock than tank', [
          md`The rock and sand you gave push aside ${shortly(found.displacedL)} L, and the tank holds ${shortly(found.grossL)} L up to that depth. One of the numbers is off.`,
          md`For example: ${EXAMPLE}`,
        ]);
      const density = (what: string, { low, high }: { low: number; high: number }) =>
        md`${what}: ${shortly(middle({ low, high }))} kg/L, **assumed**; ${low} to ${high} is usual`;
      return volumeView(base, {
        found,
        units,
        assumed: [
          ...read.echo,
          glass
            ? md`lengths measured outside; two panes come off`
            : md`lengths measured **inside** the glass, assumed; add **glass:** if you measured outside`,
          md`each length off by up to ${tape} cm`,
          ...(rock ? [density('rock', rockDensity)] : []),
          ...(sand ? [density('sand grains', sandDensity)] : []),
        ],
        geometry: geometry(innerShape(shape, glassCm)),
        hasDisplacement: rock !== undefined || sand !== undefined,
      });
    },
  });
}

type Lengths = {
  lengthCm: number;
  waterDepthCm: number;
  widthCm: number | undefined;
  bowCm: number | undefined;
};

/** The shape with its lengths; null when one of them was not given. */
function shapeOf(shape: Shape, { lengthCm, waterDepthCm, widthCm, bowCm }: Lengths): TankShape | null {
  switch (shape) {
    case 'box':
      return widthCm === undefined ? null : { kind: 'box', lengthCm, widthCm, waterDepthCm };
    case 'cylinder':
      return { kind: 'cylinder', diameterCm: lengthCm, waterDepthCm };
    case 'hexagon':
      return { kind: 'hexagon', sideCm: lengthCm, waterDepthCm };
    case 'quarter circle':
      return { kind: 'quarter-cylinder', radiusCm: lengthCm, waterDepthCm };
    case 'bow front':
      return widthCm === undefined || bowCm === undefined
        ? null
        : { kind: 'bow-front', lengthCm, widthCm, bowCm, waterDepthCm };
  }
}

function missing(shape: Shape) {
  const wanted: Markdown[] =
    shape === 'bow front'
      ? [md`**width:** (front to back at the ends)`, md`**bow:** (how far the middle stands out)`]
      : [md`**width:** (front to back)`];
  return cannotView('One more length', [
    md`For a ${shape} I also need ${joined(wanted, ' and ')}.`,
    md`For example: ${EXAMPLE}`,
  ]);
}

/** The sum as it is written on paper, in centimetres. */
function geometry(shape: TankShape): string {
  const n = (value: number) => shortly(value, 4);
  const depth = n(shape.waterDepthCm);
  switch (shape.kind) {
    case 'box':
      return `${n(shape.lengthCm)} × ${n(shape.widthCm)} × ${depth} cm ÷ 1000`;
    case 'cylinder':
      return `0.7854 × ${n(shape.diameterCm)}² × ${depth} cm ÷ 1000`;
    case 'hexagon':
      return `2.598 × ${n(shape.sideCm)}² × ${depth} cm ÷ 1000`;
    case 'quarter-cylinder':
      return `0.7854 × ${n(shape.radiusCm)}² × ${depth} cm ÷ 1000`;
    case 'bow-front':
      return `(${n(shape.lengthCm)} × ${n(shape.widthCm)} + the bow, about ⅔ × ${n(shape.lengthCm)} × ${n(shape.bowCm)}) × ${depth} cm ÷ 1000`;
  }
}
