import { firstOutOfRange, type OutOfRange } from './range.ts';
import { ipts68FromIts90 } from './temperature.ts';

/** Where the one-atmosphere equation of state holds. */
export const EOS80_RANGE = { practicalSalinity: [0, 42], temperatureC: [-2, 40] } as const;

export type DensityFound = { kind: 'density'; densityKgPerM3: number };

/** How density rises over that of pure water at one temperature: a S + b S^1.5 + c S². */
export type SaltTerms = { pureKgPerM3: number; a: number; b: number; c: number };

/** The terms of EOS-80 at one temperature (ITS-90), with no check of the range. */
export function saltTerms(temperatureC: number): SaltTerms {
  const t = ipts68FromIts90(temperatureC);
  return {
    pureKgPerM3:
      999.842594 + t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9)))),
    a: 0.824493 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9))),
    b: -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6),
    c: 4.8314e-4,
  };
}

/** Density of water with these terms at a salinity, kg/m³. */
export const densityWith = ({ pureKgPerM3, a, b, c }: SaltTerms, practicalSalinity: number): number =>
  pureKgPerM3 + practicalSalinity * (a + b * Math.sqrt(practicalSalinity) + c * practicalSalinity);

/**
 * Density of seawater at one atmosphere.
 *
 * ρ = ρw(t) + a(t) S + b(t) S^1.5 + c S²: the international one-atmosphere equation of state, EOS-80.
 *
 * Units: practical salinity and °C (ITS-90) in, kg/m³ out, which is also g/L.
 * Source: Millero F.J. & Poisson A. (1981) Deep-Sea Res. 28A, 625-629; check values in Fofonoff N.P. & Millard R.C.
 * (1983) UNESCO Technical Papers in Marine Science 44.
 * Error: 0.004 kg/m³ (the authors'); within 0.01 kg/m³ of TEOS-10 wherever a tank can be.
 *
 * @throws RangeError outside S 0 to 42 and -2 to 40 °C. For what a member typed use `seawaterDensity`.
 */
export function densityKgPerM3(input: { practicalSalinity: number; temperatureC: number }): number {
  const density = seawaterDensity(input);
  if (density.kind === 'density') return density.densityKgPerM3;
  throw new RangeError(`${density.quantity} must be ${density.least} to ${density.most}, got ${density.given}`);
}

/** `densityKgPerM3` for values that a member typed: a refusal instead of an error. */
export function seawaterDensity(input: { practicalSalinity: number; temperatureC: number }): DensityFound | OutOfRange {
  const outside = firstOutOfRange(input, EOS80_RANGE);
  if (outside) return outside;
  return { kind: 'density', densityKgPerM3: densityWith(saltTerms(input.temperatureC), input.practicalSalinity) };
}

/**
 * Density of pure water at one atmosphere: EOS-80 at S 0.
 *
 * Units: °C (ITS-90) in, kg/m³ out.
 * Source: as `densityKgPerM3`. Error: within 0.0016 kg/m³ of Tanaka M. et al. (2001) Metrologia 38, 301-309, from 0 to
 * 40 °C.
 *
 * @throws RangeError outside -2 to 40 °C.
 */
export const pureWaterDensityKgPerM3 = ({ temperatureC }: { temperatureC: number }): number =>
  densityKgPerM3({ practicalSalinity: 0, temperatureC });
