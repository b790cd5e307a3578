import { describe, expect, test } from 'vitest';
import { cardView } from '../../../src/critters/card.view.ts';
import { entryView, firstAidView } from '../../../src/critters/entry.view.ts';
import { firstAidText } from '../../../src/critters/first-aid.view.ts';
import { firstAidFor, peopleFirst } from '../../../src/critters/hazard-order.ts';
import { render } from '../../../src/discord/render.ts';
import { readCustomId } from '../../../src/discord/custom-id.ts';
import { buttonsOf, expectWithinLimits, textsOf } from '../discord/rendered.ts';
import { liveMarkdown, readMarkdown } from '../discord/shown-text.ts';
import { base, loaded } from '../knowledge/real-base.ts';

const ADVICE = { keep: 'Leave it', watch: 'Watch it', remove: 'Take it out', urgent: 'Act today' };
const { critters } = loaded.knowledge;
const hurting = critters.filter(({ humanHazards }) => humanHazards.length > 0);
const audiences = ['member', 'everyone'] as const;

/** Every card twice: private, and shown to everyone by somebody with a name that tries something. */
const cards = critters.flatMap((critter) =>
  audiences.map((audience) => ({
    critter,
    audience,
    message: render(
      cardView(base, critter, audience === 'member' ? { audience } : { audience, shownBy: '**@everyone** <@1>' }),
    ),
  })),
);

describe('the card of every critter', () => {
  test('keeps the limits of Discord', () => {
    expect(cards.length).toBeGreaterThanOrEqual(2 * 231);
    for (const { message } of cards) expectWithinLimits(message);
  });

  test('begins with its name and its advice', () => {
    for (const { critter, message } of cards) {
      const [head = ''] = textsOf(message);
      expect(readMarkdown(head).shown).toBe(`## ${critter.name} — ${ADVICE[critter.verdict]}`);
    }
  });

  test('ends with the id of its entry', () => {
    for (const { critter, message } of cards) expect(textsOf(message).at(-1)).toBe(`-# entry ${critter.id}`);
  });

  test('says what to do tonight and why, whatever had to be left out', () => {
    for (const { critter, message } of cards) {
      const { shown } = readMarkdown(textsOf(message).join('\n'));
      for (const part of [critter.what, critter.matters, critter.now, critter.depends ?? ''])
        expect(shown).toContain(part);
    }
  });

  test('tells people what to mind, and shows its first-aid row whole', () => {
    expect(hurting.length).toBeGreaterThan(50);
    for (const { critter, message } of cards.filter(({ critter: { humanHazards } }) => humanHazards.length > 0)) {
      const texts = textsOf(message);
      expect(readMarkdown(texts.join('\n')).shown, critter.id).toContain(critter.caution);
      const [row] = firstAidFor(base, critter);
      expect(row, critter.id).toBeDefined();
      if (row) expect(texts, critter.id).toContain(firstAidText(row).markdown);
      expect(texts.join('\n'), critter.id).toMatch(/not medical advice/);
    }
  });

  test('shows help for people above the tank where it is grave', () => {
    const grave = cards.filter(({ critter }) => peopleFirst(critter));
    expect(grave.length).toBeGreaterThan(10);
    for (const { critter, message } of grave) {
      const { shown } = readMarkdown(textsOf(message).join('\n'));
      expect(shown.indexOf('Do now:'), critter.id).toBeLessThan(shown.indexOf(critter.does));
    }
  });

  test('has no first-aid button where nobody can be hurt, and one where somebody can', () => {
    for (const { critter, message } of cards) {
      const acts = buttonsOf(message).map(({ custom_id: id }) => readCustomId(id)?.act);
      expect(acts.includes('first-aid'), critter.id).toBe(critter.humanHazards.length > 0);
      expect(acts).toContain('entry');
    }
  });

  test('can be shown to everyone from the private card only', () => {
    for (const { audience, message } of cards) {
      const acts = buttonsOf(message).map(({ custom_id: id }) => readCustomId(id)?.act);
      expect(acts.includes('show-card')).toBe(audience === 'member');
    }
  });

  test('names who showed it, as plain words', () => {
    for (const { message } of cards.filter(({ audience }) => audience === 'everyone')) {
      const line = textsOf(message)[1]?.split('\n')[0] ?? '';
      expect(liveMarkdown(line.replace(/^-# Shown to everyone by /, ''))).toEqual([]);
      expect(readMarkdown(line).shown).toBe('-# Shown to everyone by **@\u200beveryone** <@\u200b1>');
    }
  });

  test('has a button for every look-alike that leads to the pair', () => {
    for (const { critter, message } of cards) {
      const compared = buttonsOf(message)
        .map(({ custom_id: id }) => readCustomId(id))
        .filter((read) => read?.act === 'compare')
        .map((read) => read?.args.join('--'));
      const others = (base.lookAlikesOf.get(critter.id) ?? []).map(({ a, b }) => (a === critter.id ? b : a));
      expect(compared.toSorted(), critter.id).toEqual(others.map((other) => `${critter.id}--${other}`).toSorted());
    }
  });
});

describe('a card for a name that was not exact', () => {
  const [critter, ...others] = critters;

  test('says what was typed and what else is near', () => {
    if (!critter) throw new Error('no critter');
    const readAs = { typed: 'a *strange* name', others: others.slice(0, 2) };
    const message = render(cardView(base, critter, { audience: 'member', readAs }));
    expectWithinLimits(message);
    const line = readMarkdown(textsOf(message)[1] ?? '').shown;
    expect(line).toContain('You wrote “a *strange* name”');
    for (const other of readAs.others) expect(line).toContain(`${other.name} (${ADVICE[other.verdict]})`);
  });

  test('still fits for every critter when a long name was typed', () => {
    for (const each of critters) {
      const readAs = { typed: '*'.repeat(100), others: others.slice(0, 2) };
      const message = render(cardView(base, each, { audience: 'member', readAs }));
      expectWithinLimits(message);
      const [row] = firstAidFor(base, each);
      if (row) expect(textsOf(message), each.id).toContain(firstAidText(row).markdown);
    }
  });
});

describe('the other views of every critter', () => {
  test('the whole entry fits, and says how to know it and who says so', () => {
    for (const critter of critters) {
      const message = render(entryView(base, critter));
      expectWithinLimits(message);
      const { shown } = readMarkdown(textsOf(message).join('\n'));
      for (const part of [critter.know, critter.worry, critter.scientificName]) expect(shown).toContain(part);
      expect(textsOf(message).at(-1)).toBe(`-# entry ${critter.id}`);
    }
  });

  test('first aid fits, and begins with the row that is most urgent', () => {
    for (const critter of hurting) {
      const message = render(firstAidView(base, critter));
      expectWithinLimits(message);
      const [row] = firstAidFor(base, critter);
      expect(textsOf(message), critter.id).toContain(row && firstAidText(row).markdown);
      expect(textsOf(message).at(-1)).toContain(`entry ${critter.id}`);
    }
  });
});
