import { describe, expect, test } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';

const DAY_MS = 86_400_000;
const options = (given: Readonly<Record<string, string>>) =>
  Object.entries(given).map(([name, value]) => ({ name, value }));
type Club = Awaited<ReturnType<typeof openClub>>;

async function says(who: Actor, verb: string, given: Readonly<Record<string, string>> = {}): Promise<string> {
  // Where no zone is known the start asks for one; that is played elsewhere.
  const asked = verb === 'start' ? { zone: 'Europe/Lisbon', ...given } : given;
  const { replies, error } = await who.slash(`quarantine ${verb}`, options(asked));
  expect(error).toBeUndefined();
  // Reminders may come by direct message meanwhile; an answer is for the asker’s eyes.
  const answers = replies.filter(({ private: isAnswer }) => isAnswer);
  expect(answers).toHaveLength(1);
  return asRead(answers[0]!.text);
}
async function presses(who: Actor, label: string): Promise<string> {
  const { replies, error } = await who.press(label);
  expect(error).toBeUndefined();
  return asRead(replies[0]!.text);
}
async function begun(): Promise<{ club: Club; ana: Actor }> {
  const club = await openClub({ clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
  const ana = club.room.actor('Ana');
  const given = { animals: 'two clownfish', plan: 'observation', fish: 'clownfish', zone: 'Europe/Lisbon' };
  expect(await says(ana, 'start', given)).toContain('A yes to all of this?');
  await presses(ana, 'Yes to all: start');
  return { club, ana };
}
/** A look each day, for so many days. */
async function looks({ club, ana }: { club: Club; ana: Actor }, days: number) {
  for (let day = 0; day < days; day += 1) {
    club.room.clock.advance(DAY_MS);
    await says(ana, 'today');
    await presses(ana, 'All well');
  }
}

describe('/quarantine', () => {
  test('counts nothing before every question has its yes', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    await says(ana, 'start', { animals: 'two clownfish', plan: 'observation' });
    expect(await says(ana, 'today')).toContain('A yes to all of this?');
    expect(await says(ana, 'list')).toContain('not started yet');
    expect(await presses(ana, 'Not yet')).toContain('Not started');
    expect(await says(ana, 'today')).toContain('You have none running');
  });

  test('a sign on day 20 of a 30-day observation ends it no earlier than day 50', async () => {
    const at = await begun();
    const { club, ana } = at;
    await looks(at, 19);
    const clear = /Days without a sign: (\d+) of 30 days counted/;
    const before = Number(clear.exec(await says(ana, 'plan'))?.[1]);
    expect(before).toBeGreaterThanOrEqual(18);
    // Day 20 is the 14th of December; day 50 the 13th of January.
    await says(ana, 'today');
    await presses(ana, 'Something is off');
    const { replies } = await ana.choose('What do you see?', ['White spots the size of salt grains']);
    expect(asRead(replies[0]!.text)).toContain('Fits well: marine white spot');
    const plan = await says(ana, 'plan');
    expect(clear.exec(plan)?.[1]).toBe('0');
    expect(plan).toContain('Days without a sign: 0 of 30 days counted; earliest end 13 January 2027.');
    await club.restart();
    expect(await says(ana, 'plan')).toBe(plan);
    expect(await says(ana, 'undo')).toContain('sign seen');
    expect(Number(clear.exec(await says(ana, 'plan'))?.[1])).toBe(before);
  });

  test('a fish that does not bear a plan, and a second medicine, are refused unless a vet directed it', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    const mandarin = await says(ana, 'start', { animals: 'a mandarin', plan: 'copper-ionic', fish: 'mandarin' });
    expect(mandarin).toContain('does not bear it');
    await says(ana, 'start', { animals: 'three chromis', plan: 'copper-ionic', fish: 'chromis' });
    await presses(ana, 'Yes to all: start');
    const second = { animals: 'a tang', plan: 'hyposalinity' };
    expect(await says(ana, 'start', second)).toContain('One medicine at a time');
    expect(await says(ana, 'start', { ...second, vet: 'yes' })).toContain('a tang:');
  });

  test('a copper reading without its form is refused; with it, it counts, and too much is an emergency', async () => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    await says(ana, 'start', { animals: 'three chromis', plan: 'copper-ionic' });
    await presses(ana, 'Yes to all: start');
    const bare = await says(ana, 'log', { reading: 'copper', value: '0.17 mg/L' });
    expect(bare).toContain('Which form of copper?');
    await says(ana, 'log', { reading: 'copper', value: '0.17 mg/L', form: 'ionic' });
    expect(await says(ana, 'plan')).toMatch(/Time at the copper level: 0 of 30 days counted; earliest end/);
    expect(await says(ana, 'log', { reading: 'copper', value: '0.4 mg/L', form: 'ionic' })).toContain('Now.');
  });

  test.each([
    ['coral-dip-series', 'a pest, worm or its eggs seen', /pest or its eggs/],
    ['fishless-display', 'a fish seen where none may be', /Began anew[^\n]*fish/],
  ])('%s begins anew when it has to: %s', async (plan, happened, words) => {
    const { room } = await openClub({ clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
    const ana = room.actor('Ana');
    const asked = await says(ana, 'start', { animals: 'new ones', plan });
    await presses(ana, asked.includes('A yes to all') ? 'Yes to all: start' : 'Start');
    room.clock.advance(10 * DAY_MS);
    expect(await says(ana, 'plan')).not.toContain('Began anew');
    await says(ana, 'log', { happened });
    const after = await says(ana, 'plan');
    expect(after).toContain('Began anew');
    expect(after).toMatch(words);
  });

  test('nobody sees it who may not, and one press does not call it off', async () => {
    const { club, ana } = await begun();
    expect(await says(club.room.actor('Ben'), 'list')).not.toContain('clownfish');
    expect(await says(ana, 'finish')).toContain('not complete yet');
    expect(await says(ana, 'list')).toContain('two clownfish');
    await says(ana, 'finish');
    expect(await presses(ana, 'Call it off')).toContain('called off');
    expect(await says(ana, 'list')).toContain('You have none running');
  });

  test.each<[string, Record<string, string>, string]>([
    ['start', { animals: 'x', plan: 'magic' }, 'I don’t know that plan'],
    ['start', { animals: 'x', plan: 'observation', fish: 'unicorn' }, 'I don’t know that kind of fish'],
    ['start', { animals: 'x', plan: 'observation', zone: 'Atlantis' }, 'I know no such time zone'],
    ['today', {}, 'You have none running'],
  ])('%s with %o gets a kind answer', async (verb, given, words) => {
    const { room } = await openClub();
    expect(await says(room.actor('Ana'), verb, given)).toContain(words);
  });

  test.each<[Record<string, string>, string]>([
    [{ reading: 'temperature', value: 'warm' }, 'I couldn’t use that'],
    [{ reading: 'temperature' }, 'What shall I note?'],
    [{}, 'What shall I note?'],
  ])('a log of %o gets a kind answer', async (given, words) => {
    const { ana } = await begun();
    expect(await says(ana, 'log', given)).toContain(words);
  });
});
