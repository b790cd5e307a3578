import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  conductivityFromSalinity,
  ratioFromSalinity,
  salinityFromCompensated,
  salinityFromConductivity,
  salinityFromRatio,
} from '../../shared/practical-salinity.ts';
import { its90FromIpts68 } from '../../shared/temperature.ts';
import { numberIn, readReference } from '../reference/read-csv.ts';

// Every row of pss78.csv and gsw-grid.csv is held in reference-table.test.ts.

const salinity = fc.double({ min: 2, max: 42, noNaN: true });
const temperature = fc.double({ min: -2, max: 35, noNaN: true });

describe('salinityFromConductivity', () => {
  // Readings as a meter shows them, with the salinity that TEOS-10's gsw 3.6.16 finds for them.
  const meters = readReference('pss78').filter(({ kind }) => kind === 'C_to_SP');
  test.each(meters)('reads $conductivity_mS_cm mS/cm at $t_ITS90_degC °C as $practical_salinity', (row) => {
    const found = salinityFromConductivity({
      conductivityMsPerCm: numberIn(row, 'conductivity_mS_cm'),
      temperatureC: numberIn(row, 't_ITS90_degC'),
    });
    expect(found).toEqual({
      kind: 'salinity',
      practicalSalinity: expect.closeTo(numberIn(row, 'practical_salinity'), 4),
    });
  });

  test('leads back to the salinity it came from, to 1e-6, wherever PSS-78 holds', () => {
    fc.assert(
      fc.property(salinity, temperature, (practicalSalinity, temperatureC) => {
        const there = conductivityFromSalinity({ practicalSalinity, temperatureC });
        if (there.kind !== 'conductivity') throw new Error(`refused: ${JSON.stringify(there)}`);
        const back = salinityFromConductivity({ conductivityMsPerCm: there.conductivityMsPerCm, temperatureC });
        // At the very edge of the range rounding may put the way back outside it.
        if (back.kind === 'out-of-range')
          expect(Math.min(practicalSalinity - 2, 42 - practicalSalinity)).toBeLessThan(1e-9);
        else expect(Math.abs(back.practicalSalinity - practicalSalinity)).toBeLessThan(1e-6);
      }),
      { numRuns: 1000 },
    );
  });

  test.each([2, 42])('answers at S %d itself', (practicalSalinity) => {
    const there = conductivityFromSalinity({ practicalSalinity, temperatureC: 25 });
    if (there.kind !== 'conductivity') throw new Error('refused');
    const back = salinityFromConductivity({ conductivityMsPerCm: there.conductivityMsPerCm, temperatureC: 25 });
    expect(back).toEqual({ kind: 'salinity', practicalSalinity: expect.closeTo(practicalSalinity, 9) });
  });

  test('rises with conductivity and falls with temperature', () => {
    fc.assert(
      fc.property(salinity, temperature, (practicalSalinity, temperatureC) => {
        const ratio = ratioFromSalinity({ practicalSalinity, temperatureC });
        const more = salinityFromRatio({ conductivityRatio: ratio * 1.001, temperatureC });
        const warmer = salinityFromRatio({ conductivityRatio: ratio, temperatureC: temperatureC + 0.1 });
        expect(more).toBeGreaterThan(practicalSalinity);
        expect(warmer).toBeLessThan(practicalSalinity);
      }),
    );
  });

  test('refuses a conductivity beyond S 2 to 42, and says which would do at this temperature', () => {
    const refusal = salinityFromConductivity({ conductivityMsPerCm: 530, temperatureC: 25 });
    // TEOS-10, gsw 3.6.16: C_from_SP(2, 25, 0) = 3.7967 and C_from_SP(42, 25, 0) = 62.3581 mS/cm.
    expect(refusal).toEqual({
      kind: 'out-of-range',
      quantity: 'conductivityMsPerCm',
      given: 530,
      least: expect.closeTo(3.79665, 4),
      most: expect.closeTo(62.35813, 4),
    });
  });

  test.each([NaN, 0, -5])('refuses a conductivity of %s', (conductivityMsPerCm) => {
    const refusal = salinityFromConductivity({ conductivityMsPerCm, temperatureC: 25 });
    expect(refusal).toMatchObject({ kind: 'out-of-range', quantity: 'conductivityMsPerCm' });
  });

  test.each([-2.1, 35.1, NaN, Infinity])('refuses water of %s °C before anything else', (temperatureC) => {
    const refusal = { kind: 'out-of-range', quantity: 'temperatureC', given: temperatureC, least: -2, most: 35 };
    expect(salinityFromConductivity({ conductivityMsPerCm: -1, temperatureC })).toEqual(refusal);
    expect(conductivityFromSalinity({ practicalSalinity: 35, temperatureC })).toEqual(refusal);
  });
});

describe('conductivityFromSalinity', () => {
  // TEOS-10, gsw 3.6.16, C_from_SP(35, 25, 0), 25 °C in ITS-90. The often quoted 53.065 belongs to 25 °C of 1968.
  test('is 53.0710 mS/cm at S 35 and 25 °C', () => {
    const found = conductivityFromSalinity({ practicalSalinity: 35, temperatureC: 25 });
    expect(found).toMatchObject({ kind: 'conductivity', conductivityMsPerCm: expect.closeTo(53.071, 4) });
  });

  test.each([1.9, 42.1, NaN])('refuses S %s', (practicalSalinity) => {
    const refusal = {
      kind: 'out-of-range',
      quantity: 'practicalSalinity',
      given: practicalSalinity,
      least: 2,
      most: 42,
    };
    expect(conductivityFromSalinity({ practicalSalinity, temperatureC: 25 })).toEqual(refusal);
  });
});

describe('salinityFromCompensated', () => {
  test('takes what is shown for conductivity at 25 °C', () => {
    // pss78.csv, METER-6: TEOS-10, gsw 3.6.16, 53.0 mS/cm at 25 °C.
    const found = salinityFromCompensated({ conductivityMsPerCm: 53 });
    expect(found).toEqual({ kind: 'salinity', practicalSalinity: expect.closeTo(34.947299, 5) });
  });

  test('refuses what no seawater has', () => {
    const refusal = salinityFromCompensated({ conductivityMsPerCm: 53_000 });
    expect(refusal).toMatchObject({ kind: 'out-of-range', quantity: 'conductivityMsPerCm', given: 53_000 });
  });
});

describe('under pressure', () => {
  // Check values of UNESCO Technical Papers in Marine Science 44 (1983), p. 9, the other way round; its temperatures are
  // of 1968. They are given to 1e-6 in S, which is 3e-8 to 6e-8 in R.
  test.each([
    { s: 37.245628, t68: 20, pressureDbar: 2000, ratio: 1.2 },
    { s: 27.995347, t68: 5, pressureDbar: 1500, ratio: 0.65 },
  ])('S $s at $t68 °C and $pressureDbar dbar has the ratio $ratio', ({ s, t68, pressureDbar, ratio }) => {
    const temperatureC = its90FromIpts68(t68);
    expect(ratioFromSalinity({ practicalSalinity: s, temperatureC, pressureDbar })).toBeCloseTo(ratio, 7);
  });

  test('the ratio leads back to the salinity', () => {
    fc.assert(
      fc.property(salinity, temperature, fc.double({ min: 0, max: 10_000, noNaN: true }), (s, temperatureC, p) => {
        const place = { temperatureC, pressureDbar: p };
        const conductivityRatio = ratioFromSalinity({ practicalSalinity: s, ...place });
        expect(salinityFromRatio({ conductivityRatio, ...place })).toBeCloseTo(s, 8);
      }),
    );
  });
});

test.each([0, -1, NaN, Infinity])('the bare polynomials throw at %s', (value) => {
  expect(() => salinityFromRatio({ conductivityRatio: value, temperatureC: 25 })).toThrow(RangeError);
  expect(() => ratioFromSalinity({ practicalSalinity: value, temperatureC: 25 })).toThrow(RangeError);
});

test.each([-1, NaN])('the bare polynomials throw at a pressure of %s', (pressureDbar) => {
  expect(() => salinityFromRatio({ conductivityRatio: 1, temperatureC: 25, pressureDbar })).toThrow(RangeError);
  expect(() => ratioFromSalinity({ practicalSalinity: 35, temperatureC: 25, pressureDbar })).toThrow(RangeError);
});
