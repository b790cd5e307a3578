import { editDistance } from '../knowledge/edit-distance.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { TraitVocabulary } from '../knowledge/trait-vocabulary.ts';
import { NAMED_TRAITS } from '../knowledge/trait-words.ts';
import { trigramIndex, type TrigramIndex } from '../knowledge/trigram-index.ts';
import type { Context, Reading } from './evidence.ts';

/** What a word or phrase of a description may mean. */
export type Meaning =
  | { kind: 'readings'; readings: Reading[] }
  | { kind: 'size'; lowMm: number; highMm: number }
  | { kind: 'thickness' }
  | { kind: 'light'; blue: boolean }
  | { kind: 'since'; since: NonNullable<Context['since']> };

export type Lexicon = {
  /** The longest phrase, in words. */
  longest: number;
  meaningOf(phrase: string): Meaning | undefined;
  /** The one word that a misspelt word must have been, or undefined when none or several are near. */
  nearestWord(word: string): string | undefined;
  isStopWord(word: string): boolean;
  isNegation(phrase: string): boolean;
  /** A word of damage, death or pain. */
  isAlarm(word: string): boolean;
  /** The first aid that a phrase about people calls for; `any` for several kinds. */
  harmOf(phrase: string): string | undefined;
};

/** A said length word such as "pea" is good to about this factor either way. */
const LATITUDE = 1.6;
const SHORTEST_FUZZY = 5;

/** The words of the vocabulary, ready to be looked up. */
export function buildLexicon(vocabulary: TraitVocabulary): Lexicon {
  const meanings = new Map<string, Meaning>();
  const addReading = (word: string, reading: Reading) => {
    const key = normaliseName(word);
    const known = meanings.get(key);
    if (known?.kind === 'readings') {
      if (!known.readings.some(({ trait, value }) => trait === reading.trait && value === reading.value))
        known.readings.push(reading);
    } else if (!known) meanings.set(key, { kind: 'readings', readings: [reading] });
  };
  const add = (word: string, meaning: Meaning) => {
    const key = normaliseName(word);
    if (key && !meanings.has(key)) meanings.set(key, meaning);
  };
  for (const trait of NAMED_TRAITS)
    for (const [value, { words }] of Object.entries(vocabulary[trait].values))
      for (const word of words) addReading(word, { trait, value });
  for (const [word, span] of Object.entries(vocabulary.sizeMm.words)) {
    const [low, high] = typeof span === 'number' ? [span / LATITUDE, span * LATITUDE] : span;
    add(word, { kind: 'size', lowMm: low, highMm: high });
  }
  for (const [thing, mm] of Object.entries(vocabulary.sizeMm.bareWords))
    for (const phrase of sizePhrases(thing)) add(phrase, { kind: 'size', lowMm: mm / LATITUDE, highMm: mm * LATITUDE });
  for (const word of vocabulary.sizeMm.thickness) add(word, { kind: 'thickness' });
  for (const word of vocabulary.lights.blueWords) add(word, { kind: 'light', blue: true });
  for (const word of vocabulary.lights.whiteWords) add(word, { kind: 'light', blue: false });
  for (const since of ['new rock', 'new coral', 'always here'] as const)
    for (const word of vocabulary.since[since]?.words ?? []) add(word, { kind: 'since', since });

  const stopWords = new Set(vocabulary.stopWords.map(normaliseName));
  const negations = new Set(vocabulary.negations.map(normaliseName));
  const alarms = new Set(vocabulary.alarms.damage.map(normaliseName));
  const harms = new Map(
    Object.entries(vocabulary.alarms.people).flatMap(([aid, words]) =>
      words.map((each) => [normaliseName(each), aid] as const),
    ),
  );
  const single = [...meanings.keys()].filter((key) => !key.includes(' ') && key.length >= SHORTEST_FUZZY);
  let index: TrigramIndex | undefined;
  return {
    longest: Math.max(...[...meanings.keys()].map((key) => key.split(' ').length)),
    meaningOf: (phrase) => meanings.get(phrase),
    nearestWord(word) {
      if (word.length < SHORTEST_FUZZY || stopWords.has(word)) return undefined;
      index ??= trigramIndex(single);
      const most = word.length >= 9 ? 2 : 1;
      const near = index
        .nearest(word, 12)
        .map((at) => ({ name: single[at] ?? '', distance: editDistance(word, single[at] ?? '').whole }))
        .filter(({ distance }) => distance <= most)
        .sort((one, other) => one.distance - other.distance);
      const [best, second] = near;
      return best && (!second || second.distance > best.distance || sameMeaning(meanings, best.name, second.name))
        ? best.name
        : undefined;
    },
    isStopWord: (word) => stopWords.has(word) || word.length < 2,
    isNegation: (phrase) => negations.has(phrase),
    isAlarm: (word) => alarms.has(word),
    harmOf: (phrase) => harms.get(phrase),
  };
}

/** The ways of saying that something is as large as a thing. */
function sizePhrases(thing: string): string[] {
  const owners = ['a', 'my', 'the', ''];
  const leads = ['size of', 'big as', 'large as', 'long as', 'length of', 'bigger than', 'longer than', 'smaller than'];
  return [
    `${thing} size`,
    `${thing} sized`,
    `${thing} length`,
    `${thing} long`,
    ...leads.flatMap((lead) => owners.map((owner) => `${lead} ${owner} ${thing}`.replace('  ', ' '))),
  ];
}

function sameMeaning(meanings: ReadonlyMap<string, Meaning>, one: string, other: string): boolean {
  return JSON.stringify(meanings.get(one)) === JSON.stringify(meanings.get(other));
}
