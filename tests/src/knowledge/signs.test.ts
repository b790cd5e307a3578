import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normaliseName } from '../../../src/knowledge/normalise.ts';
import { URGENCIES, type Sign } from '../../../src/knowledge/sign.ts';
import { mostUrgent, signsMatching, type Fit } from '../../../src/quarantine/signs.ts';
import { readReference, textIn, type Row } from '../../reference/read-csv.ts';
import { base, loaded } from './real-base.ts';

const signs = loaded.knowledge.signs;

/** Which file holds a sign of symptoms.csv; its rows are the fits, in the same order. */
const FILES: Readonly<Record<string, string>> = {
  'fish: white spots (salt-grain size)': 'fish-white-spots',
  'fish: dust-like spots (gold, grey or powdery)': 'fish-dust-like-spots',
  'fish: rapid breathing': 'fish-rapid-breathing',
  'fish: surface gasping': 'fish-surface-gasping',
  'fish: hanging in strong flow': 'fish-hanging-in-flow',
  'fish: flashing (scratching on objects)': 'fish-flashing',
  'fish: clamped fins': 'fish-clamped-fins',
  'fish: excess slime or grey film': 'fish-excess-slime',
  'fish: cloudy eyes': 'fish-cloudy-eyes',
  'fish: bulging eye': 'fish-bulging-eye',
  'fish: not eating': 'fish-not-eating',
  'fish: white stringy faeces': 'fish-white-stringy-faeces',
  'fish: thin body, hollow belly while eating': 'fish-thin-while-eating',
  'fish: red sores or ulcers': 'fish-red-sores',
  'fish: swollen belly': 'fish-swollen-belly',
  'fish: frayed or white-edged fins': 'fish-frayed-fins',
  'fish: black pepper-like specks': 'fish-black-specks',
  'fish: sudden deaths, few signs': 'fish-sudden-deaths',
  'fish: loss of balance, upside down': 'fish-loss-of-balance',
  'fish: lying on bottom, pale, breathing fast': 'fish-lying-on-bottom',
  'fish: erosion of head or lateral line': 'fish-head-erosion',
  'fish: visible crustacean or leech': 'fish-visible-parasite',
  'coral: egg-like brown plaques on bare skeleton': 'coral-egg-plaques',
  'coral: round pale bite marks': 'coral-bite-marks',
  'coral: white area spreading from edge, tiny slugs under plate': 'coral-white-edge-montipora',
  'coral: dull colour, tiny yellow-red moving dots': 'coral-moving-dots',
  'coral: closed zoanthids for days': 'coral-zoanthids-closed',
  'coral: brown jelly on stony coral': 'coral-brown-jelly',
  'coral: tissue sloughing overnight': 'coral-tissue-sloughing',
  'coral: paling or bleaching (whole coral turns pale or white, flesh still there)': 'coral-bleaching',
  'coral: white from the base up (bare skeleton spreading from the foot)': 'coral-white-from-base',
  'coral: white from the tips down (bare tips, branches)': 'coral-white-from-tips',
  'coral: tissue peeling off in hours': 'coral-peeling-in-hours',
  'coral: polyps leave the skeleton (bail-out)': 'coral-bail-out',
  'coral: brown strings from the mouth': 'coral-brown-strings',
  'coral: white threads from the mouth or side (gut filaments)': 'coral-white-threads',
  'coral: burnt edge beside a neighbour': 'coral-burnt-edge',
  'coral: zoanthid pox (small white or yellow pimples on the polyps)': 'coral-zoanthid-pox',
  'coral: receding flesh at the foot of a large-polyp coral': 'coral-receding-foot',
  'coral: closed for a day after a move': 'coral-closed-after-move',
  'coral: leather coral shut with a waxy skin': 'coral-leather-waxy',
  'coral: mushroom or large polyp detached and drifting': 'coral-detached',
  'invertebrate: clam gaping or mantle pulled back': 'invertebrate-clam-gaping',
  'invertebrate: anemone drifting or foot loose': 'invertebrate-anemone-drifting',
  'invertebrate: anemone mouth open, gaping or shrunken for days': 'invertebrate-anemone-mouth-open',
  'invertebrate: urchin dropping spines': 'invertebrate-urchin-spines',
  'invertebrate: star melting, arms fall off': 'invertebrate-star-melting',
  'invertebrate: cucumber shrunk, torn or in a pump': 'invertebrate-cucumber-hurt',
  'invertebrate: shrimp or crab lying on its back, empty': 'invertebrate-shell-on-back',
  'invertebrate: shrimp or crab twitching or dead within hours': 'invertebrate-shrimp-twitching',
  'invertebrate: snails fall and do not right themselves': 'invertebrate-snails-fallen',
  'human: person: bitter taste, fever, cough, muscle pain after coral work': 'human-palytoxin',
  'human: person: sting by spiny fish': 'human-fish-sting',
  'human: person: bite or sting by a small octopus or a cone snail': 'human-octopus-cone-snail',
  'human: person: spines of urchin, ray, crown-of-thorns or fish': 'human-spines',
  'human: person: stung by anemone, hydroid, fire coral or jellyfish': 'human-stinging-cells',
  'human: person: bristles in the skin': 'human-bristles',
  'human: person: eye splash from a zoanthid, tank or dip water': 'human-eye-splash',
  'human: person: metallic taste, cramps, breathlessness in several people': 'human-vapour',
  'human: person: slow red lump weeks after a cut': 'human-slow-lump',
  'human: person: wound red, hot, swelling fast, fever': 'human-infected-wound',
  'human: person: rash or burning eye after a sea cucumber or sponge': 'human-cucumber-sponge',
  'human: person: chemical in eye or on skin': 'human-chemical',
  'human: person: swallowed tank chemical': 'human-swallowed',
  'human: person: electric shock at the tank': 'human-electric-shock',
  'pet: pet: ate or chewed coral, puffer, cucumber or dip water': 'pet-ate-coral',
};

/** First aid beyond the row: a child that ate coral is met under this sign too, and bleach is swallowed as well. */
const MORE_FIRST_AID: Readonly<Record<string, readonly string[]>> = {
  'human-swallowed': ['chem-bleach', 'toxic-if-eaten'],
};

const STANDING = { published: 'published', 'from memory': 'from-memory', 'common practice': 'common-practice' };

const listIn = (row: Row, column: string) =>
  textIn(row, column)
    .split(';')
    .filter((each) => each !== '');
const keyOf = (row: Row) => `${textIn(row, 'group')}: ${textIn(row, 'sign')}`;

const seen = new Map<string, number>();
const rows = readReference('symptoms').map((row) => {
  const key = keyOf(row);
  const place = seen.get(key) ?? 0;
  seen.set(key, place + 1);
  return { row, key, place, condition: textIn(row, 'condition') };
});
const signOf = (key: string): Sign => {
  const sign = base.signs.get(FILES[key] ?? '');
  if (!sign) throw new Error(`no file for ${key}`);
  return sign;
};

describe('symptoms.csv', () => {
  test('every sign has its file, every file its sign, every fit its row', () => {
    expect([...seen.keys()].sort()).toEqual(Object.keys(FILES).sort());
    expect(signs.map(({ id }) => id).sort()).toEqual(Object.values(FILES).sort());
    for (const [key, count] of seen) expect(signOf(key).fits, key).toHaveLength(count);
  });

  test.each(rows)('$key, $condition', ({ row, key, place }) => {
    const sign = signOf(key);
    expect(sign.group).toBe(textIn(row, 'group'));
    expect(sign.aliases).toEqual(expect.arrayContaining(listIn(row, 'aliases')));
    expect(sign.checkFirst !== undefined).toBe(textIn(row, 'check_first') !== '');
    const fit = sign.fits[place];
    expect(fit).toMatchObject({
      weight: textIn(row, 'weight'),
      urgency: textIn(row, 'urgency'),
      restarts: textIn(row, 'infectious_restart') === 'yes',
      firstAid: [...listIn(row, 'first_aid'), ...(MORE_FIRST_AID[sign.id] ?? [])],
      standing: STANDING[textIn(row, 'status') as keyof typeof STANDING],
    });
    // One animal is linked; where a row names several, the others stand in words.
    expect(fit?.critter).toBe(listIn(row, 'critter_id')[0]);
    const vet = textIn(row, 'vet_referral');
    expect(fit?.vet === undefined).toBe(vet === 'no' || vet === 'human medical');
    if (vet === 'yes, same day') expect(fit?.vet).toBe('today');
  });
});

const fits = signs.flatMap((sign) => sign.fits.map((fit) => ({ sign, fit, at: `${sign.id}: ${fit.condition}` })));
const textsOf = (fit: Fit) => [fit.condition, fit.tell, fit.first, fit.vet ?? ''];

/** The first word of what to do at once. */
const ACTS = new Set('Add Call Change Cut Dilute Get Go Keep Move Press Rinse Stop Take Test Use'.split(' '));
const DOSE = /\d\s*(?:mg|ug|µg|g|ml|ppm|grams?|drops?)\b/i;

describe('what the signs say', () => {
  test.each(fits.filter(({ fit }) => fit.urgency === 'emergency'))('$at begins with an act', ({ fit }) => {
    expect(ACTS).toContain(fit.first.split(' ')[0]);
  });

  test('the pattern of a dose finds doses and leaves other figures alone', () => {
    for (const dose of ['2 mg/L', '0.2 ppm', '5 mL', '10g', '3 drops']) expect(dose).toMatch(DOSE);
    for (const figure of ['12 hours', '42 to 45 °C', '0.5 dKH a day', '15 minutes']) expect(figure).not.toMatch(DOSE);
  });

  test.each(fits)('$at gives no dose and no verdict', ({ sign, fit }) => {
    for (const text of [sign.name, sign.checkFirst ?? '', ...textsOf(fit)]) {
      expect(text).not.toMatch(DOSE);
      expect(text).not.toMatch(/\b(your (fish|coral) has|diagnos|definitely|certainly)/i);
      expect(text).not.toMatch(/\bsheet \d|\.csv/i);
    }
  });

  test('a suspicion of velvet is never met with waiting', () => {
    const velvet = fits.filter(({ fit }) => fit.critter === 'marine-velvet');
    expect(velvet.length).toBeGreaterThan(4);
    for (const { fit } of velvet) {
      expect(fit).toMatchObject({ urgency: 'emergency', restarts: true, vet: 'today' });
      expect(fit.first).toMatch(/^Call a fish vet now/);
      expect(fit.first).not.toMatch(/look again in|hours|days/i);
    }
  });

  const HELP = /doctor|ambulance|poison centre|emergency number|hospital|eye clinic|medical help/i;
  test.each(fits.filter(({ sign }) => sign.group === 'human'))('$at has first aid and names help', ({ fit }) => {
    expect(fit.firstAid).not.toEqual([]);
    expect(fit.first).toMatch(HELP);
    expect(fit.vet).toBeUndefined();
  });

  test.each(fits.filter(({ sign }) => sign.group === 'pet'))('$at has first aid and names the vet', ({ fit }) => {
    expect(fit.firstAid).not.toEqual([]);
    expect(fit.first).toMatch(/vet or an animal poison line/);
  });

  test('no condition stands twice in one sign, since answers go by it', () => {
    for (const { id, fits: own } of signs)
      expect(new Set(own.map(({ condition }) => condition)).size, id).toBe(own.length);
  });
});

describe('mostUrgent', () => {
  const sign = signOf('fish: rapid breathing');
  const all = sign.fits.map(({ condition }) => condition);

  test('asks what comes first, and says what holds until it is answered', () => {
    expect(mostUrgent(sign)).toMatchObject({ kind: 'ask', question: sign.checkFirst, until: { urgency: 'emergency' } });
    expect(mostUrgent(signOf('fish: clamped fins')).kind).toBe('fit');
  });

  test('gives the most urgent row that is left, and says when none is', () => {
    expect(mostUrgent(sign, new Set())).toMatchObject({ kind: 'fit', fit: { weight: 'strong', urgency: 'emergency' } });
    const urgent = sign.fits.filter(({ urgency }) => urgency === 'emergency').map(({ condition }) => condition);
    expect(mostUrgent(sign, new Set(urgent))).toMatchObject({
      kind: 'fit',
      fit: { critter: 'flukes', weight: 'strong' },
    });
    expect(mostUrgent(sign, new Set(all))).toEqual({ kind: 'unexplained' });
  });

  test('never passes over a more urgent row', () => {
    fc.assert(
      fc.property(fc.constantFrom(...signs), fc.array(fc.nat(6)), (any, places) => {
        const out = new Set(places.flatMap((place) => any.fits[place]?.condition ?? []));
        const left = any.fits.filter(({ condition }) => !out.has(condition));
        const answer = mostUrgent(any, out);
        if (left.length === 0) {
          expect(answer).toEqual({ kind: 'unexplained' });
          return;
        }
        if (answer.kind !== 'fit') throw new Error(`came ${answer.kind}`);
        expect(left).toContain(answer.fit);
        for (const { urgency } of left)
          expect(URGENCIES.indexOf(answer.fit.urgency)).toBeLessThanOrEqual(URGENCIES.indexOf(urgency));
      }),
    );
  });
});

describe('signsMatching', () => {
  const found = (text: string, group?: Sign['group']) => signsMatching(signs, text, group).map(({ id }) => id);

  test('every alias and every name reaches its sign', () => {
    for (const { id, name, aliases } of signs)
      for (const text of [name, ...aliases]) expect(found(text), text).toContain(id);
  });

  test.each([
    ['my tang is breathing really fast', 'fish-rapid-breathing'],
    ['he hangs, gasping at the top since noon', 'fish-surface-gasping'],
    ['powder on my fish', 'fish-dust-like-spots'],
    ['scraching', 'fish-flashing'],
    ['it has a clowdy eye', 'fish-cloudy-eyes'],
    ['the torch is receding', 'coral-receding-foot'],
    ['brown jellly on my hammer', 'coral-brown-jelly'],
    ['help a lionfish stung me', 'human-fish-sting'],
    ['my dog ate coral', 'pet-ate-coral'],
    ['i got stung by my anemone', 'human-stinging-cells'],
    ['electric shock', 'human-electric-shock'],
    ['gasping', 'fish-surface-gasping'],
    ['pop e', 'fish-bulging-eye'],
  ])('%s', (text, id) => expect(found(text)[0]).toBe(id));

  test('a word alone counts only alone, whatever it is', () => {
    const alone = signs.flatMap(({ id, aliases }) =>
      aliases.filter((alias) => !normaliseName(alias).includes(' ')).map((alias) => ({ id, alias })),
    );
    expect(alone.length).toBeGreaterThan(20);
    for (const { id, alias } of alone) {
      expect(found(alias), alias).toContain(id);
      expect(found(`zebra ${alias} umbrella`), alias).not.toContain(id);
    }
  });

  test('words of four letters and fewer are never guessed', () => {
    expect(found('itch')).toContain('fish-flashing');
    expect(found('itch')).not.toContain('fish-white-spots');
    for (const text of ['ixh', 'icj', 'rtm', 'sfn', 'hlke', 'milt']) expect(found(text), text).toEqual([]);
    expect(found('dyst on the fish')).toEqual([]);
    expect(found('ich')).toEqual(['fish-white-spots']);
  });

  test('people come first, a group keeps to itself, and nothing fits nothing', () => {
    expect(found('bristle worm in finger and cloudy eye').slice(0, 2)).toEqual(['human-bristles', 'fish-cloudy-eyes']);
    expect(found('bristle worm in finger and cloudy eye', 'fish')).toEqual(['fish-cloudy-eyes']);
    for (const text of ['', '   ', '🐟', 'all well today']) expect(found(text), text).toEqual([]);
  });

  test('takes any text, and gives each sign once', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...signs.flatMap(({ aliases }) => aliases)), (text, alias) => {
        const ids = found(`${text} ${alias}`);
        expect(new Set(ids).size).toBe(ids.length);
      }),
    );
  });
});
