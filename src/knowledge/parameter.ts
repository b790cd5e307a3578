import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { FIGURE_STANDINGS } from './reagent.ts';

/** A number or span with its standing; members see both. Low and high are equal for a single number. */
export const Figure = z
  .strictObject({
    low: z.number(),
    high: z.number(),
    standing: z.enum(FIGURE_STANDINGS),
    /** A source id, or absent for common practice. */
    source: entryId.optional(),
    note: paragraph(240).optional(),
  })
  .refine(({ low, high }) => low <= high, 'the lower figure first')
  .refine(
    ({ standing, source }) => standing !== 'published' || source !== undefined,
    'a published figure needs its source',
  );
export type Figure = z.infer<typeof Figure>;

/** What a further figure is for. `context` explains; no reading is ever compared with it. */
export const FIGURE_USES = ['natural', 'target', 'cap', 'alarm', 'default', 'accuracy', 'context'] as const;

/** A figure beside the usual ones: it holds for some tanks only, or in a unit of its own. */
export const FurtherFigure = Figure.safeExtend({
  /** What it is, as it stands in a sentence: "soft corals", "drop in one step of hyposalinity". */
  says: z.string().min(4).max(120),
  unit: z.string().min(1).max(40),
  use: z.enum(FIGURE_USES),
});
export type FurtherFigure = z.infer<typeof FurtherFigure>;

export const PARAMETER_UNITS = ['dKH', 'mg/L', 'psu', '°C', 'pH', 'µmol/m²/s', 'tank volumes/h', '%', '%/day'] as const;

/** Chemical forms of one element that no kit and no limit may mix up. */
export const FORMS = ['ionic', 'chelated', 'amine'] as const;

/** One file in knowledge/parameters/: a quantity of the water. All figures are in `unit`; nothing here is code's to know. */
export const Parameter = z.strictObject({
  name: z.string().min(2).max(40),
  aliases: z.array(z.string().min(1).max(40)).default([]),
  unit: z.enum(PARAMETER_UNITS),
  /** What mg/L counts: "Ca", "NO3", "Cu". */
  species: z.string().optional(),
  /** The form of the element; the id is then "copper-ionic", and a reading of "copper" alone belongs to none of them. */
  form: z.enum(FORMS).optional(),
  natural: Figure.optional(),
  target: Figure.optional(),
  /** The largest rise in one day: `low` is what plans use, `high` what is never passed. */
  riseADay: Figure.optional(),
  fallADay: Figure.optional(),
  warnBelow: Figure.optional(),
  warnAbove: Figure.optional(),
  urgentBelow: Figure.optional(),
  urgentAbove: Figure.optional(),
  /** What a hobby test may be off by, either way. */
  kitError: Figure.optional(),
  /** Figures for special cases, by a key that code may ask for. */
  more: z.record(entryId, FurtherFigure).default({}),
  /** Reagents that raise it, the usual one first. */
  raisedBy: z.array(entryId).default([]),
  /** What can bring it down, since no dose can. */
  lowering: paragraph(400),
  /** What to test, when, and with what in mind. */
  testing: paragraph(400),
  /** Parameters to put right before this one. */
  after: z.array(entryId).default([]),
  /** Parameters never dosed at the same moment, and why. */
  apart: z.strictObject({ from: z.array(entryId).min(1), minutes: Figure, why: paragraph(240) }).optional(),
  /** What else to mind, one sentence each. */
  mind: z.array(paragraph(300)).default([]),
  sources: z.array(entryId).min(1),
});
export type ParameterData = z.infer<typeof Parameter>;
export type Parameter = ParameterData & { id: string };

const FIGURES = [
  'natural',
  'target',
  'riseADay',
  'fallADay',
  'warnBelow',
  'warnAbove',
  'urgentBelow',
  'urgentAbove',
  'kitError',
] as const;

/** Every figure that an entry gives. */
export const figuresOf = (parameter: ParameterData): Figure[] =>
  [
    ...FIGURES.map((name) => parameter[name]),
    parameter.apart?.minutes,
    ...Object.values<Figure>(parameter.more),
  ].filter((figure) => figure !== undefined);

/** The word that reagents and commands use for it: "copper" for every form of copper. */
export const raisedAs = ({ id, form }: Pick<Parameter, 'id' | 'form'>): string =>
  form && id.endsWith(`-${form}`) ? id.slice(0, -form.length - 1) : id;

/**
 * A further figure by its key.
 *
 * @throws RangeError when the entry has none of that key.
 */
export function furtherFigure({ id, more }: Parameter, key: string): FurtherFigure {
  const figure = more[key];
  if (!figure) throw new RangeError(`knowledge/parameters/${id}.yaml has no figure "${key}" under more`);
  return figure;
}
