import loadHighs from 'highs';
import {
  PLANNED,
  type Brings,
  type JointPlanInput,
  type Planned,
  type PlanReagent,
  type PlanRule,
  type SolveProgramme,
} from '../../shared/joint-plan-model.ts';
import { numberIn, readReference, textIn } from '../reference/read-csv.ts';

/** The solver in this thread; the worker is tried in its own test. */
export async function bareSolver(): Promise<SolveProgramme> {
  const highs = await (loadHighs as unknown as typeof loadHighs.default)();
  return async (programme) => {
    const { Status, ObjectiveValue, Columns } = highs.solve(programme, {
      primal_feasibility_tolerance: 1e-10,
      dual_feasibility_tolerance: 1e-10,
    });
    if (Status === 'Infeasible') return { kind: 'infeasible' };
    if (Status !== 'Optimal') return { kind: 'not-solved', reason: Status };
    return {
      kind: 'optimal',
      objective: ObjectiveValue,
      values: Object.fromEntries(Object.values(Columns).map(({ Name, Primal }) => [Name, Number(Primal)])),
    };
  };
}

const NOTHING: Brings = {
  alkalinityMeq: 0,
  sodiumMg: 0,
  magnesiumMg: 0,
  calciumMg: 0,
  potassiumMg: 0,
  strontiumMg: 0,
  chlorideMg: 0,
  sulfateMg: 0,
  saltG: 0,
};

const KEYS: Readonly<Record<string, keyof Brings>> = {
  Na: 'sodiumMg',
  Mg: 'magnesiumMg',
  Ca: 'calciumMg',
  K: 'potassiumMg',
  Sr: 'strontiumMg',
  Cl: 'chlorideMg',
  SO4: 'sulfateMg',
};

/** A reagent from the reference file, not from the product: its figures come from other code. */
export function reagent(formula: string, raises: readonly Planned[]): PlanReagent {
  const row = readReference('reagents').find((each) => textIn(each, 'formula') === formula);
  if (!row) throw new Error(`reagents.csv has no ${formula}`);
  const ions = textIn(row, 'mass_fraction_ions_g_per_g')
    .split(';')
    .map((pair) => pair.trim().split('='))
    .map(([ion = '', grams = '']) => [KEYS[ion] ?? '', 1000 * Number(grams)] as const);
  const alkalinity = textIn(row, 'alk_meq_per_g');
  const brings = {
    ...NOTHING,
    ...Object.fromEntries(ions),
    alkalinityMeq: alkalinity === '' ? 0 : Number(alkalinity),
    saltG: numberIn(row, 'anhydrous_mass_fraction'),
  };
  return { id: formula, raises, brings };
}

/** Sea salt by the reference composition. */
export function seaSalt(): PlanReagent {
  const rows = readReference('reference-seawater');
  const perKg = (species: string, column = 'mg_per_kg_seawater') => {
    const row = rows.find((each) => textIn(each, 'species') === species);
    if (!row) throw new Error(`reference-seawater.csv has no ${species}`);
    return numberIn(row, column);
  };
  const saltG = perKg('sum of salts') / 1000;
  const ions = Object.entries(KEYS).map(([ion, key]) => [key, perKg(ion) / saltG]);
  const brings = {
    ...NOTHING,
    ...Object.fromEntries(ions),
    alkalinityMeq: perKg('total alkalinity', 'mmol_per_kg_seawater') / saltG,
    saltG: 1,
  };
  return { id: 'sea-salt', raises: ['salinity'], brings };
}

export const BICARBONATE = reagent('NaHCO3', ['alkalinity']);
export const CARBONATE = reagent('Na2CO3', ['alkalinity']);
export const CALCIUM_CHLORIDE = reagent('CaCl2.2H2O', ['calcium']);
export const HYDROXIDE = reagent('Ca(OH)2', ['alkalinity', 'calcium']);
export const MAGNESIUM_CHLORIDE = reagent('MgCl2.6H2O', ['magnesium']);
export const EPSOM = reagent('MgSO4.7H2O', ['magnesium']);
export const SEA_SALT = seaSalt();

export const RULES: Readonly<Record<Planned, PlanRule>> = {
  salinity: { riseADay: 1, after: [] },
  magnesium: { riseADay: 100, after: ['salinity'] },
  alkalinity: { riseADay: 1, after: ['magnesium'], apart: { from: ['calcium'], minutes: 15 } },
  calcium: { riseADay: 20, after: ['salinity', 'magnesium'], apart: { from: ['alkalinity'], minutes: 15 } },
};

export const tank = (rest: Partial<JointPlanInput> & Pick<JointPlanInput, 'levels' | 'reagents'>): JointPlanInput => ({
  volumeL: 100,
  temperatureC: 25,
  practicalSalinity: 35,
  rules: RULES,
  ...rest,
});

const DKH_PER_MEQ = 56.077 / 20;

/** Rises by one gram in one litre, written anew for the checks; salinity by mass as in `saltForSalinity`. */
export function risesOf(input: JointPlanInput, { brings }: PlanReagent, densityGPerL: number): Record<Planned, number> {
  return {
    salinity: (1000 * brings.saltG - (input.targetSalinity ?? input.practicalSalinity)) / densityGPerL,
    magnesium: brings.magnesiumMg,
    alkalinity: brings.alkalinityMeq * DKH_PER_MEQ,
    calcium: brings.calciumMg,
  };
}

/** Salt and drift of so many grams a litre, written anew for the checks from the reference file's mass fractions. */
export function saltAndDrift(grams: ReadonlyMap<PlanReagent, number>): number {
  const sum = (of: (brings: Brings) => number) =>
    [...grams].reduce((total, [{ brings }, gramsPerL]) => total + gramsPerL * of(brings), 0);
  const salt = sum(({ saltG }) => saltG);
  const ions = [
    ['sodiumMg', 306.5958],
    ['chlorideMg', 550.3396],
    ['sulfateMg', 77.1319],
    ['potassiumMg', 11.3495],
  ] as const;
  return ions.reduce((total, [ion, natural]) => total + Math.abs(sum((brings) => brings[ion]) / natural - salt), salt);
}

export const ALL_PLANNED = PLANNED;
