import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { coralIn } from './draft.ts';
import type { Want } from './offer.ts';

/** Groups that somebody can look for: kinds and growth forms of knowledge/corals, as people say them. */
export const GROUPS: Readonly<Record<string, string>> = {
  soft: 'any soft coral',
  zoanthid: 'any zoanthid',
  corallimorph: 'any mushroom',
  stony: 'any stony coral',
  branching: 'any branching coral',
  plating: 'any plating coral',
  encrusting: 'any encrusting coral',
  massive: 'any boulder or dome',
  mat: 'any mat of polyps',
  'single-polyp': 'any coral of one large polyp',
  'single-stalk': 'any coral on one trunk',
  lobed: 'any coral with lobes or fingers',
};

const MOST_WORDS = 60;
const KM_PER_MILE = 1.609344;
const FURTHEST_KM = 2_000;

export type Wanted = Pick<Want, 'coral' | 'group' | 'words'>;

/** What somebody looks for: a coral, a group, or words. Null for nothing at all. */
export function readWanted(base: KnowledgeBase, typed: string): Wanted | null {
  const text = typed.toWellFormed().replace(/\s+/g, ' ').trim().slice(0, MOST_WORDS).trim();
  if (text === '') return null;
  const plain = normaliseName(text);
  const group = Object.entries(GROUPS).find(([, words]) =>
    [words, `${words}s`].some((each) => normaliseName(each) === plain),
  );
  if (group) return { coral: null, group: group[0], words: group[1] };
  const chosen = base.corals.get(text);
  if (chosen) return { coral: text, group: null, words: chosen.name };
  return { coral: coralIn(base, text), group: null, words: text };
}

/** "30", "30 km", "20 miles" as whole kilometres; null when it is none of these. */
export function readDrive(typed: string): number | null {
  const [, figure = '', unit = ''] =
    /^(\d{1,4}(?:[.,]\d{1,2})?)\s*([a-z]*)\.?$/i.exec(typed.normalize('NFKC').trim()) ?? [];
  const isMiles = /^(?:mi|mile|miles)$/i.test(unit);
  const isKm = /^(?:|k|km|kms|kilometers?|kilometres?)$/i.test(unit);
  if (figure === '' || (!isMiles && !isKm)) return null;
  const km = Math.round(Number(figure.replace(',', '.')) * (isMiles ? KM_PER_MILE : 1));
  return km >= 1 && km <= FURTHEST_KM ? km : null;
}
