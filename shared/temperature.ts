const ABSOLUTE_ZERO_C = -273.15;

/** 60 °F, at which many glass hydrometers are marked. */
export const SIXTY_FAHRENHEIT_C = (60 - 32) / 1.8;

function aboveAbsoluteZero(temperatureC: number): number {
  if (!(temperatureC >= ABSOLUTE_ZERO_C) || temperatureC === Infinity) {
    throw new RangeError(`a temperature has to lie above ${ABSOLUTE_ZERO_C} °C, got ${temperatureC} °C`);
  }
  return temperatureC;
}

/**
 * Degrees Celsius of 1968 (IPTS-68) for degrees of today's scale (ITS-90).
 *
 * t68 = 1.00024 × t90. PSS-78 and EOS-80 are written in IPTS-68; thermometers, and everything else here, use ITS-90.
 *
 * Units: °C in and out.
 * Source: Saunders P.M. (1990) The International Temperature Scale of 1990, WOCE Newsletter 10 (from memory); the same
 * factor stands in TEOS-10, IOC, SCOR & IAPSO (2010) Manuals and Guides 56.
 * Error: below 0.001 K from -2 to 40 °C; leaving the step out costs 0.006 K, or 0.005 in salinity, at 25 °C.
 *
 * @throws RangeError below absolute zero or when the temperature is not a number.
 */
export const ipts68FromIts90 = (temperatureC: number): number => 1.00024 * aboveAbsoluteZero(temperatureC);

/** The way back of `ipts68FromIts90`. @throws RangeError as there. */
export const its90FromIpts68 = (temperature68C: number): number => aboveAbsoluteZero(temperature68C) / 1.00024;

/**
 * Kelvin for degrees Celsius: T = t + 273.15.
 *
 * Source: NIST Special Publication 811 (2008), appendix B (from memory). Error: none.
 *
 * @throws RangeError below absolute zero or when the temperature is not a number.
 */
export const kelvinFromCelsius = (temperatureC: number): number => aboveAbsoluteZero(temperatureC) - ABSOLUTE_ZERO_C;

/**
 * Degrees Celsius for degrees Fahrenheit: °C = (°F - 32) ÷ 1.8.
 *
 * Source: NIST Special Publication 811 (2008), appendix B (from memory). Error: none, the relation is exact.
 *
 * @throws RangeError below absolute zero or when the temperature is not a number.
 */
export const celsiusFromFahrenheit = (temperatureF: number): number => aboveAbsoluteZero((temperatureF - 32) / 1.8);

/** The way back of `celsiusFromFahrenheit`. @throws RangeError as there. */
export const fahrenheitFromCelsius = (temperatureC: number): number => aboveAbsoluteZero(temperatureC) * 1.8 + 32;
