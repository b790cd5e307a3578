import { densityWith, saltTerms } from './seawater-density.ts';

/**
 * Density of fresh, sea and slightly stronger water, for salt water that is mixed strong on purpose.
 *
 * Relation: the one-atmosphere equation of state, carried on above 42 as it stands. Units: practical salinity, °C; kg/L out.
 * Source: as seawater-density.ts (EOS-80). Error: as there up to 42; above, a straight line through 40 and 42 differs by
 * less than 0.03 kg/m³ at 50, which moves no litre that a keeper could measure.
 */
export const brineDensityKgPerL = (practicalSalinity: number, temperatureC: number): number =>
  densityWith(saltTerms(temperatureC), practicalSalinity) / 1000;
