import type { Finder } from '../knowledge/finder.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { NO_EVIDENCE, type Evidence, type Observation, type Reading } from './evidence.ts';
import type { Lexicon, Meaning } from './lexicon.ts';
import type { ProseWords } from './prose-words.ts';
import { sizesInText } from './said-size.ts';

/** A stretch of a description and what the reader made of it. */
export type Understood = { words: string; observation: Observation };

export type ReadDescription = {
  evidence: Evidence;
  understood: Understood[];
  /** Words understood that no entry can use, such as a thickness. */
  unused: string[];
  /** Words that somebody is hurt or ill. */
  warnings: string[];
  /** Words the reader could make nothing of. */
  notUnderstood: string[];
};

/** At most this many characters are read; a longer text is no description. */
const MOST_CHARACTERS = 600;
/** A negation reaches this many words on. */
const NEGATION_REACH = 3;
const WHOSE = new Set(['my', 'our', 'his', 'her', 'their', 'the']);
const ATTACKS = new Set(
  'ate eat eats eating eaten killed killing kills attacked attacking attacks bit biting hunting hunts munching munched'.split(
    ' ',
  ),
);
const STOPS_NEGATION = new Set(['but', 'and', 'with', 'only', 'just', 'then']);

/** What a description is read with. */
export type Reader = { lexicon: Lexicon; finder: Finder; prose: ProseWords };

type Token = { word: string; raw: string };
type Piece = {
  words: string;
  meaning: Meaning;
  negated: boolean;
  joinedByOr: boolean;
  /** Its words that entries use of themselves. */
  prose: string[];
};

/**
 * Reads a description in a member's own words: the longest phrases first, typos of longer words, sizes in metric
 * and inches, negations, "pink or orange" as one uncertain colour. Pure.
 */
export function readDescription(text: string, reader: Reader): ReadDescription {
  const { lexicon } = reader;
  const cut = text.slice(0, MOST_CHARACTERS);
  const sizes = sizesInText(cut);
  const tokens = tokensOf(blanked(cut, sizes));
  const { pieces, notUnderstood, victims, proseWords, named } = piecesOf(tokens, reader);
  const blueLight = pieces.some(({ meaning }) => meaning.kind === 'light' && meaning.blue);

  const understood: Understood[] = [];
  const unused: string[] = sizes.filter(({ isThickness }) => isThickness).map(({ words }) => words);
  const wordSizes: { words: string; lowMm: number; highMm: number }[] = [];
  let since: Evidence['context']['since'];
  for (const { lowMm, highMm, words, isThickness } of sizes)
    if (!isThickness) understood.push({ words, observation: { kind: 'size', lowMm, highMm, said: words } });
  for (const piece of withOrJoined(pieces)) {
    const { words, meaning, negated } = piece;
    switch (meaning.kind) {
      case 'readings': {
        const readings = blueLight ? meaning.readings.filter(({ trait }) => trait !== 'colour') : meaning.readings;
        if (readings.length === 0) unused.push(words);
        else
          understood.push({
            words: negated ? `not ${words}` : words,
            observation: { kind: negated ? 'saw-not' : 'saw', readings, said: negated ? `not ${words}` : words },
          });
        break;
      }
      case 'size':
        if (!negated) wordSizes.push({ words, lowMm: meaning.lowMm, highMm: meaning.highMm });
        break;
      case 'thickness':
        unused.push(words);
        break;
      case 'since':
        since ??= meaning.since;
        break;
      case 'light':
        break;
    }
  }
  // "As big as a pea": the thing says more than the adjective, and figures more than either.
  const [size] = wordSizes.sort((one, other) => one.highMm / one.lowMm - other.highMm / other.lowMm);
  if (size && !understood.some(({ observation }) => observation.kind === 'size'))
    understood.push({
      words: size.words,
      observation: { kind: 'size', lowMm: size.lowMm, highMm: size.highMm, said: size.words },
    });
  const colourOnly = ({ meaning }: Piece) =>
    meaning.kind === 'readings' && meaning.readings.every(({ trait }) => trait === 'colour');
  const spoken = pieces
    .filter((piece) => piece.meaning.kind !== 'light' && !(blueLight && colourOnly(piece)))
    .flatMap((piece) => piece.prose);
  const warnings = harmWordsIn(tokensOf(cut), lexicon);
  const hurt = [...new Set(warnings.flatMap((phrase) => lexicon.harmOf(phrase) ?? []))];
  for (const word of new Set([...spoken, ...proseWords]))
    understood.push({ words: word, observation: { kind: 'word', word } });
  return {
    evidence: {
      ...NO_EVIDENCE,
      observations: understood.map(({ observation }) => observation),
      named,
      alarm: hurt.length > 0 || tokens.some(({ word }) => lexicon.isAlarm(word)),
      hurt,
      context: since ? { since } : {},
    },
    understood,
    unused: [...new Set([...unused, ...victims])],
    notUnderstood: [...new Set(notUnderstood)].filter((each) => !warnings.includes(normaliseName(each))),
    warnings: [...new Set(warnings)],
  };
}

/** The text with sizes taken out, so that "3 inch" is not read again as words. */
function blanked(text: string, sizes: readonly { from: number; to: number }[]): string {
  return [...sizes].reverse().reduce((left, { from, to }) => `${left.slice(0, from)} ${left.slice(to)}`, text);
}

function tokensOf(text: string): Token[] {
  return text
    .split(/[\s,;:!?()/]+|\.(?=\s|$)|(?<=[a-z])-(?=[a-z])/i)
    .map((raw) => ({ raw, word: normaliseName(raw) }))
    .filter(({ word }) => word !== '')
    .flatMap(({ raw, word }) => word.split(' ').map((each) => ({ raw, word: each })));
}

/** A word as the member wrote it, without the punctuation around it. */
const said = (raw: string) => raw.toLowerCase().replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '');

function piecesOf(tokens: readonly Token[], { lexicon, finder, prose }: Reader) {
  const pieces: Piece[] = [];
  const notUnderstood: string[] = [];
  const named: string[] = [];
  const victims: string[] = [];
  let negatedUntil = -1;
  const negated = (at: number) => at <= negatedUntil;
  const proseWords: string[] = [];
  let joinedByOr = false;
  let lastWasNegative = false;
  /** Up to here stands a name that is known already. It is a hint; but whoever says "bobbit worm" did see a worm. */
  let nameUntil = 0;
  for (let at = 0; at < tokens.length;) {
    const { word, raw } = tokens[at] ?? { word: '', raw: '' };
    // A sign of illness says what happened to a person, and nothing of the animal.
    if ((lexicon.harmOf(word) ?? 'any') !== 'any') {
      at += 1;
      continue;
    }
    const found = longestAt(tokens, at, lexicon, at < nameUntil ? undefined : finder);
    if (found?.kind === 'name') {
      if (!negated(at)) named.push(found.id);
      nameUntil = at + found.length;
      continue;
    }
    if (found?.kind === 'meaning' && isVictim(tokens, at, found.meaning)) {
      victims.push(...tokens.slice(at, at + found.length).map((token) => said(token.raw)));
      at += found.length;
      continue;
    }
    if (found?.kind === 'negation') {
      negatedUntil = at + found.length + NEGATION_REACH - 1;
      lastWasNegative = true;
      at += found.length;
      continue;
    }
    if (found?.kind === 'meaning') {
      const part = tokens.slice(at, at + found.length);
      const words = [...new Set(part.map((token) => said(token.raw)))].join(' ');
      // "No legs" is a phrase of its own: what it denies was not seen, and its words are no sign of anything.
      const isNegative = part.some((token) => lexicon.isNegation(token.word));
      const spoken = negated(at) || isNegative || at < nameUntil ? [] : part.map((token) => token.word);
      pieces.push({
        words,
        meaning: found.meaning,
        negated: negated(at) && !isNegative,
        joinedByOr: joinedByOr && !isNegative,
        prose: spoken.filter((each) => !lexicon.isStopWord(each) && prose.entriesWith(each)),
      });
      lastWasNegative = negated(at) || isNegative;
    } else if (STOPS_NEGATION.has(word)) {
      negatedUntil = -1;
    } else if (at >= nameUntil && word !== 'or' && !lexicon.isStopWord(word) && !/^\d+$/.test(word)) {
      const nearest = prose.isRealWord(word) ? undefined : lexicon.nearestWord(word);
      const near = nearest !== undefined && prose.mayBeSlipOf(word, nearest) ? nearest : undefined;
      const meaning = near === undefined ? undefined : lexicon.meaningOf(near);
      if (meaning) pieces.push({ words: near ?? word, meaning, negated: negated(at), joinedByOr, prose: [] });
      else if (!negated(at) && prose.entriesWith(word)) proseWords.push(word);
      else {
        if (!lexicon.isAlarm(word)) notUnderstood.push(raw.toLowerCase());
      }
    }
    joinedByOr = word === 'or';
    if (joinedByOr && lastWasNegative) negatedUntil = at + NEGATION_REACH;
    at += found?.length ?? 1;
  }
  return { pieces, notUnderstood, victims, proseWords: [...new Set(proseWords)], named: [...new Set(named)] };
}

/** "Ate my clam": the clam is what it happened to, and not what it looks like. */
function isVictim(tokens: readonly Token[], at: number, meaning: Meaning): boolean {
  if (meaning.kind !== 'readings' || !meaning.readings.some(({ trait }) => trait === 'bodyForm' || trait === 'shell'))
    return false;
  const before = tokens.slice(Math.max(0, at - 3), at).map(({ word }) => word);
  const whose = before.findLastIndex((word) => WHOSE.has(word));
  return whose > 0 && before.slice(0, whose).some((word) => ATTACKS.has(word));
}

/** Phrases of up to three words that speak of harm to people. */
function harmWordsIn(tokens: readonly Token[], lexicon: Lexicon): string[] {
  return tokens.flatMap((_token, at) =>
    [1, 2, 3].flatMap((length) => {
      const phrase = tokens
        .slice(at, at + length)
        .map(({ word }) => word)
        .join(' ');
      return at + length <= tokens.length && lexicon.harmOf(phrase) !== undefined ? [phrase] : [];
    }),
  );
}

type Found =
  | { kind: 'meaning'; meaning: Meaning; length: number }
  | { kind: 'name'; id: string; length: number }
  | { kind: 'negation'; length: number };

/** The longest phrase that begins here: words of the vocabulary, a negation, or the name of an entry. */
function longestAt(
  tokens: readonly Token[],
  at: number,
  lexicon: Lexicon,
  finder: Finder | undefined,
): Found | undefined {
  for (let length = Math.min(Math.max(lexicon.longest, 4), tokens.length - at); length > 0; length -= 1) {
    const phrase = tokens
      .slice(at, at + length)
      .map(({ word }) => word)
      .join(' ');
    if (lexicon.isNegation(phrase)) return { kind: 'negation', length };
    const meaning = lexicon.meaningOf(phrase);
    if (meaning) return { kind: 'meaning', meaning, length };
    if (length > 1 || phrase.length >= 6) {
      const target = lexicon.isStopWord(phrase) ? undefined : finder?.exact(phrase);
      if (target?.kind === 'critter') return { kind: 'name', id: target.id, length };
    }
  }
  return undefined;
}

/** "Pink or orange": two values of one trait, of which one was seen. */
function withOrJoined(pieces: readonly Piece[]): Piece[] {
  const joined: Piece[] = [];
  for (const piece of pieces) {
    const last = joined.at(-1);
    const one = last?.meaning;
    const other = piece.meaning;
    if (
      piece.joinedByOr &&
      last &&
      one?.kind === 'readings' &&
      other.kind === 'readings' &&
      sharesTrait(one.readings, other.readings)
    ) {
      joined[joined.length - 1] = {
        ...last,
        words: `${last.words} or ${piece.words}`,
        meaning: { kind: 'readings', readings: distinct([...one.readings, ...other.readings]) },
      };
    } else joined.push(piece);
  }
  return joined;
}

const sharesTrait = (one: readonly Reading[], other: readonly Reading[]) =>
  one.some(({ trait }) => other.some((reading) => reading.trait === trait));

const distinct = (readings: readonly Reading[]): Reading[] => [
  ...new Map(readings.map((reading) => [`${reading.trait}=${reading.value}`, reading])).values(),
];
