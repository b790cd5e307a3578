import { longestDays, shortestDays, type Curve, type StageDays } from './life-cycle-days.ts';

/** The two curves that the days follow from, by their ids in the knowledge base. */
export const PRAZIQUANTEL_CURVES = { maturity: 'neobenedenia-maturity', lastHatch: 'neobenedenia-last-hatch' } as const;

/** Time from infection to laying eggs, and time until the last eggs have hatched. */
export type FlukeCurves = Readonly<Record<keyof typeof PRAZIQUANTEL_CURVES, Curve>>;
/** The coldest and the warmest reading of the tank since the first dose. */
export type TankSpan = { coldestC: number; warmestC: number };
export type NoData = Extract<StageDays, { kind: 'no-data' }>;
type Told = Extract<StageDays, { kind: 'days' }>;

/** Whole days after the first dose. */
export type DoseWindow = { dose: number; earliestDay: number; latestDay: number };
/** Whole days between any two doses, counted from the dose that was really given. */
export type Gap = { earliestDays: number; latestDays: number };

export type PraziquantelWindows = {
  kind: 'windows';
  gap: Gap;
  /** Dose 1 on day 0, then the windows of the others. */
  doses: readonly DoseWindow[];
  /** Doses beyond the standard, because the last of them would fall before the last hatch in the coldest water. */
  extraDoses: number;
  /** The tank swung so far that the earliest day fell behind the latest; the latest stands. */
  swungTooFar: boolean;
  /** What the latest gap rests on, at the warmest reading. */
  maturity: Told;
  /** What the last dose rests on, at the coldest reading. */
  lastHatch: Told;
};

/** Whole degrees that share their days. */
export type PraziquantelRow = { fromC: number; toC: number; gap: Gap; doses: readonly DoseWindow[] };

/** Doses of a run at every temperature. It is more than two because nobody here has read when the last eggs hatch. */
export const STANDARD_DOSES = 4;
/** A dose so many hours late or early is still in its window. */
export const DOSE_GRACE_H = 6;
/** The last dose waits one day more than the last hatch, so that the larva sits on a fish. */
const DAY_AFTER_HATCH = 1;
/**
 * A run spans at least so many times the time to maturity. The last hatch is an assumption, and alone it would let the doses crowd
 * together; this margin is the one that gives the gaps in use at every temperature.
 */
const MATURITIES_IN_A_RUN = 2;
/** Nothing is known of colder or warmer water. */
const [COLDEST_SEA_C, WARMEST_SEA_C] = [-2, 40];
/** Keeps 6.000000001 from counting as more than 6. */
const EPSILON = 1e-9;

/**
 * When the doses against skin flukes fall in a tank, in days after the first dose. Dates only: the dose is a vet's.
 *
 * Two conditions: every gap is shorter than the shortest time to maturity at the warmest reading, and the last dose falls a day or
 * more after the last egg hatched at the coldest. The latest day comes from the whole degree at or above the warmest reading, the
 * earliest from the one at or below the coldest. If they cross, the latest wins. If the last dose comes too soon, one more follows
 * at the same gap.
 *
 * Units: °C in, whole days out. No data where either reading lies outside what both curves cover.
 *
 * Standing: computed across studies, common practice; a vet may change it.
 *
 * @throws RangeError when the coldest reading is above the warmest, or maturity leaves no whole day for a gap.
 */
export function praziquantelWindows(
  curves: FlukeCurves,
  { coldestC, warmestC }: TankSpan,
): PraziquantelWindows | NoData {
  if (coldestC > warmestC) throw new RangeError(`coldest ${coldestC} °C is above warmest ${warmestC} °C`);
  const maturity = shortestDays(curves.maturity, warmestC);
  const lastHatch = longestDays(curves.lastHatch, coldestC);
  const warm = gapAt(curves, Math.ceil(warmestC - EPSILON));
  const cold = gapAt(curves, Math.floor(coldestC + EPSILON));
  if (maturity.kind === 'no-data') return maturity;
  if (lastHatch.kind === 'no-data') return lastHatch;
  if (warm.kind === 'no-data') return { ...warm, temperatureC: warmestC };
  if (cold.kind === 'no-data') return { ...cold, temperatureC: coldestC };

  const latestDays = warm.latestDays;
  const earliestDays = Math.min(cold.earliestDays, latestDays);
  const gapsNeeded = Math.ceil((lastHatch.days + DAY_AFTER_HATCH) / earliestDays - EPSILON);
  const count = Math.max(STANDARD_DOSES, gapsNeeded + 1);
  return {
    kind: 'windows',
    gap: { earliestDays, latestDays },
    doses: Array.from({ length: count }, (_, gaps) => ({
      dose: gaps + 1,
      earliestDay: gaps * earliestDays,
      latestDay: gaps * latestDays,
    })),
    extraDoses: count - STANDARD_DOSES,
    swungTooFar: cold.earliestDays > latestDays,
    maturity,
    lastHatch,
  };
}

/** The days for a steady tank at every whole degree that both curves cover, degrees with the same days together. */
export function praziquantelTable(curves: FlukeCurves): PraziquantelRow[] {
  const rows: PraziquantelRow[] = [];
  for (let degree = COLDEST_SEA_C; degree <= WARMEST_SEA_C; degree += 1) {
    const windows = praziquantelWindows(curves, { coldestC: degree, warmestC: degree });
    if (windows.kind === 'no-data') continue;
    const { gap, doses } = windows;
    const above = rows.at(-1);
    if (above?.toC === degree - 1 && sameDays(above, windows)) above.toC = degree;
    else rows.push({ fromC: degree, toC: degree, gap, doses });
  }
  return rows;
}

const sameDays = (a: Pick<PraziquantelRow, 'gap' | 'doses'>, b: Pick<PraziquantelRow, 'gap' | 'doses'>) =>
  a.gap.earliestDays === b.gap.earliestDays &&
  a.gap.latestDays === b.gap.latestDays &&
  a.doses.length === b.doses.length;

/** The gap in a tank that stays at this temperature. */
function gapAt({ maturity, lastHatch }: FlukeCurves, temperatureC: number): ({ kind: 'gap' } & Gap) | NoData {
  const [mature, hatched] = [shortestDays(maturity, temperatureC), longestDays(lastHatch, temperatureC)];
  if (mature.kind === 'no-data') return mature;
  if (hatched.kind === 'no-data') return hatched;
  // Strictly shorter than maturity: on the day itself eggs may be laid.
  const latestDays = Math.ceil(mature.days - EPSILON) - 1;
  if (latestDays < 1)
    throw new RangeError(`maturity of ${mature.days} days at ${temperatureC} °C leaves no day for a gap`);
  const runDays = Math.max(hatched.days + DAY_AFTER_HATCH, MATURITIES_IN_A_RUN * mature.days);
  const earliestDays = Math.ceil(runDays / (STANDARD_DOSES - 1) - EPSILON);
  return { kind: 'gap', earliestDays: Math.min(earliestDays, latestDays), latestDays };
}
