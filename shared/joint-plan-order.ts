import { PLANNED, type Planned, type PlanReagent, type PlanRule } from './joint-plan-model.ts';

type Rules = Readonly<Record<Planned, PlanRule>>;

/** Days that follow each other and in which the same reagents may be dosed. */
export type Span = { days: number; reagents: readonly number[] };

/**
 * Which reagents come first: 0 for those that wait for nothing, 1 for those that wait for them, and so on without gaps.
 * A reagent that is dosed for two values waits for what either of them waits for.
 *
 * @throws RangeError when two values wait for each other.
 */
export function turnsOf(reagents: readonly PlanReagent[], rules: Rules): number[] {
  const depths = reagents.map(({ raises }) => Math.max(...raises.map((planned) => depthOf(planned, rules))));
  const sorted = [...new Set(depths)].sort((one, other) => one - other);
  return depths.map((depth) => sorted.indexOf(depth));
}

function depthOf(planned: Planned, rules: Rules, above: readonly Planned[] = []): number {
  if (above.includes(planned)) throw new RangeError(`${planned} waits for itself: ${[...above, planned].join(' → ')}`);
  return Math.max(0, ...rules[planned].after.map((first) => 1 + depthOf(first, rules, [...above, planned])));
}

/**
 * Every way to share `days` days among the turns, as the number of days of each. A turn begins on the day on which the one
 * before it ends, its doses later that day, so such a day counts for both. No turn gets fewer than its `least`, or than one.
 */
export function* sharesOf(days: number, least: readonly number[]): Generator<number[]> {
  const [first = 1, ...others] = least;
  if (others.length === 0) {
    if (days >= Math.max(1, first)) yield [days];
    return;
  }
  const forOthers = others.reduce((sum, each) => sum + Math.max(1, each) - 1, 1);
  for (let own = Math.max(1, first); own <= days - forOthers + 1; own += 1)
    for (const rest of sharesOf(days - own + 1, others)) yield [own, ...rest];
}

/** The fewest days in which turns of these lengths can follow each other. */
export const daysOf = (turns: readonly number[]): number => turns.reduce((sum, days) => sum + Math.max(1, days) - 1, 1);

/** The days as spans, each with the numbers of the reagents that may be dosed in it. */
export function spansOf(turns: readonly number[], share: readonly number[]): Span[] {
  const windows = share.map((days, turn) => {
    const from = daysOf(share.slice(0, turn));
    return { from, to: from + days - 1 };
  });
  const spans: Span[] = [];
  for (let day = 1; day <= daysOf(share); day += 1) {
    const reagents = turns.flatMap((turn, reagent) => {
      const { from = 1, to = 0 } = windows[turn] ?? {};
      return day >= from && day <= to ? [reagent] : [];
    });
    const open = spans.at(-1);
    if (open && String(open.reagents) === String(reagents)) open.days += 1;
    else spans.push({ days: 1, reagents });
  }
  return spans;
}

/** The doses of one day in their order, each at the earliest minute at which it is far enough from those before it. */
export function inOrder<Dose extends { reagent: number }>(
  doses: readonly Dose[],
  reagents: readonly PlanReagent[],
  rules: Rules,
): (Dose & { atMinute: number })[] {
  const turns = turnsOf(reagents, rules);
  const raises = (dose: Dose) => reagents[dose.reagent]?.raises ?? [];
  const place = (dose: Dose) => Math.min(...raises(dose).map((planned) => PLANNED.indexOf(planned)));
  const sorted = doses.toSorted(
    (one, other) => (turns[one.reagent] ?? 0) - (turns[other.reagent] ?? 0) || place(one) - place(other),
  );
  const timed: (Dose & { atMinute: number })[] = [];
  for (const dose of sorted) {
    const atMinute = Math.max(
      timed.at(-1)?.atMinute ?? 0,
      ...timed.map((before) => before.atMinute + minutesApart(raises(before), raises(dose), rules)),
    );
    timed.push({ ...dose, atMinute });
  }
  return timed;
}

/** Minutes that two doses keep from each other: 0 for two that may go in together. */
export function minutesApart(one: readonly Planned[], other: readonly Planned[], rules: Rules): number {
  const between = (a: Planned, b: Planned) => (rules[a].apart?.from.includes(b) ? (rules[a].apart?.minutes ?? 0) : 0);
  return Math.max(0, ...one.flatMap((a) => other.map((b) => Math.max(between(a, b), between(b, a)))));
}
