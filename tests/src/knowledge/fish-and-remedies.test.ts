import { describe, expect, test } from 'vitest';
import type { Fish, Tolerance } from '../../../src/knowledge/fish.ts';
import type { Remedy } from '../../../src/knowledge/remedy.ts';
import { numberIn, readReference, textIn, type Row } from '../../reference/read-csv.ts';
import { base } from './real-base.ts';

/** Where each row of species-notes.csv stands in knowledge/fish. */
const FISH: Readonly<Record<string, string>> = {
  clownfish: 'clownfish',
  'maroon clownfish': 'maroon-clownfish',
  chromis: 'chromis',
  damselfish: 'damselfish',
  'surgeonfish, bristletooth': 'bristletooth-surgeonfish',
  'surgeonfish, sailfin': 'sailfin-surgeonfish',
  surgeonfish: 'surgeonfish',
  'regal surgeonfish': 'regal-surgeonfish',
  unicornfish: 'unicornfish',
  'rabbitfish, foxface': 'rabbitfish',
  'dwarf angelfish': 'dwarf-angelfish',
  'large angelfish': 'large-angelfish',
  'regal angelfish': 'regal-angelfish',
  'swallowtail angelfish': 'swallowtail-angelfish',
  butterflyfish: 'butterflyfish',
  'longnose butterflyfish, bannerfish': 'longnose-butterflyfish',
  'copperband butterflyfish': 'copperband-butterflyfish',
  anthias: 'anthias',
  grouper: 'grouper',
  'basslet, gramma': 'basslet',
  dottyback: 'dottyback',
  hawkfish: 'hawkfish',
  'fairy wrasse': 'fairy-wrasse',
  'flasher wrasse': 'flasher-wrasse',
  'leopard wrasse': 'leopard-wrasse',
  'sand-sleeping wrasse': 'sand-sleeping-wrasse',
  'six-line and relatives': 'six-line-wrasse',
  'cleaner wrasse': 'cleaner-wrasse',
  hogfish: 'hogfish',
  parrotfish: 'parrotfish',
  'goby, shrimp': 'shrimp-goby',
  'goby, sand-sifting': 'sand-sifting-goby',
  'goby, clown': 'clown-goby',
  'goby, neon': 'neon-goby',
  'dartfish, firefish': 'firefish',
  blenny: 'blenny',
  'mandarin, scooter dragonet': 'mandarin',
  jawfish: 'jawfish',
  cardinalfish: 'cardinalfish',
  lionfish: 'lionfish',
  'scorpionfish, stonefish': 'scorpionfish',
  puffer: 'puffer',
  'boxfish, cowfish': 'boxfish',
  porcupinefish: 'porcupinefish',
  triggerfish: 'triggerfish',
  filefish: 'filefish',
  seahorse: 'seahorse',
  pipefish: 'pipefish',
  'moray eel': 'moray-eel',
  'garden eel': 'garden-eel',
  frogfish: 'frogfish',
  'shark, small': 'small-shark',
  ray: 'ray',
  goatfish: 'goatfish',
  'squirrelfish, soldierfish': 'squirrelfish',
  tilefish: 'tilefish',
  comet: 'comet',
  'striped eel catfish': 'striped-eel-catfish',
  'waspfish, leaf scorpionfish': 'waspfish',
  'toadfish, stargazer, weever': 'toadfish',
  soapfish: 'soapfish',
  'lunar and other Thalassoma wrasses, bird wrasse': 'thalassoma-wrasse',
  batfish: 'batfish',
  'engineer goby, convict blenny': 'engineer-goby',
  'sweetlips, grunt': 'sweetlips',
};

/** Where each row of dips.csv stands in knowledge/remedies. */
const REMEDIES: Readonly<Record<string, string>> = {
  'iodine-based': 'iodine-dip',
  'potassium chloride': 'potassium-chloride-dip',
  'plant-oil based': 'plant-oil-dip',
  'hydrogen peroxide (coral)': 'hydrogen-peroxide-dip-coral',
  'freshwater (RO)': 'fresh-water-dip-coral',
  'levamisole bath (coral)': 'levamisole-bath-coral',
  'praziquantel bath (coral)': 'praziquantel-bath-coral',
  'milbemycin bath (coral)': 'milbemycin-bath-coral',
  mechanical: 'picking-by-hand',
  'freshwater dip (fish)': 'fresh-water-dip-fish',
  'formalin bath (fish)': 'formalin-bath-fish',
  'hydrogen peroxide bath (fish)': 'hydrogen-peroxide-bath-fish',
  'praziquantel (fish, long bath)': 'praziquantel-bath-fish',
  'system hyposalinity pulses (NOT a dip)': 'low-salinity-pulses',
};

const COLUMNS = {
  copper: 'copper',
  hyposalinity: 'hyposalinity',
  tankTransfer: 'tank_transfer',
  praziquantel: 'praziquantel',
} as const;
type Plan = keyof typeof COLUMNS;

/** Tolerances that stand otherwise than the row has them, always on the careful side. */
const STRICTER: Readonly<Record<string, Partial<Record<Plan, Tolerance>>>> = {
  // Spiny fish are not for tank transfer without a word, and this one's spine may be venomous.
  squirrelfish: { tankTransfer: 'caution' },
};

/** An entry of its own for what a row says of one genus only: "Anampses: avoid copper". */
const TAMARIN = 'tamarin-wrasse';

function fishOf(id: string): Fish {
  const fish = base.fish.get(id);
  if (!fish) throw new Error(`no kind of fish "${id}"`);
  return fish;
}

function remedyOf(id: string): Remedy {
  const remedy = base.remedies.get(id);
  if (!remedy) throw new Error(`no remedy "${id}"`);
  return remedy;
}

const keysIn = (row: Row, column: string) =>
  textIn(row, column)
    .split(';')
    .filter((key) => key !== '');

/** Everything in an entry that somebody reads. */
const textsOf = (entry: Fish | Remedy): string[] =>
  Object.values(entry).flatMap((value) =>
    typeof value === 'string' ? [value] : Array.isArray(value) ? value.filter((each) => typeof each === 'string') : [],
  );

const fishRows = readReference('species-notes').map((row) => ({ group: textIn(row, 'common_group'), row }));
const dipRows = readReference('dips').map((row) => ({ agent: textIn(row, 'agent_type'), row }));

describe('kinds of fish', () => {
  test('every row has one entry, and every entry comes from a row', () => {
    expect(Object.keys(FISH).sort()).toEqual(fishRows.map(({ group }) => group).sort());
    expect([...base.fish.keys()].sort()).toEqual([...Object.values(FISH), TAMARIN].sort());
  });

  test.each(fishRows)('$group bears what its row says', ({ group, row }) => {
    const id = FISH[group] ?? '';
    const fish = fishOf(id);
    for (const plan of Object.keys(COLUMNS) as Plan[]) {
      const expected = STRICTER[id]?.[plan] ?? textIn(row, COLUMNS[plan]).replace(' ', '-');
      expect({ [plan]: fish[plan] }).toEqual({ [plan]: expected });
    }
    expect(fish.leastQuarantineL).toBe(numberIn(row, 'min_quarantine_litres'));
    expect(fish.jumps).toBe(textIn(row, 'jump_risk').toLowerCase().replace('very ', ''));
    const feeding = textIn(row, 'feeding_difficulty').replace('medium-hard', 'medium to hard');
    expect(fish.feeding.split(':')[0]).toBe(feeding);
  });

  test.each(fishRows)('$group keeps the warnings of its row', ({ group, row }) => {
    const fish = fishOf(FISH[group] ?? '');
    expect(fish.firstAid).toEqual(expect.arrayContaining(keysIn(row, 'first_aid')));
    if (textIn(row, 'venom_or_injury') !== 'none') expect(fish.hurts).toBeDefined();
    if (/VENOMOUS/.test(textIn(row, 'venom_or_injury'))) expect(fish.hurts).toMatch(/VENOMOUS/);
    if (textIn(row, 'rest_or_hide') !== '') expect(fish.rest).toBeDefined();
    if (textIn(row, 'jump_risk') === 'VERY HIGH') expect(fish.needs).toMatch(/very likely to jump|gets out of any gap/);
  });

  test('what can hurt somebody has first aid', () => {
    const without = [...base.fish.values()].filter(
      ({ hurts, firstAid }) => hurts !== undefined && firstAid.length === 0,
    );
    expect(without.map(({ id }) => id)).toEqual([]);
  });

  test('the reason stands in the entry wherever copper is refused', () => {
    const refused = [...base.fish.values()].filter(({ copper }) => copper === 'avoid' || copper === 'vet-only');
    expect(refused.length).toBeGreaterThan(15);
    expect(refused.filter(({ needs }) => !/copper/i.test(needs)).map(({ id }) => id)).toEqual([]);
  });

  test.each(['small-shark', 'ray'])('%s gets neither copper, low salinity nor transfer, the rest from a vet', (id) => {
    expect(fishOf(id)).toMatchObject({
      copper: 'avoid',
      hyposalinity: 'avoid',
      tankTransfer: 'avoid',
      praziquantel: 'vet-only',
    });
  });

  test.each(['seahorse', 'pipefish', 'leopard-wrasse', 'jawfish', 'garden-eel', 'striped-eel-catfish', TAMARIN])(
    '%s gets neither copper nor tank transfer',
    (id) => expect(fishOf(id)).toMatchObject({ copper: 'avoid', tankTransfer: 'avoid' }),
  );

  test.each(['mandarin', 'boxfish'])('%s gets neither copper nor low salinity', (id) =>
    expect(fishOf(id)).toMatchObject({ copper: 'avoid', hyposalinity: 'avoid' }),
  );

  test.each(['moray-eel', 'frogfish', 'tilefish', 'cleaner-wrasse', 'parrotfish'])('%s gets no copper', (id) =>
    expect(fishOf(id).copper).toBe('avoid'),
  );

  test.each(['puffer', 'porcupinefish', 'toadfish'])('%s gets copper only with a vet', (id) =>
    expect(fishOf(id)).toMatchObject({ copper: 'vet-only', needs: expect.stringContaining('written plan from a vet') }),
  );

  test('a name means one kind of fish', () => {
    const names = [...base.fish.values()].flatMap(({ name, aliases }) => [
      ...new Set([name, ...aliases].map((each) => each.toLowerCase())),
    ]);
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
  });
});

describe('remedies', () => {
  test('every row has one entry, and every entry comes from a row', () => {
    expect(Object.keys(REMEDIES).sort()).toEqual(dipRows.map(({ agent }) => agent).sort());
    expect([...base.remedies.keys()].sort()).toEqual(Object.values(REMEDIES).sort());
  });

  test.each(dipRows)('$agent has the minutes, the days and the vet of its row', ({ agent, row }) => {
    const remedy = remedyOf(REMEDIES[agent] ?? '');
    // An upper end alone is no span: such rows are vet-led, and the vet says how long.
    const [low, high] = [textIn(row, 'minutes_low'), textIn(row, 'minutes_high')];
    expect(remedy.minutes).toEqual(low && high ? { low: Number(low), high: Number(high) } : undefined);
    const days = /^(\d+)(?:-(\d+))?$/.exec(textIn(row, 'repeat_days'));
    expect(remedy.everyDays).toEqual(days ? { low: Number(days[1]), high: Number(days[2] ?? days[1]) } : undefined);
    // "prefer" is no "only": the entry asks for a vet first and leaves it to the member.
    expect(remedy.vetLed).toBe(textIn(row, 'vet_only') === 'yes');
    if (textIn(row, 'vet_only') === 'prefer') expect(remedy.mind).toMatch(/^Ask a fish vet first/);
    expect(remedy.standing).toBe(textIn(row, 'status').replace(' ', '-'));
    expect(remedy.firstAid).toEqual(keysIn(row, 'first_aid'));
  });

  test('where a vet leads, the entry says that the vet decides', () => {
    const led = [...base.remedies.values()].filter(({ vetLed }) => vetLed);
    expect(led.length).toBe(7);
    expect(led.filter(({ mind }) => !/the vet decides/i.test(mind)).map(({ id }) => id)).toEqual([]);
    expect(led.filter(({ mind }) => !mind.includes('only the dates are kept')).map(({ id }) => id)).toEqual([]);
  });

  test('every dip of a coral that no vet leads says what goes for all of them', () => {
    const dips = dipRows
      .filter(({ row }) => textIn(row, 'common_rules') === 'coral-dip' && textIn(row, 'vet_only') === 'no')
      .map(({ agent }) => remedyOf(REMEDIES[agent] ?? ''));
    expect(dips.length).toBe(6);
    for (const { mind, protect, stopSigns } of dips) {
      expect(mind).toMatch(/Rinse twice/);
      expect(mind).toMatch(/new plug/);
      expect(mind).toMatch(/goes to no tank and to no drain/);
      expect(protect).toMatch(/gloves.*goggles/i);
      expect(stopSigns).toMatch(/no second dip/);
    }
  });

  test('no dip says that it kills eggs', () => {
    const corals = dipRows.filter(
      ({ agent, row }) => textIn(row, 'common_rules') === 'coral-dip' && agent !== 'mechanical',
    );
    const silent = corals
      .map(({ agent }) => remedyOf(REMEDIES[agent] ?? ''))
      .filter(({ notAgainst, id }) => !/no eggs/.test(notAgainst) && id !== 'milbemycin-bath-coral');
    expect(silent.map(({ id }) => id)).toEqual([]);
  });
});

test('no entry holds a dose or a concentration', () => {
  const DOSE = /\d\s*(mg|g|µg|ug|ml|l)\s*(\/|per )|\d\s*(ppm|ppb|ppt|psu|%|per ?cent|mol)/i;
  for (const dose of ['2 mg/L', '2.5mg/L', '2 ppm', '10 mL/L', '3 %', '60 µg per litre']) expect(dose).toMatch(DOSE);
  const found = [...base.fish.values(), ...base.remedies.values()].flatMap((entry) =>
    textsOf(entry).filter((text) => DOSE.test(text)),
  );
  expect(found).toEqual([]);
});
