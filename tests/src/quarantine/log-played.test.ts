import { describe, expect, test } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { Actor } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';

const HOUR_MS = 3_600_000;

async function says(who: Actor, verb: string, given: Readonly<Record<string, string>> = {}): Promise<string> {
  const { replies, error } = await who.slash(
    `quarantine ${verb}`,
    Object.entries(given).map(([name, value]) => ({ name, value })),
  );
  expect(error).toBeUndefined();
  return asRead(replies.findLast((each) => each.private)?.text ?? '');
}
async function presses(who: Actor, label: string): Promise<string> {
  const { replies, error } = await who.press(label);
  expect(error).toBeUndefined();
  return asRead(replies.findLast((each) => each.private)?.text ?? '');
}
async function running(plan: string) {
  const club = await openClub({ clock: createRoomClock(new Date('2026-11-25T12:00:00Z')) });
  const nell = club.room.actor('Nell');
  await says(nell, 'start', { animals: 'three chromis', plan, zone: 'Europe/Lisbon' });
  const asked = await nell.press('Yes to all: start');
  if (asked.error) await presses(nell, 'Start');
  return { club, nell, waits: (hours: number) => club.room.clock.advance(hours * HOUR_MS) };
}
const copper = (value: string) => ({ reading: 'copper', value, form: 'ionic' });

describe('/quarantine log', () => {
  test('says first what was noted and what it changed, and takes exactly that back', async () => {
    const { nell, waits } = await running('copper-ionic');
    waits(1);
    const first = await says(nell, 'log', copper('0.17 mg/L'));
    expect(first.split('\n')[0]).toBe('Copper 0.17 mg/L Cu, ionic: noted.');
    expect(first).toContain('counts from this reading on');
    waits(24);
    expect(await says(nell, 'log', copper('0.18 mg/L'))).toContain('It counts: 1 of 30 days');
    waits(6);
    const low = await says(nell, 'log', copper('0.13 mg/L'));
    expect(low).toContain('Repeat it with the same method');
    expect(await presses(nell, 'Take it back')).not.toContain('Repeat it with the same method');
    expect(await says(nell, 'plan')).toMatch(/Time at the copper level: 1\.\d of 30 days/);
  });

  test('copper of another form is told at once and never counts', async () => {
    const { nell } = await running('copper-ionic');
    const answer = await says(nell, 'log', { reading: 'copper', value: '2 mg/L', form: 'chelated' });
    expect(answer).toContain('goes by ionic copper');
    expect(await says(nell, 'plan')).toMatch(/Time at the copper level: 0 of 30 days/);
  });

  test.each([
    ['copper', '0.7 mg/L copper sulfate', 'Copper 0.7 mg/L CuSO4·5H2O, ionic', '0.178 mg/L copper'],
    ['ammonia', '0.25 ppm NH3', 'Ammonia 0.2056 mg/L NH3-N', 'NH3'],
    ['ammonia', '0.25 mg/L', 'Ammonia 0.25 mg/L NH3-N', 'write NH3 or NH4'],
    ['nitrite', '1 mg/L NO2-N', 'Nitrite 3.284 mg/L NO2', 'NO2-N'],
    ['temperature', '78 F', 'Temperature 25.56 °C', '78'],
  ])('a reading of %s as %s is kept as %s', async (reading, value, kept, understood) => {
    const { nell } = await running('copper-ionic');
    const answer = await says(nell, 'log', { reading, value, ...(reading === 'copper' ? { form: 'ionic' } : {}) });
    expect(answer).toContain(`${kept}: noted.`);
    expect(answer).toContain(understood);
  });

  test('ammonia without pH is taken at its worst, and judged once pH and temperature are there', async () => {
    const { nell } = await running('copper-ionic');
    const unjudged = await says(nell, 'log', { reading: 'ammonia', value: '0.5 mg/L' });
    expect(unjudged).toContain('I lack pH or temperature');
    expect(unjudged).toContain('so that I can judge the ammonia reading');
    await says(nell, 'log', { reading: 'ph', value: '7.6' });
    const judged = await says(nell, 'log', { reading: 'temperature', value: '25 C' });
    expect(judged).not.toContain('I lack');
    expect(judged).not.toContain('Ammonia');
  });

  test('a step can be chosen, is told as late or early, and counts once', async () => {
    const { nell, waits } = await running('tank-transfer');
    waits(64);
    const choices = await nell.autocomplete('quarantine log', [{ name: 'step', value: '' }]);
    expect(JSON.stringify(choices)).toContain('Transfer 1');
    expect(await says(nell, 'log', { step: 'transfers-1' })).toContain('“Transfer 1” counts: 1 of 4.');
    expect(await says(nell, 'log', { happened: 'moved to the next tank' })).toContain('Noted already');
    waits(30);
    expect(await says(nell, 'log', { step: 'transfers-2' })).toContain(
      '30 hours after the one before, too early to count',
    );
    waits(73);
    expect(await says(nell, 'log', { step: 'transfers-2' })).toContain('73 hours after the one before, later than 72');
  });

  test.each([
    ['yesterday 7 pm', 'Before the start'],
    ['in an hour', 'When was that?'],
    ['2027-01-01', 'That lies ahead'],
    ['90 days ago', 'That is long ago'],
  ])('"%s" is answered: %s', async (at, words) => {
    const { nell } = await running('observation');
    expect(await says(nell, 'log', { reading: 'temperature', value: '25 C', at })).toContain(words);
  });

  test('what happened earlier counts from then, on the keeper’s own clock', async () => {
    const { nell, waits } = await running('tank-transfer');
    waits(70);
    // It is 10:00 in Lisbon, two days and 22 hours after the start at noon.
    expect(await says(nell, 'log', { happened: 'moved to the next tank', at: '4:30' })).toContain('counts: 1 of 4');
    const plan = await says(nell, 'plan');
    expect(plan).toMatch(/Transfer 1.*28 November 2026[^\n]* 04:30/);
  });

  test.each([
    [{ reading: 'temperature', value: '78' }, 'Did you mean'],
    [{ reading: 'temperature', value: '180 F' }, 'Allowed'],
    [{ reading: 'salinity', value: '350 ppt' }, 'Allowed'],
    [{ step: 'dance' }, 'I don’t know that step'],
    [{ reading: 'ph', value: '8', happened: 'animal added' }, 'One thing at a time'],
    [{ note: 'ate from the hand' }, 'Your words: noted.'],
  ])('%o is answered kindly', async (given, words) => {
    const { nell } = await running('observation');
    expect(await says(nell, 'log', given as Record<string, string>)).toContain(words);
  });

  test('two deaths in two days stop the ordinary plan', async () => {
    const { nell, waits } = await running('observation');
    waits(1);
    expect(await says(nell, 'log', { happened: 'death, cause unknown' })).not.toContain('Stop the ordinary plan');
    waits(40);
    expect(await says(nell, 'log', { happened: 'death, cause unknown' })).toContain('Stop the ordinary plan');
  });
});
