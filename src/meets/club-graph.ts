import type { SwapArc, SwapGraph } from '../rings/swap-graph.ts';
import type { Offer, SwapPromise, Want } from '../swaps/offer.ts';

/** What a club has and looks for at one moment. */
export type ClubSwaps = {
  /** Open offers; those with no piece left give nothing. */
  offers: readonly Offer[];
  wants: readonly Want[];
  /** Promises that live: queued and promised. */
  promises: readonly Pick<SwapPromise, 'offerId' | 'takerId' | 'state'>[];
  /** "a/b" for each pair that shall see no match between them, both ways. */
  blocked: ReadonlySet<string>;
  /** How often a member wanted something and was in no ring. */
  leftOut: ReadonlyMap<string, number>;
  /** "offer/taker" that was answered with no not long ago. */
  refused: ReadonlySet<string>;
  /** Members whom no ring is to ask now. */
  resting: ReadonlySet<string>;
  /** Of a meet: who comes, and which of their offers they bring. */
  among?: ReadonlyMap<string, ReadonlySet<number>>;
  fits: (want: Want, offer: Offer) => boolean;
};

/** Who would drive no farther than this stays where they live. Common practice, no source. */
const NEXT_DOOR_KM = 5;
/** Each time left out counts half a member more, up to the weight of four. */
const A_TIME_LEFT_OUT = 0.5;
const MOST_WEIGHT = 4;

export const pairOf = ({ offerId, to }: { offerId: number; to: string }): string => `${offerId}/${to}`;
/** How much a member counts who was left out so often. */
export const weightOf = (timesLeftOut: number): number => Math.min(MOST_WEIGHT, 1 + timesLeftOut * A_TIME_LEFT_OUT);

/**
 * Who could give whom a piece that they look for. Of several offers that fit between two members the best wanted one
 * counts, the oldest among equals; members and arcs come in a fixed order.
 */
export function clubGraph(swaps: ClubSwaps): SwapGraph {
  const offers = swaps.offers.filter((offer) => gives(swaps, offer)).sort((one, other) => one.id - other.id);
  const areas = areasOf(swaps.offers);
  const taken = new Set(swaps.promises.map(({ offerId, takerId }) => pairOf({ offerId, to: takerId })));
  const best = new Map<string, SwapArc>();
  for (const want of openWants(swaps))
    for (const offer of offers) {
      const { id: offerId, memberId: from } = offer;
      const to = want.memberId;
      const pair = pairOf({ offerId, to });
      if (from === to || taken.has(pair) || swaps.refused.has(pair) || swaps.blocked.has(`${from}/${to}`)) continue;
      const apart = apartness(want, offer, areas.get(to));
      if (apart === 'too-far' || !swaps.fits(want, offer)) continue;
      const arc: SwapArc = { from, to, offerId, weight: wantedness(want), km: apart === 'here' ? 0 : null };
      const known = best.get(`${from}/${to}`);
      if (!known || arc.weight > known.weight || (arc.weight === known.weight && offerId < known.offerId))
        best.set(`${from}/${to}`, arc);
    }
  const arcs = [...best.values()].sort((one, other) => inOrder(one.from, other.from) || inOrder(one.to, other.to));
  const ids = [...new Set(arcs.flatMap(({ from, to }) => [from, to]))].sort(inOrder);
  return { members: ids.map((id) => ({ id, weight: weightOf(swaps.leftOut.get(id) ?? 0) })), arcs };
}

const inOrder = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

function gives({ among, resting }: ClubSwaps, { id, memberId, left, state }: Offer): boolean {
  if (state !== 'open' || left <= 0 || resting.has(memberId)) return false;
  return among === undefined || (among.get(memberId)?.has(id) ?? false);
}

/** What is looked for and not promised yet: a want whose coral is on its way counts no more. */
function openWants({ wants, offers, promises, resting, among, fits }: ClubSwaps): Want[] {
  const byId = new Map(offers.map((offer) => [offer.id, offer]));
  const coming = new Map<string, Offer[]>();
  for (const { offerId, takerId, state } of promises) {
    const offer = state === 'promised' ? byId.get(offerId) : undefined;
    if (offer) coming.set(takerId, [...(coming.get(takerId) ?? []), offer]);
  }
  return wants
    .filter(({ memberId }) => !resting.has(memberId) && (among === undefined || among.has(memberId)))
    .filter((want) => !(coming.get(want.memberId) ?? []).some((offer) => fits(want, offer)));
}

/** How much it is wanted follows from how exactly it was named. */
const wantedness = ({ coral, group }: Want): number => (coral !== null ? 1 : group !== null ? 0.6 : 0.4);

const plain = (area: string) => area.normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ');

/** Where members live, as their newest offer with an area says. */
function areasOf(offers: readonly Offer[]): Map<string, string> {
  const areas = new Map<string, string>();
  for (const { memberId, details } of [...offers].sort((one, other) => one.id - other.id))
    if (details.area !== null) areas.set(memberId, plain(details.area));
  return areas;
}

/** Distances are not known, only words: the same area is here, and another one is too far for who will not drive. */
function apartness({ driveKm }: Want, { details }: Offer, home: string | undefined): 'here' | 'too-far' | 'unknown' {
  if (details.area === null || home === undefined) return 'unknown';
  if (plain(details.area) === home) return 'here';
  return driveKm !== null && driveKm <= NEXT_DOOR_KM ? 'too-far' : 'unknown';
}
