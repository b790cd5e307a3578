import { CORAL_KINDS, GROWTH_FORMS } from '../knowledge/coral-words.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { LIGHTS } from './offer.ts';

/** What somebody looks for among the offers. It travels in the ids of buttons, so it is short. */
export type FindFilter = {
  /** Names or words, as names are compared; empty: anything. */
  text: string;
  light: (typeof LIGHTS)[number] | null;
  growth: (typeof GROWTH_FORMS)[number] | null;
  kind: (typeof CORAL_KINDS)[number] | null;
  area: string;
  settled: boolean;
  free: boolean;
};

export const MOST_TEXT = 36;
export const MOST_AREA = 18;

/** A filter of what was typed; texts are kept in the form and the length that they are compared in. */
export const findFilter = (given: Partial<FindFilter>): FindFilter => ({
  text: shortened(given.text ?? '', MOST_TEXT),
  light: given.light ?? null,
  growth: given.growth ?? null,
  kind: given.kind ?? null,
  area: shortened(given.area ?? '', MOST_AREA),
  settled: given.settled ?? false,
  free: given.free ?? false,
});

/** A text as it is compared, cut at a word. */
export function shortened(text: string, most: number): string {
  const plain = normaliseName(text);
  if (plain.length <= most) return plain;
  const cut = plain.lastIndexOf(' ', most);
  return plain.slice(0, cut > 0 ? cut : most);
}

/** The filter as three words of a button: choices in one, then the texts. */
export function filterArgs({ text, light, growth, kind, area, settled, free }: FindFilter): string[] {
  const choices = [digit(LIGHTS, light), digit(GROWTH_FORMS, growth), digit(CORAL_KINDS, kind), settled ? 1 : 0, free ? 1 : 0]; // prettier-ignore
  return [choices.join(''), text, area];
}

/** Reads what `filterArgs` wrote. What cannot be read asks for nothing. */
export function readFilter([choices = '', text = '', area = '']: readonly string[]): FindFilter {
  const at = (place: number) => parseInt(choices[place] ?? '0', 36) - 1;
  return findFilter({
    text,
    area,
    light: LIGHTS[at(0)] ?? null,
    growth: GROWTH_FORMS[at(1)] ?? null,
    kind: CORAL_KINDS[at(2)] ?? null,
    settled: choices[3] === '1',
    free: choices[4] === '1',
  });
}

const digit = <T>(list: readonly T[], chosen: T | null): string =>
  (chosen === null ? 0 : list.indexOf(chosen) + 1).toString(36);
