import { daysAfter } from '../schedule/local-time.ts';
import { daysBetween } from '../upkeep/every.ts';
import type { Found } from './find-index.ts';
import { LATE } from './find-match.ts';

const WAYS = ['after', 'before', 'from'] as const;

/** What a page is next to: an offer, by its number and where it stood, and when the turning of pages began. */
export type Bookmark = { way: (typeof WAYS)[number]; tier: number; id: number; mark: number; day: string };

export const A_PAGE = 5;
const FIRST_DAY = '2020-01-01';
const MOST_DAYS = 100_000;

/** The bookmark as one word of a button. */
export function bookmarkArg({ way, tier, id, mark, day }: Bookmark): string {
  const days = daysBetween(FIRST_DAY, day);
  return [WAYS.indexOf(way), tier, days, id, mark].map((part) => part.toString(36)).join('.');
}

/** Reads what `bookmarkArg` wrote; null when it is none. */
export function readBookmark(word: string): Bookmark | null {
  const [first, ...parts] = word.split('.');
  const way = WAYS[Number(first)];
  const [tier, days, id, mark] = parts.map((part) => (/^[0-9a-z]{1,9}$/.test(part) ? parseInt(part, 36) : NaN));
  if (!way || tier === undefined || days === undefined || id === undefined || mark === undefined) return null;
  if (![tier, id, mark].every(Number.isSafeInteger) || !(days <= MOST_DAYS)) return null;
  return { way, tier, id, mark, day: daysAfter(FIRST_DAY, days) };
}

export type Page = {
  shown: readonly Found[];
  /** How many stand before and after it. */
  before: number;
  after: number;
  /** The offer that the page was named by is not among them any more. */
  gone: boolean;
};

/**
 * The page next to a bookmark. It is found by where the marked offer stood, not by counting, so that offers which come
 * and go meanwhile move nothing past anybody, whether the marked one is still there or not.
 */
export function pageOf(found: readonly Found[], bookmark: Bookmark | null): Page {
  if (!bookmark) return pageFrom(found, 0, false);
  const { tier, id, way } = bookmark;
  const place = (one: Found) => one.tier - tier || (tier === LATE ? one.offer.id - id : id - one.offer.id);
  const gone = !found.some((one) => one.offer.id === id);
  if (way === 'before') {
    const end = found.findIndex((one) => place(one) >= 0);
    return pageFrom(found, Math.max(0, (end === -1 ? found.length : end) - A_PAGE), gone);
  }
  const start = found.findIndex((one) => place(one) > 0 || (way === 'from' && place(one) === 0));
  return pageFrom(found, start === -1 ? found.length : start, gone);
}

function pageFrom(found: readonly Found[], start: number, gone: boolean): Page {
  const shown = found.slice(start, start + A_PAGE);
  return { shown, before: start, after: Math.max(0, found.length - start - shown.length), gone };
}
