import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { isHarmful } from '../../../src/identification/decide.ts';
import { base, described } from './engine.ts';

const Case = z.strictObject({
  text: z.string().min(10).max(600),
  near: z.string(),
  since: z.enum(['', 'new rock', 'new coral', 'always here']),
  /** The entry that it is; `none` where words cannot say, or where there is no entry. */
  entry: z.string(),
  /** Entries that would be right as well. */
  also: z.array(z.string()).default([]),
  kind: z.enum(['clear', 'partial', 'wrong-detail', 'vague', 'not-in-base']).optional(),
  source: z.string().min(5).optional(),
  seen: z.boolean().optional(),
});
export type Case = z.infer<typeof Case>;

const fileOf = (name: string) => `tests/reference/${name}.yaml`;
export const isThere = (name: string): boolean => existsSync(fileOf(name));
export const casesOf = (name: string): Case[] => z.array(Case).parse(parse(readFileSync(fileOf(name), 'utf8')));

export type ListResult = {
  cases: number;
  withEntry: number;
  /** Shares of the cases with an entry. */
  first: number;
  inThree: number;
  /** Of the cases that were named, the share named rightly. */
  named: number;
  namedRightly: number;
  /** Cases without an entry, and how many of them got a name, or "leave it". */
  without: number;
  withoutNamed: number;
  withoutLeft: string[];
  /** Everything harmful of which "leave it" was said. */
  harmfulLeft: string[];
};

/** What the engine makes of a list. */
export function resultOf(cases: readonly Case[]): ListResult {
  const rows = cases.map((each) => {
    const { text, near, since, entry, also } = each;
    const { decision } = described({ text, near, ...(since ? { since } : {}) }).identified;
    const ids = decision.candidates.map(({ critter }) => critter.id);
    const right = ids.map((id) => id === entry || also.includes(id));
    const truth = base.critters.get(entry);
    if (!truth && entry !== 'none') throw new Error(`there is no entry ${entry}`);
    const line = `${entry} as ${ids[0] ?? 'nothing'}: ${text}`;
    return { truth, right, line, named: decision.kind === 'likely', left: decision.act === 'keep' };
  });
  const share = (part: number, of: number) => (of === 0 ? 1 : part / of);
  const known = rows.filter(({ truth }) => truth);
  const unknown = rows.filter(({ truth }) => !truth);
  const named = known.filter((row) => row.named);
  return {
    cases: rows.length,
    withEntry: known.length,
    first: share(known.filter(({ right }) => right[0]).length, known.length),
    inThree: share(known.filter(({ right }) => right.includes(true)).length, known.length),
    named: named.length,
    namedRightly: share(named.filter(({ right }) => right[0]).length, named.length),
    without: unknown.length,
    withoutNamed: unknown.filter((row) => row.named).length,
    withoutLeft: unknown.filter(({ left }) => left).map(({ line }) => line),
    harmfulLeft: known.filter(({ truth, left }) => left && truth && isHarmful(truth)).map(({ line }) => line),
  };
}
