import { describe, expect, test } from 'vitest';
import type { CompiledKnowledge } from '../../../src/knowledge/knowledge-base.ts';
import { Parameter } from '../../../src/knowledge/parameter.ts';
import { Reagent, type Danger } from '../../../src/knowledge/reagent.ts';
import { missingFromReagent } from '../../../src/knowledge/reagent-safety.ts';
import { waterHoldsTogether } from '../../../src/knowledge/water-check.ts';
import { readReference, textIn } from '../../reference/read-csv.ts';
import { loaded } from './real-base.ts';

const { parameters, reagents, firstAid } = loaded.knowledge;
const SENTENCE = 'It is a made-up sentence of this test.';

const reagent = (changes: object = {}) => ({
  ...Reagent.parse({
    name: 'Sodium bicarbonate',
    formula: 'NaHCO3',
    raises: ['alkalinity'],
    phEffect: 'lowers slightly',
    making: SENTENCE,
    hazard: SENTENCE,
    protect: SENTENCE,
    firstAid: ['chem-salt'],
    sources: ['smith'],
    ...changes,
  }),
  id: 'soda',
});
const parameter = (id: string, changes: object = {}) => ({
  ...Parameter.parse({ name: id, unit: 'dKH', lowering: SENTENCE, testing: SENTENCE, sources: ['smith'], ...changes }),
  id,
});

const whole: CompiledKnowledge = {
  ...loaded.knowledge,
  parameters: [parameter('alkalinity', { raisedBy: ['soda'] })],
  reagents: [reagent()],
};
const complaints = (changes: Partial<CompiledKnowledge>) =>
  waterHoldsTogether({ ...whole, ...changes }, (kind, id) => `${kind}/${id}`).map(
    ({ file, path, message }) => `${file} ${path.join('.')} ${message}`,
  );

describe('the knowledge that is shipped', () => {
  test('holds together', () => {
    expect(waterHoldsTogether(loaded.knowledge, (kind, id) => `${kind}/${id}`)).toEqual([]);
    expect(reagents.length).toBeGreaterThan(20);
    expect(parameters.length).toBeGreaterThan(18);
  });

  // reagents.csv: first-aid rows and protection by general chemical safety, from memory; the data sheet rules.
  const rows = readReference('reagents').filter((row) => {
    const notDosed = ['CaCO3', 'CaO', 'NaCl'];
    return !notDosed.includes(textIn(row, 'formula'));
  });
  test.each(rows)('$name has its entry, its first aid and its protection', (row) => {
    const entry = reagents.find(({ formula }) => formula === textIn(row, 'formula'));
    expect(entry?.firstAid).toContain(textIn(row, 'first_aid'));
    for (const worn of ['goggles', 'glasses', 'gloves'])
      if (textIn(row, 'ppe').includes(worn))
        expect(entry?.protect).toMatch(worn === 'glasses' ? /glasses|goggles/i : RegExp(worn, 'i'));
    expect(entry?.solubility).toMatchObject({
      at20C: Number(textIn(row, 'solubility_20C_g_anhydrous_per_100g_water')),
      at25C: Number(textIn(row, 'solubility_25C_g_anhydrous_per_100g_water')),
      standing: 'from-memory',
    });
  });

  test('every one of its reagents has a row in the reference, but for the salt mix', () => {
    const formulas = new Set(rows.map((row) => textIn(row, 'formula')));
    expect(reagents.map(({ formula }) => formula).filter((formula) => !formulas.has(formula))).toEqual(['sea-salt']);
  });

  test('copper goes nowhere but into quarantine, and only ionic copper has a dose', () => {
    const copper = reagents.filter(({ raises }) => raises.includes('copper'));
    expect(copper.map(({ onlyIn }) => onlyIn)).toEqual(['quarantine']);
    const forms = parameters.filter(({ form }) => form);
    expect(forms.map(({ id }) => id).sort()).toEqual(['copper-amine', 'copper-chelated', 'copper-ionic']);
    for (const { form, raisedBy, target, warnBelow, urgentAbove } of forms)
      if (form !== 'ionic')
        expect([raisedBy, target, warnBelow, urgentAbove]).toEqual([[], undefined, undefined, undefined]);
    expect(parameters.some(({ id, aliases }) => id === 'copper' || aliases.includes('copper'))).toBe(false);
  });

  test('magnesium comes before alkalinity and calcium, and those two stay apart', () => {
    const of = (id: string) => parameters.find((each) => each.id === id);
    for (const [id, other] of [
      ['alkalinity', 'calcium'],
      ['calcium', 'alkalinity'],
    ] as const) {
      expect(of(id)?.after).toContain('magnesium');
      expect(of(id)?.apart).toMatchObject({ from: [other], minutes: { low: 5, high: 15 } });
    }
  });

  // No brands, and no first person that gives orders for medicines: the forms of a name are checked by the finder's tests.
  test('every reagent that is dosed says how it is made and lists where the figures come from', () => {
    for (const { making, sources } of reagents) {
      expect(making).toMatch(/water/i);
      expect(sources.length).toBeGreaterThan(0);
    }
  });
});

describe('waterHoldsTogether', () => {
  test('is content with a whole that is whole', () => {
    expect(complaints({})).toEqual([]);
  });

  test.each([
    ['an unknown raiser', { parameters: [parameter('alkalinity', { raisedBy: ['soda', 'soap'] })] }, 'came "soap"'],
    [
      'a raiser of something else',
      { parameters: [parameter('calcium', { raisedBy: ['soda'] })] },
      'does not say that it raises calcium',
    ],
    ['a reagent nobody offers', { parameters: [parameter('alkalinity')] }, 'which no parameter lists'],
    [
      'an unknown predecessor',
      { parameters: [parameter('alkalinity', { raisedBy: ['soda'], after: ['moon'] })] },
      'came "moon"',
    ],
    [
      'a form that the id does not name',
      { parameters: [parameter('alkalinity', { raisedBy: ['soda'], form: 'ionic' })] },
      'an id that ends in -ionic',
    ],
    [
      'a dose for bound copper',
      { parameters: [parameter('alkalinity-amine', { raisedBy: ['soda'], form: 'amine' })] },
      'since its label gives the dose',
    ],
    [
      'a computed figure without a source',
      {
        parameters: [
          parameter('alkalinity', { raisedBy: ['soda'], natural: { low: 6, high: 6, standing: 'computed' } }),
        ],
      },
      'the computed figure 6',
    ],
    ['first aid that is not there', { reagents: [reagent({ firstAid: ['chem-moon'] })] }, 'came "chem-moon"'],
    ['a formula that nobody can dose', { reagents: [reagent({ formula: 'NaHCO4' })] }, 'one cation and one anion'],
    ['another pH than the formula’s', { reagents: [reagent({ phEffect: 'raises' })] }, 'expected "lowers slightly"'],
    [
      'a name twice',
      { parameters: [parameter('alkalinity', { raisedBy: ['soda'] }), parameter('kh', { aliases: ['Alkalinity'] })] },
      'which alkalinity has already',
    ],
  ])('finds %s', (_, changes, words) => {
    expect(complaints(changes).join('\n')).toContain(words);
  });

  test('says in which file and part', () => {
    expect(complaints({ reagents: [reagent({ firstAid: ['chem-moon'] })] })).toEqual([
      'reagent/soda firstAid came "chem-moon", expected a row of knowledge/first-aid',
    ]);
  });
  test('looks first aid up in what is shipped', () => expect(firstAid.map(({ id }) => id)).toContain('chem-base'));
});

describe('what a hazard demands', () => {
  const paths = (changes: object) => missingFromReagent(reagent(changes)).map(({ path }) => path);

  test.each<[string, Danger[]]>([
    ['Na2CO3.H2O', ['strong-alkali']],
    ['Ca(OH)2', ['strong-alkali']],
    ['CaCl2', ['heats']],
    ['KNO3', ['oxidiser', 'controlled']],
    ['KI', ['thyroid']],
    ['CuSO4.5H2O', ['poison', 'kills-invertebrates']],
  ])('%s cannot leave out %s', (formula, dangers) => {
    const said = missingFromReagent(reagent({ formula })).map(({ message }) => message);
    expect(said).toHaveLength(dangers.length);
    for (const danger of dangers) expect(said.join('\n')).toContain(`"${danger}"`);
  });

  test.each<[Danger, string[]]>([
    ['strong-alkali', ['hazard', 'protect', 'firstAid']],
    ['heats', ['making', 'hazard', 'protect']],
    ['oxidiser', ['hazard', 'protect']],
    ['controlled', ['mind']],
    ['poison', ['hazard', 'protect']],
    ['heart', ['hazard', 'protect']],
    ['thyroid', ['mind', 'protect', 'firstAid']],
    ['kills-invertebrates', ['mind', 'firstAid', 'onlyIn']],
  ])('%s has to be said in %s', (danger, expected) => {
    expect(paths({ dangers: [danger] }).sort()).toEqual([...expected].sort());
  });

  test('a mild salt owes nothing more', () => expect(paths({})).toEqual([]));

  // The shipped entries with one part taken out: each part that a danger asks for is really read.
  test.each(reagents.filter(({ dangers }) => dangers.length > 0).map((entry) => [entry.id, entry] as const))(
    '%s is refused without its words',
    (_, entry) => {
      const bare = { ...entry, hazard: SENTENCE, protect: SENTENCE, making: SENTENCE, mind: SENTENCE };
      expect(missingFromReagent(entry)).toEqual([]);
      expect(missingFromReagent(bare).length).toBeGreaterThan(0);
    },
  );
});
