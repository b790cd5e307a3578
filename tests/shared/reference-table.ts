import { unionisedShare } from '../../shared/ammonia.ts';
import { ATOMIC_WEIGHTS, isElement } from '../../shared/atomic-weights.ts';
import { C_35_15_0_MS_PER_CM, ratioFromSalinity, salinityFromRatio } from '../../shared/practical-salinity.ts';
import { referenceSeawater, SEAWATER_SPECIES } from '../../shared/reference-seawater.ts';
import { densityKgPerM3, pureWaterDensityKgPerM3 } from '../../shared/seawater-density.ts';
import { salinityFromSpecificGravity, specificGravityFromSalinity } from '../../shared/specific-gravity.ts';
import { numberIn, readReference, textIn, toleranceOf, type Row, type Tolerance } from '../reference/read-csv.ts';

/** One figure of a reference file beside what the calculator makes of it. */
export type Check = {
  file: string;
  quantity: string;
  /** Whose figure it is. */
  source: string;
  id: string;
  got: number;
  expected: number;
  tolerance: Tolerance;
};

/** How well all figures of one file, quantity and source are met. */
export type TableRow = {
  file: string;
  quantity: string;
  source: string;
  rows: number;
  /** The largest error, in the quantity's own unit. */
  worstError: number;
  worstId: string;
  /** The largest share of its tolerance that any row uses up; above 1 a row has failed. */
  worstShareOfTolerance: number;
};

const shareOfTolerance = ({ got, expected, tolerance: { abs = 0, rel = 0 } }: Check) =>
  Math.abs(got - expected) / Math.max(abs, rel * Math.abs(expected));

/** The table of file, rows and worst error, in the order in which the checks come. */
export function tableOf(checks: readonly Check[]): TableRow[] {
  const groups = new Map<string, Check[]>();
  for (const check of checks) {
    const key = `${check.file}|${check.quantity}|${check.source}`;
    groups.set(key, [...(groups.get(key) ?? []), check]);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const error = ({ got, expected }: Check) => Math.abs(got - expected);
    const worst = group.reduce((one, other) => (error(other) > error(one) ? other : one), first);
    return {
      file: first.file,
      quantity: first.quantity,
      source: first.source,
      rows: group.length,
      worstError: error(worst),
      worstId: worst.id,
      worstShareOfTolerance: Math.max(...group.map(shareOfTolerance)),
    };
  });
}

/** The found value in a calculator's answer; a refusal is a failed check and says what was refused. */
function found<T extends { kind: string }, K extends T['kind']>(outcome: T, kind: K): Extract<T, { kind: K }> {
  if (outcome.kind !== kind) throw new Error(`refused: ${JSON.stringify(outcome)}`);
  return outcome as Extract<T, { kind: K }>;
}

const GSW = 'TEOS-10, gsw 3.6.16';
const UNESCO_44 = 'UNESCO 44 (1983)';
const publishedOr = (row: Row, published: string, computed: string) =>
  textIn(row, 'status').startsWith('published') ? published : computed;

/** Polynomials without their range check: UNESCO 44 has check values at 40 °C, where nobody may measure. */
function pss78Checks(row: Row): Check[] {
  const temperatureC = numberIn(row, 't_ITS90_degC');
  const pressureDbar = numberIn(row, 'pressure_dbar');
  const practicalSalinity = numberIn(row, 'practical_salinity');
  const conductivityMsPerCm = numberIn(row, 'conductivity_mS_cm');
  const kind = textIn(row, 'kind');
  const shared = { file: 'pss78', id: textIn(row, 'id'), source: publishedOr(row, UNESCO_44, GSW) };
  const ratio = kind === 'R_to_SP' ? numberIn(row, 'conductivity_ratio_R') : conductivityMsPerCm / C_35_15_0_MS_PER_CM;
  const salinity: Check = {
    ...shared,
    quantity: 'practical salinity',
    got: salinityFromRatio({ conductivityRatio: ratio, temperatureC, pressureDbar }),
    expected: practicalSalinity,
    tolerance: { abs: numberIn(row, 'tolerance_salinity') },
  };
  if (textIn(row, 'tolerance_mS_cm') === '') return [salinity];
  const conductivity: Check = {
    ...shared,
    quantity: 'conductivity, mS/cm',
    got: ratioFromSalinity({ practicalSalinity, temperatureC, pressureDbar }) * C_35_15_0_MS_PER_CM,
    expected: conductivityMsPerCm,
    tolerance: { abs: numberIn(row, 'tolerance_mS_cm') },
  };
  return [salinity, conductivity];
}

function densityChecks(row: Row): Check[] {
  const got = densityKgPerM3({
    practicalSalinity: numberIn(row, 'practical_salinity'),
    temperatureC: numberIn(row, 't_ITS90_degC'),
  });
  const shared = { file: 'density', quantity: 'density, kg/m³', id: textIn(row, 'id'), got };
  return [
    {
      ...shared,
      source: publishedOr(row, `${UNESCO_44}, EOS-80`, 'EOS-80 by other code'),
      expected: numberIn(row, 'density_EOS80_kg_m3'),
      tolerance: { abs: numberIn(row, 'tolerance_EOS80_kg_m3') },
    },
    // The file's second line: compare across the two equations of state with 0.01.
    { ...shared, source: GSW, expected: numberIn(row, 'density_TEOS10_kg_m3'), tolerance: { abs: 0.01 } },
  ];
}

function specificGravityChecks(row: Row): Check[] {
  const shared = { file: 'specific-gravity', id: textIn(row, 'id'), source: 'EOS-80 by other code' };
  const sampleC = numberIn(row, 't_sample_ITS90_degC');
  const kind = textIn(row, 'kind');
  if (kind === 'pure_water_density') {
    const got = pureWaterDensityKgPerM3({ temperatureC: sampleC });
    const tanaka = /Tanaka et al\. 2001 gives ([\d.]+)/.exec(textIn(row, 'status'))?.[1];
    const quantity = 'pure water, kg/m³';
    return [
      { ...shared, quantity, got, expected: numberIn(row, 'pure_water_density_kg_m3'), tolerance: { abs: 1e-5 } },
      // Air-free water on a later scale: EOS-80 is 0.0016 lower at most at these temperatures.
      { ...shared, quantity, source: 'Tanaka et al. (2001)', got, expected: Number(tanaka), tolerance: { abs: 0.002 } },
    ];
  }
  const scale = { sampleC, referenceC: numberIn(row, 't_reference_ITS90_degC') };
  const practicalSalinity = numberIn(row, 'practical_salinity');
  const specificGravity = numberIn(row, 'specific_gravity');
  if (kind === 'S_to_SG') {
    const got = found(specificGravityFromSalinity({ practicalSalinity, ...scale }), 'specific-gravity').specificGravity;
    const tolerance = { abs: numberIn(row, 'tolerance_sg') };
    return [{ ...shared, quantity: 'specific gravity', got, expected: specificGravity, tolerance }];
  }
  const got = found(salinityFromSpecificGravity({ specificGravity, ...scale }), 'salinity').practicalSalinity;
  const tolerance = { abs: numberIn(row, 'tolerance_salinity') };
  return [{ ...shared, quantity: 'practical salinity', got, expected: practicalSalinity, tolerance }];
}

/** What a row of ammonia.csv is held against, or null: another formula's own figures say nothing about this one. */
function ammoniaScaleOf(row: Row): { phScale: 'nbs' | 'total'; source: string } | null {
  const by = textIn(row, 'formula_or_table');
  if (by === 'EPA1989') return { phScale: 'nbs', source: 'US EPA (1989), computed' };
  if (by.startsWith('EPA1989 acute')) return { phScale: 'nbs', source: 'US EPA (1989), acute criterion table' };
  if (by === 'Bower & Bidwell 1978') return { phScale: 'nbs', source: 'Bower & Bidwell (1978), table' };
  if (by !== 'CW95 total') return null;
  const printed = textIn(row, 'kind') === 'published example';
  return { phScale: 'total', source: `Clegg & Whitfield (1995), ${printed ? 'published example' : 'computed'}` };
}

function ammoniaChecks(row: Row): Check[] {
  const scale = ammoniaScaleOf(row);
  if (!scale) return [];
  const { phScale, source } = scale;
  const water = {
    ph: numberIn(row, 'pH'),
    temperatureC: numberIn(row, 't_degC'),
    practicalSalinity: numberIn(row, 'practical_salinity'),
  };
  const { share, pKa } = found(unionisedShare({ ...water, phScale }), 'share');
  const shared = { file: 'ammonia', id: textIn(row, 'id'), source };
  const expected = numberIn(row, 'fraction_unionised');
  const checks: Check[] = [{ ...shared, quantity: 'share of NH3', got: share, expected, tolerance: toleranceOf(row) }];
  if (textIn(row, 'pKa') === '') return checks;
  // Printed with five decimals.
  return [
    ...checks,
    { ...shared, quantity: 'pKa', got: pKa, expected: numberIn(row, 'pKa'), tolerance: { abs: 1e-5 } },
  ];
}

function atomicWeightChecks(row: Row): Check[] {
  const id = textIn(row, 'symbol');
  if (!isElement(id)) throw new Error(`no weight of ${id}`);
  const { gPerMol, plusMinus } = ATOMIC_WEIGHTS[id];
  const shared = { file: 'atomic-weights', id, got: gPerMol };
  const expected = numberIn(row, 'abridged_standard_atomic_weight');
  const exact = { source: 'IUPAC 2021, abridged', tolerance: { abs: 1e-9 } };
  const allowed = numberIn(row, 'plus_minus');
  return [
    { ...shared, ...exact, quantity: 'g/mol', expected },
    { ...shared, ...exact, quantity: 'variation, g/mol', got: plusMinus, expected: allowed },
    ...['standard_low', 'standard_high'].map((column): Check => ({
      ...shared,
      quantity: `g/mol, ${column.replace('_', ' ')}`,
      source: 'CIAAW 2021, unabridged',
      expected: numberIn(row, column),
      // The ends are decimal fractions, which numbers only come near.
      tolerance: { abs: plusMinus + 1e-9 },
    })),
  ];
}

function referenceSeawaterChecks(row: Row): Check[] {
  const id = textIn(row, 'species');
  const water = found(referenceSeawater({ practicalSalinity: 35, temperatureC: 25 }), 'seawater');
  const equivalents = ({ meqPerKg, meqPerL }: { meqPerKg: number; meqPerL: number }) => ({
    mmol_per_kg_seawater: meqPerKg,
    mmol_per_L_at_25C: meqPerL,
  });
  const species = SEAWATER_SPECIES.find((name) => name === id);
  const amount = species ? water.species[species] : id === 'total boron' ? water.totalBoron : null;
  const got: Record<string, number> = amount
    ? {
        mg_per_kg_seawater: amount.mgPerKg,
        mmol_per_kg_seawater: amount.mmolPerKg,
        mg_per_L_at_25C: amount.mgPerL,
        mmol_per_L_at_25C: amount.mmolPerL,
      }
    : id === 'total alkalinity'
      ? equivalents(water.totalAlkalinity)
      : id === 'borate alkalinity'
        ? equivalents(water.borateAlkalinity)
        : {
            mg_per_kg_seawater: water.saltGPerKg * 1000,
            mmol_per_kg_seawater: SEAWATER_SPECIES.reduce((sum, name) => sum + water.species[name].mmolPerKg, 0),
            mg_per_L_at_25C: water.saltGPerL * 1000,
          };
  return Object.entries(got).map(([column, value]) => {
    const text = textIn(row, column);
    // Half of the last printed digit, and what rounding in the steps before it can add.
    const lastDigit = 10 ** -(text.split('.')[1]?.length ?? 0);
    return {
      file: 'reference-seawater',
      quantity: column.replaceAll('_', ' ').replace('at 25C', 'at 25 °C'),
      source: 'Millero et al. (2008)',
      id,
      got: value,
      expected: numberIn(row, column),
      tolerance: { abs: lastDigit, rel: 5e-6 },
    };
  });
}

function gswChecks(row: Row): Check[] {
  const temperatureC = numberIn(row, 't_ITS90_degC');
  const practicalSalinity = numberIn(row, 'practical_salinity');
  const shared = { file: 'gsw-grid', id: `S ${practicalSalinity}, ${temperatureC} °C`, source: GSW };
  const ratio = numberIn(row, 'conductivity_ratio');
  const water = { practicalSalinity, temperatureC };
  const density = { got: densityKgPerM3(water), expected: numberIn(row, 'density_kg_m3'), tolerance: { abs: 0.01 } };
  const there = { got: ratioFromSalinity(water), expected: ratio, tolerance: { abs: 1e-8 } };
  const back = salinityFromRatio({ conductivityRatio: ratio, temperatureC });
  return [
    { ...shared, quantity: 'density, kg/m³', ...density },
    { ...shared, quantity: 'conductivity ratio', ...there },
    { ...shared, quantity: 'practical salinity', got: back, expected: practicalSalinity, tolerance: { abs: 1e-6 } },
  ];
}

const CHECKS_OF: Readonly<Record<string, (row: Row) => Check[]>> = {
  pss78: pss78Checks,
  density: densityChecks,
  'specific-gravity': specificGravityChecks,
  ammonia: ammoniaChecks,
  'atomic-weights': atomicWeightChecks,
  'reference-seawater': referenceSeawaterChecks,
  'gsw-grid': gswChecks,
};

/** Every check that the reference files of seawater and composition give. */
export const seawaterChecks = (): Check[] =>
  Object.entries(CHECKS_OF).flatMap(([file, checksOf]) => readReference(file).flatMap(checksOf));
