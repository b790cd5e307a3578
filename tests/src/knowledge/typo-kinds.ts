import { readFileSync } from 'node:fs';

/** One row of tests/reference/typo-kinds.csv. */
export type TypoKind = { kind: string; from: string; to: string; variants: (name: string) => string[] };

/** The kinds of slip in the reference table, each with all the ways in which it can spoil a name. */
export function typoKinds(): TypoKind[] {
  const rows = readFileSync('tests/reference/typo-kinds.csv', 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));
  return rows.map(([kind = '', , from = '', to = '', data = '', ...more]) => {
    if (more.length > 0) throw new Error(`typo-kinds.csv: a field of "${kind}" holds a comma`);
    return { kind, from, to, variants: (name) => makerOf(kind)(name, data.split(' ')) };
  });
}

type Maker = (name: string, data: readonly string[]) => string[];

function makerOf(kind: string): Maker {
  const maker = MAKERS[kind];
  if (!maker) throw new Error(`typo-kinds.csv: no rule is written for the kind "${kind}"`);
  return maker;
}

const MAKERS: Readonly<Record<string, Maker>> = {
  swap: (name) =>
    letterPlaces(name, 5, 1)
      .filter((at) => isLetter(name[at + 1]) && name[at] !== name[at + 1])
      .map((at) => `${name.slice(0, at)}${name[at + 1]}${name[at]}${name.slice(at + 2)}`),
  drop: (name) => letterPlaces(name, 5, 1).map((at) => name.slice(0, at) + name.slice(at + 1)),
  double: (name, data) => replaced(name, data).filter((typo) => !/([a-z])\1\1/.test(typo)),
  undouble: replaced,
  'neighbour-key': (name, data) => {
    const neighbours = new Map(data.map((row) => [row[0], row.slice(2)]));
    return letterPlaces(name, 5, 0).flatMap((at) =>
      [...(neighbours.get(name[at]) ?? '')].map((key) => name.slice(0, at) + key + name.slice(at + 1)),
    );
  },
  phonetic: replaced,
  voice: (name, data) => replaced(name, data, 'whole words'),
  spelling: replaced,
  'space-moved': replaced,
  hyphen: replaced,
  'words-reordered': (name, data) => {
    const words = name.split(' ');
    return data
      .filter((order) => order.length === words.length)
      .map((order) => [...order].map((place) => words[Number(place) - 1]).join(' '));
  },
  plural: (name, data) => {
    if (name.endsWith('s')) return [];
    const [first] = data.filter((rule) => name.endsWith(rule.split('>')[0]?.replace('$', '') ?? ''));
    return first ? replaced(name, [first]).slice(-1) : [];
  },
  prefix: (name, data) => {
    if (name.replaceAll(' ', '').length < 8) return [];
    const slips = typoKinds().filter(({ kind }) => data.includes(`slip:${kind}`));
    const [least, most] = ['min', 'max'].map((key) => Number(data.find((row) => row.startsWith(`${key}:`))?.slice(4)));
    const lengths = range(Math.ceil(name.length * (least ?? 1)), Math.floor(name.length * (most ?? 1)));
    return lengths.flatMap((length) =>
      slips.flatMap(({ variants }) => variants(name).map((typo) => typo.slice(0, length))),
    );
  },
};

/** `name` with each replacement of `data` made once, at each place where it fits. */
function replaced(name: string, data: readonly string[], where: 'anywhere' | 'whole words' = 'anywhere'): string[] {
  return data.flatMap((rule) => {
    const [from = '', to = ''] = rule.replaceAll('_', ' ').split('>');
    const atEnd = from.endsWith('$');
    const wanted = from.replace('$', '');
    return range(0, name.length - wanted.length)
      .filter((at) => name.startsWith(wanted, at))
      .filter((at) => !atEnd || !isLetter(name[at + wanted.length]))
      .filter((at) => where === 'anywhere' || (!isLetter(name[at - 1]) && !isLetter(name[at + wanted.length])))
      .map((at) => name.slice(0, at) + to.replace('$', '') + name.slice(at + wanted.length));
  });
}

/** Places of letters in words of at least `shortest` letters, without the first `kept` of each. */
function letterPlaces(name: string, shortest: number, kept: number): number[] {
  return [...name.matchAll(/[a-z]+/g)]
    .filter(([word]) => word.length >= shortest)
    .flatMap(({ 0: word, index }) => range(index + kept, index + word.length - 1));
}

const isLetter = (char: string | undefined) => char !== undefined && /[a-z]/.test(char);
const range = (from: number, to: number) => Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => from + at);
