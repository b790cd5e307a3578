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

export const PARAMETER_UNITS = ['dKH', 'mg/L', 'psu', '°C', 'pH', 'µmol/m²/s'] as const;

/** One file in knowledge/parameters/: a quantity of the water. All figures are in `unit`; nothing here is code's to know. */
export const Parameter = z.strictObject({
  name: z.string().min(2).max(40),
  aliases: z.array(z.string().min(1).max(40)).default([]),
  unit: z.enum(PARAMETER_UNITS),
  /** What mg/L counts: "Ca", "NO3", "Cu". */
  species: z.string().optional(),
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
  [...FIGURES.map((name) => parameter[name]), parameter.apart?.minutes].filter((figure) => figure !== undefined);
