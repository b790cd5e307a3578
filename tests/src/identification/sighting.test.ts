import { describe, expect, test } from 'vitest';
import { ADVICE } from '../../../src/critters/advice.ts';
import type { ActResult, SeenMessage } from '../../../src/room/room.ts';
import { ERROR, linesOf, openClub, titleOf } from '../../set-up-club.ts';
import { base } from './engine.ts';

const WORM = 'pinkish worm with white hairs along both sides, 5 cm, under the rock at night';
/** Fits the scavenger and, so far, its dangerous double too. */
const HAIRY = 'a hairy worm';
const PUBLIC = '@bot there is a pinkish worm with white bristles hiding under my live rock at night';
const SHAPE = 'What shape is it most like?';

const text = (words: string) => [{ name: 'text', value: words }];
const only = ({ replies, error }: ActResult): SeenMessage => {
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  return replies[0]!;
};
const labels = ({ buttons }: SeenMessage) => buttons.map(({ label }) => label);
const buttonOf = ({ buttons }: SeenMessage, label: string) => buttons.find((each) => each.label === label)!.customId!;
/** Which question of the key a message puts. */
const step = (message: SeenMessage) => Number(/Question (\d+)\./.exec(message.text)?.[1]);

describe('/critter describe', () => {
  test('is answered privately: name and advice, what was read, candidates with reasons and ids', async () => {
    const { room } = await openClub();
    const answer = only(await room.actor('Ana').slash('critter describe', text(`${WORM}, qwrtz`)));
    expect(answer).toMatchObject({ private: true, to: 'Ana', edited: false });
    const critter = base.critters.get('bristleworm-common')!;
    expect(titleOf(answer)).toBe(`${critter.name}, likely — ${ADVICE[critter.verdict]}`);
    expect(answer.text).toMatch(/^I went by: .*worm/m);
    expect(answer.text).toMatch(/^Not understood: qwrtz\.$/m);
    expect(answer.text).toMatch(
      /^\*\*Common scavenging bristle worm\*\*, (about \d+ in 10|more than 9 in 10|almost certain) /m,
    );
    expect(answer.text).toMatch(/^Fits: .+\.$/m);
    expect(linesOf(answer.text)).toContain('-# entry bristleworm-common');
    expect(labels(answer)).toContain('First aid');
    expect(room.world.pings).toEqual([]);
  });

  test('says "can’t tell" and what to do when the words fit nothing well', async () => {
    const { room } = await openClub();
    const answer = only(
      await room.actor('Ana').slash('critter describe', text('red and blue, fast, in the sump pipe')),
    );
    expect(titleOf(answer)).toBe('Can’t tell — isolate, photograph and ask');
    expect(answer.text).toContain('Nothing by hand.');
    expect(answer.text).toMatch(/Something I have no entry for: /);
  });

  test('takes the coral beside it and since when from the options', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const plain = only(await ana.slash('critter describe', text('tiny white slug with frills, 5 mm')));
    const near = only(
      await ana.slash('critter describe', [
        ...text('tiny white slug with frills, 5 mm'),
        { name: 'near', value: 'montipora' },
        { name: 'since', value: 'new coral' },
      ]),
    );
    const first = ({ text: shown }: SeenMessage) => /-# entry (\S+)/.exec(shown)?.[1];
    expect(first(near)).toBe('montipora-nudi');
    expect(near.text).not.toBe(plain.text);
  });

  test.each(['hello', 'what is this?', 'qwrtz plomb'])(
    '"%s" says too little and gets the first question',
    async (words) => {
      const { room } = await openClub();
      const question = only(await room.actor('Ana').slash('critter describe', text(words)));
      expect(titleOf(question)).toBe(SHAPE);
      expect(question.private).toBe(true);
    },
  );

  test('a word of pain brings the caution and first aid before anything else, and no "leave it"', async () => {
    const { room } = await openClub();
    const answer = only(await room.actor('Ana').slash('critter describe', text(`${WORM}, it stung my hand`)));
    expect(titleOf(answer)).not.toContain('Leave it');
    const aid = answer.text.indexOf('First aid:');
    expect(aid).toBeGreaterThan(0);
    expect(aid).toBeLessThan(answer.text.indexOf('I went by:'));
  });
});

describe('the look that would settle it', () => {
  test.each(['Yes', 'No'])('%s is weighed, and the questions go on in the same message', async (press) => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const answer = only(await ana.slash('critter describe', text(HAIRY)));
    expect(answer.text).toMatch(/Is it as on \*\*Bearded fireworm\*\*\?/);
    expect(titleOf(answer)).not.toContain('Leave it');
    expect(labels(answer).slice(0, 3)).toEqual(['Yes', 'No', 'Can’t see']);
    const next = only(await ana.press(press));
    expect(next).toMatchObject({ id: answer.id, edited: true, private: true });
    const left = only(
      await ana.press(labels(next).includes('Show what is left') ? 'Show what is left' : 'Ask me questions'),
    );
    const first = linesOf(left.text).find((line) => /^(- )?\*\*/.test(line));
    expect(first?.includes('Common scavenging bristle worm')).toBe(press === 'No');
  });

  test('Can’t see leaves the odds as they are, and is not asked again', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const answer = only(await ana.slash('critter describe', text(HAIRY)));
    const feature = /One look would help: (.+?)\./.exec(answer.text)![1]!;
    const question = only(await ana.press('Can’t see'));
    expect(question.id).toBe(answer.id);
    expect(step(question)).toBe(2);
    expect(titleOf(question).toLowerCase()).not.toContain(feature);
    const result = only(await ana.press('Stop here'));
    const odds = ({ text: shown }: SeenMessage) =>
      linesOf(shown).filter((line) => /^\*\*.+\*\*, .*\d+ in \d+/.test(line));
    expect(odds(result)).toEqual(odds(answer));
  });
});

describe('/critter key', () => {
  test('goes on, back, over and to its end in one message', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const first = only(await ana.slash('critter key', []));
    expect(titleOf(first)).toBe(SHAPE);
    expect(labels(first)).toEqual(
      expect.arrayContaining(['Long thin worm', 'Can’t see', 'Show what is left', 'Stop here']),
    );
    expect(labels(first)).not.toContain('Back');

    const second = only(await ana.press('Long thin worm'));
    expect(second).toMatchObject({ id: first.id, edited: true });
    expect(step(second)).toBe(2);
    const third = only(await ana.press('Can’t see'));
    expect(step(third)).toBe(3);
    expect(titleOf(third)).not.toBe(titleOf(second));

    const back = only(await ana.press('Back'));
    expect({ ...back, buttons: labels(back) }).toEqual({ ...second, buttons: labels(second) });
    expect(step(only(await ana.press('Back')))).toBe(1);
    await ana.press('Star with arms');
    const over = only(await ana.press('Start over'));
    expect(over.id).toBe(first.id);
    expect(over.text).toBe(first.text);
    expect(labels(over)).toEqual(labels(first));

    await ana.press('Long thin worm');
    const left = only(await ana.press('Show what is left'));
    expect(left).toMatchObject({ private: true, edited: false });
    expect(left.id).not.toBe(first.id);
    expect(titleOf(left)).toBe('What is left');
    expect(left.text).toMatch(/Something I have no entry for: /);

    const result = only(await ana.press('Stop here'));
    expect(result.id).toBe(first.id);
    expect(titleOf(result)).toMatch(/, likely — |^Can’t tell — /);
    expect(ana.sees()).toHaveLength(2);
  });

  test('ends by itself in a result, after eight questions at most', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    let message = only(await ana.slash('critter key', []));
    let presses = 0;
    while (!Number.isNaN(step(message))) {
      expect(step(message)).toBe(presses + 1);
      message = only(await ana.press('Can’t see'));
      presses += 1;
      expect(presses).toBeLessThanOrEqual(8);
    }
    expect(presses).toBeGreaterThan(3);
    expect(titleOf(message)).toBe('Can’t tell — isolate, photograph and ask');
  });

  test('a description is carried along into the questions', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const answer = only(await ana.slash('critter describe', text('small snail with a cone shaped shell')));
    const question = only(await ana.press('Ask me questions'));
    expect(question.id).toBe(answer.id);
    expect(titleOf(question)).not.toBe(SHAPE);
    expect(titleOf(only(await ana.slash('critter key', [])))).toBe(SHAPE);
  });

  test('a restart in the middle loses nothing', async () => {
    const { room, restart } = await openClub();
    const ana = room.actor('Ana');
    const first = only(await ana.slash('critter key', []));
    const second = only(await ana.press('Long thin worm'));
    await restart();
    const third = only(await ana.press('Can’t see'));
    expect(third.id).toBe(first.id);
    expect(step(third)).toBe(3);
    await restart();
    const back = only(await ana.press('Back'));
    expect(back.text).toBe(second.text);
  });

  test('the same button pressed twice at once counts once', async () => {
    const { room, lines } = await openClub();
    const ana = room.actor('Ana');
    const first = only(await ana.slash('critter key', []));
    const worm = buttonOf(first, 'Long thin worm');
    await Promise.all([ana.pressExactly(first.id, worm), ana.pressExactly(first.id, worm)]);
    const [shown, ...others] = ana.sees();
    expect(others).toEqual([]);
    expect(step(shown!)).toBe(2);
    const skip = buttonOf(shown!, 'Can’t see');
    const back = buttonOf(shown!, 'Back');
    await Promise.all([ana.pressExactly(first.id, skip), ana.pressExactly(first.id, back)]);
    expect(step(ana.sees()[0]!)).toBe(3);
    expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
  });
});

describe('a mention that describes something', () => {
  test('is answered for everybody, and its buttons are the asker’s', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const ben = room.actor('Ben');
    expect(titleOf(only(await ana.say(PUBLIC)))).toContain('Common scavenging bristle worm, likely — ');
    const answer = only(await ana.say('@bot found a hairy worm in the sand, brown and long, what is it'));
    expect(answer).toMatchObject({ private: false, to: 'Ana' });

    const before = ben.sees().find(({ id }) => id === answer.id);
    const refused = only(await ben.press('Ask me questions'));
    expect(refused).toMatchObject({ private: true, to: 'Ben' });
    expect(titleOf(refused)).toBe('These buttons are not yours');
    expect(refused.text).toContain('/critter describe');
    expect(ben.sees().find(({ id }) => id === answer.id)).toEqual(before);
    expect(ana.sees().some(({ text: shown }) => shown.includes('not yours'))).toBe(false);
    expect(room.world.pings).toEqual([]);
  });

  test('the asker’s own presses change that message; what is left is shown to them alone', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const answer = only(await ana.say('@bot found a hairy worm in the sand, brown and long, what is it'));
    const question = only(await ana.press('Ask me questions'));
    expect(question).toMatchObject({ id: answer.id, edited: true, private: false });
    expect(step(question)).toBe(1);
    expect(only(await ana.press('Show what is left'))).toMatchObject({ private: true, to: 'Ana' });
    expect(
      room
        .actor('Ben')
        .sees()
        .some(({ text: shown }) => shown.includes('What is left')),
    ).toBe(false);
  });

  test('too little for a description is still a question of names', async () => {
    const { room } = await openClub();
    expect(titleOf(only(await room.actor('Ana').say('@bot is a bristle worm bad?')))).toBe(
      'Common scavenging bristle worm — Leave it',
    );
  });
});
