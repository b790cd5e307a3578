import { DOSE_RANGES } from './dose-ranges.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { bringsPerGram, ION_KEYS, IONS, phDirection, type Ion, type PhDirection } from './reagent.ts';
import { densityKgPerM3 } from './seawater-density.ts';
import { MEQ_PER_L_PER_DKH } from './units/alkalinity.ts';

/** Dissolved salt in one kilogram of sea water, for each unit of practical salinity: Millero et al. (2008). */
const SALT_G_PER_KG_PER_PSU = 35.16504 / 35;

export type SideEffects = {
  kind: 'effects';
  /** Everything that the dose moves, what it was meant for included. Ions that it does not bring are absent. */
  ionsMgPerL: Partial<Record<Ion, number>>;
  alkalinityDkh: number;
  /** By the mass of dissolved salt, crystal water left out. */
  salinityRiseGPerKg: number;
  salinityRisePsu: number;
  ph: PhDirection;
};

/**
 * What a dose does to the water, per litre.
 *
 * Each gram brings its ions whole; salinity rises by the mass of salt: 1000 × salt ÷ mass of the tank's water.
 *
 * Units: g as weighed, net litres; mg/L, dKH, g/kg and practical salinity out.
 * Source: `bringsPerGram`, EOS-80 density. Error: of the salinity, about 4 % of its rise, since the dose's own mass is left
 * out; conductivity tells the salts apart and may show a little more or less.
 * Range: `DOSE_RANGES`; density by default that of salinity 35 at 25 °C.
 *
 * @throws RangeError for a formula that cannot be dosed, or when the mass is negative.
 */
export function sideEffects(input: {
  formula: string;
  massG: number;
  volumeL: number;
  purity?: number;
  practicalSalinity?: number;
  temperatureC?: number;
}): SideEffects | OutOfRange {
  const { formula, massG, volumeL, purity = 1, practicalSalinity = 35, temperatureC = 25 } = input;
  if (!(massG >= 0) || !Number.isFinite(massG)) throw new RangeError(`massG must not be negative, got ${massG}`);
  const outside = firstOutOfRange({ volumeL, purity }, DOSE_RANGES);
  if (outside) return outside;
  const brings = bringsPerGram(formula);
  const gPerL = (massG * purity) / volumeL;
  const ions = IONS.map((ion) => [ion, gPerL * brings[ION_KEYS[ion]]] as const).filter(([, mgPerL]) => mgPerL > 0);
  const salinityRiseGPerKg = (1000 * gPerL * brings.saltG) / densityKgPerM3({ practicalSalinity, temperatureC });
  return {
    kind: 'effects',
    ionsMgPerL: Object.fromEntries(ions),
    alkalinityDkh: (gPerL * brings.alkalinityMeq) / MEQ_PER_L_PER_DKH,
    salinityRiseGPerKg,
    salinityRisePsu: salinityRiseGPerKg / SALT_G_PER_KG_PER_PSU,
    ph: phDirection(formula),
  };
}
