import { describe, expect, test } from 'vitest';
import { adviseOn, kindsOf, purposeIn } from '../../../src/quarantine/advice.ts';
import { kindsIn } from '../../../src/quarantine/kinds.ts';
import { hindrance } from '../../../src/quarantine/may-start.ts';
import type { Quarantine } from '../../../src/quarantine/quarantine.ts';
import { isRefused, notSimplyBorne } from '../../../src/quarantine/suits.ts';
import { base } from '../knowledge/real-base.ts';

const asker = (animals: string, fish: string[] = [], isVetLed = false) => ({ animals, fish, isVetLed });
const purposes = [...base.purposes.values()];
const allFish = [...base.fish.values()];
const plan = (id: string) => base.plans.get(id)!;

describe('the advised plan', () => {
  test('there are 66 kinds of fish and a purpose for every group of plans', () => {
    expect(allFish).toHaveLength(66);
    expect(new Set(purposes.map(({ for: group }) => group))).toEqual(
      new Set([...base.plans.values()].map(({ for: group }) => group)),
    );
  });

  test.each(purposes.map((purpose) => [purpose.id, purpose] as const))(
    '%s: never one that a fish does not bear, and never one that only a vet starts',
    (_id, purpose) => {
      for (const fish of allFish) {
        for (const isVetLed of [false, true]) {
          const { first, others, refused } = adviseOn(base, purpose, asker('new ones', [fish.id], isVetLed));
          expect(first, `${purpose.id} for ${fish.id}`).not.toBeNull();
          // Read from the entry itself, not through the function under test.
          const tolerances: Record<string, string> = {
            'copper-ionic': fish.copper,
            'copper-bound': fish.copper,
            hyposalinity: fish.hyposalinity,
            'tank-transfer': fish.tankTransfer,
            praziquantel: fish.praziquantel,
          };
          expect(tolerances[first!.plan.id] ?? 'ok', `${first!.plan.id} for ${fish.id}`).toBe('ok');
          if (isVetLed) continue;
          expect(first!.plan.vetLed, first!.plan.id).toBe(false);
          for (const { plan: offered } of others)
            expect(['avoid', 'vet-only']).not.toContain(purpose.for === 'fish' ? tolerances[offered.id] : 'ok');
          for (const { plan: none } of refused) expect(['avoid', 'vet-only']).toContain(tolerances[none.id]);
        }
      }
    },
  );

  test.each([
    ['two clownfish', 'new-fish', 'observation'],
    ['a clownfish with white spots', 'fish-with-spots', 'tank-transfer'],
    // A wrasse that may be any wrasse, and fish that nobody named: watching.
    ['a wrasse with spots', 'fish-with-spots', 'observation'],
    ['some fish with ich', 'fish-with-spots', 'observation'],
    ['three chromis with dust, breathing fast', 'fish-with-dust', 'suspected-velvet'],
    ['chromis, two died', 'fish-with-dust', 'suspected-velvet'],
    ['a tang that keeps flashing', 'fish-with-flukes', 'observation'],
    ['a torch coral', 'new-coral', 'coral-hold'],
    ['acropora with flatworms', 'coral-with-pest', 'acropora-flatworm'],
    ['frag with some pest', 'coral-with-pest', 'coral-dip-series'],
    ['a maxima clam', 'new-invertebrate', 'invertebrate-hold'],
    ['chaeto', 'new-macroalgae', 'macroalgae-hold'],
    ['my display', 'display-without-fish', 'fishless-display'],
  ])('“%s” is read as %s and gets %s', (words, purpose, advised) => {
    const found = purposeIn(base, asker(words));
    expect(found?.id).toBe(purpose);
    expect(adviseOn(base, found!, asker(words)).first?.plan.id).toBe(advised);
  });

  test.each(['stuff', 'x', '   ', '🐠'])('“%s” says nothing, and nothing is guessed', (words) => {
    expect(purposeIn(base, asker(words))).toBeUndefined();
  });

  test('words of velvet hold medicine back under every other purpose, unless a vet leads', () => {
    const words = 'clownfish with velvet';
    for (const purpose of purposes.filter((each) => each.for === 'fish' && !each.urgent)) {
      const { first, others } = adviseOn(base, purpose, asker(words));
      for (const each of [first, ...others])
        if (each) expect(each.plan.medicated || each.plan.id === 'tank-transfer', each.plan.id).toBe(false);
    }
    const led = adviseOn(base, base.purposes.get('fish-with-spots')!, asker(words, [], true));
    expect(led.others.map(({ plan: { id } }) => id)).toContain('copper-ionic');
  });
});

describe('kinds in words', () => {
  test.each<[string, string[]]>([
    ['two clownfish', ['clownfish']],
    ['two maroon clownfish', ['maroon-clownfish']],
    ['a powder blue tang', ['surgeonfish']],
    ['yellow tang and a mandarin', ['sailfin-surgeonfish', 'mandarin']],
    ['3 Wrasses', []],
    ['fire shrimp', []],
    ['bamboo sharks', ['small-shark']],
  ])('%s', (words, kinds) => {
    expect(new Set(kindsIn(words, allFish).certain.map(({ id }) => id))).toEqual(new Set(kinds));
  });

  test('every name of every kind is found in a sentence', () => {
    for (const fish of allFish)
      for (const name of [fish.name, ...fish.aliases])
        expect(
          kindsIn(`two ${name} for the tank`, allFish).certain.map(({ id }) => id),
          name,
        ).toContain(fish.id);
  });

  test('a name says nothing about how the fish is', () => {
    for (const fish of allFish)
      for (const name of [fish.name, ...fish.aliases])
        expect(purposeIn(base, asker(`a ${name}`))?.id, name).toBe('new-fish');
  });

  test('a word that leaves the kind open stands for all of them until one is chosen', () => {
    expect(kindsOf(base, { animals: 'a wrasse', fish: [] }).shared[0]?.kinds.length).toBeGreaterThan(3);
    expect(kindsOf(base, { animals: 'a wrasse', fish: ['fairy-wrasse'] }).shared).toEqual([]);
  });
});

describe('what may not start', () => {
  const row = (given: Partial<Quarantine>): Quarantine => ({
    ...{ id: 1, guildId: 'g', memberId: 'nell', channelId: 'c', animals: 'chromis', fish: [], plan: 'copper-ionic' },
    ...{ option: null, tank: null, copperLabel: null, helpers: [], zone: 'UTC', timeOfDay: '19:00' },
    ...{ visibility: 'me', begunAt: new Date(0), follows: null, ended: null, ...given },
  });
  const other = (given: Partial<Quarantine>, isCompleted = false) => ({
    quarantine: row({ id: 2, plan: 'hyposalinity', animals: 'a tang', ...given }),
    isCompleted,
  });
  const found = (mine: Partial<Quarantine>, running: ReturnType<typeof other>[], isVetLed = false) =>
    hindrance(base, row(mine), plan(row(mine).plan), asker(row(mine).animals, [], isVetLed), running)?.kind ?? null;

  test.each<[string, Partial<Quarantine>, ReturnType<typeof other>[], string | null]>([
    ['alone', {}, [], null],
    ['a second medicine of one’s own', {}, [other({})], 'two-medicines'],
    ['one that is complete', {}, [other({}, true)], null],
    ['one that only watches', {}, [other({ plan: 'observation' })], null],
    ['another keeper’s, elsewhere', {}, [other({ memberId: 'bo' })], null],
    ['another keeper’s, in the same tank', { tank: 'Blue Tub' }, [other({ memberId: 'bo', tank: 'blue tub' })], 'two-medicines'], // prettier-ignore
    ['another keeper’s, the same animals', { animals: 'a tang' }, [other({ memberId: 'bo' })], 'two-medicines'],
    ['a new way of the same', { follows: 2 }, [other({ plan: 'copper-ionic' })], null],
    ['another medicine in the place of one', { follows: 2 }, [other({})], 'two-medicines'],
    ['a mandarin in copper', { animals: 'a mandarin' }, [], 'not-borne'],
    ['a wrasse of no kind in copper', { animals: 'a wrasse' }, [], 'not-borne'],
    ['dust and copper', { animals: 'chromis with dust' }, [], 'urgent'],
  ])('%s', (_name, mine, running, kind) => {
    expect(found(mine, running)).toBe(kind);
    expect(found(mine, running, true)).toBeNull();
  });

  test('dust that was noted lately counts as much as the word', () => {
    const seen = { ...asker('three chromis'), signs: ['fish-dust-like-spots'] };
    expect(hindrance(base, row({}), plan('copper-ionic'), seen, [])?.kind).toBe('urgent');
    expect(hindrance(base, row({}), plan('suspected-velvet'), seen, [])).toBeNull();
  });

  test('what is refused by an entry is refused here, for all of them', () => {
    for (const fish of allFish)
      for (const each of base.plans.values())
        if (isRefused(notSimplyBorne(each, [fish])))
          expect(hindrance(base, row({ fish: [fish.id], plan: each.id }), each, asker('new', [fish.id]), [])?.kind).toBe('not-borne'); // prettier-ignore
  });
});
