import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import { longestDays, shortestDays, type StageDays } from '../../../src/quarantine/life-cycle-days.ts';
import {
  DOSE_GRACE_H,
  PRAZIQUANTEL_CURVES,
  praziquantelTable,
  praziquantelWindows,
  STANDARD_DOSES,
  type FlukeCurves,
  type TankSpan,
} from '../../../src/quarantine/praziquantel-windows.ts';
import { numberIn, readReference, textIn } from '../../reference/read-csv.ts';

const { knowledge } = loadKnowledge('knowledge');
function lifeCycle(id: string) {
  const found = knowledge.lifeCycles.find((each) => each.id === id);
  if (!found) throw new Error(`no life cycle ${id}`);
  return found;
}
const curves: FlukeCurves = {
  maturity: lifeCycle(PRAZIQUANTEL_CURVES.maturity),
  lastHatch: lifeCycle(PRAZIQUANTEL_CURVES.lastHatch),
};

function windowsOf(span: TankSpan, from = curves) {
  const windows = praziquantelWindows(from, span);
  if (windows.kind === 'no-data') throw new Error(`no data at ${windows.temperatureC} °C`);
  return windows;
}
const steady = (temperatureC: number) => windowsOf({ coldestC: temperatureC, warmestC: temperatureC });
const told = (got: StageDays) => {
  if (got.kind === 'no-data') throw new Error(`no data at ${got.temperatureC} °C`);
  return got.days;
};
const TENTHS = Array.from({ length: 101 }, (_, index) => (220 + index) / 10);

/** What is wrong with the windows of steady tanks, looked at from the coldest to the warmest; written apart from the generator. */
function faultsOf(windows: (temperatureC: number) => ReturnType<typeof windowsOf>, from = curves): string[] {
  return TENTHS.flatMap((temperatureC, index) => {
    const { doses, gap } = windows(temperatureC);
    const before = index === 0 ? undefined : windows(TENTHS[index - 1] ?? 0);
    const last = doses.at(-1);
    return [
      gap.latestDays >= lineAt(from.maturity, 'lowDays', temperatureC) && 'eggs may be laid between two doses',
      (last?.earliestDay ?? 0) < lineAt(from.lastHatch, 'highDays', temperatureC) + 1 && 'the last dose is too soon',
      (gap.earliestDays < 1 || gap.earliestDays > gap.latestDays) && 'an empty gap',
      doses.some((dose, at) => at > 0 && (dose.earliestDay < 1 || dose.earliestDay > dose.latestDay)) &&
        'an empty window',
      before && doses.some((dose, at) => dose.latestDay > (before.doses[at]?.latestDay ?? 0)) && 'later when warmer',
      before &&
        doses.some((dose, at) => dose.earliestDay > (before.doses[at]?.earliestDay ?? 0)) &&
        'begins later when warmer',
    ].flatMap((fault) => (fault ? [`${temperatureC} °C: ${fault}`] : []));
  });
}

/** The plain line between published figures, counted here again. */
function lineAt({ rows }: FlukeCurves['maturity'], end: 'lowDays' | 'highDays', temperatureC: number): number {
  const points = rows
    .map((row) => ({ t: row.temperatureC ?? Number.NaN, days: row[end] ?? Number.NaN }))
    .sort((a, b) => a.t - b.t);
  const above = points.findIndex(({ t }) => t >= temperatureC);
  const [low, high] = [points[Math.max(0, above - 1)], points[above]];
  if (!low || !high) throw new Error(`${temperatureC} °C lies outside`);
  return high.t === low.t ? high.days : low.days + ((temperatureC - low.t) / (high.t - low.t)) * (high.days - low.days);
}

describe('the table', () => {
  // Origin: common practice, computed across studies (Hoai & Hutson 2014; Bondad-Reantaso et al. 1995; Brazenor & Hutson 2015) and
  // put down before this program was written. Columns: from °C, to °C, then gap, dose 2, dose 3 and dose 4 in days.
  const EXPECTED = [
    [22, 24, '6-8', '6-8', '12-16', '18-24'],
    [25, 25, '6-7', '6-7', '12-14', '18-21'],
    [26, 28, '5-6', '5-6', '10-12', '15-18'],
    [29, 31, '4-5', '4-5', '8-10', '12-15'],
    [32, 32, '4-4', '4-4', '8-8', '12-12'],
  ];
  test('is the one in use', () => {
    const got = praziquantelTable(curves).map(({ fromC, toC, gap, doses }) => [
      fromC,
      toC,
      `${gap.earliestDays}-${gap.latestDays}`,
      ...doses.slice(1).map(({ earliestDay, latestDay }) => `${earliestDay}-${latestDay}`),
    ]);
    expect(got).toEqual(EXPECTED);
  });
  test('gives the days of the list, dose by dose', () => {
    const listed = readReference('life-cycles').filter((row) =>
      /neobenedenia-praziquantel-dose/.test(textIn(row, 'entry')),
    );
    expect(listed).toHaveLength(24);
    for (const row of listed) {
      const dose = steady(numberIn(row, 'temperature_C')).doses[Number(textIn(row, 'entry').at(-1)) - 1];
      const [earliestDay, latestDay] = [numberIn(row, 'duration_low_days'), numberIn(row, 'duration_high_days')];
      expect(dose).toMatchObject({ earliestDay, latestDay });
    }
  });
  test.each([2, 3, 4])('the entry for dose %d reads as the generated days do, at every 0.1 °C', (dose) => {
    const entry = lifeCycle(`neobenedenia-praziquantel-dose-${dose}`);
    for (const temperatureC of TENTHS) {
      const window = steady(temperatureC).doses[dose - 1];
      expect(told(shortestDays(entry, temperatureC)), `latest at ${temperatureC}`).toBe(window?.latestDay);
      expect(told(longestDays(entry, temperatureC)), `earliest at ${temperatureC}`).toBe(window?.earliestDay);
    }
  });
});

describe('both conditions', () => {
  test('hold at every 0.1 °C from 22.0 to 32.0, no window is empty, none moves later as it gets warmer', () => {
    expect(TENTHS).toHaveLength(101);
    expect([TENTHS[0], TENTHS.at(-1)]).toEqual([22, 32]);
    expect(faultsOf(steady)).toEqual([]);
  });
  test('hold with the grace as well, and with a thermometer that reads 0.5 °C too low', () => {
    for (const temperatureC of TENTHS) {
      const { gap } = steady(temperatureC);
      expect(gap.latestDays + DOSE_GRACE_H / 24).toBeLessThan(lineAt(curves.maturity, 'lowDays', temperatureC));
      const warmer = Math.min(32, temperatureC + 0.5);
      expect(gap.latestDays).toBeLessThan(lineAt(curves.maturity, 'lowDays', warmer));
    }
  });
  test('a day more, a day less, an empty or a rising window would be noticed', () => {
    const spoilt = (from: number, earlier: number, later: number) => (temperatureC: number) => {
      const windows = steady(temperatureC);
      if (temperatureC < from) return windows;
      const earliestDays = windows.gap.earliestDays + earlier;
      const latestDays = windows.gap.latestDays + later;
      const doses = windows.doses.map(({ dose }) => ({
        dose,
        earliestDay: (dose - 1) * earliestDays,
        latestDay: (dose - 1) * latestDays,
      }));
      return { ...windows, gap: { earliestDays, latestDays }, doses };
    };
    expect(faultsOf(steady)).toEqual([]);
    expect(faultsOf(spoilt(22, 0, 1))).toContain('24 °C: eggs may be laid between two doses');
    expect(faultsOf(spoilt(22, -1, 0))).toContain('22 °C: the last dose is too soon');
    expect(faultsOf(spoilt(22, 3, 0))).toContain('22 °C: an empty window');
    expect(faultsOf(spoilt(23, 0, 1))).toContain('23 °C: later when warmer');
    expect(faultsOf(spoilt(30, 1, 0))).toContain('30 °C: begins later when warmer');
  });
});

describe('a tank that is not steady', () => {
  test('the latest day follows the warmest reading, the earliest the coldest', () => {
    const { gap, swungTooFar } = windowsOf({ coldestC: 25.6, warmestC: 26.4 });
    expect(gap).toEqual({ earliestDays: 6, latestDays: 6 });
    expect(swungTooFar).toBe(false);
  });
  test('where the two cross the latest wins, and it is said', () => {
    const windows = windowsOf({ coldestC: 24, warmestC: 29 });
    expect(windows).toMatchObject({ gap: { earliestDays: 5, latestDays: 5 }, swungTooFar: true, extraDoses: 0 });
    expect(windows.doses.at(-1)).toEqual({ dose: 4, earliestDay: 15, latestDay: 15 });
  });
  test('one more dose where the last would fall before the last hatch', () => {
    // Last hatch 16 days at 22 °C: the fourth dose on day 15 is too soon, and so is a fifth on day 16 with gaps of four.
    const cool = windowsOf({ coldestC: 22, warmestC: 29 });
    expect([cool.gap.latestDays, cool.extraDoses, cool.doses.at(-1)?.earliestDay]).toEqual([5, 1, 20]);
    const wide = windowsOf({ coldestC: 22, warmestC: 32 });
    expect([wide.gap.latestDays, wide.extraDoses, wide.doses.at(-1)?.earliestDay]).toEqual([4, 2, 20]);
  });
  const span = fc
    .tuple(fc.constantFrom(...TENTHS), fc.constantFrom(...TENTHS))
    .map(([a, b]) => ({ coldestC: Math.min(a, b), warmestC: Math.max(a, b) }));
  test('both conditions hold for every pair of readings, and no dose is given in vain', () => {
    fc.assert(
      fc.property(span, (tank) => {
        const { gap, doses, extraDoses } = windowsOf(tank);
        const hatched = lineAt(curves.lastHatch, 'highDays', tank.coldestC) + 1;
        expect(gap.latestDays).toBeLessThan(lineAt(curves.maturity, 'lowDays', tank.warmestC));
        expect(gap.earliestDays).toBeGreaterThanOrEqual(1);
        expect(gap.earliestDays).toBeLessThanOrEqual(gap.latestDays);
        expect(doses.at(-1)?.earliestDay).toBeGreaterThanOrEqual(hatched);
        expect(doses).toHaveLength(STANDARD_DOSES + extraDoses);
        if (extraDoses > 0)
          expect(doses.at(-2)?.earliestDay).toBeLessThan(told(longestDays(curves.lastHatch, tank.coldestC)) + 1);
      }),
      { numRuns: 2000 },
    );
  });
  test('a warmer reading never moves a latest day back, a colder one never brings an earliest gap forward', () => {
    fc.assert(
      fc.property(span, fc.constantFrom(...TENTHS), (tank, other) => {
        const [before, after] = [windowsOf(tank), windowsOf({ ...tank, warmestC: Math.max(tank.warmestC, other) })];
        expect(after.gap.latestDays).toBeLessThanOrEqual(before.gap.latestDays);
        const colder = windowsOf({ ...tank, coldestC: Math.min(tank.coldestC, other) });
        expect(colder.gap.latestDays).toBe(before.gap.latestDays);
        expect(colder.gap.earliestDays).toBeGreaterThanOrEqual(before.gap.earliestDays);
        expect(colder.doses.length).toBeGreaterThanOrEqual(before.doses.length);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('what is said of it', () => {
  test.each([15, 21.9, 32.1, 35])('%d °C gives no data, as coldest and as warmest', (temperatureC) => {
    const noData = { kind: 'no-data', studied: [22, 32], temperatureC };
    const span = { coldestC: Math.min(25, temperatureC), warmestC: Math.max(25, temperatureC) };
    expect(praziquantelWindows(curves, span)).toEqual(noData);
    expect(praziquantelWindows(curves, { coldestC: temperatureC, warmestC: temperatureC })).toEqual(noData);
  });
  test('the figures it rests on are told, as common practice', () => {
    const { maturity, lastHatch } = windowsOf({ coldestC: 24, warmestC: 25 });
    expect([maturity.days, lastHatch.days]).toEqual([8, 14]);
    expect([maturity.standing, lastHatch.standing]).toEqual(['common-practice', 'common-practice']);
  });
  test('readings in the wrong order are a mistake, and so is a curve that leaves no day', () => {
    expect(() => praziquantelWindows(curves, { coldestC: 26, warmestC: 25 })).toThrow(RangeError);
    const maturity = { ...curves.maturity, rows: curves.maturity.rows.map((row) => ({ ...row, lowDays: 1 })) };
    expect(() => praziquantelWindows({ ...curves, maturity }, { coldestC: 25, warmestC: 25 })).toThrow(RangeError);
  });
});
