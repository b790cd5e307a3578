import { daysAfter } from '../schedule/local-time.ts';
import type { OfferDetails } from './offer.ts';

type Cut = Pick<OfferDetails, 'cutOn' | 'healsInDays'>;

/** The local date from which a piece counts as settled, by what its member says; null when nobody said when it was cut. */
export const settledFrom = ({ cutOn, healsInDays }: Cut): string | null =>
  cutOn === null ? null : daysAfter(cutOn, healsInDays);

/** "Settled since 12 Nov", "Fresh: cut 9 Nov, settled from 25 Nov"; null when nobody said when it was cut. */
export function settledInWords(cut: Cut, now: Date): string | null {
  const from = settledFrom(cut);
  if (cut.cutOn === null || from === null) return null;
  const today = now.toISOString().slice(0, 10);
  if (from <= today) return `Settled since ${dayInWords(from, now)}`;
  return `Fresh: cut ${dayInWords(cut.cutOn, now)}, settled from ${dayInWords(from, now)}`;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** "12 Nov", with its year where that is another one. */
export function dayInWords(date: string, now: Date): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const rest = year === now.getUTCFullYear() ? '' : ` ${year}`;
  return `${day} ${MONTHS[month - 1] ?? ''}${rest}`;
}
