import { seededDice } from '../../../src/rings/seeded-dice.ts';
import type { SwapArc, SwapGraph } from '../../../src/rings/swap-graph.ts';

const KINDS = 60;

export type ClubSize = {
  members: number;
  seed: number;
  /** Kinds of corals in the club. */
  kinds?: number;
  /** Offers and wants each member has at most; at least one of each. */
  most?: number;
};

/**
 * A club nobody runs: some corals are in every tank and most are in few, while wants are spread evenly. Members have one
 * to five offers and wants each, live within 40 km, and were left out of none to three rounds before.
 */
export function randomClub({ members, seed, kinds = KINDS, most = 5 }: ClubSize): SwapGraph {
  const dice = seededDice(seed);
  const some = (pick: () => number) =>
    new Set(Array.from({ length: 1 + Math.floor(dice() * most) }, () => Math.floor(pick() * kinds)));
  const club = Array.from({ length: members }, (_, at) => ({
    id: `member-${String(at).padStart(4, '0')}`,
    weight: 1 + Math.floor(dice() * 4) / 2,
    offers: some(() => dice() ** 2),
    wants: some(dice),
    x: dice() * 40,
    y: dice() * 40,
  }));
  const arcs: SwapArc[] = [];
  club.forEach((giver, at) => {
    for (const taker of club) {
      if (taker === giver) continue;
      for (const kind of giver.offers)
        if (taker.wants.has(kind) && !taker.offers.has(kind))
          arcs.push({
            from: giver.id,
            to: taker.id,
            offerId: at * KINDS + kind,
            weight: Math.round((0.3 + 0.7 * dice()) * 100) / 100,
            km: dice() < 0.2 ? null : Math.round(Math.hypot(giver.x - taker.x, giver.y - taker.y)),
          });
    }
  });
  return { members: club.map(({ id, weight }) => ({ id, weight })), arcs };
}
