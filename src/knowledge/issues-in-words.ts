import type { z } from 'zod';
import type { Place, Problem } from './yaml-file.ts';

type Issue = z.core.$ZodIssue;

/** zod's issues as complaints a contributor can act on: `file:line:col: came …, expected …`. */
export function issuesInWords(
  file: string,
  value: unknown,
  issues: readonly Issue[],
  placeOf: (path: readonly PropertyKey[]) => Place,
): Problem[] {
  return issues.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        file,
        ...placeOf([...issue.path, key]),
        message: `came the key "${key}", which is not known here; check its spelling against knowledge/schema`,
      }));
    }
    const path = issue.path.map(String).join('.');
    const prefix = path ? `${path}: ` : '';
    return [{ file, ...placeOf(issue.path), message: `${prefix}${sayIssue(issue, valueAt(value, issue.path))}` }];
  });
}

function sayIssue(issue: Issue, came: unknown): string {
  const got = `came ${show(came)}`;
  switch (issue.code) {
    case 'invalid_type':
      return came === undefined
        ? `came nothing, expected ${an(issue.expected)}`
        : `${got}, expected ${an(issue.expected)}`;
    case 'invalid_value':
      return `${got}, expected one of: ${issue.values.map(String).join(', ')}`;
    case 'too_big':
      return `${sizeOf(came, got)}, expected at most ${String(issue.maximum)}${unitOf(issue.origin)}`;
    case 'too_small':
      return typeof issue.message === 'string' && !issue.message.startsWith('Too small')
        ? `${sizeOf(came, got)}, expected ${issue.message}`
        : `${sizeOf(came, got)}, expected at least ${String(issue.minimum)}${unitOf(issue.origin)}`;
    case 'invalid_key':
      return `came this as a key, expected ${issue.issues[0]?.message ?? 'another key'}`;
    default:
      return `${got}, expected ${issue.message}`;
  }
}

const an = (type: string) =>
  type === 'array' ? 'a list' : type === 'object' || type === 'record' ? 'a mapping of keys' : `a ${type}`;
const unitOf = (origin: string) => (origin === 'string' ? ' characters' : origin === 'array' ? ' items' : '');
const sizeOf = (came: unknown, got: string) =>
  typeof came === 'string' ? `came ${came.length} characters` : Array.isArray(came) ? `came ${came.length} items` : got;

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text =
    typeof value === 'object'
      ? Array.isArray(value)
        ? `a list of ${value.length}`
        : 'a mapping'
      : JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) => (typeof inner === 'object' && inner !== null ? Reflect.get(inner, key) : undefined),
    value,
  );
}
