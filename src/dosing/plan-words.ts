import {
  DRIFTING,
  PLANNED,
  type JointPlan,
  type Planned,
  type PlannedDay,
  type PlannedDose,
} from '../../shared/joint-plan-model.ts';
import { shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { isLimewater } from './plan-input.ts';

export type Named = { reagents: ReadonlyMap<string, Reagent>; units: TankUnits };

const KIND = {
  salinity: 'salinity',
  magnesium: 'concentration',
  alkalinity: 'alkalinity',
  calcium: 'concentration',
} as const;

/** A value in the member's unit: "8.5 dKH". */
export const valueOf = (planned: Planned, value: number, units: TankUnits): string =>
  inUnits(value, KIND[planned], units);

/** A difference of two values. One of specific gravities says nothing to anybody, so salinity differs in ppt. */
export const riseOf = (planned: Planned, rise: number, units: TankUnits): string =>
  planned === 'salinity' ? `${shortly(rise, 2)} ppt` : valueOf(planned, rise, units);

/** A name inside a sentence: "Sodium carbonate, anhydrous" is "anhydrous sodium carbonate", since lists have commas too. */
export const lower = (name: string): string =>
  name
    .split(', ')
    .toReversed()
    .map((part) => part.charAt(0).toLowerCase() + part.slice(1))
    .join(' ');
/** "a", "a and b", "a, b and c". */
export const listed = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;

/** "13 g sodium bicarbonate", "120 mL of your sodium bicarbonate stock". */
export function doseInWords(
  { reagentId, massG, stockMl }: Pick<PlannedDose, 'reagentId' | 'massG' | 'stockMl'>,
  { reagents, units }: Named,
  withGrams = false,
): string {
  const reagent = reagents.get(reagentId);
  const name = lower(reagent?.name ?? reagentId);
  const grams = `${inUnits(massG, 'mass', units)} ${name}`;
  if (stockMl === undefined) return grams;
  const poured = inUnits(stockMl / 1000, 'dose-volume', units);
  if (!reagent || !isLimewater(reagent)) return `${poured} of your ${name} stock`;
  return withGrams ? `${poured} clear limewater (${grams})` : `${poured} clear limewater`;
}

/** The doses of a day in their order, with the wait between them: one sentence, as a reminder says it. */
export function dayInWords({ doses }: PlannedDay, named: Named): string {
  return doses
    .map((dose, at) => {
      const before = doses[at - 1];
      const wait = before ? dose.atMinute - before.atMinute : 0;
      const opening = at === 0 ? '' : wait > 0 ? `; wait ${wait} minutes; ` : ', then ';
      return `${opening}${doseInWords(dose, named)}`;
    })
    .join('');
}

/** What a day brings to the water, as a tank's log keeps it. */
export const risenOn = ({ rises }: PlannedDay): Record<string, number> =>
  Object.fromEntries(PLANNED.filter((planned) => rises[planned] > 0).map((planned) => [planned, rises[planned]]));

const MOST_LINES = 10;

/** A line for every run of days that are alike, with the values that the last of them ends at. */
export function dayLines({ days }: JointPlan, shown: readonly Planned[], named: Named): Markdown[] {
  const runs: { first: PlannedDay; last: PlannedDay; words: string }[] = [];
  for (const day of days) {
    const words = dayInWords(day, named);
    const open = runs.at(-1);
    if (open?.words === words) open.last = day;
    else runs.push({ first: day, last: day, words });
  }
  const lines = runs.map(({ first, last, words }, at) => {
    const title = first === last ? md`Day ${first.day}` : md`Days ${first.day} to ${last.day}, each`;
    const before = runs[at - 1]?.last.after;
    const ends = shown.flatMap((planned) => {
      const [value, earlier] = [last.after[planned], before?.[planned]];
      if (value === undefined) return [];
      const shows = valueOf(planned, value, named.units);
      // What nobody could read off as a change is not told again.
      return earlier !== undefined && valueOf(planned, earlier, named.units) === shows ? [] : [`${planned} ${shows}`];
    });
    const then = first === last ? md`Then` : md`After day ${last.day}`;
    return md`- **${title}:** ${words}.${ends.length > 0 ? md` ${then} ${listed(ends)}.` : md``}`;
  });
  const left = lines.length - MOST_LINES;
  return left > 0 ? [...lines.slice(0, MOST_LINES), md`- … and ${left} more steps in the same way.`] : lines;
}

/** Rises too small for anybody to measure are left out. */
const WORTH_SAYING = { mgPerL: 0.5, share: 0.005 } as const;
const NOTICED: Readonly<Record<Planned, number>> = { salinity: 0.005, magnesium: 0.5, alkalinity: 0.05, calcium: 0.5 };

/** What comes along that nobody asked for. */
export function sideLines(
  { drift, rises }: JointPlan,
  aimed: readonly Planned[],
  reagents: readonly Reagent[],
  units: TankUnits,
): Markdown[] {
  const along = PLANNED.filter((planned) => !aimed.includes(planned) && rises[planned] >= NOTICED[planned]).map(
    (planned) => `${planned} +${riseOf(planned, rises[planned], units)}`,
  );
  const ions = DRIFTING.filter((ion) => drift[ion].riseMgPerL >= WORTH_SAYING.mgPerL).map(
    (ion) => `${ion} +${inUnits(drift[ion].riseMgPerL, 'concentration', units)}`,
  );
  const off = DRIFTING.filter((ion) => Math.abs(drift[ion].offShare) >= WORTH_SAYING.share).map((ion) => {
    const { offShare } = drift[ion];
    return `${ion} ${shortly(100 * Math.abs(offShare), 2)}% ${offShare > 0 ? 'over' : 'under'}`;
  });
  const ph = phWords(reagents);
  return [
    md`${[...along, ...ions, ph].join(', ')}.`,
    ...(off.length > 0
      ? [md`Against sea water of the same saltiness: ${off.join(', ')}. Water changes bring that back.`]
      : []),
  ];
}

function phWords(reagents: readonly Reagent[]): string {
  const strongest = (['raises strongly', 'raises', 'lowers slightly'] as const).find((effect) =>
    reagents.some(({ phEffect }) => phEffect === effect),
  );
  if (strongest === undefined) return 'pH hardly';
  const words = { 'raises strongly': 'pH up sharply', raises: 'pH up', 'lowers slightly': 'pH down a little' }[
    strongest
  ];
  const by = reagents.filter(({ phEffect }) => phEffect === strongest).map(({ name }) => lower(name));
  return `${words} with ${listed(by)}`;
}
