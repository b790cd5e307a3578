import { readQuantity, type QuantityOutcome, type ReadQuantity } from '../../shared/quantity-text.ts';
import { bringsPerGram, ION_KEYS, type Ion } from '../../shared/reagent.ts';
import { MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import type { Choice } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import { isUsedUp, measuredAs, parameterNamed } from './measured.ts';
import type { ByParameter } from './tank-log.ts';

/** What a dose was of: a reagent, or whatever raised one parameter by a known amount. */
export type DosedWhat =
  { kind: 'reagent'; reagent: Reagent } | { kind: 'rise'; parameter: Parameter } | { kind: 'unknown' };
type Known = Pick<KnowledgeBase, 'parameters' | 'reagents'>;

const folded = (text: string) =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** What was dosed, by the name of a reagent ("baking soda") or of what it raises ("alkalinity"). */
export function dosedWhat(base: Known, typed: string): DosedWhat {
  const key = folded(typed);
  const reagent = [...base.reagents.values()].find(({ id, name, aliases }) =>
    [id, name, ...aliases].some((each) => folded(each) === key),
  );
  if (reagent) return { kind: 'reagent', reagent };
  const named = parameterNamed(base, typed);
  return named.kind === 'parameter' && isUsedUp(named.parameter)
    ? { kind: 'rise', parameter: named.parameter }
    : { kind: 'unknown' };
}

/** Reagents to choose from, and what can be raised by something that is not among them. */
export function dosedChoices(base: Known, typed: string, most = 25): Choice[] {
  const key = folded(typed);
  const fits = ({ id, name, aliases }: { id: string; name: string; aliases: readonly string[] }) =>
    [id, name, ...aliases].some((each) => folded(each).includes(key));
  const rises = [...base.parameters.values()].filter((each) => isUsedUp(each) && measuredAs(each) !== null);
  return [
    ...rises.filter(fits).map(({ id, name }) => ({ name: `${name}, by what it rose`, value: id })),
    ...[...base.reagents.values()].filter(fits).map(({ id, name }) => ({ name, value: id })),
  ].slice(0, most);
}

export type DosedMass =
  | { kind: 'mass'; massG: number; understood: readonly ReadQuantity[] }
  /** Millilitres say nothing without the strength of the solution. */
  | { kind: 'strength-missing'; understood: string }
  | { kind: 'unread'; name: 'amount' | 'strength'; outcome: Exclude<QuantityOutcome, ReadQuantity> };

/** Grams that were dosed: weighed, or poured as so many millilitres of a solution of so many grams a litre. */
export function dosedMass(amount: string, strength: string | undefined): DosedMass {
  const weighed = readQuantity(amount, { quantity: 'mass', most: 10_000, example: '20 g' });
  if (weighed.kind === 'read') return { kind: 'mass', massG: weighed.si, understood: [weighed] };
  if (weighed.kind !== 'wrong-unit' || weighed.unitOf !== 'volume')
    return { kind: 'unread', name: 'amount', outcome: weighed };
  const poured = readQuantity(amount, { quantity: 'volume', unit: 'mL', most: 100, example: '50 mL' });
  if (poured.kind !== 'read') return { kind: 'unread', name: 'amount', outcome: poured };
  if (strength === undefined) return { kind: 'strength-missing', understood: poured.understood };
  const strong = readQuantity(strength, { quantity: 'strength', example: '80 g/L' });
  if (strong.kind !== 'read') return { kind: 'unread', name: 'strength', outcome: strong };
  return { kind: 'mass', massG: poured.si * strong.si, understood: [poured, strong] };
}

const isIon = (species: string | undefined): species is Ion => species !== undefined && species in ION_KEYS;

/**
 * What grams of a pure reagent bring into all of the water: mg, or dKH times litres for alkalinity.
 *
 * A salt mix brings of everything as the sea holds it, which no mix does exactly, so it counts for nothing here.
 */
export function broughtBy(base: Pick<KnowledgeBase, 'parameters'>, reagent: Reagent, massG: number): ByParameter {
  if (reagent.raises.every((raised) => raised === 'salinity')) return {};
  const brings = bringsPerGram(reagent.formula);
  const of: Record<string, number> = {};
  for (const { id, unit, species, form } of base.parameters.values()) {
    // Copper from a plain salt is ionic; bound forms are other substances.
    if (form !== undefined && form !== 'ionic') continue;
    const perGram =
      unit === 'dKH'
        ? brings.alkalinityMeq / MEQ_PER_L_PER_DKH
        : unit === 'mg/L' && isIon(species)
          ? brings[ION_KEYS[species]]
          : 0;
    if (perGram > 0) of[id] = perGram * massG;
  }
  return of;
}
