import { describe, expect, test } from 'vitest';
import { compareView } from '../../../src/critters/compare.view.ts';
import { cannotTellView, notThereView, questionView } from '../../../src/critters/names.view.ts';
import { readCustomId } from '../../../src/discord/custom-id.ts';
import { render } from '../../../src/discord/render.ts';
import type { Critter } from '../../../src/knowledge/critter.ts';
import { isGrave } from '../../../src/knowledge/look-up.ts';
import { buttonsOf, expectWithinLimits, textsOf } from '../discord/rendered.ts';
import { readMarkdown } from '../discord/shown-text.ts';
import { base, critterAnswers, loaded } from '../knowledge/real-base.ts';

const { critters, lookAlikes, ambiguousNames } = loaded.knowledge;
const ADVICE = { keep: 'Leave it', watch: 'Watch it', remove: 'Take it out', urgent: 'Act today' };

const critter = (id: string): Critter => {
  const found = base.critters.get(id);
  if (!found) throw new Error(`no critter ${id}`);
  return found;
};
const shownOf = (texts: readonly string[]) => readMarkdown(texts.join('\n')).shown;

/** Every pair, both ways round, private and for everyone. */
const comparisons = lookAlikes.flatMap((pair) =>
  [
    [pair.a, pair.b],
    [pair.b, pair.a],
  ].flatMap(([one = '', other = '']) =>
    (['member', 'everyone'] as const).map((audience) => ({
      pair,
      one: critter(one),
      other: critter(other),
      audience,
      message: render(compareView(base, critter(one), critter(other), { audience })),
    })),
  ),
);

describe('the comparison of every pair', () => {
  test('keeps the limits of Discord', () => {
    expect(comparisons.length).toBeGreaterThanOrEqual(4 * 253);
    for (const { message } of comparisons) expectWithinLimits(message);
  });

  test('asks which of the two, tells the advice of both, and ends with the id of the pair', () => {
    for (const { pair, one, other, message } of comparisons) {
      const texts = textsOf(message);
      expect(readMarkdown(texts[0] ?? '').shown).toBe(`## ${one.name} or ${other.name}?`);
      expect(shownOf(texts)).toContain(
        `${one.name}: **${ADVICE[one.verdict]}**. ${other.name}: **${ADVICE[other.verdict]}**.`,
      );
      expect(texts.at(-1)).toBe(`-# entry ${pair.id}`);
    }
  });

  test('gives each feature to the right one of the two', () => {
    for (const { pair, one, other, message } of comparisons) {
      const shown = shownOf(textsOf(message));
      const isA = one.id === pair.a;
      for (const { a, b, check } of pair.features) {
        expect(shown).toContain(`${one.name}: ${isA ? a : b}`);
        expect(shown).toContain(`${other.name}: ${isA ? b : a}`);
        expect(shown).toContain(check);
      }
    }
  });

  test('says what it costs to take the one for the other', () => {
    for (const { pair, message } of comparisons) {
      const shown = shownOf(textsOf(message));
      const [a, b] = [critter(pair.a).name, critter(pair.b).name];
      expect(shown).toContain(`If it really is **${a}** and you take it for ${b}: ${pair.aTakenForB.cost} cost`);
      expect(shown).toContain(`If it really is **${b}** and you take it for ${a}: ${pair.bTakenForA.cost} cost`);
    }
  });

  test('warns first where one of the two can hurt people', () => {
    const dangerous = comparisons.filter(({ pair }) => pair.danger);
    expect(dangerous.length).toBeGreaterThan(20);
    for (const { pair, message } of dangerous) {
      const texts = textsOf(message);
      const at = texts.findIndex((text) => text.includes('can hurt you'));
      expect(readMarkdown(texts[at] ?? '').shown).toContain(critter(pair.danger ?? '').name);
      expect(at).toBeLessThan(texts.findIndex((text) => text.startsWith('**1. ')));
    }
  });

  test('takes the tone of the worse one', () => {
    const worst = { keep: 'calm', watch: 'watch', remove: 'remove', urgent: 'urgent' };
    const order = Object.keys(worst);
    for (const { one, other } of comparisons) {
      const { tone } = compareView(base, one, other, { audience: 'member' });
      const at = Math.max(order.indexOf(one.verdict), order.indexOf(other.verdict));
      expect(tone).toBe(Object.values(worst)[at]);
    }
  });
});

test('two critters that nobody has written up as a pair are still set side by side', () => {
  const [one, other] = [critter('aiptasia'), critter('tuxedo-urchin')];
  const message = render(compareView(base, one, other, { audience: 'member' }));
  expectWithinLimits(message);
  const shown = shownOf(textsOf(message));
  for (const each of [one, other]) expect(shown).toContain(each.know);
  expect(textsOf(message).at(-1)).toContain('tuxedo-urchin');
});

describe('the question of every ambiguous name', () => {
  const questions = ambiguousNames.map((question) => ({
    question,
    message: render(questionView(base, question, '*'.repeat(100), 'member')),
    cannotTell: render(cannotTellView(base, question)),
  }));

  test('keeps the limits of Discord, and so does the answer to "I cannot see"', () => {
    expect(questions.length).toBeGreaterThan(50);
    for (const { message, cannotTell } of questions) {
      expectWithinLimits(message);
      expectWithinLimits(cannotTell);
    }
  });

  test('asks, warns where one is dangerous, and shows every answer with its advice', () => {
    for (const { question, message } of questions) {
      const shown = shownOf(textsOf(message));
      expect(shown).toContain(question.question);
      if (question.safety) expect(shown.indexOf(question.safety)).toBeLessThan(shown.indexOf(question.question));
      for (const { says, id } of critterAnswers(question))
        expect(shown).toContain(`${says}: **${critter(id).name}** (${ADVICE[critter(id).verdict]})`);
    }
  });

  test('has a button to the card of every animal it could be, and one for who cannot see', () => {
    for (const { question, message } of questions) {
      const pressed = buttonsOf(message).map(({ custom_id: id }) => readCustomId(id));
      const cards = pressed.filter((read) => read?.act === 'card').map((read) => read?.args[0]);
      expect(new Set(cards)).toEqual(new Set(critterAnswers(question).map(({ id }) => id)));
      expect(pressed.at(-1)).toEqual({ act: 'cannot-tell', args: [question.id] });
    }
  });

  test('who cannot see is told of every grave animal it could be', () => {
    for (const { question, cannotTell } of questions) {
      const shown = shownOf(textsOf(cannotTell));
      for (const { id } of critterAnswers(question))
        if (isGrave(critter(id))) expect(shown, question.id).toContain(`It could be **${critter(id).name}**`);
    }
  });
});

describe('a name that is not there', () => {
  test('is repeated as plain words, short enough for a phone', () => {
    const message = render(notThereView(`**${'x'.repeat(500)}`, [], 'member'));
    expectWithinLimits(message);
    const head = readMarkdown(textsOf(message)[0] ?? '').shown;
    expect(head).toMatch(/^## I have no entry called “\*\*x{50,60}…”$/);
  });

  const harmless = critters.find(({ verdict, humanHazards }) => verdict === 'keep' && humanHazards.length === 0);
  if (!harmless) throw new Error('no harmless critter');

  test('offers what is nearest with its advice, and keeps hands out where one can hurt', () => {
    const near = [critter('cone-snail'), harmless];
    const message = render(notThereView('cone thing', near, 'everyone'));
    const warned = textsOf(message);
    expect(shownOf(warned)).toContain(`**${near[0]?.name}** (Act today)`);
    expect(warned[1]).toContain('hands out of the water');
    expect(buttonsOf(message)).toHaveLength(2);
    const texts = textsOf(render(notThereView('snale', [harmless], 'everyone')));
    expect(texts.join('\n')).not.toContain('hands out');
  });
});
