import { doseFor, type Dose } from './dose.ts';

export type MagnesiumMix =
  | { kind: 'mix'; chlorideMassG: number; sulfateMassG: number }
  | Exclude<Dose, { kind: 'dose' } | { kind: 'does-not-bring' }>;

/**
 * Magnesium from chloride and sulfate together, so that the balance of the two stays that of sea water.
 *
 * Moles are shared: `sulfateShare` of the magnesium goes in as sulfate, the rest as chloride.
 *
 * Units: mg/L Mg, net litres; grams of each hydrate.
 * Source: `doseFor`. Error: that of its inputs.
 *
 * @throws RangeError when the share is outside 0 to 1, or a formula brings no magnesium.
 */
export function magnesiumMix(input: {
  riseMgPerL: number;
  volumeL: number;
  /** Moles of magnesium that go in as sulfate, of all. */
  sulfateShare: number;
  chlorideFormula?: string;
  sulfateFormula?: string;
}): MagnesiumMix {
  const { riseMgPerL, volumeL, sulfateShare } = input;
  if (!(sulfateShare >= 0 && sulfateShare <= 1))
    throw new RangeError(`sulfateShare must lie in 0-1, got ${sulfateShare}`);
  const all = (formula: string) => doseFor({ formula, ion: 'Mg', riseMgPerL, volumeL });
  const chloride = all(input.chlorideFormula ?? 'MgCl2.6H2O');
  const sulfate = all(input.sulfateFormula ?? 'MgSO4.7H2O');
  for (const dose of [chloride, sulfate]) {
    if (dose.kind === 'does-not-bring') throw new RangeError(`${dose.formula} brings no magnesium`);
    if (dose.kind !== 'dose') return dose;
  }
  const grams = (dose: Dose) => (dose.kind === 'dose' ? dose.massG : 0);
  return {
    kind: 'mix',
    chlorideMassG: (1 - sulfateShare) * grams(chloride),
    sulfateMassG: sulfateShare * grams(sulfate),
  };
}
