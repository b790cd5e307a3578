import { z } from 'zod';
import { quantityOptions, quantityShape, readQuantities } from '../calculators/quantity-option.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { OptionSpec } from '../discord/command.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { furtherFigure } from '../knowledge/parameter.ts';
import { standingOf } from './figure-words.ts';
import { netOfGlass, readSize, SHAPES } from './tank-size.ts';
import { sizeTroubleView, twoVolumesView } from './tank-trouble.view.ts';
import { TANK_PURPOSES, UNITS, VISIBILITIES, type Tank, type TankUnits } from './tank.ts';

/** A stated volume may be off by as much. Common practice, no source; the owner may say better. */
const USUAL_VOLUME_ERROR = 0.1;

const ASKED = {
  volume: {
    description: 'The water without rock and sand: 300 L, 80 US gal',
    required: false,
    quantity: 'volume',
    least: 1,
    most: 100_000,
  },
  salinity: { description: 'As last measured: 35 ppt, 1.0264 sg, 53 mS/cm', required: false, quantity: 'salinity' },
  temperature: { description: 'As last measured: 25.5 C, 78 F', required: false, quantity: 'temperature' },
  'volume-error': {
    description: 'How far the volume may be off: 5 %',
    required: false,
    quantity: 'percent',
    least: 0,
    most: 50,
  },
} as const;

/** What can be said of a tank beside its name, for adding and for editing. */
export const FIELD_OPTIONS: readonly OptionSpec[] = [
  ...quantityOptions(ASKED),
  {
    name: 'shape',
    description: 'Instead of the volume: its shape, together with size',
    required: false,
    choices: SHAPES,
  },
  {
    name: 'size',
    description: 'With shape: inner lengths up to the water, such as 120 x 60 x 55 cm',
    required: false,
    mostCharacters: 100,
  },
  { name: 'purpose', description: 'What it is kept for; otherwise display', required: false, choices: TANK_PURPOSES },
  {
    name: 'seen-by',
    description: 'Who may see it: me (nobody else) or the club; otherwise me',
    required: false,
    choices: VISIBILITIES,
  },
  { name: 'volume-unit', description: 'How you like to read volumes', required: false, choices: UNITS.volume },
  {
    name: 'temperature-unit',
    description: 'How you like to read temperatures',
    required: false,
    choices: UNITS.temperature,
  },
  {
    name: 'alkalinity-unit',
    description: 'How you like to read alkalinity',
    required: false,
    choices: UNITS.alkalinity,
  },
  { name: 'salinity-unit', description: 'How you like to read salinity', required: false, choices: UNITS.salinity },
];

export const FIELD_SHAPE = {
  ...quantityShape(ASKED),
  shape: z.enum(SHAPES).optional(),
  size: z.string().max(100).optional(),
  purpose: z.enum(TANK_PURPOSES).optional(),
  'seen-by': z.enum(VISIBILITIES).optional(),
  'volume-unit': z.enum(UNITS.volume).optional(),
  'temperature-unit': z.enum(UNITS.temperature).optional(),
  'alkalinity-unit': z.enum(UNITS.alkalinity).optional(),
  'salinity-unit': z.enum(UNITS.salinity).optional(),
};
export type GivenFields = z.infer<z.ZodObject<typeof FIELD_SHAPE>>;

/** What is to be set, and how it was understood; only what was given is there. */
export type ReadFields =
  | {
      kind: 'fields';
      change: Partial<Omit<Tank, 'id' | 'guildId' | 'memberId' | 'name'>>;
      units: TankUnits;
      how: Markdown[];
    }
  | { kind: 'problem'; view: MessageView };

/** Reads what was given of a tank. Bare numbers are in the units given along, or else in `units`. */
export function readFields(base: KnowledgeBase, given: GivenFields, units: TankUnits): ReadFields {
  const own: TankUnits = {
    volume: given['volume-unit'] ?? units.volume,
    temperature: given['temperature-unit'] ?? units.temperature,
    alkalinity: given['alkalinity-unit'] ?? units.alkalinity,
    salinity: given['salinity-unit'] ?? units.salinity,
  };
  if (given.volume !== undefined && (given.shape !== undefined || given.size !== undefined))
    return { kind: 'problem', view: twoVolumesView() };
  const read = readQuantities(ASKED, given, own);
  if (read.kind === 'problem') return read;
  const { volume, salinity, temperature, 'volume-error': error } = read.values;
  const water = volume
    ? { kind: 'water' as const, netVolumeL: volume.si, volumeError: USUAL_VOLUME_ERROR, how: [] }
    : byShape(base, given, own);
  if (water?.kind === 'problem') return water;
  return {
    kind: 'fields',
    units: own,
    how: [...read.echo, ...(water?.how ?? [])],
    change: {
      ...(water ? { netVolumeL: water.netVolumeL, volumeError: water.volumeError } : {}),
      ...(error ? { volumeError: error.si / 100 } : {}),
      ...(salinity ? { practicalSalinity: salinity.si } : {}),
      ...(temperature ? { temperatureC: temperature.si } : {}),
      ...(given.purpose ? { purpose: given.purpose } : {}),
      ...(given['seen-by'] ? { visibility: given['seen-by'] } : {}),
      units: own,
    },
  };
}

/** The volume from shape and size, with the share that rock usually takes; null when neither was given. */
function byShape(base: KnowledgeBase, { shape, size }: GivenFields, units: TankUnits) {
  if (shape === undefined && size === undefined) return null;
  const read = readSize(shape ?? 'box', size ?? '', units);
  if (read.kind !== 'size') return { kind: 'problem' as const, view: sizeTroubleView(read, units) };
  const volume = base.parameters.get('net-volume');
  if (!volume) throw new RangeError('knowledge/parameters/net-volume.yaml is missing');
  const share = furtherFigure(volume, 'net-of-nominal');
  const net = netOfGlass(read.grossL, share);
  return {
    kind: 'water' as const,
    ...net,
    how: [
      md`A ${shape ?? 'box'} of ${read.understood} holds ${inUnits(read.grossL, 'volume', units)}. With rock and sand in it I took ${share.low} to ${share.high} % of that as water (${standingOf(share, base)}). **/water volume** works it out from your rock, and **/tank edit** keeps what it says.`,
    ],
  };
}

/** Whether anything was given at all. */
export const asksForSomething = (given: GivenFields & { name?: string | undefined }): boolean =>
  Object.values(given).some((value) => value !== undefined);
