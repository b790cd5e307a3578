import type { SalinityFound } from './practical-salinity.ts';
import { firstOutOfRange, type OutOfRange } from './range.ts';
import { densityWith, EOS80_RANGE, pureWaterDensityKgPerM3, saltTerms } from './seawater-density.ts';
import { SIXTY_FAHRENHEIT_C } from './temperature.ts';

/** The two temperatures without which a specific gravity says nothing: of the sample, and of the pure water. */
export type SpecificGravityScale = { sampleC: number; referenceC: number };

/** The scales that instruments are marked with. A hydrometer is read in water of the temperature on it. */
export const SPECIFIC_GRAVITY_SCALES = {
  '25/25': { sampleC: 25, referenceC: 25 },
  '20/20': { sampleC: 20, referenceC: 20 },
  '60F/60F': { sampleC: SIXTY_FAHRENHEIT_C, referenceC: SIXTY_FAHRENHEIT_C },
} as const satisfies Record<string, SpecificGravityScale>;
export type SpecificGravityScaleName = keyof typeof SPECIFIC_GRAVITY_SCALES;

/** What is meant when nobody says (common practice, no source); an answer has to tell that it was assumed. */
export const DEFAULT_SPECIFIC_GRAVITY_SCALE: SpecificGravityScaleName = '25/25';

export type SpecificGravityFound = { kind: 'specific-gravity'; specificGravity: number };

const SCALE_RANGE = { sampleC: EOS80_RANGE.temperatureC, referenceC: [0, 40] } as const;

/**
 * Specific gravity of seawater: its density at `sampleC` divided by that of pure water at `referenceC`.
 *
 * Units: practical salinity and °C (ITS-90) in, a ratio out. Set both temperatures by the scale on the instrument; for a
 * 60F/60F hydrometer read in warm water, `sampleC` is that of the water and `referenceC` stays at 60 °F.
 * Source: the definition, with the densities of EOS-80 (Millero F.J. & Poisson A. (1981) Deep-Sea Res. 28A, 625-629).
 * Error: 1e-5 in the ratio. Glass that widens in warm water is not corrected: about 0.0002 for 10 K (from memory).
 * Range: S 0 to 42, sample -2 to 40 °C, reference 0 to 40 °C.
 */
export function specificGravityFromSalinity(
  input: { practicalSalinity: number } & SpecificGravityScale,
): SpecificGravityFound | OutOfRange {
  const { practicalSalinity, sampleC, referenceC } = input;
  const outside = firstOutOfRange(input, { practicalSalinity: EOS80_RANGE.practicalSalinity, ...SCALE_RANGE });
  if (outside) return outside;
  const reference = pureWaterDensityKgPerM3({ temperatureC: referenceC });
  return { kind: 'specific-gravity', specificGravity: densityWith(saltTerms(sampleC), practicalSalinity) / reference };
}

/**
 * Practical salinity from a specific gravity: the way back of `specificGravityFromSalinity`, with its units and source.
 *
 * Error: the ratio is the weak part. 0.0005 in it is 0.65 in salinity, and a 60F/60F hydrometer read at 25 °C as if the
 * water were at 60 °F is off by 3.3.
 * Range: temperatures as there, and the ratios of S 0 to 42 at these temperatures; the refusal names those.
 */
export function salinityFromSpecificGravity(
  input: { specificGravity: number } & SpecificGravityScale,
): SalinityFound | OutOfRange {
  const { specificGravity, sampleC, referenceC } = input;
  const wrongScale = firstOutOfRange(input, SCALE_RANGE);
  if (wrongScale) return wrongScale;
  const reference = pureWaterDensityKgPerM3({ temperatureC: referenceC });
  const terms = saltTerms(sampleC);
  const [leastS, mostS] = EOS80_RANGE.practicalSalinity;
  const range = [densityWith(terms, leastS) / reference, densityWith(terms, mostS) / reference] as const;
  const outside = firstOutOfRange({ specificGravity }, { specificGravity: range });
  if (outside) return outside;

  const wanted = specificGravity * reference;
  let s = Math.max((wanted - terms.pureKgPerM3) / terms.a, 0);
  for (let turn = 0; turn < 12; turn += 1) {
    const slope = terms.a + 1.5 * terms.b * Math.sqrt(s) + 2 * terms.c * s;
    const step = (densityWith(terms, s) - wanted) / slope;
    s = Math.max(s - step, 0);
    if (Math.abs(step) < 1e-12) break;
  }
  return { kind: 'salinity', practicalSalinity: Math.min(s, mostS) };
}
