import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { knownOf } from '../swaps/find.ts';
import type { Offer, Want } from '../swaps/offer.ts';
import { coloursIn, type ColourWord } from './colour-words.ts';
import { contrastsOf, standsOut, type Contrast } from './contrast.ts';
import { neighbourOf, type Neighbour } from './neighbour.ts';

type May = Extract<Neighbour, { kind: 'may' }>;
export type BesideOffer = { offer: Offer; coral: Coral; neighbour: May; colours: readonly ColourWord[]; score: number };
export type BesideWant = { want: Want; coral: Coral; neighbour: May };
export type BesideKind = { coral: Coral; neighbour: May };

export type Beside = {
  coral: Coral;
  /** The colour that was understood; null: none was said, or none that is known. */
  colour: ColourWord | null;
  contrasts: readonly Contrast[];
  /** Open offers, with colours that stand out, the strongest contrast first. */
  offers: readonly BesideOffer[];
  wants: readonly BesideWant[];
  /** Corals of the books that can live there. They come in many colours, so only their kind is said. */
  kinds: readonly BesideKind[];
};

const MOST_OFFERS = 5;
const MOST_WANTS = 3;
const MOST_KINDS = 5;

/** What hurts people, wanders or eats fish is nobody's easy choice. */
const NOT_SUGGESTED = ['burns-skin', 'stings-skin', 'moves', 'eats-fish'] as const;

export type BesideAsked = {
  coral: Coral;
  colour: string;
  /** Open, with a piece left, of others, none between members who blocked each other. */
  offers: readonly Offer[];
  /** The asker's own. */
  wants: readonly Want[];
};

/** What can stand beside a coral and makes its colour stand out. */
export function beside(base: KnowledgeBase, { coral, colour, offers, wants }: BesideAsked): Beside {
  const [asked = null] = coloursIn(colour);
  return {
    coral,
    colour: asked,
    contrasts: asked ? contrastsOf(asked) : [],
    offers: offersBeside(base, coral, asked, offers),
    wants: wantsBeside(base, coral, asked, wants),
    kinds: kindsBeside(base, coral),
  };
}

/** The strongest of the colours that are there; null when none stands out. */
function strongest(asked: ColourWord | null, colours: readonly ColourWord[]): number | null {
  if (!asked) return 0;
  const score = Math.max(0, ...colours.map((each) => standsOut(asked, each)));
  return score > 0 ? score : null;
}

function offersBeside(base: KnowledgeBase, asked: Coral, colour: ColourWord | null, offers: readonly Offer[]) {
  const found = offers.flatMap((offer): BesideOffer[] => {
    const { coral: id } = knownOf(offer, base);
    const coral = id === null ? undefined : base.corals.get(id);
    const neighbour = coral && neighbourOf(asked, coral);
    if (neighbour?.kind !== 'may' || !coral) return [];
    const colours = coloursIn(offer.details.colour ?? '');
    const score = strongest(colour, colours);
    return score === null ? [] : [{ offer, coral, neighbour, colours, score }];
  });
  return found.sort((one, other) => other.score - one.score || other.offer.id - one.offer.id).slice(0, MOST_OFFERS);
}

function wantsBeside(base: KnowledgeBase, asked: Coral, colour: ColourWord | null, wants: readonly Want[]) {
  const found = wants.flatMap((want): BesideWant[] => {
    const coral = want.coral === null ? undefined : base.corals.get(want.coral);
    const neighbour = coral && neighbourOf(asked, coral);
    if (neighbour?.kind !== 'may' || !coral) return [];
    const said = coloursIn(want.words);
    return said.length > 0 && strongest(colour, said) === null ? [] : [{ want, coral, neighbour }];
  });
  return found.slice(0, MOST_WANTS);
}

/** The easiest first: the same flow, fewer things to mind, the closest light; no two that grow alike. */
function kindsBeside(base: KnowledgeBase, asked: Coral): BesideKind[] {
  const middle = ({ lightPar: [low, high] }: Coral) => (low + high) / 2;
  const found = [...base.corals.values()].flatMap((coral) => {
    if (coral.id === asked.id || coral.feeding === 'must-be-fed') return [];
    if (NOT_SUGGESTED.some((flag) => coral.careFlags.includes(flag))) return [];
    const neighbour = neighbourOf(asked, coral);
    if (neighbour.kind !== 'may') return [];
    const light = Math.abs(middle(coral) - middle(asked)) / 100;
    return [{ coral, neighbour, effort: neighbour.warnings.length + neighbour.apartCm / 10 + light }];
  });
  found.sort((one, other) => one.effort - other.effort || one.coral.name.localeCompare(other.coral.name));
  const seen = new Set<string>();
  return found
    .filter(
      ({ coral: { kind, growthForm } }) => !seen.has(`${kind}/${growthForm}`) && seen.add(`${kind}/${growthForm}`),
    )
    .slice(0, MOST_KINDS)
    .map(({ coral, neighbour }) => ({ coral, neighbour }));
}
