/** Litres that a tank, a bucket or a whole system may hold: from a jar to a public aquarium. */
export const VOLUME_L = [0.1, 1_000_000] as const;
/** Practical salinity for which the scale and the equation of state are defined together. */
export const PRACTICAL_SALINITY = [2, 42] as const;
/** Temperatures of the equation of state at which animals are kept. */
export const TEMPERATURE_C = [0, 40] as const;
