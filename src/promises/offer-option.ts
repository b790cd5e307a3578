import type { Choice } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { Offer } from '../swaps/offer.ts';

const MOST_CHOICES = 25;

/** How an offer is named in a list, so that two of the same name can be told apart. */
const labelOf = ({ id, details }: Offer): string => `${details.name} · offer ${id}`.slice(0, 100);

/** The offer that an option means: chosen from the list, its number, or the only one of that name. */
export function offerMeant(offers: readonly Offer[], typed: string): Offer | undefined {
  const key = normaliseName(typed);
  const numbered = offers.find(({ id }) => String(id) === typed.trim().replace(/^offer\s+/i, ''));
  const named = offers.filter((offer) =>
    [offer.details.name, labelOf(offer)].some((name) => normaliseName(name) === key),
  );
  return numbered ?? (named.length === 1 ? named[0] : undefined);
}

/** Offers whose name holds what is typed, as choices. */
export function offerChoices(offers: readonly Offer[], typed: string): Choice[] {
  const key = normaliseName(typed);
  return offers
    .filter((offer) => normaliseName(labelOf(offer)).includes(key))
    .slice(0, MOST_CHOICES)
    .map((offer) => ({ name: labelOf(offer), value: String(offer.id) }));
}
