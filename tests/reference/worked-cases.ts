import { expect } from 'vitest';
import { numberIn, readReference, textIn, toleranceOf, within, type Row } from './read-csv.ts';

/** One row of dosing-worked.csv: what goes in, and one thing that has to come out. */
export type WorkedCase = {
  id: string;
  output: string;
  expected: number;
  row: Row;
  /** The number given under a key of `inputs`. */
  number: (key: string) => number;
  /** The text given under a key of `inputs`. */
  text: (key: string) => string;
};

/** The rows of dosing-worked.csv of one kind. @throws Error when there is none. */
export function workedCases(kind: string): WorkedCase[] {
  const rows = readReference('dosing-worked').filter((row) => textIn(row, 'kind') === kind);
  if (rows.length === 0) throw new Error(`no worked case of kind ${kind}`);
  return rows.map((row) => {
    const inputs = new Map(
      textIn(row, 'inputs')
        .split(';')
        .map((pair): [string, string] => {
          const [key = '', value = ''] = pair.trim().split('=');
          return [key, value];
        }),
    );
    const text = (key: string) => {
      const value = inputs.get(key);
      if (value === undefined) throw new Error(`${textIn(row, 'id')} gives no ${key}`);
      return value;
    };
    const number = (key: string) => {
      const value = Number(text(key));
      if (!Number.isFinite(value)) throw new Error(`${textIn(row, 'id')}: ${key} is "${text(key)}"`);
      return value;
    };
    const [id, output, expected] = [textIn(row, 'id'), textIn(row, 'output'), numberIn(row, 'expected')];
    return { id, output, expected, row, number, text };
  });
}

/** Expects that a result passes at the tolerance of its row; what is not a number never does. */
export function expectPass({ id, output, expected, row }: WorkedCase, got: number | undefined): void {
  const tolerance = toleranceOf(row);
  // A count has the tolerance 0: it has to be met to the letter.
  const passes = tolerance.abs === 0 ? got === expected : within(got ?? Number.NaN, expected, tolerance);
  expect(passes, `${id} ${output}: got ${got}, expected ${expected}`).toBe(true);
}

/** The union member of this kind; fails the test when the calculator said something else. */
export function told<T extends { kind: string }, K extends T['kind']>(result: T, kind: K): Extract<T, { kind: K }> {
  expect(result.kind, JSON.stringify(result)).toBe(kind);
  return result as Extract<T, { kind: K }>;
}
