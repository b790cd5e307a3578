import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { asks, ballot, notices, openCaseClub, opening, photo, pingsOf, WORM } from './club.ts';
import { plainPng, SECRET } from './pictures.ts';

const reasonFor = (entry: string, verdict = 'Pest', reason = 'long stalk and clear tips') => ({
  'What is it?': verdict,
  'Which animal, if you know': entry,
  Reason: reason,
});

test('a case from the question to its end, with a restart in the middle', async () => {
  const club = await openCaseClub();
  const { ana, ben, dee, cora, room } = club;

  const asked = await asks(ana);
  expect(asked.error).toBeUndefined();
  expect(asked.replies[0]).toMatchObject({ private: true });
  const shown = opening(ben);
  expect(shown.channelName).toBe('ask');
  expect(shown.text).toContain(WORM);
  expect(shown.images).toHaveLength(1);
  expect(shown.images[0]!.alt).toContain(WORM);
  const posted = room.world.messages.file(new URL(shown.images[0]!.url).pathname)!.data;
  expect(posted.equals(plainPng())).toBe(true);
  expect(ballot(ben).channelName).toContain('Second opinion 1');
  expect(ballot(ben).text).toMatch(/By the words alone:.*aiptasia/i);
  expect(ballot(ben).text).toContain('Pest 0 · Harmless 0 · Can’t tell 0');

  await ben.press('Harmless');
  await ben.press('Pest');
  await dee.press('Can’t tell');
  await club.restart();
  expect(ballot(dee).text).toContain('Pest 1 · Harmless 0 · Can’t tell 1');
  await dee.press('Pest');
  expect(ballot(ana).text).toContain('Pest 2 · Harmless 0 · Can’t tell 0');
  expect(notices(ana)).toEqual([]);

  const form = await cora.press('Settle');
  expect(form.modal?.inputs.map(({ label, required }) => [label, required])).toEqual([
    ['What is it?', true],
    ['Which animal, if you know', false],
    ['Reason', true],
  ]);
  expect((await cora.fill({ 'What is it?': 'Pest' })).error).toContain('Reason');
  await cora.fill(reasonFor('aiptasia'));

  for (const { text } of [opening(ben), ballot(ben), ...notices(ben)])
    expect(text).toMatch(/Settled by Cora: .*Pest.*Reason: long stalk and clear tips/);
  expect(ballot(ben).buttons.map(({ label }) => label)).not.toContain('Pest');
  expect(opening(ben).images).toHaveLength(1);
  expect(notices(ana)).toHaveLength(1);
  expect(notices(ana)[0]!.channelName).toContain('Second opinion 1');
  expect([pingsOf(club, 'Ana'), pingsOf(club, 'Ben'), pingsOf(club, 'Cora')]).toEqual([1, 0, 0]);

  await club.restart();
  expect(notices(ana)).toHaveLength(1);
  expect(room.world.messages.all().some((message) => JSON.stringify(message).includes(SECRET))).toBe(false);
});

test('settled cases are exported for curators as test cases, of their own server only', async () => {
  const { ana, ben, cora, room } = await openCaseClub();
  expect((await cora.slash('critter export', [])).replies[0]!.text).toContain('no settled case');
  await asks(ana, `${WORM}: "quoted"\n- and: hostile # yaml`);
  await ben.press('Pest');
  await cora.press('Settle');
  await cora.fill(reasonFor('aiptasia', 'Pest', 'it says: "tips"'));

  expect((await ben.slash('critter export', [])).replies[0]!.text).toContain('for curators');
  const { replies } = await cora.slash('critter export', []);
  expect(replies[0]).toMatchObject({ private: true });
  const message = room.world.messages
    .all()
    .find(({ attachments }) => attachments.some(({ filename }) => filename === 'cases.yaml'));
  const yaml = room.world.messages.file(new URL(message!.attachments[0]!.url).pathname)!.data.toString();
  const [exported, ...more] = parse(yaml) as Record<string, unknown>[];
  expect(more).toEqual([]);
  expect(exported).toMatchObject({
    text: `${WORM}: "quoted"\n- and: hostile # yaml`,
    entry: 'aiptasia',
    verdict: 'pest',
    reason: 'it says: "tips"',
    photo: expect.stringMatching(/^https:\/\/discord\.com\/channels\/\d+\/\d+\/\d+$/),
    tally: { pest: 1, harmless: 0, 'cannot-tell': 0 },
  });
  expect(exported!.observations).not.toEqual([]);
  expect(yaml).not.toMatch(/Ana|Ben|Cora/);
});

test('the menu on any message with a photo asks in the same way, with that message’s words', async () => {
  const { ana, ben, room } = await openCaseClub();
  await ben.say('found this under a frag plug, white spiral tube', { files: [photo()] });
  const asked = await ana.menu('Ask about this photo');
  expect(asked.error).toBeUndefined();
  expect(opening(ben).text).toContain('white spiral tube');
  expect(opening(ben).text).toContain('about a photo of Ben');
  await ben.say('no picture here');
  expect((await ana.menu('Ask about this photo')).replies[0]!.text).toContain('There is no picture');
  expect(room.world.messages.all().filter(({ nonce }) => nonce !== null)).toHaveLength(2);
});

test('only a curator settles, the asker does not vote, and only the asker withdraws', async () => {
  const { ana, ben, cora, room } = await openCaseClub();
  await asks(ana);
  expect((await ana.press('Pest')).replies[0]!.text).toContain('You asked, so you do not vote');
  expect((await ana.press('Which animal?')).replies[0]!.text).toContain('You asked');
  const refused = await ben.press('Settle');
  expect(refused.modal).toBeUndefined();
  expect(refused.replies[0]!.text).toContain('for curators');
  expect((await ben.press('Withdraw')).replies[0]!.text).toContain('not for you');
  expect(ballot(ben).text).toContain('Pest 0 · Harmless 0');
  // Who may manage messages is a curator without the role.
  const officer = room.actor('Otto', { name: 'Otto', roles: ['officer'] });
  expect((await officer.press('Settle')).modal?.title).toBe('Settle this case');

  await ana.press('Withdraw');
  expect(opening(ben).text).toContain('Withdrawn by the asker');
  expect(notices(ana)).toEqual([]);
  await ana.press('Reopen');
  expect(opening(ben).text).toContain('Open until');
  expect((await cora.press('Settle')).modal).toBeDefined();
});

test('a name given with a vote: a clear one is kept, an unclear one is answered with the nearest three', async () => {
  const { ana, ben, dee, cora } = await openCaseClub();
  await asks(ana);
  await ben.press('Which animal?');
  await ben.fill({ 'Its name or nickname': 'aiptasia' });
  expect(ballot(ana).text).toContain('Pest 1 · Harmless 0');
  expect(ballot(ana).text).toMatch(/Named: .*aiptasia.* 1/i);

  await dee.press('Which animal?');
  const unclear = await dee.fill({ 'Its name or nickname': 'feathr dustr' });
  expect(unclear.replies[0]).toMatchObject({ private: true });
  const options = unclear.replies[0]!.selects[0]!.options;
  expect(options.length).toBeGreaterThan(0);
  expect(options.length).toBeLessThanOrEqual(3);
  expect(ballot(ana).text).toContain('Pest 1 · Harmless 0');
  await dee.choose('The nearest names I know', [options[0]!.label]);
  expect(ballot(ana).text).toContain(options[0]!.label);

  await cora.press('Settle');
  const unsettled = await cora.fill(reasonFor('aiptazia majano'));
  expect(unsettled.replies[0]!.text).toContain('Not settled yet');
  expect(notices(ana)).toEqual([]);
});

test('a curator’s act is taken back: the case is open again, and the asker reads that it was taken back', async () => {
  const club = await openCaseClub();
  const { ana, ben, cora, room } = club;
  await asks(ana);
  await ben.press('Pest');
  await cora.press('Settle');
  await cora.fill(reasonFor('', 'Harmless', 'too quick'));
  expect((await ben.press('Undo')).replies[0]!.text).toContain('for curators');
  await cora.press('Undo');
  await room.quiet(80);
  expect(notices(ana)).toEqual([]);
  expect(ana.sees().some(({ text }) => text.includes('took this decision back'))).toBe(true);
  expect(ballot(ben).buttons.map(({ label }) => label)).toContain('Pest');
  await cora.press('Settle');
  await cora.fill(reasonFor('aiptasia'));
  expect(notices(ana)).toHaveLength(1);
  room.clock.advance(11 * 60_000);
  expect((await cora.press('Undo')).replies[0]!.text).toContain('nothing to take back');
});
