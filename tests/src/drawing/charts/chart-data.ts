import type { ConsumptionData, DoseDaysData, LightRamp } from '../../../../src/drawing/charts/charts.ts';

export const at = (day: number, hour = 12) => new Date(Date.UTC(2026, 10, day, hour));

/** Five days of two reagents, with dates. */
export const DOSE_DAYS: DoseDaysData = {
  parameters: [
    { name: 'Alkalinity', unit: 'dKH', start: 6.6, target: 8, band: { low: 7.5, high: 9 }, afterEachDay: [6.95, 7.3, 7.65, 8], capPerDay: 0.5 }, // prettier-ignore
    { name: 'Calcium', unit: 'mg/L', start: 370, target: 420, afterEachDay: [380, 390, 400, 410, 420], capPerDay: 20 },
  ],
  doses: [
    ...[1, 2, 3, 4].map((day) => ({ day, reagent: 'Sodium bicarbonate', amountInWords: '3.15 g' })),
    ...[1, 2, 3, 4].map((day) => ({ day, reagent: 'Calcium chloride dihydrate', amountInWords: '11 g' })),
    { day: 5, reagent: 'Calcium chloride dihydrate', amountInWords: '10.8 g' },
  ],
  dates: { firstDay: at(28), zoneOffsetMinutes: 60 },
};

/** A sawtooth: use by day, one dose, one water change, one reading that does not fit. */
export const CONSUMPTION: ConsumptionData = {
  name: 'Alkalinity',
  unit: 'dKH',
  kitError: 0.3,
  readings: [
    { at: at(1), value: 8.6 },
    { at: at(3), value: 8.1 },
    { at: at(5), value: 7.3 },
    { at: at(7), value: 6.9 },
    { at: at(9), value: 7.9 },
    { at: at(11), value: 9.6, isOutlier: true },
    { at: at(13), value: 6.8 },
    { at: at(15), value: 6.2 },
    { at: at(17), value: 7.2 },
    { at: at(19), value: 6.6 },
  ],
  doses: [{ at: at(7, 20), rise: 1.4 }],
  changes: [{ at: at(15, 20) }],
  line: [
    { from: at(1), to: at(7, 20), valueAtFrom: 8.62, valueAtTo: 6.68 },
    { from: at(7, 20), to: at(15, 20), valueAtFrom: 8.08, valueAtTo: 6.0 },
    { from: at(15, 20), to: at(19), valueAtFrom: 7.5, valueAtTo: 6.6 },
  ],
  target: { low: 7.5, high: 9 },
  consumptionInWords: 'Uses about 0.3 dKH a day; likely between 0.22 and 0.38.',
};

/** Weekly steps to what is enough. */
export const RAMP: LightRamp = {
  steps: [140, 190, 240, 290, 330, 350].map((par, i) => ({ fromDay: i * 7 + 1, toDay: i * 7 + 7, par })),
  target: 350,
  enough: 350,
  cautionFrom: 525,
};
