import { describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Answer, Block, ButtonView, MessageView, Request } from '../../../src/discord/message-view.ts';
import { isOfPeople } from '../../../src/quarantine/sign-told.ts';
import { quarantineStore } from '../../../src/quarantine/quarantine.store.ts';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor } from '../../../src/room/room.ts';
import { knowledge, openClub } from '../../set-up-club.ts';

const DAY_MS = 86_400_000;

async function check(who: Actor, given: Readonly<Record<string, string>> = {}): Promise<string> {
  const options = Object.entries(given).map(([name, value]) => ({ name, value }));
  const { replies, error } = await who.slash('quarantine check', options);
  expect(error).toBeUndefined();
  return asRead(replies[0]!.text);
}
async function presses(who: Actor, label: string): Promise<string> {
  const { replies, error } = await who.press(label);
  expect(error).toBeUndefined();
  return asRead(replies[0]!.text);
}
async function begun(given: Readonly<Record<string, string>> = {}) {
  const club = await openClub({ clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
  const nell = club.room.actor('Nell');
  const regal = { animals: 'a regal tang', plan: 'observation', fish: 'regal tang' };
  const asked = { zone: 'Europe/Lisbon', ...(given['plan'] === undefined ? regal : given) };
  const options = Object.entries(asked).map(([name, value]) => ({ name, value }));
  const started = await nell.slash('quarantine start', options);
  const labels = started.replies[0]!.buttons.map(({ label }) => label);
  await presses(nell, labels.find((label) => /start/i.test(label)) ?? 'Start');
  club.room.clock.advance(3 * DAY_MS);
  return { club, nell };
}

describe('/quarantine check, played', () => {
  test('the first words are about people, then about what cannot wait', async () => {
    const { nell } = await begun();
    await check(nell);
    const off = await presses(nell, 'Something is off');
    expect(off).toMatch(/^Is a person or a pet hurt\?/);
    expect(off.split('\n')[1]).toMatch(/^Gasping, rolling or lying/);
    expect(nell.sees().at(-1)?.selects[0]?.options[0]).toBeDefined();
    expect(await presses(nell, 'A person or a pet is hurt')).toMatch(/^First aid/);
    const { replies } = await nell.choose('What happened?', ['Electric shock at the tank']);
    const shock = asRead(replies[0]!.text);
    expect(shock).toContain('Switch the power off');
    expect(shock).toContain('Nothing of this is noted');
    expect(shock).not.toMatch(/fish|coral/i);
  });

  test('own words in the form lead to the question, the question to the dates, and one press takes it back', async () => {
    const { nell } = await begun();
    await check(nell);
    await presses(nell, 'Something is off');
    await nell.press('In my words');
    const filled = await nell.fill({ 'What do you see, in your words?': 'my clown is breathing super fast' });
    const asked = asRead(filled.replies[0]!.text);
    expect(asked).toContain('Until you know: Call a fish vet now');
    expect(asked).toContain('Are all fish breathing fast at once?');
    expect(asked).not.toMatch(/Fits well|Could also be/);
    const told = await presses(nell, 'All of them, at once');
    expect(told).toMatch(/Do now: Add an air stone/);
    expect(told).toContain('The days begin anew tomorrow');
    const eaten = await presses(nell, 'Ate a little');
    expect(eaten).toContain('“Days without a sign” and “Days of eating normally”');
    expect(eaten).not.toContain('How did they eat?');
    const back = await presses(nell, 'Take it back');
    expect(back).toContain('Days without a sign');
    const undone = await nell.slash('quarantine plan', []);
    expect(asRead(undone.replies[0]!.text)).not.toContain('may be catching');
  });

  test('rest that is normal for the kind stands before the alarm, and holds up nothing', async () => {
    const { nell } = await begun();
    const asked = await check(nell, { see: 'fish laying on sand??' });
    expect(asked.indexOf('Normal for regal')).toBeGreaterThan(0);
    expect(asked.indexOf('Normal for regal')).toBeLessThan(asked.indexOf('Until you know'));
    expect(await presses(nell, 'Its habit: calm, and it reacts')).toContain('No date changes');
  });

  test('words for several signs are asked about, words for none note nothing', async () => {
    const { nell } = await begun();
    const which = await check(nell, { see: 'heavy breathing and white spots' });
    expect(which).toContain('Which of these is it?');
    const none = await check(nell, { see: 'he is purple' });
    expect(none).toContain('nothing was noted');
    expect(none).toContain('Choose the nearest from the list');
    const plan = await nell.slash('quarantine plan', []);
    expect(asRead(plan.replies[0]!.text)).not.toContain('may be catching');
  });

  test('brown goo from the mouth of a firm coral is the other sign, and bare skeleton leads on', async () => {
    const { nell } = await begun({ animals: 'a torch', plan: 'coral-dip-series' });
    expect(await check(nell, { see: 'brown goo on my euphyllia' })).toContain('Until you know: Move the coral');
    const strings = await presses(nell, 'From the mouth, and the coral is firm');
    expect(strings).toMatch(/^Brown strings from the mouth/);
    expect(strings).not.toContain('begin');
    await check(nell, { see: 'bleaching' });
    expect(await presses(nell, 'It is bare skeleton')).toContain('It is bare skeleton: which of these is it?');
    const { replies } = await nell.choose('What do you see?', ['Flesh peeling off within hours']);
    expect(asRead(replies[0]!.text)).toMatch(/Do now: Test temperature/);
  });

  test('typing offers the signs of the plan, and people before them', async () => {
    const { nell } = await begun();
    const typing = async (value: string) =>
      (await nell.autocomplete('quarantine check', [{ name: 'see', value }])).choices?.map(({ name }) => name) ?? [];
    const offered = await typing('');
    expect(offered[0]).toBe('A person or a pet is hurt');
    expect(offered).toContain('Fast breathing');
    expect(offered.length).toBeLessThanOrEqual(25);
    expect((await typing('cloudy'))[0]).toBe('Cloudy eyes');
  });

  test('how they ate goes along with a look at which all is well', async () => {
    const { nell } = await begun();
    await check(nell, { appetite: 'none' });
    await presses(nell, 'Ate nothing, else all well');
    const plan = await nell.slash('quarantine plan', []);
    expect(asRead(plan.replies[0]!.text)).toContain('did not eat normally');
  });
});

describe('every button of a sign', () => {
  const now = new Date('2026-11-28T12:00:00Z');
  const request = (memberId: string, guildId: string | null): Request => ({
    memberId,
    memberName: memberId,
    guildId,
    channelId: 'c',
    locale: 'en-GB',
    now,
  });

  function kept(plan: string) {
    const { db } = openTemporaryDatabase();
    const base = knowledge();
    const abilities = createAbilities(base, { db });
    const store = quarantineStore(db);
    const quarantine = store.begin(
      {
        ...{ guildId: '1', memberId: '10', channelId: 'c', animals: 'new ones', fish: ['regal-surgeonfish'], plan },
        ...{ option: null, tank: null, copperLabel: null, helpers: ['20'], zone: 'Europe/Lisbon', timeOfDay: '19:00' },
        ...{ visibility: 'me' as const, follows: null, begunAt: new Date('2026-11-25T12:00:00Z') },
      },
      { kind: 'started', at: new Date('2026-11-25T12:00:00Z') },
    );
    return { base, abilities, store, quarantine };
  }
  type Kept = ReturnType<typeof kept>;

  const isView = (answer: Answer): answer is MessageView => 'blocks' in answer;
  const buttonsOf = (view: MessageView): ButtonView[] =>
    view.blocks.flatMap((block) => (block.kind === 'buttons' ? block.buttons : []));
  const selectsOf = (view: MessageView) =>
    view.blocks.filter((block): block is Extract<Block, { kind: 'select' }> => block.kind === 'select');
  const titleOf = (answer: Answer) =>
    isView(answer)
      ? answer.blocks.flatMap((block) => (block.kind === 'text' ? block.text.markdown : [])).join('\n')
      : '';

  /** Everything that can be pressed or chosen, from the first reply on, each custom id once. */
  function everything({ abilities, quarantine }: Kept) {
    const first: { act: string; args: readonly string[]; chosen: readonly string[] }[] = [
      { act: 'quarantine-off', args: [String(quarantine.id)], chosen: [] },
    ];
    const seen = new Map<string, (typeof first)[number]>();
    const answers: string[] = [];
    while (first.length > 0) {
      const next = first.shift()!;
      // Ids of events differ from press to press; what is told of a sign is looked at once.
      const key = [
        next.act,
        ...next.args.slice(1).map((arg) => (/^\d{2,}$/.test(arg) ? '#' : arg)),
        ...next.chosen,
      ].join(':');
      if (seen.has(key) || !/^(quarantine-(off|sign|words|reply|ate|seen|today|undo|hurt|hurt-by)|aid)$/.test(next.act))
        continue;
      seen.set(key, next);
      const answer = abilities.buttons.get(next.act)!.run(next.args, request('10', '1'), next.chosen);
      answers.push(titleOf(answer));
      if (!isView(answer)) continue;
      first.push(...buttonsOf(answer).map(({ act, args }) => ({ act, args, chosen: [] })));
      for (const { act, args, options } of selectsOf(answer))
        first.push(...options.map(({ value }) => ({ act, args, chosen: [value] })));
    }
    return { pressed: [...seen.values()], answers };
  }

  test.each(['observation', 'coral-dip-series', 'fishless-display', 'invertebrate-hold'])('under %s', (plan) => {
    const own = kept(plan);
    const { pressed, answers } = everything(own);
    expect(pressed.length).toBeGreaterThan(30);
    for (const words of answers) expect(words).not.toMatch(/undefined|NaN|Invalid|\[object/);
    const noted = own.store.events(own.quarantine).length;
    const run = (by: string, guildId: string | null, { act, args, chosen }: (typeof pressed)[number]) =>
      own.abilities.buttons.get(act)!.run(args, request(by, guildId), chosen);
    const isFirstAid = ({ act, chosen }: (typeof pressed)[number]) =>
      act === 'aid' ||
      act.startsWith('quarantine-hurt') ||
      isOfPeople(own.base.signs.get(chosen[0] ?? '') ?? { group: 'fish' });

    // A stranger, here and in a direct message, gets first aid and nothing else.
    for (const guildId of ['1', null])
      for (const press of pressed) {
        const said = titleOf(run('30', guildId, press));
        if (isFirstAid(press)) expect(said, press.act).not.toContain('Not yours');
        else expect(said, press.act).toContain('Not yours');
      }
    expect(own.store.events(own.quarantine)).toHaveLength(noted);

    // A helper, here and in a direct message, may do all that the keeper may.
    for (const guildId of ['1', null])
      for (const press of pressed) expect(titleOf(run('20', guildId, press)), press.act).not.toContain('Not yours');

    // After the end only first aid is left.
    own.store.save({ ...own.quarantine, ended: { how: 'finished', at: now } });
    const atEnd = own.store.events(own.quarantine).length;
    for (const press of pressed) {
      const said = titleOf(run('10', null, press));
      if (isFirstAid(press)) expect(said, press.act).not.toContain('It is closed');
      else expect(said, press.act).toContain('It is closed');
    }
    expect(own.store.events(own.quarantine)).toHaveLength(atEnd);
  });

  test('a question is answered once; a second answer, or one after it was taken back, changes nothing', () => {
    const own = kept('observation');
    const press = (act: string, args: readonly string[], chosen: readonly string[] = []) =>
      own.abilities.buttons.get(act)!.run(args, request('10', '1'), chosen);
    const asked = press('quarantine-sign', [String(own.quarantine.id)], ['fish-lying-on-bottom']);
    if (!isView(asked)) throw new Error('no view');
    const [fast, habit] = buttonsOf(asked);
    const undo = buttonsOf(asked).find(({ act }) => act === 'quarantine-undo')!;
    press(habit!.act, habit!.args);
    const noted = own.store.events(own.quarantine).length;
    expect(titleOf(press(fast!.act, fast!.args))).toContain('answered already');
    press(undo.act, undo.args);
    expect(own.store.events(own.quarantine)).toHaveLength(noted);
  });

  test('before the start nothing is noted, and the help is there', () => {
    const own = kept('observation');
    const other = own.store.begin(
      { ...own.quarantine, animals: 'others', begunAt: now },
      { kind: 'note', at: now, text: 'asked for' },
    );
    const answer = own.abilities.buttons
      .get('quarantine-sign')!
      .run([String(other.id)], request('10', '1'), ['fish-white-spots']);
    expect(titleOf(answer)).toContain('Nothing was noted');
    expect(titleOf(answer)).toContain('white spot');
    expect(own.store.events(other)).toHaveLength(1);
  });
});
