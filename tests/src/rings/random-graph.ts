import { seededDice } from '../../../src/rings/seeded-dice.ts';
import type { SwapArc, SwapGraph } from '../../../src/rings/swap-graph.ts';

/** Up to twelve members with arcs drawn by lot, thin and dense, some of them double. */
export function randomGraph(seed: number): SwapGraph {
  const dice = seededDice(seed);
  const count = 2 + Math.floor(dice() * 11);
  // Dense graphs of many members have more sets of cycles than can be tried one by one.
  const density = Math.min(0.9, (0.5 + 2.5 * dice()) / count + 0.03);
  const members = Array.from({ length: count }, (_, at) => ({ id: `m${at}`, weight: 1 + Math.floor(dice() * 5) / 4 }));
  const arcs: SwapArc[] = [];
  for (const { id: from } of members)
    for (const { id: to } of members)
      for (let times = dice() < 0.1 ? 2 : 1; times > 0 && from !== to; times -= 1)
        if (dice() < density)
          arcs.push({
            from,
            to,
            offerId: arcs.length + 1,
            weight: Math.round(dice() * 100) / 100,
            km: dice() < 0.3 ? null : Math.round(dice() * 80),
          });
  return { members, arcs };
}

/** The same graph with members and arcs in another order. */
export function shuffled({ members, arcs }: SwapGraph, seed: number): SwapGraph {
  const dice = seededDice(seed);
  const mixed = <T>(list: readonly T[]) =>
    list
      .map((each) => ({ each, lot: dice() }))
      .sort((one, other) => one.lot - other.lot)
      .map(({ each }) => each);
  return { members: mixed(members), arcs: mixed(arcs) };
}
