import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dailyLight, equivalentHours, parForDailyLight, type LightDay } from '../../shared/daily-light.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

const steady = (hours: number, up = 0, down = 0): LightDay => ({
  kind: 'plateau',
  plateauH: hours,
  rampUpH: up,
  rampDownH: down,
});

describe('worked cases', () => {
  test.each(workedCases('dli'))('$id $output', (row) => {
    const day = steady(row.number('plateau_h'), row.number('ramp_up_h'), row.number('ramp_down_h'));
    const got = told(dailyLight({ parUmol: row.number('plateau_PAR_umol_m2_s'), day }), 'daily-light');
    expectPass(row, got.dailyLightMol);
  });

  test.each(workedCases('dli_half_sine'))('$id $output', (row) => {
    const day: LightDay = { kind: 'half-sine', dayLengthH: row.number('daylength_h') };
    expectPass(row, told(dailyLight({ parUmol: row.number('peak_PAR_umol_m2_s'), day }), 'daily-light').dailyLightMol);
  });

  test.each(workedCases('par_for_dli'))('$id $output', (row) => {
    const day = steady(row.number('photoperiod_h'));
    expectPass(row, told(parForDailyLight({ dailyLightMol: row.number('DLI_mol_m2_day'), day }), 'par').parUmol);
  });
});

/** The brightness of a day at an hour, as a share of the brightest, for adding up by hand. */
function brightness(day: LightDay, hour: number): number {
  if (day.kind === 'half-sine') return Math.sin((Math.PI * hour) / day.dayLengthH);
  const { plateauH, rampUpH, rampDownH } = day;
  if (hour < rampUpH) return hour / rampUpH;
  if (hour <= rampUpH + plateauH) return 1;
  return 1 - (hour - rampUpH - plateauH) / rampDownH;
}

test.each<LightDay>([steady(8, 2, 1), steady(0, 5, 5), { kind: 'half-sine', dayLengthH: 11 }])(
  'the hours of %j are what adding up the day in small steps gives',
  (day) => {
    const length = day.kind === 'half-sine' ? day.dayLengthH : day.plateauH + day.rampUpH + day.rampDownH;
    const slices = 100_000;
    let sum = 0;
    for (let at = 0; at < slices; at++) sum += brightness(day, ((at + 0.5) * length) / slices);
    expect((sum * length) / slices).toBeCloseTo(equivalentHours(day), 5);
  },
);

test('the brightness for a daily light brings it', () => {
  const hours = fc.double({ min: 0.1, max: 7, noNaN: true });
  fc.assert(
    fc.property(hours, hours, hours, fc.double({ min: 0.1, max: 20, noNaN: true }), (plateau, up, down, mol) => {
      const day = steady(plateau, up, down);
      const { parUmol } = told(parForDailyLight({ dailyLightMol: mol, day }), 'par');
      fc.pre(parUmol <= 3000);
      expect(told(dailyLight({ parUmol, day }), 'daily-light').dailyLightMol).toBeCloseTo(mol, 9);
    }),
  );
});

test.each([
  [{ parUmol: 0, day: steady(10) }, 'parUmol'],
  [{ parUmol: 4000, day: steady(10) }, 'parUmol'],
  [{ parUmol: 200, day: steady(25) }, 'plateauH'],
  [{ parUmol: 200, day: steady(20, 3, 3) }, 'hours'],
  [{ parUmol: 200, day: steady(0) }, 'hours'],
  [{ parUmol: 200, day: { kind: 'half-sine', dayLengthH: 0 } as const }, 'dayLengthH'],
])('%j is refused for its %s', (input, quantity) => {
  expect(dailyLight(input)).toMatchObject({ kind: 'out-of-range', quantity });
});
