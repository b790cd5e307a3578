import { ATOMIC_WEIGHTS } from '../atomic-weights.ts';
import { densityKgPerM3 } from '../seawater-density.ts';
import { found, scaled, type FoundUnit, type Note, type Species, type UnitContext, type UnitTable } from './unit.ts';

const { gPerMol: H } = ATOMIC_WEIGHTS.H;
const { gPerMol: N } = ATOMIC_WEIGHTS.N;
const { gPerMol: O } = ATOMIC_WEIGHTS.O;
const { gPerMol: P } = ATOMIC_WEIGHTS.P;
const { gPerMol: CA } = ATOMIC_WEIGHTS.Ca;
const { gPerMol: MG } = ATOMIC_WEIGHTS.Mg;
const { gPerMol: SI } = ATOMIC_WEIGHTS.Si;
const CACO3 = CA + ATOMIC_WEIGHTS.C.gPerMol + 3 * O;
const PO4 = P + 4 * O;

/** One way in which a test kit reports a species: its name, the mass of one mole of it, and the species in that mole, in g. */
type Form = { label: string; names: string; gPerMol: number; speciesG: number };
const form = (label: string, names: string, gPerMol: number, speciesG = gPerMol): Form => ({
  label,
  names,
  gPerMol,
  speciesG,
});

/** The forms of each species, its own first. */
const FORMS: Readonly<Record<Species, readonly Form[]>> = {
  Ca: [form('Ca', 'ca ca2 calcium', CA), form('CaCO3', 'caco3', CACO3, CA)],
  Mg: [form('Mg', 'mg mg2 magnesium', MG), form('CaCO3', 'caco3', CACO3, MG)],
  K: [form('K', 'k k1 potassium', ATOMIC_WEIGHTS.K.gPerMol)],
  Sr: [form('Sr', 'sr sr2 strontium', ATOMIC_WEIGHTS.Sr.gPerMol)],
  I: [form('I', 'i iodide iodine', ATOMIC_WEIGHTS.I.gPerMol)],
  NO3: [form('NO3', 'no3 nitrate', N + 3 * O), form('NO3-N', 'no3n n nitraten nitratenitrogen nitrogen', N, N + 3 * O)],
  NO2: [form('NO2', 'no2 nitrite', N + 2 * O), form('NO2-N', 'no2n n nitriten nitritenitrogen nitrogen', N, N + 2 * O)],
  'NH3-N': [
    form('NH3-N', 'nh3n nh4n n tan nitrogen ammonian ammonianitrogen ammoniumn nh3/nh4n', N),
    form('NH3', 'nh3', N + 3 * H, N),
    form('NH4', 'nh4', N + 4 * H, N),
  ],
  PO4: [
    form('PO4', 'po4 po43 phosphate phosphates', PO4),
    form('PO4-P', 'po4p p phosphorus phosphatep phosphatephosphorus', P, PO4),
    form('P2O5', 'p2o5', 2 * P + 5 * O, 2 * PO4),
  ],
  Cu: [form('Cu', 'cu cu2 copper', ATOMIC_WEIGHTS.Cu.gPerMol)],
  Si: [form('Si', 'si silicon', SI), form('SiO2', 'sio2 silica silicate', SI + 2 * O, SI)],
};

/** Where the density of the member's own water is not known. */
const USUAL_DENSITY_KG_PER_L = densityKgPerM3({ practicalSalinity: 35, temperatureC: 25 }) / 1000;

type Basis = { label: string; names: string; mgPerL: (form: Form, densityKgPerL: number) => number; note?: Note };
/** ppm means mg/L, as test kits have it; papers mean mg/kg, which is 2.3 % apart in seawater. */
const BASES: readonly Basis[] = [
  { label: 'mg/L', names: 'mg/l mgl milligrams/l', mgPerL: () => 1 },
  { label: 'mg/L', names: 'ppm parts/million', mgPerL: () => 1, note: 'ppm-as-mg-per-l' },
  { label: 'µg/L', names: 'ug/l mcg/l ugl micrograms/l', mgPerL: () => 0.001 },
  { label: 'µg/L', names: 'ppb parts/billion', mgPerL: () => 0.001, note: 'ppm-as-mg-per-l' },
  { label: 'mg/kg', names: 'mg/kg ppmw ppmbymass ppmw/w', mgPerL: (_, density) => density },
  { label: 'µg/kg', names: 'ug/kg mcg/kg ppbw', mgPerL: (_, density) => density / 1000 },
  { label: 'mmol/L', names: 'mmol/l mmol mm', mgPerL: ({ gPerMol }) => gPerMol },
  { label: 'µmol/L', names: 'umol/l umol um', mgPerL: ({ gPerMol }) => gPerMol / 1000 },
  { label: 'mmol/kg', names: 'mmol/kg', mgPerL: ({ gPerMol }, density) => gPerMol * density },
  { label: 'µmol/kg', names: 'umol/kg', mgPerL: ({ gPerMol }, density) => (gPerMol * density) / 1000 },
];
/** The longest first, so that "mg/l" is not met before "mg/liter" would be, nor "mmol" before "mmol/l". */
const BASIS_NAMES = BASES.flatMap((basis) => basis.names.split(' ').map((name) => ({ name, basis }))).sort(
  (a, b) => b.name.length - a.name.length,
);

const formNamed = (species: Species, name: string) => {
  const plain = name.replace(/^(?:as|of)/, '').replace(/[-+_]/g, '');
  return FORMS[species].find(({ names }) => names.split(' ').includes(plain));
};

const unitOf = (basis: Basis, shape: Form, density = USUAL_DENSITY_KG_PER_L) =>
  scaled(`${basis.label} ${shape.label}`, (basis.mgPerL(shape, density) * shape.speciesG) / shape.gPerMol);

/** Kits report phosphate at this level as P or as PO4, three times apart; nobody can tell from the number. */
const unclear = (species: Species, basis: Basis) => species === 'PO4' && basis.label === 'µg/L';

function find(folded: string, { species, densityKgPerL }: UnitContext): FoundUnit | null {
  if (!species) return null;
  const build = (basis: Basis, shape: Form, ...more: Note[]) => {
    const byMass = basis.label.endsWith('/kg') && densityKgPerL === undefined;
    const notes: Note[] = [
      ...(basis.note ? [basis.note] : []),
      ...(byMass ? (['usual-density'] as const) : []),
      // Free NH3 alone is a twentieth of it, and taking one for the other hides the danger.
      ...(shape.label === 'NH3' ? (['ammonia-is-all'] as const) : []),
      ...more,
    ];
    return found(unitOf(basis, shape, densityKgPerL), ...notes);
  };
  const [mgPerL] = BASES;
  const [own] = FORMS[species];
  if (!mgPerL || !own) return null;
  const assumed: Note[] = species === 'NH3-N' ? ['ammonia-as-nitrogen'] : [];
  for (const { name, basis } of BASIS_NAMES) {
    const rest = folded.startsWith(name)
      ? folded.slice(name.length)
      : folded.endsWith(name)
        ? folded.slice(0, -name.length)
        : null;
    if (rest === null) continue;
    if (rest === '') {
      if (!unclear(species, basis)) return build(basis, own, ...assumed);
      return { kind: 'which', ids: FORMS[species].slice(0, 2).map(({ label }) => `${basis.label} ${label}`) };
    }
    const shape = formNamed(species, rest);
    if (shape) return build(basis, shape);
    if (species === 'NH3-N' && /^(?:as|of)?(?:total)?ammoni(?:a|um)$|^nh3\/nh4$/.test(rest)) {
      return build(basis, own, ...assumed);
    }
  }
  const bare = formNamed(species, folded);
  return bare ? build(mgPerL, bare) : null;
}

/** Concentration in mg/L of the species that is asked for. */
export const CONCENTRATION: UnitTable = {
  // Of whichever species; `unitsOf` names it.
  base: scaled('mg/L', 1),
  words: ['total', 'reading'],
  find,
  all: ({ species, densityKgPerL }) =>
    species === undefined
      ? []
      : FORMS[species].flatMap((shape) =>
          BASES.filter(({ note }) => note === undefined).map((basis) => unitOf(basis, shape, densityKgPerL)),
        ),
};
