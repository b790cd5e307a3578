import { describe, expect, test } from 'vitest';
import { titleOf } from '../../set-up-club.ts';
import { labels, openTankClub, press, tank } from './tank-room.ts';

const DAY_MS = 86_400_000;

describe('a keeper’s weeks', () => {
  test('from the first reading to what the tank uses, through a restart, and back by undo', async () => {
    const club = await openTankClub();
    const { ana, room } = club;
    const kept = await tank(ana, 'add', { name: 'Reef', volume: '200 L', salinity: '35 ppt', temperature: '78F' });
    expect(titleOf(kept)).toBe('Reef is kept');
    expect(kept.text).toContain('200 L');
    expect(kept.text).toContain('25.6 °C');
    expect(kept.text).toContain('Seen by you alone');

    const first = await tank(ana, 'reading', { parameter: 'alkalinity', value: '8.6' });
    expect(first.text).toContain('One reading is not enough');
    expect(first.text).toContain('no unit given, taken as dKH');
    room.clock.advance(3 * DAY_MS);
    // dosing-worked.csv, W-55: 8.6 to 7.7 in three days is 0.3 a day.
    const second = await tank(ana, 'reading', { parameter: 'alk', value: '7.7 dkh', 'kit-error': '±0.1 dKH' });
    expect(second.text).toMatch(/Uses about 0\.30 dKH a day \(95 %: 0\.13 to 0\.47 dKH\), from 2 readings over 3 days/);
    await club.restart();
    const dose = await tank(ana, 'dosed', { what: 'baking soda', amount: '9 g' });
    expect(dose.text).toContain('Alkalinity rises by 1.5 dKH in 200 L');
    expect(dose.text).toContain('That was fast');
    room.clock.advance(DAY_MS);
    await tank(ana, 'water-change', { amount: '10 %', alkalinity: '8.9' });
    room.clock.advance(2 * DAY_MS);
    const third = await tank(ana, 'reading', { parameter: 'alkalinity', value: '8.3', kit: 'drops' });
    expect(third.text).toContain('measured with drops');
    expect(third.text).toContain('reckoning with 1 dose of 1.5 dKH in all by the volume kept here and 1 water change');

    const show = await tank(ana, 'show');
    expect(show.text).toMatch(/Alkalinity 8\.3 dKH/);
    expect(show.text).toContain('Next test');
    for (const back of [
      'The reading',
      'The water change',
      'The dose',
      'The reading',
      'The reading',
      'The tank you added',
    ])
      expect(titleOf(await tank(ana, 'undo'))).toContain(back);
    expect(titleOf(await tank(ana, 'undo'))).toBe('Nothing to take back');
    expect(titleOf(await tank(ana, 'show'))).toBe('You have no tank here yet');
  });

  test('a chart comes with its words, and its button outlives a restart', async () => {
    const club = await openTankClub();
    const { ana } = club;
    await tank(ana, 'add', { name: 'Reef', volume: '200' });
    for (const [value, when] of [
      ['9', '8 days ago'],
      ['8', '6 days ago'],
      ['7', '4 days ago'],
      ['6.5', '3 days ago'],
    ])
      await tank(ana, 'reading', { parameter: 'alkalinity', value: value!, when: when! });
    await club.restart();
    const chart = await press(ana, 'Chart');
    expect(chart.text).toMatch(/Uses about 0\.50 dKH a day/);
    expect(chart.images).toHaveLength(1);
    expect(chart.images[0]!.bytes).toBeGreaterThan(5_000);
    expect(chart.images[0]!.alt).toMatch(/Chart of Reef: Alkalinity in dKH: 4 readings/);
    const typed = await tank(ana, 'chart', { parameter: 'alkalinity' });
    expect(typed.text).toBe(chart.text);
    expect((await tank(ana, 'chart', { parameter: 'calcium' })).text).toContain('No reading of calcium yet');
  });

  test('units are those of the club, then of the tank', async () => {
    const { ana, olu } = await openTankClub();
    await olu.slash('club settings', [
      { name: 'volume-unit', value: 'US gal' },
      { name: 'alkalinity-unit', value: 'meq/L' },
      { name: 'salinity-unit', value: 'SG' },
    ]);
    const kept = await tank(ana, 'add', { name: 'Reef', volume: '80', salinity: '1.0264', 'temperature-unit': '°F' });
    expect(kept.text).toContain('80 US gal');
    expect(kept.text).toContain('Units US gal, °F, meq/L, SG');
    expect((await tank(ana, 'reading', { parameter: 'alkalinity', value: '2.8' })).text).toContain('2.80 meq/L');
    const edited = await tank(ana, 'edit', { 'volume-unit': 'L', 'alkalinity-unit': 'dKH' });
    expect(edited.text).toContain('303 L');
    expect((await tank(ana, 'show')).text).toContain('7.9 dKH');
  });
});

describe('a reading outside the limits', () => {
  test('is urgent only where it is, with the standing of the limit; calcium waits for salinity', async () => {
    const { ana, room } = await openTankClub();
    await tank(ana, 'add', { name: 'Reef', volume: '200 L' });
    const read = (parameter: string, value: string) => tank(ana, 'reading', { parameter, value });
    const toneOf = () => room.world.messages.all().at(-1)!;
    const urgent = await read('alkalinity', '4.5');
    expect(urgent.text).toContain('Urgent: below 5.0 dKH.');
    expect(urgent.text).toContain('common practice, no source');
    expect(JSON.stringify(toneOf())).toContain(String(0xa8323a));
    const outside = await read('alkalinity', '12.5');
    expect(outside.text).toContain('Outside the limits: above 12.0 dKH.');
    expect(outside.text).not.toContain('Urgent');
    expect(JSON.stringify(toneOf())).not.toContain(String(0xa8323a));
    expect((await read('calcium', '400')).text).toContain('Measure salinity too');
    await read('salinity', '31');
    // 400 × 35 / 31 = 451.6
    expect((await read('calcium', '400')).text).toMatch(/Correct salinity first.*31\.0 ppt.*this would be 452 mg\/L/);
    await read('salinity', '35');
    expect((await read('calcium', '400')).text).not.toContain('salinity');
  });

  test('copper needs its form and a quarantine tank', async () => {
    const { ana } = await openTankClub();
    await tank(ana, 'add', { name: 'Reef', volume: '200 L' });
    expect(titleOf(await tank(ana, 'reading', { parameter: 'copper', value: '0.2' }))).toBe('Which form?');
    const refused = await tank(ana, 'reading', { parameter: 'copper-ionic', value: '0.2' });
    expect(refused.text).toContain('belongs into a quarantine tank');
    await tank(ana, 'edit', { purpose: 'quarantine' });
    const urgent = await tank(ana, 'reading', { parameter: 'copper-ionic', value: '0.3' });
    expect(urgent.text).toContain('Urgent: above 0.25 mg/L');
    expect(urgent.text).toContain('Dilute now');
  });
});

describe('correcting and deleting', () => {
  test('by the list of the log, with undo, through a restart', async () => {
    const club = await openTankClub();
    const { ana } = club;
    await tank(ana, 'add', { name: 'Reef', volume: '200 L' });
    await tank(ana, 'reading', { parameter: 'alkalinity', value: '18.2', when: 'yesterday' });
    await tank(ana, 'log');
    await club.restart();
    const choose = async (label: string) => {
      const { replies, error } = await ana.choose('Correct or delete one', [label]);
      expect(error).toBeUndefined();
      return replies[0]!;
    };
    expect(labels(await choose('Alkalinity 18.2 dKH'))).toEqual(['Correct', 'Delete']);
    expect((await ana.press('Correct')).modal?.inputs.map(({ label }) => label)).toHaveLength(2);
    const wrong = await ana.fill({ 'What you read': 'eight' });
    expect(wrong.replies[0]!.text).toContain('I found no number');
    await ana.press('Correct');
    const { replies } = await ana.fill({ 'What you read': '8.2 dKH', 'When, if that was wrong too': '2 days ago' });
    expect(replies[0]!.text).toContain('Corrected for');
    expect((await tank(ana, 'show')).text).toContain('8.2 dKH');
    await tank(ana, 'log');
    await choose('Alkalinity 8.2 dKH');
    expect(titleOf(await press(ana, 'Delete'))).toBe('Deleted: Alkalinity 8.2 dKH');
    expect((await tank(ana, 'show')).text).toContain('No reading yet');
    expect(titleOf(await tank(ana, 'undo'))).toBe('The entry is back in the log');
    expect(titleOf(await tank(ana, 'undo'))).toContain('before you corrected it');
    expect((await tank(ana, 'show')).text).toContain('18.2 dKH');
  });

  test('removing asks once more; the button that took it back works once', async () => {
    const { ana } = await openTankClub();
    await tank(ana, 'add', { name: 'Reef', volume: '200 L' });
    await tank(ana, 'reading', { parameter: 'nitrate', value: '5' });
    const asked = await tank(ana, 'remove');
    expect(titleOf(asked)).toBe('Remove Reef?');
    expect((await tank(ana, 'list')).text).toContain('Reef');
    await tank(ana, 'remove');
    await press(ana, 'Remove Reef');
    expect(titleOf(await tank(ana, 'list'))).toBe('You have no tank here yet');
    await press(ana, 'Undo');
    expect((await tank(ana, 'show')).text).toContain('Nitrate 5 mg/L');
    expect(titleOf(await tank(ana, 'add', { name: 'REEF', volume: '1 L' }))).toBe('You have a tank of that name');
  });
});
