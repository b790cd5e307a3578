import { ATOMIC_WEIGHTS } from '../atomic-weights.ts';
import { plainTable, scaled, type UnitTable } from './unit.ts';

const { gPerMol: H } = ATOMIC_WEIGHTS.H;
const { gPerMol: C } = ATOMIC_WEIGHTS.C;
const { gPerMol: O } = ATOMIC_WEIGHTS.O;
const { gPerMol: CA } = ATOMIC_WEIGHTS.Ca;
/** CaO and CaCO3 carry two equivalents a mole, bicarbonate one. */
const CAO_G_PER_MOL = CA + O;
const CACO3_G_PER_MOL = CA + C + 3 * O;
const HCO3_G_PER_MOL = H + C + 3 * O;

/** One German degree is 10 mg/L CaO. Source: DIN 38409-6 (from memory). */
export const MEQ_PER_L_PER_DKH = 20 / CAO_G_PER_MOL;
export const PPM_CACO3_PER_MEQ_PER_L = CACO3_G_PER_MOL / 2;

const dkhOfMeq = 1 / MEQ_PER_L_PER_DKH;
const dkhOfCaco3 = dkhOfMeq / PPM_CACO3_PER_MEQ_PER_L;
/** One grain (64.79891 mg, exact) in one imperial gallon. */
const CLARK_PPM_CACO3 = 64.79891 / 4.54609;

/** Alkalinity in dKH. The French degree is 10 mg/L CaCO3 (from memory). */
export const ALKALINITY: UnitTable = plainTable(
  [
    [scaled('dKH', 1), 'dkh kh dkhs kdh dh germandh germankh german'],
    [scaled('meq/L', dkhOfMeq), 'meq/l meq meql mval mval/l'],
    [scaled('mmol/L', dkhOfMeq), 'mmol/l mmol', 'mmol-as-meq'],
    [scaled('mmol/L CaCO3', 2 * dkhOfMeq), 'mmolcaco3 mmol/lcaco3'],
    [scaled('ppm CaCO3', dkhOfCaco3), 'mg/lcaco3 ppmcaco3 ppmascaco3 mg/lascaco3 caco3'],
    [scaled('ppm CaCO3', dkhOfCaco3), 'ppm mg/l mgl', 'ppm-as-caco3'],
    [scaled('mg/L HCO3', dkhOfMeq / HCO3_G_PER_MOL), 'mg/lhco3 ppmhco3 mg/lashco3 ppmashco3'],
    [scaled('fH', 10 * dkhOfCaco3), 'fh french tf frenchhardness'],
    [scaled('Clark', CLARK_PPM_CACO3 * dkhOfCaco3), 'clark clarks eh english'],
  ],
  'alk alkalinity kh',
);
