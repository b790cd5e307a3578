import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { namesInText } from '../../../src/critters/mention.ts';
import { cannotTellView, questionView } from '../../../src/critters/names.view.ts';
import { AmbiguousName } from '../../../src/knowledge/ambiguous-name.ts';
import { checkFile } from '../../../src/knowledge/check-file.ts';
import { Coral, CORAL_CLAIMS } from '../../../src/knowledge/coral.ts';
import { checkLinks } from '../../../src/knowledge/knowledge-check.ts';
import { lookUp } from '../../../src/knowledge/look-up.ts';
import { base, finder, loaded } from './real-base.ts';

const { corals } = loaded.knowledge;
const fileOf = (id: string) => `knowledge/corals/${id}.yaml`;
const written = (id: string) => parse(readFileSync(fileOf(id), 'utf8')) as Record<string, unknown>;
const proseOf = (id: string) => {
  const coral = base.corals.get(id);
  return CORAL_CLAIMS.flatMap((claim) => (claim === 'name' ? [] : (coral?.[claim] ?? [])));
};

/** The complaints about an entry that is right but for `changes`. */
const complaints = (id: string, changes: Record<string, unknown>) => {
  const checked = Coral.safeParse({ ...written(id), ...changes });
  return checked.success ? [] : checked.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`);
};

describe('the shape of a coral', () => {
  test('a whole entry has no complaint, as a file and as data', () => {
    expect(checkFile(fileOf('zoanthus'))).toEqual([]);
    expect(complaints('zoanthus', {})).toEqual([]);
    expect(complaints('acropora', {})).toEqual([]);
  });

  test.each([
    ['acropora', { caution: undefined, sources: sourcesWithout('acropora', 'caution') }, /^caution: .*can hurt/],
    ['acropora', { permit: undefined, sources: sourcesWithout('acropora', 'permit') }, /^permit: .*border/],
    ['acropora', { citesAppendixII: false }, /^citesAppendixII: true, because of the kind stony/],
    ['zoanthus', { humanHazards: ['eye-splash'] }, /^humanHazards: toxin-palytoxin/],
    ['zoanthus', { careFlags: ['own-island'] }, /^careFlags: poison-gloves-goggles too/],
    ['sarcophyton', { careFlags: [] }, /^careFlags: poisons-water too/],
    ['acropora', { careFlags: ['own-island'] }, /^careFlags: no own-island/],
    ['galaxea', { strength: 'weak' }, /^careFlags: no kills-neighbours/],
    ['tubastraea', { feed: undefined, sources: sourcesWithout('tubastraea', 'feed') }, /^feed: .*what it eats/],
    ['acropora', { lightPar: [300, 200] }, /^lightPar: the lower light first/],
    ['acropora', { lightPar: [200, 1001] }, /^lightPar\.1: /],
    ['acropora', { hobbyNames: ['acro', 'acro'] }, /^hobbyNames: each name once/],
    ['acropora', { pests: ['aefw', 'aefw'] }, /^pests: each critter once/],
    ['acropora', { place: 'On rock without a stop' }, /^place: a sentence that ends in a full stop/],
    ['acropora', { place: `${'x'.repeat(340)}.` }, /^place: /],
    ['acropora', { feed: 'It also takes very fine food at night.' }, /^sources: a source for "feed"/],
    ['acropora', { colour: 'blue' }, /^: Unrecognized key/],
    ['xenia-coral', { sources: { 'common-practice': ['name', 'permit'] } }, /^sources: no source for "permit"/],
  ])('%s with %j is refused', (id, changes, complaint) => {
    expect(complaints(id, changes)).toEqual(expect.arrayContaining([expect.stringMatching(complaint)]));
  });
});

describe('the corals that are shipped', () => {
  test('are all there, each under its file name', () => {
    expect(corals.length).toBeGreaterThanOrEqual(89);
    expect(base.corals.get('zoanthus')?.name).toBe('Zoanthids');
    expect(new Set(corals.map(({ id }) => id)).size).toBe(corals.length);
  });

  test('no two say the same about anything', () => {
    const all = corals.flatMap(({ id }) => proseOf(id));
    expect(all.length).toBeGreaterThan(corals.length * 5);
    expect(new Set(all).size).toBe(all.length);
  });

  test('the light that a text tells stands within the span of the entry, and starts low', () => {
    for (const { id, place, lightPar } of corals) {
      const told = [...place.matchAll(/(?:PAR|under|over|below|above|exceed|more than|to) (\d+)(?! ?cm)\b/g)].map(
        (match) => Number(match[1]),
      );
      for (const par of told.filter((number) => number > 15)) {
        expect(par, `${id}: ${par}`).toBeLessThanOrEqual(lightPar[1]);
        expect(par, `${id}: ${par}`).toBeGreaterThanOrEqual(lightPar[0]);
      }
      if (lightPar[0] > 0) expect(told, id).toContain(lightPar[0]);
    }
  });

  test('a text tells distances no less than the reach of the sting', () => {
    const least = { none: 0, short: 2, medium: 6, long: 15, 'very-long': 20 };
    for (const { id, place, reach } of corals) {
      const centimetres = [...place.matchAll(/(\d+) cm/g)].map((match) => Number(match[1]));
      const inWords = /hand|palm|plate/.test(place) ? [8] : [];
      if (reach !== 'none') expect(Math.max(0, ...centimetres, ...inWords), id).toBeGreaterThanOrEqual(least[reach]);
    }
  });

  test('nobody is asked to feel an animal, told a dose, or sent to a product', () => {
    for (const { id } of corals)
      for (const text of proseOf(id)) {
        expect(text, id).not.toMatch(/\b(touch it|poke|stroke|sniff|smell|taste it|squeeze|feel (it|the))\b/i);
        expect(text, id).not.toMatch(/\d\s?(mg|ml|g|ppm|%|drops?|minutes?)\b/i);
        expect(text, id).not.toMatch(/®|™|https?:/);
      }
  });

  test('a dip is never said to kill eggs', () => {
    const dipped = corals.filter(({ swap }) => /\bdip/i.test(swap));
    expect(dipped.length).toBeGreaterThan(70);
    for (const { id, swap } of corals) expect(swap, id).toMatch(/egg/i);
  });

  test('whatever cannot live on light, or kills its neighbours, says so in words', () => {
    const fed = corals.filter(({ feeding }) => feeding === 'must-be-fed');
    expect(fed.length).toBeGreaterThan(3);
    for (const { id, feed } of fed) expect(feed, id).toMatch(/must|several times a week/);
    for (const { id, feed } of corals.filter(({ feeding }) => feeding === 'expert-only'))
      expect(feed, id).toMatch(/starves/);
    for (const { id, chemical, neighbours, place } of corals)
      if (chemical) expect(`${neighbours} ${place}`, id).toMatch(/chemical|through the water|poisons/i);
  });
});

describe('corals that may be poisonous', () => {
  const poisonous = corals.filter(({ palytoxin }) => palytoxin);

  test('are the zoanthids, all of them', () => {
    expect(poisonous.map(({ id }) => id).sort()).toEqual(['isaurus', 'palythoa', 'parazoanthus', 'zoanthus']);
    expect(corals.filter(({ kind }) => kind === 'zoanthid')).toHaveLength(poisonous.length);
  });

  test.each(poisonous.map((coral) => [coral.id, coral] as const))(
    '%s: gloves, goggles, cold, nothing boiled, no power tool, no kitchen sink, poison centre',
    (_id, { caution, swap }) => {
      expect(caution).toMatch(/poison centre/i);
      expect(caution).toMatch(/boil/i);
      for (const wanted of [/gloves/i, /goggles/i, /cold|No heat/i, /power|no saw/i])
        expect(`${swap} ${caution}`).toMatch(wanted);
      expect(`${swap} ${caution}`).toMatch(/sink/i);
      expect(swap).toMatch(/goggles/i);
    },
  );
});

describe('how corals fit the rest', () => {
  const coral = corals.find(({ id }) => id === 'acropora')!;
  const check = (changes: Partial<typeof coral>, more: Partial<typeof loaded.knowledge> = {}) =>
    checkLinks(
      {
        ...loaded.knowledge,
        corals: [...corals.filter(({ id }) => id !== coral.id), { ...coral, ...changes }],
        ...more,
      },
      (kind, id) => `${kind}/${id}`,
    );

  test('the shipped ones do', () => {
    expect(check({})).toEqual([]);
  });

  test.each([
    [{ pests: ['gone-worm'] }, 'pests', 'came "gone-worm", expected the id of a critter'],
    [{ lodgers: ['gone-crab'] }, 'lodgers', 'came "gone-crab", expected the id of a critter'],
    [{ lodgers: ['aefw'] }, 'lodgers', 'came "aefw", which stands under pests too; keep one of them'],
  ])('%j is told', (changes, list, message) => {
    expect(check(changes)).toEqual([{ file: 'coral/acropora', path: [list], message }]);
  });

  test('an unknown source is told', () => {
    const found = check({ sources: { ...coral.sources, 'nobody-1999': ['what'] } });
    expect(found).toEqual([expect.objectContaining({ path: ['sources', 'nobody-1999'] })]);
  });

  test('a name belongs to one coral and to no question, but may be a critter too', () => {
    expect(check({ hobbyNames: ['Sun  Corals'] })).toEqual([expect.objectContaining({ path: ['hobbyNames'] })]);
    expect(check({ name: 'Brain coral' })).toEqual([expect.objectContaining({ path: ['name'] })]);
    const critterName = loaded.knowledge.critters.find(({ id }) => id === 'bristleworm-common')!.name;
    expect(check({ hobbyNames: [critterName] })).toEqual([]);
  });

  test('a hazard needs its first aid, and a question a coral that is there', () => {
    const firstAid = loaded.knowledge.firstAid.filter(({ id }) => id !== 'cut');
    expect(check({}, { firstAid }).filter(({ file }) => file === 'coral/acropora')).toHaveLength(1);
    const gone = loaded.knowledge.ambiguousNames.map((question) =>
      question.id === 'sps' ? { ...question, answers: [{ says: 'This one', coral: 'gone-coral' }] } : question,
    );
    expect(check({}, { ambiguousNames: gone })).toEqual([
      { file: 'ambiguous-name/sps', path: ['answers'], message: 'came "gone-coral", expected the id of a coral' },
    ]);
  });
});

describe('names that mean a coral', () => {
  test('an answer leads to a critter or a coral, never to both or neither', () => {
    const question = (answer: object) =>
      AmbiguousName.safeParse({ names: ['thing'], mode: 'ask', question: 'Which of these?', answers: [answer] });
    expect(question({ says: 'This one', coral: 'acropora' }).success).toBe(true);
    expect(question({ says: 'This one', critter: 'aefw' }).success).toBe(true);
    for (const broken of [{ says: 'This one' }, { says: 'This one', coral: 'acropora', critter: 'aefw' }]) {
      const refused = question(broken);
      expect(refused.error?.issues[0]?.message).toMatch(/either critter or coral/);
    }
  });

  test('an everyday word for a coral is asked about, since only critters have cards', () => {
    expect(lookUp(base, finder, 'torch')).toMatchObject({ kind: 'question', question: { id: 'torch' } });
    expect(lookUp(base, finder, 'mushroom')).toMatchObject({ kind: 'question', question: { id: 'mushroom' } });
  });

  test('a coral in a sentence is where an animal sits, and does not stand in its way', () => {
    const found = namesInText(base, finder, 'is the bristle worm on my brain coral bad?');
    expect(found).toEqual([expect.objectContaining({ kind: 'found' })]);
    expect(namesInText(base, finder, 'is brain coral bad?')).toMatchObject([{ kind: 'question' }]);
  });

  test('a question shows its corals as lines and its critters as buttons too', () => {
    const question = base.ambiguousNames.find(({ id }) => id === 'mushroom')!;
    const { blocks } = questionView(base, question, 'mushroom', 'member');
    expect(JSON.stringify(blocks)).toContain('**Ricordea** (coral)');
    const buttons = blocks.flatMap((block) => (block.kind === 'buttons' ? block.buttons : []));
    const pressed = buttons.map((button) => ('args' in button ? button.args : []));
    expect(pressed).toEqual([['mushroom-brown'], ['palythoa-brown'], ['mushroom']]);
  });

  test('who cannot tell one coral from another gets no empty row of buttons', () => {
    const question = base.ambiguousNames.find(({ id }) => id === 'brain')!;
    const { blocks } = cannotTellView(base, question);
    expect(blocks.length).toBeGreaterThan(1);
    expect(blocks.filter(({ kind }) => kind === 'buttons')).toEqual([]);
  });

  test('every answer that leads to a coral leads to one that is there', () => {
    const led = loaded.knowledge.ambiguousNames.flatMap(({ answers }) =>
      answers.flatMap((answer) => ('coral' in answer ? answer.coral : [])),
    );
    expect(led.length).toBeGreaterThan(60);
    for (const id of led) expect(base.corals.has(id), id).toBe(true);
  });
});

/** The sources of an entry without one claim, so that its absence is the only mistake. */
function sourcesWithout(id: string, claim: string): Record<string, string[]> {
  const sources = written(id).sources as Record<string, string[]>;
  return Object.fromEntries(
    Object.entries(sources)
      .map(([source, claims]) => [source, claims.filter((each) => each !== claim)] as const)
      .filter(([, claims]) => claims.length > 0),
  );
}
