import type { TraitVocabulary } from '../knowledge/trait-vocabulary.ts';
import type { Reason } from './explain.ts';

/** A probability as people say it: "about 8 in 10", "less than 1 in 30". */
export function chanceInWords(probability: number): string {
  if (probability >= 0.97) return 'almost certain';
  if (probability >= 0.93) return 'more than 9 in 10';
  if (probability >= 0.075) return `about ${Math.max(1, Math.round(probability * 10))} in 10`;
  if (probability >= 0.03) return 'about 1 in 20';
  return 'less than 1 in 30';
}

/** Pieces of evidence as the member gave them, each once; words found in the entry's own description come last. */
export function reasonsInWords(reasons: readonly Reason[], vocabulary: TraitVocabulary, most: number): string {
  const said = reasons.flatMap(({ observation }) => {
    if (!observation) return ['the feature you looked at'];
    if (observation.kind === 'word') return [];
    if (observation.said) return [observation.said];
    if (observation.kind === 'size') return [`${millimetres(observation.lowMm)} to ${millimetres(observation.highMm)}`];
    const labels = observation.readings.map(({ trait, value }) =>
      lowerFirst(vocabulary[trait].values[value]?.say ?? value),
    );
    const words = [...new Set(labels)].join(' or ');
    return [observation.kind === 'saw-not' ? `not: ${words}` : words];
  });
  const given = said.join(' ');
  const described = reasons.flatMap(({ observation }) =>
    observation?.kind === 'word' && !given.includes(observation.word) ? [observation.word] : [],
  );
  return [...new Set([...said, ...described])].slice(0, most).join(', ');
}

const millimetres = (mm: number) =>
  mm >= 100 ? `${Math.round(mm / 10)} cm` : mm >= 10 ? `${Math.round(mm)} mm` : `${Number(mm.toPrecision(2))} mm`;
const lowerFirst = (text: string) => (/^[A-Z][a-z ]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);
