const MOST_CHARACTERS = 100;
/** Nearly every name: nothing to unpick, so the slow part is skipped. */
const PLAIN = /^[ -~]*$/;

/**
 * The form in which names are compared: lower case, no accents or punctuation, single spaces, words in the
 * singular. At most 100 characters of the input are looked at, so a hostile input costs no more than a name.
 */
export function normaliseName(text: string): string {
  const cut = text.slice(0, MOST_CHARACTERS).replace(/['’‘`´]/g, '');
  const plain = PLAIN.test(cut) ? cut : cut.normalize('NFKD').replace(/\p{M}/gu, '');
  return plain
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .split(' ')
    .map(singular)
    .join(' ');
}

/** The usual English plurals; words such as "mysis", "octopus" and "moss" stay as they are. */
export function singular(word: string): string {
  if (word.length < 4 || /(ss|us|is)$/.test(word)) return word;
  if (word.endsWith('ies') && word.length > 4) return `${word.slice(0, -3)}y`;
  if (/(ch|sh|x|ss|zz)es$/.test(word)) return word.slice(0, -2);
  if (word.endsWith('s')) return word.slice(0, -1);
  return word;
}
