import { firstOutOfRange, type OutOfRange } from './range.ts';
import { anhydrousFraction, bringsPerGram, type BringsPerGram } from './reagent.ts';

/** Grams of the anhydrous salt that 100 g of water take up. */
export type Solubility = { at20C: number; at25C: number };

/** Strongest stock that is asked about, and the temperatures of a room. */
export const STOCK_RANGES = { stockGPerL: [0.01, 2000], temperatureC: [0, 40], massG: [0, 1e6] } as const;

/** A litre of any of these solutions weighs at least as much as a litre of water does at 25 °C (EOS-80: 997.05 g). */
const LEAST_G_PER_L = 997;

/**
 * The strongest stock that certainly dissolves.
 *
 * A saturated solution holds w = s ÷ (100 + s) of its mass as salt, and a litre of it weighs 997 g or more, so at least
 * 997 w grams of salt are in a litre; crystal water is added to that. The true limit is higher, by up to a third for strong ones.
 *
 * Units: g of reagent, as weighed, per litre of finished solution; solubility in g of anhydrous salt per 100 g water, °C.
 * Between 20 and 25 °C the two solubilities are interpolated; outside, the smaller one counts.
 * Source: the solubilities are those of the knowledge base. Error: on the safe side.
 *
 * @throws RangeError when a solubility is not positive, or for a formula that cannot be dosed.
 */
export function mostStockGPerL(input: { formula: string; solubility: Solubility; temperatureC: number }): number {
  const { formula, solubility, temperatureC } = input;
  const { at20C, at25C } = solubility;
  if (!(at20C > 0 && at25C > 0)) throw new RangeError(`solubilities must be positive, got ${at20C} and ${at25C}`);
  const between = temperatureC >= 20 && temperatureC <= 25;
  const per100G = between ? at20C + ((at25C - at20C) * (temperatureC - 20)) / 5 : Math.min(at20C, at25C);
  return (LEAST_G_PER_L * per100G) / (100 + per100G) / anhydrousFraction(formula);
}

export type StockDose =
  | { kind: 'stock'; volumeMl: number }
  /** `mostGPerL`: the strongest that certainly dissolves at this temperature. */
  | { kind: 'will-not-dissolve'; stockGPerL: number; mostGPerL: number; temperatureC: number }
  | OutOfRange;

/**
 * Millilitres of a stock that hold a mass of the reagent.
 *
 * Volume = mass ÷ strength. A stock stronger than what dissolves is refused: what lies on the bottom is not dosed.
 *
 * Units: g as weighed, g per litre of finished stock; mL out.
 * Source: definition; see `mostStockGPerL`. Error: that of the measuring jug.
 *
 * @throws RangeError for a formula that cannot be dosed.
 */
export function stockFor(input: {
  formula: string;
  massG: number;
  stockGPerL: number;
  /** Absent where nobody knows it: then nothing is refused. */
  solubility?: Solubility | undefined;
  temperatureC: number;
}): StockDose {
  const { formula, massG, stockGPerL, solubility, temperatureC } = input;
  const outside = firstOutOfRange({ stockGPerL, temperatureC, massG }, STOCK_RANGES);
  if (outside) return outside;
  const mostGPerL = solubility ? mostStockGPerL({ formula, solubility, temperatureC }) : Number.POSITIVE_INFINITY;
  if (stockGPerL > mostGPerL) return { kind: 'will-not-dissolve', stockGPerL, mostGPerL, temperatureC };
  return { kind: 'stock', volumeMl: (1000 * massG) / stockGPerL };
}

/**
 * What one millilitre of a stock brings, under the same keys as a gram of the reagent.
 *
 * Units: meq, mg and g per mL, for `stockGPerL` grams as weighed in a litre.
 *
 * @throws RangeError for a formula that cannot be dosed.
 */
export function bringsPerMl({
  formula,
  stockGPerL,
  purity = 1,
}: {
  formula: string;
  stockGPerL: number;
  purity?: number;
}): BringsPerGram {
  const times = (stockGPerL * purity) / 1000;
  return Object.fromEntries(
    Object.entries(bringsPerGram(formula)).map(([key, value]) => [key, value * times]),
  ) as BringsPerGram;
}
