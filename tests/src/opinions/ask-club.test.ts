import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { ballot, HOUR_MS, openCaseClub, opening, pass, photo, WORM } from './club.ts';
import { SECRET, tellingPng } from './pictures.ts';

const PHOTO = 'A photo, if you have one';
const TEXT = 'What you see';
const VAGUE = 'red and blue, fast, in the sump pipe';
const PUBLIC = '@bot there is a pinkish worm with white bristles hiding under my live rock at night';

const describes = async (who: Actor, text: string): Promise<SeenMessage> => {
  const { replies, error } = await who.slash('critter describe', [{ name: 'text', value: text }]);
  expect(error).toBeUndefined();
  return replies[0]!;
};
const labels = ({ buttons }: SeenMessage) => buttons.map(({ label }) => label);
/** "Animal, about 4 in 10" as result and ballot both say it. */
const oddsIn = ({ text }: SeenMessage) =>
  [...text.matchAll(/^(?:- )?(?:\*\*)?([^*\n]+?)(?:\*\*)?, ((?:about|more|less|almost)[^(\n]+) \(/gm)].map(
    ([, name, odds]) => `${name}: ${odds}`,
  );
/** A result leaves the unlikely out, a ballot does not. */
const expectSameOdds = (onBallot: SeenMessage, result: SeenMessage) => {
  const odds = oddsIn(result);
  expect(odds.length).toBeGreaterThan(0);
  expect(oddsIn(onBallot).slice(0, odds.length)).toEqual(odds);
};
const openings = (who: Actor) => who.sees().filter(({ text }) => /second opinion, (please|closed)/i.test(text));

/** Answers questions of the key by their first option, and stops. */
async function answersTheKey(who: Actor, count: number) {
  const said: { asked: string; said: string }[] = [];
  let message = (await who.slash('critter key', [])).replies[0]!;
  for (let n = 0; n < count; n += 1) {
    const asked = message.text.split('\n')[0]!.replace(/^#+ /, '');
    const [first] = message.buttons;
    said.push({ asked, said: first!.label });
    message = (await who.press(first!.label)).replies[0]!;
  }
  return { said, result: (await who.press('Stop here')).replies[0]! };
}

describe('Ask the club under a result of the key', () => {
  test('takes the answers along, through a restart: people read them, and the bot starts from them', async () => {
    const club = await openCaseClub();
    const { ana, ben } = club;
    const { said, result } = await answersTheKey(ana, 3);
    expect(labels(result)).toContain('Ask the club');
    await club.restart();
    await ana.press('Ask the club');
    await club.restart();
    const sent = await ana.fill({});
    expect(sent.error).toBeUndefined();
    expect(sent.replies[0]).toMatchObject({ private: true });
    expect(sent.replies[0]!.text).toContain('After 48 hours');

    for (const { said: answer } of said) expect(opening(ben).text).toContain(`**${answer}**`);
    expect(ballot(ben).text).toMatch(/By the answers alone/);
    // The odds are those of the answers, which no words repeat.
    expectSameOdds(ballot(ben), result);
  });

  test('and the exported case has the traits', async () => {
    const { ana, cora, room } = await openCaseClub();
    await answersTheKey(ana, 2);
    await ana.press('Ask the club');
    await ana.fill({});
    await cora.press('Settle');
    await cora.fill({ 'What is it?': 'Pest', Reason: 'seen often' });
    await cora.slash('critter export', []);
    const file = room.world.messages
      .all()
      .flatMap(({ attachments }) => attachments)
      .find(({ filename }) => filename === 'cases.yaml');
    const yaml = room.world.messages.file(new URL(file!.url).pathname)!.data.toString();
    const [exported] = parse(yaml) as { text: string; observations: string[]; features: string[] }[];
    expect(exported!.text).toBe('');
    expect(exported!.observations).toEqual([
      expect.stringMatching(/^(chose \w+=|size )/),
      expect.stringMatching(/^(chose \w+=|size )/),
    ]);
    expect(exported!.features).toEqual([]);
  });

  test('the list of what is left has the button too', async () => {
    const { ana } = await openCaseClub();
    await ana.slash('critter key', []);
    expect(labels((await ana.press('Show what is left')).replies[0]!)).toContain('Ask the club');
  });

  test('without a word, an answer or a photo there is nothing to ask yet', async () => {
    const { ana } = await openCaseClub();
    await answersTheKey(ana, 0);
    await ana.press('Ask the club');
    const { replies } = await ana.fill({});
    expect(replies[0]!.text).toContain('nothing to show the club yet');
    expect(openings(ana)).toEqual([]);
  });
});

describe('Ask the club under a description', () => {
  test('when it cannot tell, it stands before more questions; nothing has to be typed again', async () => {
    const { ana, ben } = await openCaseClub();
    const result = await describes(ana, VAGUE);
    expect(labels(result).indexOf('Ask the club')).toBeLessThan(labels(result).indexOf('Ask me questions'));
    expect(result.text).toContain('Then press **Ask the club**');
    const form = await ana.press('Ask the club');
    expect(form.modal?.inputs.map(({ label, kind, required }) => [label, kind, required])).toEqual([
      [PHOTO, 'file', false],
      [TEXT, 'paragraph', false],
    ]);
    await ana.fill({});
    expect(opening(ben).text).toContain(`Ana writes: “${VAGUE}”`);
    expect(opening(ben).images).toEqual([]);
    expect(ballot(ben).text).toMatch(/Ana, please add a photo to this thread/);
    expectSameOdds(ballot(ben), result);
  });

  test('a photo from the form goes up without its metadata', async () => {
    const { ana, ben, room } = await openCaseClub();
    await describes(ana, WORM);
    await ana.press('Ask the club');
    await ana.fill({}, { [PHOTO]: [photo(tellingPng())] });
    const [image] = opening(ben).images;
    expect(image).toMatchObject({ name: 'photo.png', alt: `Photo from Ana: ${WORM}` });
    expect(room.world.messages.file(new URL(image!.url).pathname)!.data.includes(SECRET)).toBe(false);
    expect(ballot(ben).text).not.toContain('add a photo');
  });

  test('words that were changed in the form are read anew', async () => {
    const { ana, ben } = await openCaseClub();
    const before = await describes(ana, VAGUE);
    await ana.press('Ask the club');
    await ana.fill({ [TEXT]: WORM });
    expect(ballot(ben).text).toMatch(/By the words alone:.*aiptasia/i);
    expect(oddsIn(ballot(ben))).not.toEqual(oddsIn(before));
  });

  test('who says that somebody is hurt is not left waiting for votes, even when the words are tidied up', async () => {
    const { ana, ben } = await openCaseClub();
    const result = await describes(ana, `${WORM}, it stung my hand`);
    expect(labels(result).indexOf('Stung')).toBeLessThan(labels(result).indexOf('Ask the club'));
    await ana.press('Ask the club');
    const { replies } = await ana.fill({ [TEXT]: 'brown worm' });
    expect(replies[0]!.text).toContain('Do not wait for votes');
    expect(opening(ben).text).toContain('First aid:');
  });

  test('where the bot may not attach files, the form asks for words only and the case opens', async () => {
    const { ana, ben, room } = await openCaseClub();
    room.world.setBotPermissions('ask', { deny: ['AttachFiles'] });
    await room.quiet();
    await describes(ana, VAGUE);
    expect((await ana.press('Ask the club')).modal?.inputs.map(({ label }) => label)).toEqual([TEXT]);
    await ana.fill({});
    expect(opening(ben).text).toContain(VAGUE);
  });

  test('in a direct message there is nobody to ask, so there is no button', async () => {
    const { ana } = await openCaseClub();
    ana.goTo('dm');
    const result = await describes(ana, VAGUE);
    expect(labels(result)).not.toContain('Ask the club');
    expect(result.text).toContain('ask in your club’s channel');
  });
});

describe('one sighting is one question', () => {
  test('pressed again, also after a restart, it says where the club was asked, and how it ended', async () => {
    const club = await openCaseClub();
    const { ana, ben, cora } = club;
    await describes(ana, VAGUE);
    await ana.press('Ask the club');
    await ana.fill({});
    await club.restart();
    const again = await ana.press('Ask the club');
    expect(again.modal).toBeUndefined();
    expect(again.replies[0]).toMatchObject({ private: true });
    expect(again.replies[0]!.text).toMatch(/case 1, in #Second opinion 1.*voting is open/);
    await cora.press('Settle');
    await cora.fill({ 'What is it?': 'Harmless', Reason: 'a hermit' });
    expect((await ana.press('Ask the club')).replies[0]!.text).toMatch(/Settled by Cora: .*a hermit/);
    expect(openings(ben)).toHaveLength(1);
  });

  test('a question that was taken back may be asked again', async () => {
    const { ana, ben } = await openCaseClub();
    await describes(ana, VAGUE);
    await ana.press('Ask the club');
    await ana.fill({});
    await ana.press('Withdraw');
    expect((await ana.press('Ask the club')).modal?.title).toBe('Ask the club');
    await ana.fill({});
    expect(openings(ben)).toHaveLength(2);
  });

  test('two sightings are two questions', async () => {
    const { ana, ben } = await openCaseClub();
    for (const text of [VAGUE, WORM]) {
      await describes(ana, text);
      await ana.press('Ask the club');
      await ana.fill({});
    }
    expect(openings(ben)).toHaveLength(2);
  });
});

describe('the button belongs to whoever asked', () => {
  test('somebody else is told so, and nothing opens', async () => {
    const { ana, ben } = await openCaseClub();
    await ana.say(PUBLIC);
    const pressed = await ben.press('Ask the club');
    expect(pressed.modal).toBeUndefined();
    expect(pressed.replies[0]).toMatchObject({ private: true });
    expect(pressed.replies[0]!.text).toContain('not yours');
    expect((await ana.press('Ask the club')).modal?.title).toBe('Ask the club');
  });

  test('a sighting that was forgotten is out of date, and its number goes to nobody else', async () => {
    const club = await openCaseClub();
    const { ana, ben } = club;
    await ana.say(PUBLIC);
    await ana.press('Ask the club');
    await ana.fill({});
    await pass(club, 31 * 24 * HOUR_MS);
    const next = await describes(ben, VAGUE);
    expect(next.text).toContain('Sighting 2');
    await ben.press('Ask the club');
    await ben.fill({});
    expect(openings(ana)).toHaveLength(2);
    const old = ana.sees().find(({ text, buttons }) => buttons.length > 0 && text.includes('Sighting 1'))!;
    const pressed = await ana.pressExactly(old.id, '1:ask-club:1');
    expect(pressed.modal).toBeUndefined();
    expect(pressed.replies[0]!.text).toMatch(/out of date|older|start again/i);
  });
});
