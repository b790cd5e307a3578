import { writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { knowledge } from '../../set-up-club.ts';
import { dayDone, openActs, openStage, partsOn, unfounded, type Keeper, type Readings } from './play-plan.ts';

const DAY_H = 24;
const WEEK_H = 7 * DAY_H;

type Cast = {
  plan: string;
  option?: string;
  /** What else `/quarantine start` is given. */
  given: Readonly<Record<string, string>>;
  readings: Readings;
  /** Hours between two looks. */
  everyH: number;
  /** Whole days from the yes that the facts ask for at least. */
  leastDays: number;
  /** The day from which it counts as done for a member who looks so often. */
  throughOn: number;
};

const SEA: Readings = {
  temperature: { value: '25 C' },
  ammonia: { value: '0 ppm' },
  salinity: { value: '35 ppt' },
  nitrite: { value: '0 ppm' },
  ph: { value: '8.1' },
};
const at = (value: string): Readings => ({ ...SEA, temperature: { value } });
const copper = (value: string, form: string): Readings => ({ ...SEA, copper: { value, form } });
const LOW: Readings = { ...SEA, salinity: { value: '12 ppt' } };

const CLOWN = { animals: 'two clownfish', fish: 'clownfish' };
const CHROMIS = { animals: 'three chromis', fish: 'chromis' };
const LABELLED = { ...CHROMIS, label: 'chelated 1.5-2.0 mg/L' };
const IONIC = { given: CHROMIS, readings: copper('0.17 mg/L', 'ionic') };
const BOUND = { given: LABELLED, readings: copper('1.8 mg/L', 'chelated') };
const DISPLAY = { plan: 'fishless-display', given: { animals: 'the display' }, everyH: WEEK_H };
const NEW = { animals: 'the new ones' };
const daily = { everyH: DAY_H };
const weekly = { everyH: WEEK_H };
const exactly = (days: number) => ({ leastDays: days, throughOn: days });

// Least days by the works that the entries in knowledge/plans cite. What has no work beside it is common practice, no source.
const CASTS: Cast[] = [
  // 30 clear days: Hadfield & Clayton 2011.
  { plan: 'observation', given: CLOWN, readings: SEA, ...daily, ...exactly(30) },
  // 30 days from the first reading in range.
  { plan: 'copper-ionic', ...IONIC, ...daily, ...exactly(30) },
  { plan: 'copper-bound', ...BOUND, ...daily, ...exactly(30) },
  // 14 days at the level, since parasites leave a fish within 3 to 7 days (Colorni 1985), and 14 clear days in the second tank.
  { plan: 'copper-ionic', option: 'second-tank', ...IONIC, ...daily, ...exactly(28) },
  { plan: 'copper-bound', option: 'second-tank', ...BOUND, ...daily, ...exactly(28) },
  // A log of 72 hours.
  { plan: 'suspected-velvet', given: { animals: 'every fish' }, readings: SEA, everyH: 2, ...exactly(3) },
  // 7 days on the fish and 3 for the last cyst: Colorni 1985. Four transfers as planned take 256 hours.
  { plan: 'tank-transfer', given: CLOWN, readings: SEA, everyH: 16, leastDays: 10, throughOn: 11 },
  // 28 days at the level, 10 for the way up at 2 ppt a day, 14 clear days.
  { plan: 'hyposalinity', given: CLOWN, readings: LOW, ...daily, ...exactly(52) },
  // Four doses 6 days apart at 25 °C, across Hoai & Hutson 2014 and Brazenor & Hutson 2015; 14 clear days.
  { plan: 'praziquantel', given: CLOWN, readings: SEA, ...daily, ...exactly(32) },
  { plan: 'freshwater-dip', given: CLOWN, readings: SEA, ...daily, ...exactly(32) },
  // 14 clear days after the vet's last date, which nobody calls over before the first week is.
  { plan: 'vet-led-bath', given: CLOWN, readings: SEA, ...daily, leastDays: 14, throughOn: 21 },
  // 72 days for the longest cyst, after Colorni & Burgess 1997, and 4.
  { ...DISPLAY, readings: SEA, ...exactly(76) },
  // Shorter where the parasite is named and the water is warm.
  { ...DISPLAY, option: 'white-spot-warm', readings: at('27.5 C'), ...exactly(45) },
  { ...DISPLAY, option: 'velvet', readings: SEA, ...exactly(42) },
  { ...DISPLAY, option: 'flukes', readings: SEA, ...exactly(30) },
  { ...DISPLAY, option: 'brooklynella', readings: SEA, ...exactly(42) },
  // As the display without fish.
  ...['coral-hold', 'invertebrate-hold', 'macroalgae-hold'].flatMap((plan): Cast[] => [
    { plan, given: NEW, readings: SEA, ...weekly, ...exactly(76) },
    { plan, option: 'warm', given: NEW, readings: at('27.5 C'), ...weekly, ...exactly(45) },
  ]),
  { plan: 'macroalgae-hold', option: 'no-holdfast', given: NEW, readings: SEA, ...weekly, ...exactly(28) },
  // One generation: 64 days at 24 °C and 38 at 27 °C, Barton et al. 2019; 46.7 at 26 °C on the line between.
  { plan: 'acropora-flatworm', given: NEW, readings: at('26 C'), ...daily, leastDays: 46, throughOn: 47 },
  // Egg, larva and growth of relatives come to 40 days: Yiu & Qiu 2022, Rudman 1981.
  { plan: 'montipora-nudibranch', given: NEW, readings: SEA, ...daily, ...exactly(42) },
  // Six weeks, because no life cycle is published.
  ...['coral-dip-series', 'zoanthid-pests', 'euphyllia-flatworm'].map((plan): Cast => ({
    plan,
    given: NEW,
    readings: SEA,
    ...weekly,
    ...exactly(42),
  })),
  { plan: 'clam-watch', given: NEW, readings: SEA, ...daily, ...exactly(42) },
  // Four weeks from the last sighting.
  { plan: 'red-bugs', given: NEW, readings: SEA, ...weekly, ...exactly(28) },
  { plan: 'aiptasia-watch', given: NEW, readings: SEA, ...weekly, ...exactly(28) },
];

/** Played through discord.js as members see it. */
const IN_THE_ROOM = new Set(['tank-transfer', 'aiptasia-watch']);

/** The whole plan says of every date why it is that date and how far that can be trusted. */
async function isFounded(keeper: Keeper): Promise<void> {
  await keeper.says('plan');
  expect(partsOn(keeper.marked)).toBeGreaterThan(0);
  expect(unfounded(keeper.marked)).toEqual([]);
}

test('all plans and all their options are played here', () => {
  const offered = [...knowledge().plans.values()].flatMap(({ id, options }) =>
    options.length === 0 ? [id] : options.map((option, index) => (index === 0 ? id : `${id} ${option.id}`)),
  );
  const played = CASTS.map(({ plan, option }) => (option ? `${plan} ${option}` : plan));
  expect(played.toSorted()).toEqual(offered.toSorted());
});

test.each(CASTS)(
  '$plan $option: who does what the replies say is through on day $throughOn',
  { timeout: 120_000 },
  async ({ plan, option, given, readings, everyH, leastDays, throughOn }) => {
    // Two of them with the whole bot between, the others with the acts alone.
    const { member, clock } = IN_THE_ROOM.has(plan) ? await openStage() : openActs();
    const nell = member();
    await nell.begins({ ...given, plan, ...(option ? { option } : {}) });
    const begun = clock.now();
    await nell.looks(readings);
    await isFounded(nell);
    const half = Math.floor((leastDays * DAY_H) / 2 / everyH);
    const asked: string[] = [];
    for (let looks = 1; !nell.isDone; looks += 1) {
      const did = await nell.waits(everyH, readings);
      asked.push(`hour ${nell.hour}: ${did.map(({ title, late }) => `${title}${late ? ' (late)' : ''}`).join(', ')}`);
      if (nell.hour > (throughOn + 15) * DAY_H) throw new Error(`never through:\n${asked.join('\n')}\n${nell.reads}`);
      if (looks !== half) continue;
      await isFounded(nell);
      await nell.says('today');
    }
    const done = dayDone(nell.reads, begun);
    await isFounded(nell);
    expect(nell.hour / DAY_H).toBeGreaterThanOrEqual(leastDays);
    expect(done).toBeGreaterThanOrEqual(leastDays);
    expect(done).toBe(throughOn);
    // Who looks every day is late with nothing but what is due twice a day: salinity on its way up.
    const late = asked.join('\n').replaceAll('Measure salinity (late)', '');
    if (everyH === DAY_H) expect(late).not.toContain('(late)');
    const finished = await nell.says('finish');
    expect(finished).toContain('finished');
    // Where another plan has to follow, nobody is sent to the display.
    const next = knowledge().plans.get(knowledge().plans.get(plan)?.then ?? '');
    expect(finished.includes('may move')).toBe(next === undefined && plan !== 'fishless-display');
    if (next) expect(finished).toContain(`${next.name} follows`);
    expect(await nell.says('list')).toContain('You have none running');
  },
);

const READ_ALOUD = process.env['PLANS_TO_READ'];

test.runIf(READ_ALOUD)('every plan as it is printed at its start, into the file that PLANS_TO_READ names', async () => {
  const { member } = openActs();
  const printed: string[] = [];
  for (const { plan, option, given } of CASTS) {
    const nell = member();
    const asked = await nell.begins({ ...given, plan, ...(option ? { option } : {}) });
    printed.push(`=== ${plan} ${option ?? ''}`, asked, nell.reads, await nell.says('today'), await nell.says('plan'));
    expect(unfounded(nell.marked)).toEqual([]);
  }
  writeFileSync(READ_ALOUD ?? '', `${printed.join('\n\n')}\n`);
});
