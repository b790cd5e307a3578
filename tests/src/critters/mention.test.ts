import { describe, expect, test } from 'vitest';
import { critterMention, namesInText } from '../../../src/critters/mention.ts';
import type { Request } from '../../../src/discord/message-view.ts';
import { render } from '../../../src/discord/render.ts';
import { expectWithinLimits, textsOf } from '../discord/rendered.ts';
import { readMarkdown } from '../discord/shown-text.ts';
import { base, critterAnswers, finder, loaded } from '../knowledge/real-base.ts';

const request: Request = {
  memberId: '1',
  memberName: 'A member',
  guildId: null,
  channelId: null,
  locale: 'en-GB',
  now: new Date(0),
};

const answer = async (text: string): Promise<string> => {
  const view = await Promise.resolve(critterMention(base, finder)(text, request));
  if (!view) throw new Error('no answer');
  expect(view.audience).toBe('everyone');
  const message = render(view);
  expectWithinLimits(message);
  return readMarkdown(textsOf(message).join('\n')).shown;
};
const name = (id: string) => base.critters.get(id)?.name ?? 'missing';

/** The names found, as `kind id`. */
const found = (text: string) =>
  namesInText(base, finder, text).map((each) =>
    'critter' in each
      ? `${each.kind} ${each.critter.id}`
      : `${each.kind} ${'question' in each ? each.question.id : ''}`.trim(),
  );

describe('namesInText', () => {
  test.each([
    ['is a bristle worm bad?', ['found bristleworm-common']],
    ['Is a BRISTLE-WORM bad??', ['found bristleworm-common']],
    ['bristle worms', ['found bristleworm-common']],
    ['aiptasia or majano?', ['found aiptasia', 'found majano']],
    ['how do I kill aiptasia', ['found aiptasia']],
    ['can I keep a mantis shrimp with fish', ['found mantis-shrimp']],
    ['found a crab on my rock', ['question crab']],
    ['an asterina star is eating zoas', ['found asterina-harmless', 'found zoanthids']],
    ['is the tuxedo urchin harmful?', ['found tuxedo-urchin']],
    ['is an astirina bad?', ['read-as asterina-harmless']],
    ['should I remove xyzzyq plugh', ['not-there']],
    ['ich', ['read-as marine-ich']],
  ])('%j holds %j', (text, names) => {
    expect(found(text)).toEqual(names);
  });

  test('the longest stretch of words that is a name wins', () => {
    expect(found('is it a tuxedo urchin')).toEqual(['found tuxedo-urchin']);
    expect(found('is it a tuxedo')).toEqual(['read-as tuxedo-urchin']);
  });

  test('an everyday word answers only when nothing else was said', () => {
    const everyday = loaded.knowledge.ambiguousNames.filter(({ mode }) => mode !== 'ask');
    expect(everyday.length).toBeGreaterThan(10);
    for (const question of everyday)
      for (const word of question.names) {
        expect(found(`is the ${word} bad?`), word).not.toEqual(['not-there']);
        const inside = namesInText(base, finder, `grandmother bought ${word} yesterday evening`);
        const ids = inside.flatMap((each) =>
          'question' in each ? each.question.id : 'critter' in each ? each.critter.id : [],
        );
        for (const one of [question.id, ...critterAnswers(question).map(({ id }) => id)])
          expect(ids, word).not.toContain(one);
      }
  });

  test.each(['', '   ', 'hello', 'hi, what is this?', 'is it safe?', 'thanks!', '🦀', 'what should I do about it'])(
    '%j holds no name',
    (text) => {
      expect(found(text)).toEqual([]);
    },
  );
});

describe('the answer to a mention', () => {
  test('one animal gets its card, for everyone to read', async () => {
    expect(await answer('is a bristle worm bad?')).toMatch(
      new RegExp(`^## ${name('bristleworm-common')} — Leave it\n`),
    );
  });

  test('two animals are compared', async () => {
    expect(await answer('aiptasia or majano?')).toContain(`## ${name('aiptasia')} or ${name('majano')}?`);
  });

  test('the same animal twice is one animal', async () => {
    expect(await answer('bristle worm or bristle worms?')).toMatch(new RegExp(`^## ${name('bristleworm-common')} — `));
  });

  test('a name that means several animals gets the question', async () => {
    expect(await answer('found a crab on my rock')).toContain('“crab” is a name for several things');
  });

  test('of a clear name and an unclear one, the unclear one is settled first and the other is named', async () => {
    const shown = await answer('is my bristleworm a fireworm?');
    expect(shown).toContain('is a name for several things');
    expect(shown).toContain(`You also named **${name('bristleworm-common')}**`);
  });

  test('of three animals the first is answered and the others are named', async () => {
    const shown = await answer('are vermetids, majanos and aiptasia bad?');
    expect(shown).toContain(`**${name('majano')}**, **${name('aiptasia')}**`);
  });

  test('a question without an animal gets a hint', async () => {
    for (const text of ['', 'hello there', 'what is this?'])
      if (found(text).length === 0) expect(await answer(text)).toContain('is a bristle worm bad?');
    expect(await answer('')).toContain('/critter name');
  });

  test('a text that means harm is repeated as plain words', async () => {
    const shown = await answer('@everyone <@123> **xyzzyq** plugh');
    expect(shown).toContain('I have no entry called');
    expect(shown).not.toContain('@everyone');
  });
});
