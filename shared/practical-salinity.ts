import { firstOutOfRange, type OutOfRange } from './range.ts';
import { ipts68FromIts90 } from './temperature.ts';

/**
 * Conductivity of seawater of S 35 at 15 °C (IPTS-68) and one atmosphere, in mS/cm; conductivity ratios refer to it.
 *
 * Source: Culkin F. & Smith N.D. (1980) IEEE J. Ocean. Eng. 5, 22-23; the value that TEOS-10 uses.
 */
export const C_35_15_0_MS_PER_CM = 42.914;

/** Where PSS-78 holds. */
export const PSS78_RANGE = { practicalSalinity: [2, 42], temperatureC: [-2, 35] } as const;

/** The temperature that meters with automatic compensation refer to. */
const COMPENSATED_TO_C = 25;

export type SalinityFound = { kind: 'salinity'; practicalSalinity: number };
export type ConductivityFound = { kind: 'conductivity'; conductivityMsPerCm: number; conductivityRatio: number };

/** rt: how conductivity at S 35 follows the temperature. */
const atS35 = (t68: number) =>
  0.6766097 + t68 * (2.00564e-2 + t68 * (1.104259e-4 + t68 * (-6.9698e-7 + t68 * 1.0031e-9)));

/** S, and its slope, as a polynomial in x = √Rt. */
function salinityAt(x: number, t68: number): { s: number; slope: number } {
  const k = (t68 - 15) / (1 + 0.0162 * (t68 - 15));
  const c0 = 0.008 + 0.0005 * k;
  const c1 = -0.1692 - 0.0056 * k;
  const c2 = 25.3851 - 0.0066 * k;
  const c3 = 14.0941 - 0.0375 * k;
  const c4 = -7.0261 + 0.0636 * k;
  const c5 = 2.7081 - 0.0144 * k;
  return {
    s: c0 + x * (c1 + x * (c2 + x * (c3 + x * (c4 + x * c5)))),
    slope: c1 + x * (2 * c2 + x * (3 * c3 + x * (4 * c4 + x * 5 * c5))),
  };
}

/** The parts of Rp = 1 + a / (b + c R), which carries the pressure. */
const pressureTerm = (t68: number, pressureDbar: number) => ({
  a: pressureDbar * (2.07e-5 + pressureDbar * (-6.37e-10 + pressureDbar * 3.989e-15)),
  b: 1 + t68 * (3.426e-2 + t68 * 4.464e-4),
  c: 0.4215 - 3.107e-3 * t68,
});

type Place = { temperatureC: number; pressureDbar?: number };

/**
 * Practical salinity from a conductivity ratio, by the polynomials of PSS-78 with no check of their range.
 *
 * Units: R = C(S, t, p) ÷ C(35, 15 °C, 0); °C in ITS-90; sea pressure in dbar, 0 at the surface, where every tank is.
 * Source: Fofonoff N.P. & Millard R.C. (1983) UNESCO Technical Papers in Marine Science 44; Perkin R.G. & Lewis E.L.
 * (1980) IEEE J. Ocean. Eng. 5, 9-16.
 * Error: the scale is defined by these polynomials for 2 ≤ S ≤ 42 and -2 ≤ t ≤ 35 °C; beyond, nobody vouches for it.
 *
 * @throws RangeError when the ratio is not positive, or the pressure is negative.
 */
export function salinityFromRatio(input: { conductivityRatio: number } & Place): number {
  const { conductivityRatio: ratio, temperatureC, pressureDbar = 0 } = input;
  if (!(ratio > 0) || ratio === Infinity) throw new RangeError(`conductivityRatio must be positive, got ${ratio}`);
  if (!(pressureDbar >= 0)) throw new RangeError(`pressureDbar must not be negative, got ${pressureDbar}`);
  const t68 = ipts68FromIts90(temperatureC);
  const { a, b, c } = pressureTerm(t68, pressureDbar);
  const rp = 1 + a / (b + c * ratio);
  return salinityAt(Math.sqrt(ratio / (rp * atS35(t68))), t68).s;
}

/**
 * The conductivity ratio of water of a practical salinity: the way back of `salinityFromRatio`, with its units and
 * source. Newton's method in √Rt, to the last digits; the pressure is then a quadratic.
 *
 * @throws RangeError when the salinity is not positive, or the pressure is negative.
 */
export function ratioFromSalinity(input: { practicalSalinity: number } & Place): number {
  const { practicalSalinity, temperatureC, pressureDbar = 0 } = input;
  if (!(practicalSalinity > 0) || practicalSalinity === Infinity) {
    throw new RangeError(`practicalSalinity must be positive, got ${practicalSalinity}`);
  }
  if (!(pressureDbar >= 0)) throw new RangeError(`pressureDbar must not be negative, got ${pressureDbar}`);
  const t68 = ipts68FromIts90(temperatureC);
  let x = Math.sqrt(practicalSalinity / 35);
  for (let turn = 0; turn < 12; turn += 1) {
    const { s, slope } = salinityAt(x, t68);
    const step = (s - practicalSalinity) / slope;
    x -= step;
    if (Math.abs(step) < 1e-14) break;
  }
  const q = x * x * atS35(t68);
  const { a, b, c } = pressureTerm(t68, pressureDbar);
  if (a === 0) return q;
  const half = (b - q * c) / (2 * c);
  return Math.sqrt(half * half + (q * (b + a)) / c) - half;
}

/**
 * Conductivity of water of a practical salinity in a tank.
 *
 * Units: °C (ITS-90) in, mS/cm and the ratio to C(35, 15 °C, 0) out.
 * Source and error: see `salinityFromRatio`; a hobby probe is good to 1 or 2 % (common practice, no source).
 * Range: S 2 to 42, -2 to 35 °C.
 */
export function conductivityFromSalinity(input: {
  practicalSalinity: number;
  temperatureC: number;
}): ConductivityFound | OutOfRange {
  const outside = firstOutOfRange(input, PSS78_RANGE);
  if (outside) return outside;
  const conductivityRatio = ratioFromSalinity(input);
  return { kind: 'conductivity', conductivityMsPerCm: conductivityRatio * C_35_15_0_MS_PER_CM, conductivityRatio };
}

/**
 * Practical salinity from the conductivity of the water as it is, not referred to another temperature.
 *
 * Units: mS/cm and °C (ITS-90).
 * Source and error: see `salinityFromRatio`; 1 % of conductivity is 0.4 in salinity near S 35.
 * Range: -2 to 35 °C, and the conductivities of S 2 to 42 at that temperature; the refusal names those.
 */
export function salinityFromConductivity(input: {
  conductivityMsPerCm: number;
  temperatureC: number;
}): SalinityFound | OutOfRange {
  const { conductivityMsPerCm, temperatureC } = input;
  const { practicalSalinity, ...temperature } = PSS78_RANGE;
  const [least, most] = practicalSalinity;
  const at = (salinity: number) =>
    ratioFromSalinity({ practicalSalinity: salinity, temperatureC }) * C_35_15_0_MS_PER_CM;
  const outside =
    firstOutOfRange({ temperatureC }, temperature) ??
    firstOutOfRange({ conductivityMsPerCm }, { conductivityMsPerCm: [at(least), at(most)] });
  if (outside) return outside;
  const conductivityRatio = conductivityMsPerCm / C_35_15_0_MS_PER_CM;
  return { kind: 'salinity', practicalSalinity: salinityFromRatio({ conductivityRatio, temperatureC }) };
}

/**
 * Practical salinity from a meter that shows conductivity referred to 25 °C: the tank's temperature is already in it, so
 * asking for it again would count it twice.
 *
 * Units: mS/cm at 25 °C.
 * Error: such a compensation is made for dilute or table-salt water; expect ± 0.5 in salinity some degrees from 25 °C
 * (from memory).
 * Range: the conductivities of S 2 to 42 at 25 °C.
 */
export const salinityFromCompensated = (input: { conductivityMsPerCm: number }): SalinityFound | OutOfRange =>
  salinityFromConductivity({ conductivityMsPerCm: input.conductivityMsPerCm, temperatureC: COMPENSATED_TO_C });
