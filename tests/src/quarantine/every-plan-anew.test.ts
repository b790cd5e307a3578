import { describe, expect, test } from 'vitest';
import { countedOf, dateAfter, dayDone, HOUR_MS, OPENED, openActs, type Keeper, type Readings } from './play-plan.ts';

const SEA: Readings = {
  temperature: { value: '25 C' },
  ammonia: { value: '0 ppm' },
  salinity: { value: '35 ppt' },
  nitrite: { value: '0 ppm' },
  ph: { value: '8.1' },
};

async function begun(given: Readonly<Record<string, string>>) {
  const stage = openActs();
  const nell = stage.member();
  await nell.begins(given);
  return { stage, nell };
}

/** Looks once a day and does what is due. */
async function days(nell: Keeper, count: number, readings: Readings) {
  for (let day = 0; day < count; day += 1) await nell.waits(24, readings);
}

describe('tank transfer', { timeout: 60_000 }, () => {
  const plan = { animals: 'a clownfish', plan: 'tank-transfer', fish: 'clownfish' };

  test('72 hours after the one before still counts', async () => {
    const { nell } = await begun(plan);
    await nell.waits(71.9, { ...SEA });
    expect(await nell.says('plan')).toMatch(/Transfer 1 of 4: done/);
  });

  test('later than that, the count begins again with this one as the start', async () => {
    const { nell, stage } = await begun(plan);
    await nell.waits(64, SEA);
    stage.clock.advance(73 * HOUR_MS);
    expect(await nell.says('today')).toMatch(/Transfer 2 \(overdue/);
    const late = stage.clock.now();
    const says = await nell.presses('Done: Transfer 2');
    expect(says).toContain('later than 72');
    const whole = await nell.says('plan');
    expect(whole).not.toMatch(/Transfer \d of \d: done/);
    // Within the minute that the printed date leaves out.
    expect(
      dateAfter('Transfer 1 of 4: to come, planned', whole).getTime() - late.getTime() - 64 * HOUR_MS,
    ).toBeLessThan(60_000);
    await nell.says('today');
    while (!nell.isDone) await nell.waits(16, SEA);
    // Four more 64 hours apart, and never less than 240 hours from the late one.
    expect(nell.hour).toBe(64 + 73 + 4 * 64);
  });

  test('who moves them as soon as it is offered moves them five times', async () => {
    const { nell } = await begun(plan);
    while (!nell.isDone) await nell.waits(8, SEA);
    // Four times 56 hours are 224, and 240 are needed: Colorni 1985, 7 days on the fish and 3 in the cyst.
    expect(nell.hour).toBe(5 * 56);
  });
});

describe('copper', { timeout: 60_000 }, () => {
  const LEVEL = 'Time at the copper level';
  const good: Readings = { ...SEA, copper: { value: '0.17 mg/L', form: 'ionic' } };
  const copper = (nell: Keeper, value: string) => nell.says('log', { reading: 'copper', value, form: 'ionic' });

  test('one low reading with a good repeat keeps the count, two low ones begin it anew', async () => {
    const { nell, stage } = await begun({ animals: 'three chromis', plan: 'copper-ionic', fish: 'chromis' });
    await nell.looks(good);
    await days(nell, 5, good);
    expect(countedOf(LEVEL, await nell.says('plan'))).toBeGreaterThanOrEqual(4.9);

    await copper(nell, '0.13 mg/L');
    stage.clock.advance(HOUR_MS);
    expect(await nell.says('today')).toMatch(
      /Measure copper \(.*Repeat it with the same method before you change anything/,
    );
    await copper(nell, '0.16 mg/L');
    expect(countedOf(LEVEL, await nell.says('plan'))).toBeGreaterThanOrEqual(4.9);

    await days(nell, 1, good);
    await copper(nell, '0.13 mg/L');
    stage.clock.advance(HOUR_MS);
    await copper(nell, '0.14 mg/L');
    const anew = await nell.says('plan');
    expect(countedOf(LEVEL, anew)).toBe(0);
    expect(anew).toContain('Began anew');
    const restarted = nell.hour;
    await nell.looks(good);
    while (!nell.isDone) await nell.waits(24, good);
    expect(nell.hour - restarted).toBeGreaterThanOrEqual(30 * 24);
  });
});

describe('praziquantel', () => {
  const prazi = { animals: 'a clownfish', plan: 'praziquantel', fish: 'clownfish' };
  const at = (celsius: number): Readings => ({ ...SEA, temperature: { value: `${celsius} C` } });

  // Gap between any two doses in days, computed across Hoai & Hutson 2014, Bondad-Reantaso et al. 1995 and Brazenor & Hutson 2015.
  test.each([
    [22, 6, 8],
    [25, 6, 7],
    [28, 5, 6],
    [30, 4, 5],
  ])('at %d °C the next dose is printed for day %d, at the latest day %d', async (celsius, first, last) => {
    const { nell, stage } = await begun(prazi);
    await nell.looks(at(celsius));
    const given = stage.clock.now().getTime();
    const whole = await nell.says('plan');
    expect(whole).toMatch(/Dose 1 of 4: done/);
    const line = whole.split('\n').find((each) => /Dose 2 of 4/.test(each)) ?? '';
    expect(Math.round((dateAfter('planned', line).getTime() - given) / HOUR_MS)).toBe(first * 24);
    expect(Math.round((dateAfter('at the latest', line).getTime() - given) / HOUR_MS)).toBe(last * 24);
  });

  test('at 15 °C it says in words that there is no data, and gives no date', async () => {
    const { nell } = await begun(prazi);
    await nell.looks(at(15));
    const today = await nell.says('today');
    expect(today).toContain('No end can be given');
    expect(today).not.toContain('Earliest end');
    expect(await nell.says('plan')).not.toMatch(/Dose \d of \d/);
    await days(nell, 3, at(15));
    expect(await nell.says('today')).not.toContain('Earliest end');
  });
});

describe('observation', { timeout: 60_000 }, () => {
  const CLEAR = 'Days without a sign';
  test.each([
    ['animal added', 'an animal was added'],
    ['death, cause unknown', 'an animal died of a cause nobody knows'],
    ['water or wet tools shared', 'water or a wet tool came from another tank'],
  ])('%s on day 4 begins the 30 days anew', async (happened, words) => {
    const { nell } = await begun({ animals: 'two clownfish', plan: 'observation', fish: 'clownfish' });
    await days(nell, 4, SEA);
    expect(countedOf(CLEAR, await nell.says('plan'))).toBe(4);
    await nell.says('log', { happened });
    const anew = await nell.says('plan');
    expect(countedOf(CLEAR, anew)).toBe(0);
    expect(anew).toContain(words);
    // 30 clear days from the day after the 29th of November.
    expect(anew).toMatch(/Days without a sign: 0 of 30 days counted; earliest end 29 December 2026/);
  });

  test('a death whose cause is known leaves the count', async () => {
    const { nell } = await begun({ animals: 'two clownfish', plan: 'observation', fish: 'clownfish' });
    await days(nell, 4, SEA);
    await nell.says('log', { happened: 'death, cause known' });
    expect(countedOf(CLEAR, await nell.says('plan'))).toBe(4);
  });
});

describe('hyposalinity', { timeout: 60_000 }, () => {
  const LOW = 'Time at low salinity';
  const low: Readings = { ...SEA, salinity: { value: '12 ppt' } };
  async function fourDays() {
    const { nell } = await begun({ animals: 'a clownfish', plan: 'hyposalinity', fish: 'clownfish' });
    await nell.looks(low);
    await days(nell, 4, low);
    return nell;
  }
  const salty = (value: string): Readings => ({ ...SEA, salinity: { value } });

  // Above 13 it is corrected, above 14 it pauses, above 15 it begins anew; the ceiling of 16 ppt is Cheung et al. 1979.
  test.each([
    ['13.8 ppt', 6],
    ['14.5 ppt', 4],
    ['15.4 ppt', 1],
  ])('one reading of %s after four days, and two days later %d are counted', async (value, counted) => {
    const nell = await fourDays();
    await nell.waits(24, salty(value));
    await nell.waits(24, low);
    const whole = await nell.says('plan');
    // The reading of the day after it begins the count again, so a day later one is counted.
    if (counted === 1) {
      expect(countedOf(LOW, whole)).toBe(0);
      expect(whole).toContain('Began anew');
      await nell.waits(24, low);
      expect(countedOf(LOW, await nell.says('plan'))).toBeCloseTo(1, 1);
    } else expect(countedOf(LOW, whole)).toBeCloseTo(counted, 0);
  });
});

describe('acropora flatworm', { timeout: 60_000 }, () => {
  const REST = 'Time since the last pest or egg';
  const needed = (says: string) => Number(new RegExp(`${REST}: [\\d.]+ of ([\\d.]+) days`).exec(says)?.[1]);

  // One generation, Barton et al. 2019: 64 days at 24 °C, 38 at 27 °C.
  test.each([
    ['27 C', 38],
    ['24 C', 64],
  ])('at %s the dips go on for %d days', async (value, least) => {
    const { nell } = await begun({ animals: 'an Acropora', plan: 'acropora-flatworm' });
    const readings = { ...SEA, temperature: { value } };
    await nell.looks(readings);
    expect(needed(await nell.says('plan'))).toBe(least);
    await nell.says('today');
    while (!nell.isDone) await nell.waits(7 * 24, readings);
    expect(dayDone(nell.reads, OPENED)).toBe(least);
  });

  test('at 22 °C nobody has studied it, and there is no end', async () => {
    const { nell } = await begun({ animals: 'an Acropora', plan: 'acropora-flatworm' });
    await nell.looks({ ...SEA, temperature: { value: '22 C' } });
    expect(await nell.says('today')).toContain('No end can be given: nobody has studied');
  });

  test('a worm on day 21 asks for the whole time again', async () => {
    const { nell } = await begun({ animals: 'an Acropora', plan: 'acropora-flatworm' });
    const readings = { ...SEA, temperature: { value: '27 C' } };
    await nell.looks(readings);
    for (let weeks = 0; weeks < 3; weeks += 1) await nell.waits(7 * 24, readings);
    await nell.says('log', { happened: 'a pest, worm or its eggs seen' });
    await nell.looks(readings);
    while (!nell.isDone) await nell.waits(7 * 24, readings);
    expect(dayDone(nell.reads, OPENED)).toBe(21 + 38);
  });
});

test('an option that needs warm water does not count in cooler water, and the answers say so', async () => {
  const { nell } = await begun({ animals: 'the display', plan: 'fishless-display', option: 'white-spot-warm' });
  const counts = '“76 days, for anything” counts, not “White spot alone, warm: 45 days”, as things stand.';
  expect(await nell.says('today')).toContain(`${counts} It needs the temperature noted, and 27 °C or more.`);
  await nell.looks({ ...SEA, temperature: { value: '27.5 C' } });
  expect(await nell.says('plan')).toMatch(/Time without fish: 0 of 45 days counted/);
  expect(nell.reads).not.toContain('as things stand');
  await nell.says('log', { reading: 'temperature', value: '26.4 C' });
  expect(await nell.says('plan')).toContain(counts);
});
