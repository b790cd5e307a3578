import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Sign, URGENCIES, type SignData } from '../../../src/knowledge/sign.ts';
import { dateChange } from '../../../src/quarantine/date-change.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import {
  effectOf,
  isOfPeople,
  NOTHING_RULED_OUT,
  rowsLeft,
  seenAs,
  signsUnder,
} from '../../../src/quarantine/sign-told.ts';
import { signsToldIn } from '../../../src/quarantine/signs.ts';
import { dateWords } from '../../../src/quarantine/sign.view.ts';
import { base, loaded } from '../knowledge/real-base.ts';
import { checkIns, day, event, foldOf, hour, planOf, plans, started } from './fold-of.ts';

const signs = loaded.knowledge.signs;
const asking = signs.filter(({ checkFirst }) => checkFirst !== undefined);
const signOf = (id: string) => {
  const found = base.signs.get(id);
  if (!found) throw new Error(`no sign ${id}`);
  return found;
};
const replyTo = (id: string, says: string) => {
  const reply = signOf(id).answers.find((each) => each.says.startsWith(says));
  if (!reply) throw new Error(`${id} has no answer ${says}`);
  return reply;
};
const rankOf = (rows: readonly { urgency: (typeof URGENCIES)[number] }[]) =>
  Math.min(URGENCIES.length, ...rows.map(({ urgency }) => URGENCIES.indexOf(urgency)));
const anySign = fc.constantFrom(...signs.filter((sign) => !isOfPeople(sign)));
const anyPlan = fc.constantFrom(...plans);

describe('the answers of a sign', () => {
  test('every question has answers that fit on a button', () => {
    expect(asking.map(({ id }) => id).sort()).toEqual([
      'coral-bleaching',
      'coral-brown-jelly',
      'coral-brown-strings',
      'fish-hanging-in-flow',
      'fish-lying-on-bottom',
      'fish-rapid-breathing',
      'fish-sudden-deaths',
      'fish-surface-gasping',
    ]);
    for (const { answers } of asking) expect(answers.length).toBeGreaterThanOrEqual(2);
  });

  test('no answer about breathing, gasping or deaths rules an emergency out', () => {
    for (const id of ['fish-rapid-breathing', 'fish-surface-gasping', 'fish-sudden-deaths'])
      for (const answer of signOf(id).answers) expect(answer.rulesOut, answer.says).toEqual([]);
  });

  test('what is said of the air goes before parasites, at one urgency', () => {
    const all = rowsLeft(signOf('fish-rapid-breathing'), replyTo('fish-rapid-breathing', 'All of them'), base.signs);
    expect(all[0]).toMatchObject({ condition: 'ammonia, too little oxygen or too much heat', urgency: 'emergency' });
    expect(all.map(({ condition }) => condition)).toContain('marine velvet (Amyloodinium)');
  });

  const broken = (change: (sign: SignData) => object) => {
    const { id, ...sign } = signOf('fish-lying-on-bottom');
    expect(id).toBe('fish-lying-on-bottom');
    const read = Sign.safeParse({ ...sign, ...change(sign) });
    return read.success ? [] : read.error.issues.map(({ message }) => message);
  };
  const answering = (answer: object) => () => ({ answers: [{ says: 'Breathing fast', ...answer }] });
  test.each<[string, (sign: SignData) => object, RegExp]>([
    [
      'a condition that is not there',
      answering({ rulesOut: ['a cold'] }),
      /came "a cold", expected the condition of one/,
    ],
    [
      'one that it rules out and speaks for',
      answering({ rulesOut: ['normal rest'], pointsTo: ['normal rest'] }),
      /ruled out by the same/,
    ],
    [
      'all ruled out, and nowhere to go',
      answering({ rulesOut: ['normal rest', 'something grave of any kind'] }),
      /insteadSee/,
    ],
    ['a question without answers', () => ({ answers: [] }), /checkFirst needs answers/],
    ['a label too long for a button', answering({ says: 'x'.repeat(41) }), /40|long|big/i],
    ['the same answer twice', () => ({ answers: [{ says: 'Yes' }, { says: 'Yes' }] }), /each answer once/],
  ])('refused: %s', (_what, change, message) => {
    expect(broken(change).join('\n')).toMatch(message);
    expect(broken(() => ({}))).toEqual([]);
  });
});

describe('rowsLeft', () => {
  test('an answer never makes it more urgent, and what cannot be told lessens nothing', () => {
    for (const sign of signs) {
      const open = rowsLeft(sign, null, base.signs);
      for (const { condition } of sign.fits) expect(open.map((fit) => fit.condition)).toContain(condition);
      for (const answer of sign.answers) {
        expect(rankOf(rowsLeft(sign, answer, base.signs)), `${sign.id}: ${answer.says}`).toBeGreaterThanOrEqual(
          rankOf(open),
        );
        for (const other of answer.insteadSee) {
          const emergencies = signOf(other).fits.filter(({ urgency }) => urgency === 'emergency');
          for (const { condition } of emergencies) expect(open.map((fit) => fit.condition)).toContain(condition);
        }
      }
    }
  });

  test('ruling more out never makes it more urgent, nor its effect stronger', () => {
    const strength = { none: 0, weak: 1, fish: 2, pest: 2, infectious: 2 };
    fc.assert(
      fc.property(anySign, anyPlan, fc.array(fc.nat(6)), fc.nat(6), (sign, plan, places, more) => {
        const out = (some: readonly number[]) => ({
          ...NOTHING_RULED_OUT,
          rulesOut: some.flatMap((place) => sign.fits[place]?.condition ?? []),
        });
        const fewer = rowsLeft(sign, out(places), base.signs);
        const fewest = rowsLeft(sign, out([...places, more]), base.signs);
        expect(rankOf(fewest)).toBeGreaterThanOrEqual(rankOf(fewer));
        // With nothing left at all nothing explains it; then it is weak and not nothing.
        if (fewest.length > 0 && !fewest.every(({ normal }) => normal) && !fewer.every(({ normal }) => normal))
          expect(strength[effectOf(plan, sign, fewest)]).toBeLessThanOrEqual(strength[effectOf(plan, sign, fewer)]);
      }),
    );
  });

  test('the most urgent row stands first', () => {
    for (const sign of signs)
      for (const reply of [null, ...sign.answers]) {
        const ranks = rowsLeft(sign, reply, base.signs).map(({ urgency }) => URGENCIES.indexOf(urgency));
        expect(ranks).toEqual([...ranks].sort((one, other) => one - other));
      }
  });
});

describe('effectOf', () => {
  const effect = (plan: string, sign: string, says?: string) =>
    seenAs(
      planOf(plan),
      signOf(sign),
      rowsLeft(signOf(sign), says === undefined ? null : replyTo(sign, says), base.signs),
    ).effect;

  test.each([
    ['observation', 'fish-white-spots', undefined, 'infectious'],
    ['observation', 'fish-hanging-in-flow', 'The breathing', 'infectious'],
    ['observation', 'fish-hanging-in-flow', 'Its habit', 'none'],
    ['observation', 'fish-lying-on-bottom', undefined, 'weak'],
    ['observation', 'fish-lying-on-bottom', 'Its habit', 'none'],
    ['observation', 'coral-brown-jelly', undefined, 'none'],
    ['coral-dip-series', 'coral-brown-jelly', undefined, 'pest'],
    ['coral-dip-series', 'coral-brown-strings', undefined, 'pest'],
    ['coral-dip-series', 'coral-brown-strings', 'From the mouth', 'weak'],
    ['clam-watch', 'invertebrate-clam-gaping', undefined, 'pest'],
    ['fishless-display', 'fish-white-spots', undefined, 'fish'],
    ['observation', 'human-palytoxin', undefined, 'none'],
  ])('under %s, %s answered with %s counts as %s', (plan, sign, says, expected) =>
    expect(effect(plan, sign, says)).toBe(expected),
  );

  test('one row that may be catching is enough, whatever stands before it', () => {
    for (const sign of signs.filter(({ group }) => group === 'fish')) {
      const mayCatch = sign.fits.some(({ restarts }) => restarts);
      expect(effect('observation', sign.id) === 'infectious', sign.id).toBe(mayCatch);
    }
  });
});

describe('what a sign does to the dates', () => {
  const run = (plan: string, events: readonly PlanEvent[], told: PlanEvent, now: Date) =>
    dateChange(planOf(plan), foldOf(plan, events, now), foldOf(plan, [...events, told], now), now);
  const told = (at: Date, effect: string) => event(at, { kind: 'sign-seen', sign: 'x', effect, urgency: 'soon' });
  const words = (change: ReturnType<typeof run>, effect: 'infectious' | 'weak' | 'none' = 'infectious') =>
    dateWords(change, { effect, rows: [] }).markdown;

  test('a sign of day 20 begins the days anew tomorrow, and ends them 30 days on', () => {
    const change = run(
      'observation',
      [started(), ...checkIns(1, 20)],
      told(hour(20 * 24 + 1), 'infectious'),
      hour(20 * 24 + 2),
    );
    expect(change.anew).toEqual([{ name: 'Days without a sign', begins: 'tomorrow' }]);
    expect(change.added).toEqual([]);
    expect(words(change)).toMatch(/days begin anew tomorrow.*Earliest end now .* without it/);
  });

  test('a weak sign adds a week and keeps the count; a second one two days on adds two days', () => {
    const events = [started(), ...checkIns(1, 10)];
    const first = told(hour(10 * 24 + 1), 'weak');
    const change = run('observation', events, first, hour(10 * 24 + 2));
    expect(change).toMatchObject({ anew: [], added: [{ name: 'Days without a sign', days: 7 }] });
    expect(words(change, 'weak')).toContain('A week is added');
    const second = run('observation', [...events, first], told(hour(12 * 24 + 1), 'weak'), hour(12 * 24 + 2));
    expect(second.added).toEqual([{ name: 'Days without a sign', days: 2 }]);
    expect(words(second, 'weak')).toContain('2 days are added');
  });

  test('where no rule is about signs, no date changes and it says so', () => {
    const change = run('tank-transfer', [started()], told(hour(5), 'infectious'), hour(6));
    expect(change).toMatchObject({ anew: [], added: [], asked: [], reopened: false });
    expect(words(change)).toContain('No date changes');
  });

  test('after the end, a sign opens it again', () => {
    const done = (at: Date) => event(at, { kind: 'step-done', step: 'exit-inspection' });
    const events = [started(), ...checkIns(1, 31), done(day(31))];
    const before = foldOf('observation', events, day(32));
    if (before.completed) {
      const change = run('observation', events, told(day(31.5), 'infectious'), day(32));
      expect(change.reopened).toBe(true);
      expect(words(change)).toContain('open again');
    } else expect(before.holds.every(({ reached }) => reached !== null)).toBe(true);
  });

  test('noting a sign never brings an end forward', () => {
    const at = fc.integer({ min: 1, max: 60 * 24 }).map(hour);
    const effects = fc.constantFrom('infectious', 'weak', 'pest', 'fish', 'none');
    fc.assert(
      fc.property(
        anyPlan,
        fc.array(fc.integer({ min: 1, max: 60 }), { maxLength: 40 }),
        at,
        effects,
        fc.array(fc.tuple(at, effects), { maxLength: 3 }),
        (plan, looks, seenAt, effect, others) => {
          const now = day(61);
          const events = [
            started(),
            ...looks.map((each) => event(day(each), { kind: 'check-in' })),
            ...others.map(([when, what]) => told(when, what)),
          ];
          const before = foldOf(plan.id, events, now);
          const after = foldOf(plan.id, [...events, told(seenAt, effect)], now);
          for (const hold of before.holds) {
            const same = after.holds.find(({ id }) => id === hold.id);
            expect(same, hold.id).toBeDefined();
            if (hold.endsEarliest && same?.endsEarliest)
              expect(same.endsEarliest.getTime(), hold.id).toBeGreaterThanOrEqual(hold.endsEarliest.getTime());
          }
          if (before.endsEarliest && after.endsEarliest)
            expect(after.endsEarliest.getTime()).toBeGreaterThanOrEqual(before.endsEarliest.getTime());
          if (!before.completed) expect(after.completed).toBeNull();
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('signs to choose from', () => {
  test('every plan offers some, 25 at most of one group, the most urgent first', () => {
    for (const plan of plans) {
      const offered = signsUnder(plan, signs);
      expect(offered.length, plan.id).toBeGreaterThan(5);
      expect(offered.some(isOfPeople)).toBe(false);
      if (plan.for === 'fish' || plan.for === 'coral') expect(offered.length).toBeLessThanOrEqual(25);
    }
  });

  test.each([
    ['my clown is breathing super fast', 'fish-rapid-breathing'],
    ['it breathes fast since noon', 'fish-rapid-breathing'],
    ['white dots on tang', 'fish-white-spots'],
    ['fish laying on sand??', 'fish-lying-on-bottom'],
    ['brown goo on my euphyllia', 'coral-brown-jelly'],
    ['got stung by something in the tank', 'human-stinging-cells'],
    ['my clownfish stopped eating', 'fish-not-eating'],
    ['flashing', 'fish-flashing'],
    ['my fish keeps scratching', 'fish-flashing'],
    ['clamped fins and not eating', 'fish-clamped-fins'],
    ['hangs in front of the powerhead', 'fish-hanging-in-flow'],
    ['swimming in circles', 'fish-loss-of-balance'],
    ['kalk got in my eye', 'human-chemical'],
    ['my daughter drank tank water', 'human-swallowed'],
    ['dog ate a frag', 'pet-ate-coral'],
    ['feel sick after scrubbing rock', 'human-palytoxin'],
    ['my acro is losing tissue', 'coral-peeling-in-hours'],
    ['bugs on my acro', 'coral-moving-dots'],
  ])('a newcomer’s “%s” reaches %s', (words, id) =>
    expect(signsToldIn(signs, words).map((sign) => sign.id)).toContain(id),
  );

  test('a long text is read to its end, people first', () => {
    const long = `${'My two clownfish have been strange since yesterday and sit near the heater all day long. '.repeat(3)}One has white dots, and a lionfish stung me.`;
    expect(
      signsToldIn(signs, long)
        .map(({ id }) => id)
        .slice(0, 2),
    ).toEqual(['human-fish-sting', 'fish-white-spots']);
    for (const text of ['', '   ', 'x'.repeat(5000)]) expect(signsToldIn(signs, text)).toEqual([]);
  });
});
