import type { Nearby } from './nearby.ts';
import type { Packer, RingOf } from './pack-few.ts';

export type Search = {
  /** How many members the graph has. */
  count: number;
  nearby: Nearby;
  packer: Packer;
  /** Members who may be put into rings. Nobody else lies on a ring with one of them. */
  open: readonly number[];
  /** As many members as can be served; the search for more ends there. */
  bound: number;
  dice: () => number;
  /** Work that may be done, in steps of the packer. */
  steps: number;
  onBetter: (rings: readonly RingOf[]) => void;
};

type Score = { served: number; value: number };

/** Members that are packed anew at one time: about three rings and who could join them. */
const MOST_AT_ONCE = 10;
/** Of the work, what goes into serving more before it goes into serving the same number better. */
const SHARE_FOR_MORE = 0.75;
/** How often a handful asks for neighbours before it counts as full, and among how many it takes the freest. */
const DRAWS = 12;
const NEIGHBOURS = 5;
/** What the choice of a handful costs, in steps of the packer. */
const STEPS_OF_HANDFUL = 300;
/** Handfuls for each member that may bring nothing better before the search ends. */
const PATIENCE = 20;
/** How much more pressing a member grows each time they are seen left out. */
const PRESSING = 0.05;

/**
 * Makes a plan better: takes out one to three rings that lie close together and packs their members and those around
 * them anew, exactly. At first it begins with a member left out, and whoever is left out grows more pressing, even if
 * the plan gets worse for a while: so it finds its way out of a plan that no single step can mend. Then it begins
 * anywhere and takes only what is better. It does not look at the clock: the same dice give the same plan.
 */
export function searchAround(start: readonly RingOf[], search: Search): readonly RingOf[] {
  const { packer, bound, dice, open } = search;
  const began = packer.steps();
  let handfuls = 0;
  const used = () => packer.steps() - began + handfuls * STEPS_OF_HANDFUL;
  const plan = createPlan(search.count, start);
  let best = { rings: plan.rings(), ...plan.score() };
  const keepIfBetter = () => {
    if (!isBetter(plan.score(), best)) return;
    best = { rings: plan.rings(), ...plan.score() };
    search.onBetter(best.rings);
  };

  const pressing = new Float64Array(search.count).fill(1);
  while (plan.score().served < bound && used() < search.steps * SHARE_FOR_MORE) {
    const leftOut = open.filter((member) => !plan.ringOf(member));
    for (const member of leftOut) pressing[member] = (pressing[member] ?? 0) + PRESSING;
    const handful = handfulOf(plan, search, leftOut);
    handfuls += 1;
    plan.replace(handful, packer.pack(handful, { pressing, dice }));
    keepIfBetter();
  }
  plan.replace(open, best.rings);
  for (let inVain = 0; inVain < open.length * PATIENCE && used() < search.steps; inVain += 1) {
    const handful = handfulOf(plan, search, open);
    handfuls += 1;
    const packed = packer.pack(handful, 'most');
    if (!isBetter(scoreOf(packed), plan.scoreWithin(handful))) continue;
    plan.replace(handful, packed);
    keepIfBetter();
    inVain = 0;
  }
  return best.rings;
}

const isBetter = (one: Score, other: Score) =>
  one.served > other.served || (one.served === other.served && one.value > other.value);

export function scoreOf(rings: readonly RingOf[]): Score {
  return {
    served: rings.reduce((sum, { members }) => sum + members.length, 0),
    value: rings.reduce((sum, { value }) => sum + value, 0),
  };
}

type Plan = ReturnType<typeof createPlan>;

/** The rings of a plan as it changes, and who is in which. */
function createPlan(count: number, start: readonly RingOf[]) {
  const ringOf: (RingOf | null)[] = Array.from({ length: count }, () => null);
  let score: Score = { served: 0, value: 0 };
  const put = (ring: RingOf) => {
    for (const member of ring.members) ringOf[member] = ring;
    score = { served: score.served + ring.members.length, value: score.value + ring.value };
  };
  const takeOut = (ring: RingOf) => {
    for (const member of ring.members) ringOf[member] = null;
    score = { served: score.served - ring.members.length, value: score.value - ring.value };
  };
  const ringsOf = (members: readonly number[]) => [...new Set(members.flatMap((member) => ringOf[member] ?? []))];
  start.forEach(put);
  return {
    ringOf: (member: number): RingOf | null => ringOf[member] ?? null,
    rings: (): readonly RingOf[] => [...new Set(ringOf.filter((ring) => ring !== null))],
    score: () => score,
    scoreWithin: (members: readonly number[]) => scoreOf(ringsOf(members)),
    /** Puts other rings in the place of all those of these members. */
    replace(members: readonly number[], rings: readonly RingOf[]) {
      ringsOf(members).forEach(takeOut);
      rings.forEach(put);
    },
  };
}

/** A few members that could be in rings together, with all who share a ring with them. */
function handfulOf(plan: Plan, { nearby, dice }: Search, seeds: readonly number[]): number[] {
  const handful: number[] = [];
  const add = (member: number) => {
    if (handful.includes(member)) return;
    const all = plan.ringOf(member)?.members ?? [member];
    if (handful.length + all.length <= MOST_AT_ONCE) handful.push(...all);
  };
  const isFree = (member: number) => plan.ringOf(member) === null || handful.includes(member);
  /** Of some neighbours those who would break up the fewest other rings. */
  const freest = (member: number) => {
    let best: readonly number[] = [];
    let most = -1;
    for (let at = 0; at < NEIGHBOURS; at += 1) {
      const near = nearby(member);
      const free = near.filter(isFree).length;
      if (free > most) [best, most] = [near, free];
    }
    return best;
  };
  add(seeds[Math.floor(dice() * seeds.length)] ?? 0);
  for (let draw = 0; draw < DRAWS && handful.length < MOST_AT_ONCE - 1; draw += 1)
    freest(handful[Math.floor(dice() * handful.length)] ?? 0).forEach(add);
  return handful.sort((one, other) => one - other);
}
