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
  /** Words the reader could make nothing of. */
  notUnderstood: string[];
};

/** At most this many characters are read; a longer text is no description. */
const MOST_CHARACTERS = 600;
/** A negation reaches this many words on. */
const NEGATION_REACH = 3;
const STOPS_NEGATION = new Set(['but', 'and', 'with', 'only', 'just', 'then']);

/** What a description is read with. */
export type Reader = { lexicon: Lexicon; finder: Finder; prose: ProseWords };

type Token = { word: string; raw: string };
type Piece = { words: string; meaning: Meaning; negated: boolean; joinedByOr: boolean };

/**
 * Reads a description in a member's own words: the longest phrases first, typos of longer words, sizes in metric
 * and inches, negations, "pink or orange" as one uncertain colour. Pure.
 */
export function readDescription(text: string, reader: Reader): ReadDescription {
  const { lexicon } = reader;
  const cut = text.slice(0, MOST_CHARACTERS);
  const sizes = sizesInText(cut);
  const tokens = tokensOf(blanked(cut, sizes));
  const { pieces, notUnderstood, proseWords, named } = piecesOf(tokens, reader);
  const blueLight = pieces.some(({ meaning }) => meaning.kind === 'light' && meaning.blue);

  const understood: Understood[] = [];
  const unused: string[] = sizes.filter(({ isThickness }) => isThickness).map(({ words }) => words);
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
        if (!negated && !understood.some(({ observation }) => observation.kind === 'size'))
          understood.push({
            words,
            observation: { kind: 'size', lowMm: meaning.lowMm, highMm: meaning.highMm, said: words },
          });
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
  for (const word of proseWords) understood.push({ words: word, observation: { kind: 'word', word } });
  return {
    evidence: {
      ...NO_EVIDENCE,
      observations: understood.map(({ observation }) => observation),
      named,
      alarm: tokens.some(({ word }) => lexicon.isAlarm(word)),
      context: since ? { since } : {},
    },
    understood,
    unused: [...new Set(unused)],
    notUnderstood: [...new Set(notUnderstood)],
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

function piecesOf(tokens: readonly Token[], { lexicon, finder, prose }: Reader) {
  const pieces: Piece[] = [];
  const notUnderstood: string[] = [];
  const named: string[] = [];
  let negatedUntil = -1;
  const negated = (at: number) => at <= negatedUntil;
  const proseWords: string[] = [];
  let joinedByOr = false;
  for (let at = 0; at < tokens.length;) {
    const { word, raw } = tokens[at] ?? { word: '', raw: '' };
    const found = longestAt(tokens, at, lexicon, finder);
    if (found?.kind === 'negation') {
      negatedUntil = at + found.length + NEGATION_REACH - 1;
      at += found.length;
      continue;
    }
    if (found?.kind === 'meaning') {
      const words = tokens
        .slice(at, at + found.length)
        .map((token) => token.word)
        .join(' ');
      pieces.push({ words, meaning: found.meaning, negated: negated(at), joinedByOr });
      if (!negated(at))
        proseWords.push(...words.split(' ').filter((each) => !lexicon.isStopWord(each) && prose.entriesWith(each)));
    } else if (found?.kind === 'name') {
      named.push(found.id);
    } else if (STOPS_NEGATION.has(word)) {
      negatedUntil = -1;
    } else if (word !== 'or' && !lexicon.isStopWord(word) && !/^\d+$/.test(word)) {
      const near = prose.isRealWord(word) ? undefined : lexicon.nearestWord(word);
      const meaning = near === undefined ? undefined : lexicon.meaningOf(near);
      if (meaning) pieces.push({ words: near ?? word, meaning, negated: negated(at), joinedByOr });
      else if (!negated(at) && prose.entriesWith(word)) proseWords.push(word);
      else notUnderstood.push(raw.toLowerCase());
    }
    joinedByOr = word === 'or';
    at += found?.length ?? 1;
  }
  return { pieces, notUnderstood, proseWords: [...new Set(proseWords)], named: [...new Set(named)] };
}

type Found =
  | { kind: 'meaning'; meaning: Meaning; length: number }
  | { kind: 'name'; id: string; length: number }
  | { kind: 'negation'; length: number };

/** The longest phrase that begins here: words of the vocabulary, a negation, or the name of an entry. */
function longestAt(tokens: readonly Token[], at: number, lexicon: Lexicon, finder: Finder): Found | undefined {
  for (let length = Math.min(Math.max(lexicon.longest, 4), tokens.length - at); length > 0; length -= 1) {
    const phrase = tokens
      .slice(at, at + length)
      .map(({ word }) => word)
      .join(' ');
    if (lexicon.isNegation(phrase)) return { kind: 'negation', length };
    const meaning = lexicon.meaningOf(phrase);
    if (meaning) return { kind: 'meaning', meaning, length };
    if (length > 1 || phrase.length >= 6) {
      const target = lexicon.isStopWord(phrase) ? undefined : finder.exact(phrase);
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
        meaning: { kind: 'readings', readings: [...one.readings, ...other.readings] },
      };
    } else joined.push(piece);
  }
  return joined;
}

const sharesTrait = (one: readonly Reading[], other: readonly Reading[]) =>
  one.some(({ trait }) => other.some((reading) => reading.trait === trait));
