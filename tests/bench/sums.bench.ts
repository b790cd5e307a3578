import { unionisedAmmonia } from '../../shared/ammonia.ts';
import { consumption } from '../../shared/consumption.ts';
import { copperDose } from '../../shared/copper.ts';
import { dailyLight } from '../../shared/daily-light.ts';
import { splitOverDays } from '../../shared/dose-days.ts';
import { doseFor } from '../../shared/dose.ts';
import { afterEvaporation } from '../../shared/evaporation.ts';
import { hyposalinitySteps } from '../../shared/hyposalinity-steps.ts';
import { lightRamp } from '../../shared/light-ramp.ts';
import { limewaterNeed } from '../../shared/limewater.ts';
import { netVolume } from '../../shared/net-volume.ts';
import { salinityFromConductivity } from '../../shared/practical-salinity.ts';
import { readQuantity } from '../../shared/quantity-text.ts';
import { referenceSeawater } from '../../shared/reference-seawater.ts';
import { saltForSalinity, swapForSalinity } from '../../shared/salinity-correction.ts';
import { seawaterDensity } from '../../shared/seawater-density.ts';
import { sideEffects } from '../../shared/side-effects.ts';
import { salinityFromSpecificGravity } from '../../shared/specific-gravity.ts';
import { stockFor } from '../../shared/stock.ts';
import { turnover } from '../../shared/turnover.ts';
import { twoPartDaily } from '../../shared/two-part.ts';
import { amountInterval } from '../../shared/uncertainty.ts';
import { afterChanges, changesForTarget } from '../../shared/water-change.ts';
import { quantile, type Row } from './figures.ts';

const CALLS = 5_000;
const WARM_UPS = 1_000;
const GOAL_MS = 0.1;

/** As many readings as are ever looked at. */
const READINGS = Array.from({ length: 24 }, (_, at) => ({
  day: at * 2,
  value: 9 - at * 0.1 + (at % 3) * 0.07,
  kitError: 0.3,
}));

/** Every calculator by itself; `k` moves the input a little, so that no call repeats the one before. */
const SUMS: Readonly<Record<string, (k: number) => unknown>> = {
  'amount in text': (k) => readQuantity(`${80 + k} gal`, { quantity: 'volume' }),
  'salinity from conductivity': (k) => salinityFromConductivity({ conductivityMsPerCm: 50 + k, temperatureC: 25 }),
  'salinity from specific gravity': (k) =>
    salinityFromSpecificGravity({ specificGravity: 1.024 + k / 1000, sampleC: 25, referenceC: 25 }),
  'density of seawater': (k) => seawaterDensity({ practicalSalinity: 34 + k, temperatureC: 25 }),
  'natural seawater': (k) => referenceSeawater({ practicalSalinity: 34 + k, temperatureC: 25 }),
  'free ammonia': (k) =>
    unionisedAmmonia({ ph: 8 + k / 10, temperatureC: 25, practicalSalinity: 35, totalMgPerL: 0.5, unit: 'NH3-N' }),
  dose: (k) => doseFor({ formula: 'NaHCO3', volumeL: 300 + k, alkalinityRiseDkh: 1 }),
  'dose from a stock': (k) =>
    stockFor({
      formula: 'NaHCO3',
      massG: 10 + k,
      stockGPerL: 60,
      solubility: { at20C: 9.6, at25C: 10.3 },
      temperatureC: 20,
    }),
  'side effects': (k) => sideEffects({ formula: 'CaCl2.2H2O', massG: 50 + k, volumeL: 300 }),
  'days of a dose': (k) => splitOverDays({ rise: 5 + k, capPerDay: 1 }),
  'span of a dose': (k) => amountInterval({ amount: 9 + k, rise: 1.5, kitError: 0.3, volumeError: 0.05 }),
  'two-part a day': (k) =>
    twoPartDaily({ volumeL: 250 + k, useDkhPerDay: 1, alkalinityFormula: 'NaHCO3', calciumFormula: 'CaCl2.2H2O' }),
  limewater: (k) => limewaterNeed({ volumeL: 250 + k, useDkhPerDay: 1, evaporationLPerDay: 3, temperatureC: 25 }),
  copper: (k) =>
    copperDose({ form: 'ionic', volumeL: 80 + k, nowMgPerL: 0, targetMgPerL: 0.175, mostMgPerL: 0.2, additions: 5 }),
  'water changes': (k) => [
    afterChanges({ start: 40 + k, newWater: 2, fraction: 0.2, changes: 3 }),
    changesForTarget({ start: 60 + k, newWater: 0, target: 15, fraction: 0.25 }),
  ],
  'salinity down and up': (k) => [
    swapForSalinity({ volumeL: 300, salinityNow: 36 + k, salinityTarget: 35, salinityNewWater: 0, temperatureC: 25 }),
    saltForSalinity({ volumeL: 300, salinityNow: 33 + k, salinityTarget: 35, saltFraction: 0.9, temperatureC: 25 }),
  ],
  'steps of hyposalinity': (k) =>
    hyposalinitySteps({ volumeL: 80 + k, salinityStart: 35, salinityTarget: 12, mostDropPerStep: 4, temperatureC: 25 }),
  evaporation: (k) => afterEvaporation({ volumeL: 250 + k, evaporatedL: 6, salinityBefore: 35, temperatureC: 25 }),
  'net volume': (k) =>
    netVolume({
      shape: { kind: 'box', lengthCm: 120 + k, widthCm: 50, waterDepthCm: 45 },
      glassCm: 1,
      rockKg: 25,
      rockDensityKgPerL: 2.7,
      lengthErrorCm: 0.5,
    }),
  turnover: (k) => turnover({ ratedLPerH: 3000 + k, headLossFraction: 0.3, volumeL: 300 }),
  'daily light': (k) =>
    dailyLight({ parUmol: 350 + k, day: { kind: 'plateau', plateauH: 8, rampUpH: 2, rampDownH: 2 } }),
  'light ramp': (k) => lightRamp({ startPar: 120 + k, targetPar: 350, capPar: 40, stepDays: 7 }),
  'consumption of 24 readings': (k) =>
    consumption({
      readings: READINGS.map((each) => ({ ...each, value: each.value + k })),
      doses: [{ day: 9, rise: 1 }],
      waterChanges: [{ day: 20, share: 0.2, newWater: 8 }],
    }),
};

/** One row: the slowest calculator, against a call that does nothing but make its input. */
export function benchSums(): Row[] {
  const idle = p99(() => ({ volumeL: 300 }));
  const measured = Object.entries(SUMS).map(([what, sum]) => ({ what, ms: p99(sum) }));
  const slowest = measured.reduce((worst, each) => (each.ms > worst.ms ? each : worst));
  return [
    {
      what: `${measured.length} calculators, p99 of the slowest (${slowest.what})`,
      ours: `${slowest.ms.toFixed(4)} ms`,
      floor: `${idle.toFixed(4)} ms`,
      ratio: (slowest.ms / Math.max(idle, 1e-4)).toFixed(0),
      goal: `< ${GOAL_MS} ms`,
      met: slowest.ms < GOAL_MS,
    },
  ];
}

function p99(sum: (k: number) => unknown): number {
  const samples: number[] = [];
  for (let call = -WARM_UPS; call < CALLS; call += 1) {
    const k = (call % 97) / 97;
    const startedMs = performance.now();
    const result = sum(k);
    const ms = performance.now() - startedMs;
    if (result === undefined) throw new Error('a calculator gave nothing');
    if (call >= 0) samples.push(ms);
  }
  return quantile(samples, 0.99);
}
