import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { critterCommands, suggestCritters } from '../../../src/critters/critter.command.ts';
import { anyText } from '../knowledge/any-text.ts';
import { base, critterAnswers, finder, loaded } from '../knowledge/real-base.ts';

const suggest = (typed: string) => suggestCritters(base, finder, typed);

/** What Discord would refuse: more than 25 choices, a name of none or over 100 characters, a value missing or twice. */
function refused(choices: ReturnType<typeof suggest>): string[] {
  const values = choices.map(({ value }) => value);
  return [
    ...(choices.length > 25 ? ['too many'] : []),
    ...choices.filter(({ name }) => name.length < 1 || name.length > 100).map(({ name }) => `name: ${name}`),
    ...values.filter((value, at) => value === '' || value.length > 100 || values.indexOf(value) !== at),
  ];
}

/** 10,000 strings that members would not type by accident. */
const hostile = fc.oneof(
  { weight: 8, arbitrary: anyText(120) },
  { weight: 4, arbitrary: fc.constantFrom(...loaded.knowledge.critters.map(({ name }) => `${name}\u202e\u0000`)) },
  {
    weight: 4,
    arbitrary: fc
      .array(
        fc.constantFrom(
          '\ud800',
          '\udfff',
          '\u202e',
          '\u200f',
          '\u0000',
          '\u0300',
          '@everyone',
          '<@&1>',
          "'; DROP TABLE runs; --",
          '%',
          '(a+)+$',
          '((((',
          '[[:alpha:]]',
          '../../',
          '{{7*7}}',
          '<script>',
          '\ufdfa',
          '🦀',
          'İ',
          'ß',
          'worm',
          'a',
          ' ',
        ),
        { maxLength: 30 },
      )
      .map((pieces) => pieces.join('')),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom('a', 'worm ', '\ud800', '\ufdfa', '\u0300', ' ', '@everyone ', 'aaaaaaab'), fc.nat(1_200))
      .map(([unit, times]) => unit.repeat(times).slice(0, 6_000)),
  },
);

describe('suggestCritters', () => {
  test('10,000 hostile strings give nothing that Discord would refuse', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(hostile, (typed) => refused(suggest(typed)).length === 0),
      { numRuns: 10_000 },
    );
  });

  test('6,000 characters cost no more than a name', () => {
    const start = performance.now();
    for (const unit of ['a', 'worm ', '\ufdfa', '\u0300', '(a+)+$', '🦀'])
      expect(refused(suggest(unit.repeat(6_000)))).toEqual([]);
    expect(performance.now() - start).toBeLessThan(500);
  });

  test('every name typed in full is the first choice or among the answers to its question', () => {
    for (const { id, name } of loaded.knowledge.critters) expect(suggest(name).map(({ value }) => value)).toContain(id);
    expect(suggest('aiptasia')[0]?.value).toBe('aiptasia');
  });

  test('each choice tells its advice', () => {
    const advice = /.+ — (Leave it|Watch it|Take it out|Act today)$/;
    for (const typed of ['', 'worm', 'anemone', 'harle']) {
      const choices = suggest(typed);
      expect(choices.length).toBeGreaterThan(1);
      for (const { name } of choices) expect(name).toMatch(advice);
    }
  });

  test('with nothing typed, the animals met most often are offered', () => {
    const values = suggest('  ').map(({ value }) => value);
    expect(values.length).toBeGreaterThan(5);
    for (const id of values) expect(base.critters.get(id)?.howOftenMet).toBe('very-common');
  });

  test('a name that means several animals offers all of them', () => {
    const question = loaded.knowledge.ambiguousNames.find(({ id }) => id === 'crab');
    const values = suggest('crab').map(({ value }) => value);
    const answers = question ? critterAnswers(question).map(({ id }) => id) : ['missing'];
    expect(values).toEqual(expect.arrayContaining(answers));
  });
});

describe('the options of /critter', () => {
  const commands = critterCommands(base, finder);

  test.each(commands.map((command) => [command.name, command] as const))(
    '%s refuses what is no text',
    (_name, command) => {
      expect(command.parse({}).ok).toBe(false);
      expect(command.parse({ critter: 7, with: 7 }).ok).toBe(false);
      expect(command.parse({ critter: 'x'.repeat(101), with: 'worm' }).ok).toBe(false);
      expect(command.parse({ critter: 'x'.repeat(100), with: 'worm' }).ok).toBe(true);
    },
  );
});
