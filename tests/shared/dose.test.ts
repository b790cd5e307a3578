import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitOverDays } from '../../shared/dose-days.ts';
import { doseFor, type DoseInput } from '../../shared/dose.ts';
import { magnesiumMix } from '../../shared/magnesium-mix.ts';
import type { Ion } from '../../shared/reagent.ts';
import { sideEffects } from '../../shared/side-effects.ts';
import { PPM_CACO3_PER_MEQ_PER_L, MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import { expectPass, told, workedCases, type WorkedCase } from '../reference/worked-cases.ts';

/** dKH in one of the units in which a worked case gives alkalinity. */
const DKH_IN = { dKH: 1, meq_L: 1 / MEQ_PER_L_PER_DKH, ppm_CaCO3: 1 / PPM_CACO3_PER_MEQ_PER_L / MEQ_PER_L_PER_DKH };

function alkalinityRiseDkh({ row, number }: WorkedCase): number {
  const unit = Object.keys(DKH_IN).find((name) => row['inputs']?.includes(`alk_start_${name}=`)) as keyof typeof DKH_IN;
  return (number(`alk_target_${unit}`) - number(`alk_start_${unit}`)) * DKH_IN[unit];
}

describe('worked cases (two independent code paths each)', () => {
  test.each(workedCases('alk_dose'))('$id $output', (row) => {
    const [formula, volumeL, purity] = [row.text('reagent'), row.number('volume_L'), row.number('purity')];
    const dose = told(doseFor({ formula, volumeL, purity, alkalinityRiseDkh: alkalinityRiseDkh(row) }), 'dose');
    const { ionsMgPerL } = told(sideEffects({ formula, massG: dose.massG, volumeL, purity }), 'effects');
    expectPass(
      row,
      {
        reagent_g: dose.massG,
        alkalinity_added_meq: dose.added,
        sodium_added_mg_L: ionsMgPerL.Na,
        calcium_added_mg_L: ionsMgPerL.Ca,
      }[row.output],
    );
  });

  test.each(workedCases('ion_dose'))('$id $output', (row) => {
    const [formula, volumeL, purity] = [row.text('reagent'), row.number('volume_L'), row.number('purity')];
    const riseMgPerL = row.number('target_mg_L') - row.number('start_mg_L');
    const { massG } = told(doseFor({ formula, volumeL, purity, ion: row.text('ion') as Ion, riseMgPerL }), 'dose');
    const { ionsMgPerL } = told(sideEffects({ formula, massG, volumeL, purity }), 'effects');
    expectPass(
      row,
      {
        reagent_g: massG,
        chloride_added_mg_L: ionsMgPerL.Cl,
        sulfate_added_mg_L: ionsMgPerL.SO4,
        sodium_added_mg_L: ionsMgPerL.Na,
        potassium_added_mg_L: ionsMgPerL.K,
      }[row.output],
    );
  });

  test.each(workedCases('magnesium_mix'))('$id $output', (row) => {
    const volumeL = row.number('volume_L');
    const riseMgPerL = row.number('mg_target_mg_L') - row.number('mg_start_mg_L');
    const sulfateShare = row.number('sulfate_mole_fraction');
    const { chlorideMassG, sulfateMassG } = told(magnesiumMix({ riseMgPerL, volumeL, sulfateShare }), 'mix');
    const effects = (formula: string, massG: number) =>
      told(sideEffects({ formula, massG, volumeL }), 'effects').ionsMgPerL;
    expectPass(
      row,
      {
        'MgCl2.6H2O_g': chlorideMassG,
        'MgSO4.7H2O_g': sulfateMassG,
        chloride_added_mg_L: effects('MgCl2.6H2O', chlorideMassG).Cl,
        sulfate_added_mg_L: effects('MgSO4.7H2O', sulfateMassG).SO4,
      }[row.output],
    );
  });
});

const formulas = [
  { formula: 'NaHCO3', ion: null },
  { formula: 'Na2CO3', ion: null },
  { formula: 'CaCl2.2H2O', ion: 'Ca' },
  { formula: 'MgSO4.7H2O', ion: 'Mg' },
  { formula: 'KNO3', ion: 'NO3' },
  { formula: 'KI', ion: 'I' },
] as const;
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyReagent = fc.constantFrom(...formulas);
const inputOf = ({ formula, ion }: (typeof formulas)[number], rise: number, volumeL: number, purity = 1): DoseInput =>
  ion ? { formula, ion, riseMgPerL: rise, volumeL, purity } : { formula, alkalinityRiseDkh: rise, volumeL, purity };
const grams = (input: DoseInput) => {
  const dose = doseFor(input);
  return dose.kind === 'dose' ? dose.massG : 0;
};
const alike = (one: number, other: number) => expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-9 * Math.abs(other));

describe('doseFor', () => {
  test('two doses on the way make up the whole dose', () => {
    fc.assert(
      fc.property(anyReagent, real(0.01, 0.45), real(0.01, 0.45), real(1, 5000), (reagent, one, other, volumeL) => {
        const apart = grams(inputOf(reagent, one, volumeL)) + grams(inputOf(reagent, other, volumeL));
        alike(apart, grams(inputOf(reagent, one + other, volumeL)));
      }),
    );
  });

  test('twice the water takes twice the dose, half the purity too', () => {
    fc.assert(
      fc.property(anyReagent, real(0.01, 1), real(1, 5000), real(0.2, 1), (reagent, rise, volumeL, purity) => {
        const once = grams(inputOf(reagent, rise, volumeL, purity));
        alike(grams(inputOf(reagent, rise, 2 * volumeL, purity)), 2 * once);
        alike(grams(inputOf(reagent, rise, volumeL, purity / 2)), 2 * once);
      }),
    );
  });

  test('what it adds is what the side effects say it adds', () => {
    fc.assert(
      fc.property(anyReagent, real(0.01, 1), real(1, 5000), real(0.2, 1), (reagent, rise, volumeL, purity) => {
        const massG = grams(inputOf(reagent, rise, volumeL, purity));
        const effects = told(sideEffects({ formula: reagent.formula, massG, volumeL, purity }), 'effects');
        alike((reagent.ion ? effects.ionsMgPerL[reagent.ion] : effects.alkalinityDkh) ?? Number.NaN, rise);
      }),
    );
  });

  test('the days of a plan add up to the one dose and never pass the cap', () => {
    fc.assert(
      fc.property(anyReagent, real(0.01, 1), real(0.01, 1), real(1, 5000), (reagent, rise, capPerDay, volumeL) => {
        const split = told(splitOverDays({ rise, capPerDay }), 'days');
        expect(split.risePerDay).toBeLessThanOrEqual(capPerDay * (1 + 1e-9));
        const days = Array.from({ length: split.days }, () => grams(inputOf(reagent, split.risePerDay, volumeL)));
        alike(
          days.reduce((sum, each) => sum + each, 0),
          grams(inputOf(reagent, rise, volumeL)),
        );
      }),
    );
  });

  const baking = { formula: 'NaHCO3', volumeL: 200 };
  test('says that nothing is needed, and that no dose lowers', () => {
    expect(doseFor({ ...baking, alkalinityRiseDkh: 0 })).toEqual({ kind: 'not-needed' });
    expect(doseFor({ ...baking, alkalinityRiseDkh: -1.5 })).toEqual({ kind: 'cannot-lower', fall: 1.5 });
  });

  test.each([
    [{ ...baking, volumeL: 0, alkalinityRiseDkh: 1 }, 'volumeL'],
    [{ ...baking, volumeL: -5, alkalinityRiseDkh: 1 }, 'volumeL'],
    [{ ...baking, volumeL: 1e9, alkalinityRiseDkh: 1 }, 'volumeL'],
    [{ ...baking, volumeL: Number.NaN, alkalinityRiseDkh: 1 }, 'volumeL'],
    [{ ...baking, purity: 0, alkalinityRiseDkh: 1 }, 'purity'],
    [{ ...baking, purity: 1.01, alkalinityRiseDkh: 1 }, 'purity'],
    [{ ...baking, alkalinityRiseDkh: 21 }, 'alkalinityRiseDkh'],
    [{ ...baking, alkalinityRiseDkh: Number.NaN }, 'alkalinityRiseDkh'],
    [{ ...baking, alkalinityRiseDkh: Number.NEGATIVE_INFINITY }, 'alkalinityRiseDkh'],
    [{ formula: 'KI', volumeL: 200, ion: 'I', riseMgPerL: 2 }, 'riseMgPerL'],
  ] as const)('refuses %o by its %s', (input, quantity) => {
    expect(told(doseFor(input), 'out-of-range').quantity).toBe(quantity);
  });

  test('says what a reagent does not bring', () => {
    expect(doseFor({ ...baking, ion: 'Ca', riseMgPerL: 20 })).toEqual({
      kind: 'does-not-bring',
      formula: 'NaHCO3',
      wanted: 'Ca',
    });
    expect(doseFor({ formula: 'CaCl2', volumeL: 9, alkalinityRiseDkh: 1 })).toMatchObject({ wanted: 'alkalinity' });
  });
});

describe('magnesiumMix', () => {
  test('passes on what a dose would refuse, and wants magnesium', () => {
    const mix = { riseMgPerL: 50, volumeL: 100, sulfateShare: 0.1 };
    expect(magnesiumMix({ ...mix, riseMgPerL: -1 }).kind).toBe('cannot-lower');
    expect(magnesiumMix({ ...mix, volumeL: 0 }).kind).toBe('out-of-range');
    expect(() => magnesiumMix({ ...mix, sulfateFormula: 'CuSO4.5H2O' })).toThrow(RangeError);
    expect(() => magnesiumMix({ ...mix, sulfateShare: 1.1 })).toThrow(RangeError);
  });
});
