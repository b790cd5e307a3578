// Colour words of keepers as a lamp of mixed white and blue shows them. Vocabulary, not measurement: common practice, no source.
import { normaliseName } from '../knowledge/normalise.ts';

/** Groups of colours that people hold to be the same when they look for one. */
export const COLOUR_FAMILIES = ['red', 'orange', 'yellow', 'green', 'turquoise', 'blue', 'purple', 'pink', 'brown', 'white', 'grey', 'black', 'many'] as const; // prettier-ignore
export type ColourFamily = (typeof COLOUR_FAMILIES)[number];

export type ColourWord = { word: string; hex: string; family: ColourFamily; also: readonly string[] };

const word = (name: string, hex: string, family: ColourFamily, ...also: string[]): ColourWord => ({ word: name, hex, family, also }); // prettier-ignore

/** From red round the wheel; the quiet ones last. `many` has no colour of its own. */
export const COLOUR_WORDS: readonly ColourWord[] = [
  word('red', '#cf3038', 'red', 'scarlet', 'ruby'),
  word('bleeding red', '#9c1527', 'red', 'blood red', 'deep red', 'dark red', 'crimson'),
  word('cherry', '#c21f4e', 'red', 'raspberry'),
  word('burgundy', '#6a1a2e', 'red', 'maroon', 'wine red', 'oxblood'),
  word('brick red', '#a8412b', 'red', 'rust', 'rusty', 'terracotta'),
  word('salmon', '#f2866f', 'orange', 'coral red'),
  word('peach', '#f6b48f', 'orange', 'apricot'),
  word('orange', '#ee7c22', 'orange', 'tangerine', 'pumpkin'),
  word('copper', '#b56f3c', 'orange', 'bronze', 'amber'),
  word('gold', '#e2ab26', 'yellow', 'golden', 'honey'),
  word('mustard', '#b8922a', 'yellow', 'ochre'),
  word('yellow', '#f2d233', 'yellow', 'sunny yellow', 'bright yellow'),
  word('lemon', '#f5ee6a', 'yellow', 'pale yellow', 'neon yellow'),
  word('lime', '#b4dc2e', 'green', 'lime green', 'chartreuse', 'yellow green'),
  word('toxic green', '#5ff03c', 'green', 'neon green', 'acid green', 'slime green', 'fluo green', 'nuclear green'),
  word('green', '#3fa04a', 'green', 'apple green', 'metallic green', 'grass green'),
  word('dark green', '#1f6437', 'green', 'forest green', 'bottle green'),
  word('olive', '#7c7a34', 'green', 'moss green'),
  word('emerald', '#139a62', 'green', 'emerald green', 'jade'),
  word('mint', '#8fe3bf', 'green', 'mint green', 'seafoam'),
  word('teal', '#118987', 'turquoise', 'petrol', 'blue green'),
  word('turquoise', '#2cc6be', 'turquoise', 'aqua', 'cyan'),
  word('ice blue', '#b9e2f5', 'blue', 'pale blue', 'baby blue'),
  word('sky blue', '#62b3ee', 'blue', 'light blue'),
  word('blue', '#2f70d2', 'blue', 'azure', 'cobalt'),
  word('royal blue', '#2a3fb4', 'blue', 'electric blue', 'deep blue', 'ultramarine'),
  word('navy', '#1d2a63', 'blue', 'dark blue', 'midnight blue'),
  word('violet', '#7446cf', 'purple', 'indigo'),
  word('purple', '#8a3cb2', 'purple', 'grape'),
  word('plum', '#67285c', 'purple', 'dark purple', 'aubergine'),
  word('lavender', '#b59be8', 'purple', 'lilac', 'light purple', 'mauve'),
  word('magenta', '#c9299f', 'pink', 'fuchsia', 'fuschia'),
  word('hot pink', '#f13a92', 'pink', 'neon pink', 'shocking pink'),
  word('pink', '#f07fb0', 'pink', 'bubblegum', 'bubblegum pink', 'rose'),
  word('pale pink', '#f7bfd2', 'pink', 'baby pink', 'blush'),
  word('brown', '#785032', 'brown', 'chocolate', 'coffee'),
  word('tan', '#c8a676', 'brown', 'beige', 'sand', 'caramel'),
  word('cream', '#f3e7c6', 'white', 'ivory', 'eggshell'),
  word('white', '#f4f4ef', 'white', 'snow white', 'frosted'),
  word('grey', '#98999b', 'grey', 'gray', 'silver', 'slate'),
  word('black', '#2a2a2e', 'black', 'charcoal'),
  word('rainbow', '#98999b', 'many', 'multicolour', 'multicolor', 'multi colour', 'multi color', 'many colours', 'every colour', 'mixed colours'), // prettier-ignore
];

const LONGEST = 3;
let byName: Map<string, ColourWord> | undefined;
function named(): Map<string, ColourWord> {
  if (byName) return byName;
  byName = new Map(
    COLOUR_WORDS.flatMap((each) => [each.word, ...each.also].map((name) => [normaliseName(name), each] as const)),
  );
  return byName;
}

/** The colours that a text names, the longest name first understood: "toxic green" is one, not also green. */
export function coloursIn(text: string): ColourWord[] {
  const words = normaliseName(text).split(' ');
  const found: ColourWord[] = [];
  for (let at = 0; at < words.length;) {
    let taken = 1;
    for (let length = Math.min(LONGEST, words.length - at); length > 0; length -= 1) {
      const colour = named().get(words.slice(at, at + length).join(' '));
      if (!colour) continue;
      if (!found.includes(colour)) found.push(colour);
      taken = length;
      break;
    }
    at += taken;
  }
  return found;
}

/** The groups of the colours that a text names. */
export const familiesIn = (text: string): Set<ColourFamily> => new Set(coloursIn(text).map(({ family }) => family));
