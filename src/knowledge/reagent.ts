import { z } from 'zod';
import { entryId, many, paragraph } from './critter.ts';

/** What a dose can raise. The words are those of the commands. */
export const RAISED = [
  'alkalinity',
  'calcium',
  'magnesium',
  'potassium',
  'strontium',
  'iodide',
  'nitrate',
  'phosphate',
  'copper',
  'salinity',
] as const;
export type Raised = (typeof RAISED)[number];

/** What one addition does to pH, before gas exchange evens it out. */
export const PH_EFFECTS = ['raises strongly', 'raises', 'hardly', 'lowers slightly'] as const;

/** How far a figure can be trusted. `computed`: follows from published constants by a formula in shared/. */
export const FIGURE_STANDINGS = ['published', 'common-practice', 'from-memory', 'computed'] as const;

/** What a substance can do to a person or a tank. Each word demands something of the entry; reagent-safety.ts says what. */
export const DANGERS = [
  'strong-alkali',
  'heats',
  'oxidiser',
  'controlled',
  'poison',
  'heart',
  'thyroid',
  'kills-invertebrates',
] as const;
export type Danger = (typeof DANGERS)[number];

/** One file in knowledge/reagents/: a pure salt that keepers dissolve. The file name is the id. No brands. */
export const Reagent = z.strictObject({
  name: z.string().min(3).max(60),
  /** Household and trade names of the substance itself: "baking soda". */
  aliases: z.array(z.string().min(2).max(60)).default([]),
  /** As chemists write it, hydrates with a dot: "CaCl2.2H2O". "sea-salt" for a mix of salts in natural proportion. */
  formula: z.string().min(2).max(30),
  raises: z.array(z.enum(RAISED)).min(1),
  /** Grams of the anhydrous salt that 100 g of water take; absent for what is never made into a stock. */
  solubility: z
    .strictObject({
      at20C: z.number().positive(),
      at25C: z.number().positive(),
      standing: z.enum(FIGURE_STANDINGS),
    })
    .optional(),
  /** What one addition does to pH, before gas exchange evens it out. */
  phEffect: z.enum(PH_EFFECTS),
  /** How to make the solution without harm. */
  making: paragraph(300),
  /** What it can do, as words that the check of the knowledge base goes by. */
  dangers: many(DANGERS),
  hazard: paragraph(300),
  /** What to wear. */
  protect: paragraph(200),
  /** Rows of knowledge/first-aid. */
  firstAid: z.array(entryId).min(1),
  /** The only kind of tank it may go into; absent for any. */
  onlyIn: z.literal('quarantine').optional(),
  /** What a keeper has to know before using it: water in the tub, law, who must not. */
  mind: paragraph(300).optional(),
  sources: z.array(entryId).min(1),
});
export type ReagentData = z.infer<typeof Reagent>;
export type Reagent = ReagentData & { id: string };
