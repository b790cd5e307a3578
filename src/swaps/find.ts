import { familiesIn, type ColourFamily } from '../beside/colour-words.ts';
import type { Coral } from '../knowledge/coral.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { coralSaid } from './find-names.ts';
import { askedWords, standsFor } from './find-words.ts';
import type { Offer, Want } from './offer.ts';

/**
 * Whether an offer is what a member looks for: the same coral, one of the group, or their words found in it.
 *
 * Where both name a colour, one has to be the same; where one of them says nothing of colour, it may be any. Nobody's
 * own offer fits, nor one of another club. Whether it is open, has a piece left, or stands between members who blocked
 * each other is not asked here.
 */
export function fits(want: Want, offer: Offer, base: KnowledgeBase): boolean {
  if (want.guildId !== offer.guildId || want.memberId === offer.memberId) return false;
  const seen = knownOf(offer, base);
  if (want.coral !== null) return seen.coral === want.coral && coloursAgree(want, seen, base);
  if (want.group !== null) {
    const coral = seen.coral === null ? undefined : base.corals.get(seen.coral);
    return coral !== undefined && isOfGroup(coral, want.group) && coloursAgree(want, seen, base);
  }
  const words = askedOf(want);
  return words.length > 0 && words.every((asked) => seen.words.some((there) => standsFor(asked, there)));
}

/** Whether a coral is of a kind ("stony", "soft" …) or a growth form. */
export const isOfGroup = ({ kind, growthForm }: Pick<Coral, 'kind' | 'growthForm'>, group: string): boolean =>
  kind === group || growthForm === group;

/** What is known of an offer when it is looked for. */
export type Known = {
  /** The coral that it is, or that its name says. */
  coral: string | null;
  /** Its own words and the names of its coral, as they are compared. */
  words: readonly string[];
  /** Colours that its name and its colour say. */
  colours: ReadonlySet<ColourFamily>;
  /** Those, and colours that its story names. */
  mentioned: ReadonlySet<ColourFamily>;
};

/** What is known of an offer, worked out once. */
export function knownOf(offer: Offer, base: KnowledgeBase): Known {
  const kept = KNOWN.get(offer);
  if (kept?.base === base) return kept.known;
  const { coral: said, name, special, colour } = offer.details;
  const coral = said ?? coralSaid(base, name);
  const entry = coral === null ? undefined : base.corals.get(coral);
  const own = wordsOf(`${name} ${colour ?? ''}`).concat(wordsOf(special ?? ''));
  const colours = familiesIn(`${withoutNames(name, entry)} ${colour ?? ''}`);
  const known: Known = {
    coral,
    words: [...new Set([...own, ...(entry ? namesOf(entry) : [])])],
    colours,
    mentioned: new Set([...colours, ...familiesIn(special ?? '')]),
  };
  KNOWN.set(offer, { base, known });
  return known;
}
const KNOWN = new WeakMap<Offer, { base: KnowledgeBase; known: Known }>();

/** Words of every name of a coral, its kind and its growth form. */
export function namesOf(entry: Coral): readonly string[] {
  const kept = CORAL_WORDS.get(entry);
  if (kept) return kept;
  const texts = [entry.id, entry.name, ...entry.hobbyNames, genusOf(entry), entry.kind, entry.growthForm];
  const words = [...new Set(texts.flatMap(wordsOf))];
  CORAL_WORDS.set(entry, words);
  return words;
}
const CORAL_WORDS = new WeakMap<Coral, readonly string[]>();

const genusOf = ({ scientificName }: Coral): string => scientificName.split(/[\s,]/)[0] ?? '';
const wordsOf = (text: string): string[] => halves(text).flatMap((half) => normaliseName(half).split(' ').filter(Boolean)); // prettier-ignore

/** The normaliser looks at a hundred characters, so a longer text is read in pieces. */
function halves(text: string): string[] {
  const pieces: string[] = [];
  for (let rest = text; rest !== '';) {
    const cut = rest.length <= 100 ? rest.length : Math.max(1, rest.lastIndexOf(' ', 100));
    pieces.push(rest.slice(0, cut));
    rest = rest.slice(cut).trimStart();
  }
  return pieces;
}

/** A name such as "green star polyps" says nothing of colour. */
function withoutNames(text: string, entry: Coral | undefined): string {
  if (!entry) return text;
  const names = new Set(namesOf(entry));
  return wordsOf(text)
    .filter((word) => !names.has(word))
    .join(' ');
}

function coloursAgree(want: Want, { colours, mentioned }: Known, base: KnowledgeBase): boolean {
  const asked = colourWanted(want, base);
  if (asked.size === 0 || colours.size === 0 || asked.has('many') || mentioned.has('many')) return true;
  return [...asked].some((family) => mentioned.has(family));
}

function colourWanted(want: Want, base: KnowledgeBase): ReadonlySet<ColourFamily> {
  const kept = WANTED.get(want);
  if (kept) return kept;
  const coral = want.coral === null ? undefined : base.corals.get(want.coral);
  const families = familiesIn(withoutNames(want.words, coral));
  WANTED.set(want, families);
  return families;
}
const WANTED = new WeakMap<Want, ReadonlySet<ColourFamily>>();

function askedOf(want: Want): readonly string[] {
  const kept = ASKED.get(want);
  if (kept) return kept;
  const words = askedWords(want.words);
  ASKED.set(want, words);
  return words;
}
const ASKED = new WeakMap<Want, readonly string[]>();
