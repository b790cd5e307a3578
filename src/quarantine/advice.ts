import type { Fish } from '../knowledge/fish.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Purpose } from '../knowledge/purpose.ts';
import { kindsIn, saysOneOf, type Kinds } from './kinds.ts';
import { asksOfFish, isRefused, notSimplyBorne, type Suited } from './suits.ts';

type Base = Pick<KnowledgeBase, 'fish' | 'plans' | 'purposes'>;
type Row = Purpose['plans'][number];

/** A plan that comes into question, why, and who does not simply bear it. */
export type Weighed = { plan: Plan; row: Row; suited: readonly Suited[] };

export type Advice = {
  purpose: Purpose;
  /** Null where nothing here can be begun without a vet. */
  first: Weighed | null;
  others: readonly Weighed[];
  /** What these fish do not bear. */
  refused: readonly Weighed[];
  /** Only watching is offered, because the words may fit something that medicine in the wrong order makes worse. */
  heldBack: boolean;
};

export type Asker = {
  animals: string;
  /** Kinds that the keeper named. */
  fish: readonly string[];
  isVetLed: boolean;
  /** Signs that were noted in the last days. */
  signs?: readonly string[];
};

/** The kinds of fish that are meant: chosen, named in the words, and those that a word such as "wrasse" leaves open. */
export function kindsOf({ fish: all }: Pick<Base, 'fish'>, { animals, fish }: Pick<Asker, 'animals' | 'fish'>): Kinds {
  const read = kindsIn(animals, all.values());
  const chosen = fish.flatMap((id) => all.get(id) ?? []);
  const certain = [...new Set([...chosen, ...read.certain])];
  const shared = read.shared.filter(({ kinds }) => !kinds.some((kind) => chosen.includes(kind)));
  return { certain, shared, rest: read.rest };
}

/** Everyone whom a plan has to suit: a word that leaves the kind open stands for its most sensitive kind. */
export const mayBe = ({ certain, shared }: Kinds): Fish[] => [
  ...new Set([...certain, ...shared.flatMap(({ kinds }) => kinds)]),
];

/** The purpose whose words or signs come before every other, or undefined. */
export function urgentPurpose(base: Base, asker: Asker): Purpose | undefined {
  const kinds = kindsOf(base, asker);
  const isOther = [...base.purposes.values()].some(
    (purpose) => purpose.for !== 'fish' && saysOneOf(kinds.rest, purpose.words),
  );
  if (isOther && mayBe(kinds).length === 0) return undefined;
  return [...base.purposes.values()].find(
    ({ urgent, words, signs }) =>
      urgent && (saysOneOf(kinds.rest, words) || signs.some((sign) => asker.signs?.includes(sign))),
  );
}

/** What the words alone say that it is for; the usual one of the group where nothing is said to be wrong; undefined when they say nothing. */
export function purposeIn(base: Base, asker: Asker): Purpose | undefined {
  const urgent = urgentPurpose(base, asker);
  if (urgent) return urgent;
  const all = [...base.purposes.values()];
  const kinds = kindsOf(base, asker);
  const isFish = mayBe(kinds).length > 0;
  const named = all.filter((purpose) => (!isFish || purpose.for === 'fish') && saysOneOf(kinds.rest, purpose.words));
  return named.find(({ usual }) => !usual) ?? named[0] ?? (isFish ? all.find(({ usual }) => usual) : undefined);
}

/** Whether a plan does nothing to the animals, so that it suits whatever they have. */
export const isWatching = (plan: Plan): boolean => !plan.medicated && !asksOfFish(plan);

/** Which plan is the best for a purpose and these animals, which others come into question, and which they do not bear. */
export function adviseOn(base: Base, purpose: Purpose, asker: Asker): Advice {
  const fish = purpose.for === 'fish' ? mayBe(kindsOf(base, asker)) : [];
  const urgent = urgentPurpose(base, asker);
  const heldBack = purpose.for === 'fish' && urgent !== undefined && urgent !== purpose && !asker.isVetLed;
  const weighed = purpose.plans
    .flatMap((row): Weighed[] => {
      const plan = base.plans.get(row.plan);
      return plan ? [{ plan, row, suited: notSimplyBorne(plan, fish) }] : [];
    })
    .filter(({ plan }) => !heldBack || isWatching(plan))
    .sort((one, other) => closeness(other.row, asker.animals) - closeness(one.row, asker.animals));
  const refused = asker.isVetLed ? [] : weighed.filter(({ suited }) => isRefused(suited));
  const open = weighed.filter((each) => !refused.includes(each));
  const isSimple = ({ plan, suited }: Weighed) =>
    suited.length === 0 && (fish.length > 0 || !asksOfFish(plan)) && (asker.isVetLed || !plan.vetLed);
  const first = open.find(isSimple) ?? null;
  return { purpose, first, others: open.filter((each) => each !== first), refused, heldBack };
}

/** Rows whose words were said come first, then the one that is meant for unnamed animals. */
const closeness = ({ words, first }: Row, animals: string): number => (saysOneOf(animals, words) ? 2 : first ? 1 : 0);
