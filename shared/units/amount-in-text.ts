/** A number at the start of a text, and what comes after it. */
export type AmountInText =
  | { kind: 'amount'; amounts: readonly Amount[]; rest: string }
  | { kind: 'no-number' }
  /** Dots and commas where no number has them: "1,2,3". */
  | { kind: 'garbled' };
export type Amount = { value: number; commaAsThousands: boolean };

/** Digits with separators, a spaced thousand only before exactly three digits, and an exponent. */
const NUMBER = /^([+-]?) ?((?:[.,]\d+|\d+(?:[.,'’]\d+| \d{3}(?!\d))*))(e[+-]?\d{1,3}(?![\d.,]))?[.,]?(?=\D|$)/;

const GROUPED_BY: Readonly<Record<string, RegExp>> = {
  ',': /^\d{1,3}(?:,\d{3})+(?:\.\d+)?$/,
  '.': /^\d{1,3}(?:\.\d{3})+(?:,\d+)?$/,
  ' ': /^\d{1,3}(?: \d{3})+(?:[.,]\d+)?$/,
  "'": /^\d{1,3}(?:['’]\d{3})+(?:[.,]\d+)?$/,
};

/**
 * Reads a number as people write it anywhere: 1234.5, 1234,5, 1,234.5, 1.234,5, 1 234, 1'234, .5, 1e3.
 *
 * One comma before exactly three digits may be either; both readings are given, thousands first, and the caller takes the
 * first that can be meant. A dot there is always a decimal point, since a wrong guess would be off a thousandfold unsaid.
 */
export function amountInText(text: string): AmountInText {
  const [all, sign = '', body, exponent = ''] = NUMBER.exec(text) ?? [];
  if (all === undefined || body === undefined) return { kind: 'no-number' };
  const amounts = readings(body).map(({ digits, commaAsThousands }) => ({
    value: Number(`${sign}${digits}${exponent}`),
    commaAsThousands,
  }));
  return amounts.length > 0 ? { kind: 'amount', amounts, rest: text.slice(all.length).trim() } : { kind: 'garbled' };
}

type Reading = { digits: string; commaAsThousands: boolean };
const plain = (digits: string): Reading => ({ digits, commaAsThousands: false });

function readings(body: string): Reading[] {
  const marks = body.replace(/\d/g, '').replaceAll('’', "'");
  if (marks === '' || marks === '.') return [plain(body)];
  if (marks === ',') {
    const decimal = plain(body.replace(',', '.'));
    return /^[1-9]\d{0,2},\d{3}$/.test(body)
      ? [{ digits: body.replace(',', ''), commaAsThousands: true }, decimal]
      : [decimal];
  }
  const separator = marks[0] ?? '';
  if (!GROUPED_BY[separator]?.test(body)) return [];
  const last = marks.at(-1) ?? '';
  if (last === separator) return [plain(body.replace(/\D/g, ''))];
  const at = body.lastIndexOf(last);
  return [plain(`${body.slice(0, at).replace(/\D/g, '')}.${body.slice(at + 1)}`)];
}
