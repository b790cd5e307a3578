import { readFileSync } from 'node:fs';

/** One line of a reference file: column → text, as it stands there. */
export type Row = Readonly<Record<string, string>>;

/** The fields of one line of CSV. A field in double quotes may hold commas; a doubled quote stands for one. */
function fieldsOf(line: string, where: string): string[] {
  const fields: string[] = [];
  let at = 0;
  for (;;) {
    if (line[at] === '"') {
      const quoted = /"((?:[^"]|"")*)"(?=,|$)/y;
      quoted.lastIndex = at;
      const field = quoted.exec(line);
      if (!field) throw new Error(`${where}: a quote that never closes, or text after it`);
      fields.push((field[1] ?? '').replaceAll('""', '"'));
      at = quoted.lastIndex;
    } else {
      const comma = line.indexOf(',', at);
      const field = line.slice(at, comma === -1 ? undefined : comma);
      if (field.includes('"')) throw new Error(`${where}: a quote in the middle of a field`);
      fields.push(field);
      at += field.length;
    }
    if (at >= line.length) return fields;
    at += 1;
  }
}

/**
 * The rows of CSV text, told apart by the names in its first line. Lines that start with `#` say where the figures come
 * from and are skipped.
 *
 * @throws Error when a row has more or fewer fields than the header, or there is no row: a check must not shrink unseen.
 */
export function rowsOf(text: string, name: string): Row[] {
  const lines = text
    .split(/\r?\n/)
    .map((line, index) => ({ line, where: `${name}:${index + 1}` }))
    .filter(({ line }) => line.trim() !== '' && !line.startsWith('#'));
  const [header, ...body] = lines.map(({ line, where }) => ({ fields: fieldsOf(line, where), where }));
  if (!header || body.length === 0) throw new Error(`${name} has no rows`);
  if (new Set(header.fields).size !== header.fields.length) throw new Error(`${header.where}: a column named twice`);
  return body.map(({ fields, where }) => {
    if (fields.length !== header.fields.length) {
      throw new Error(`${where}: ${fields.length} fields where the header has ${header.fields.length}`);
    }
    return Object.fromEntries(header.fields.map((column, index) => [column, fields[index] ?? '']));
  });
}

/** The rows of `tests/reference/<name>.csv`. */
export const readReference = (name: string): Row[] =>
  rowsOf(readFileSync(new URL(`./${name}.csv`, import.meta.url), 'utf8'), `${name}.csv`);

/** The text in a column of a row. @throws Error when there is no such column. */
export function textIn(row: Row, column: string): string {
  const text = row[column];
  if (text === undefined) throw new Error(`no column ${column} among ${Object.keys(row).join(', ')}`);
  return text;
}

/** The number in a column of a row. @throws Error when the column is missing, empty or not a number. */
export function numberIn(row: Row, column: string): number {
  const text = textIn(row, column);
  const number = Number(text);
  if (text.trim() === '' || !Number.isFinite(number)) throw new Error(`${column} holds "${text}", not a number`);
  return number;
}

/** How far a result may be off: absolutely, or as a share of the expected value. */
export type Tolerance = { abs?: number | undefined; rel?: number | undefined };

/** The tolerance that a row gives in `tolerance_abs` and `tolerance_rel`. */
export function toleranceOf(row: Row): Tolerance {
  const given = (column: string) => (textIn(row, column) === '' ? undefined : numberIn(row, column));
  return { abs: given('tolerance_abs'), rel: given('tolerance_rel') };
}

/**
 * Whether a result is near enough: within `abs`, or within `rel` times the expected value. Not a number is never near.
 *
 * @throws RangeError when neither tolerance is given, or one is not positive.
 */
export function within(got: number, expected: number, { abs, rel }: Tolerance): boolean {
  const allowed = [abs, rel === undefined ? undefined : rel * Math.abs(expected)].filter((each) => each !== undefined);
  if (allowed.length === 0 || [abs, rel].some((each) => each !== undefined && !(each > 0))) {
    throw new RangeError(`a tolerance has to be positive, got abs ${abs}, rel ${rel}`);
  }
  return Math.abs(got - expected) <= Math.max(...allowed);
}
