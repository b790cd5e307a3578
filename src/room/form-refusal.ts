import { Refusal } from './refusal.ts';

/** One thing that is wrong with a request body, and where. */
export type Problem = { path: readonly PropertyKey[]; message: string };

/** "Invalid Form Body" with every problem at its place in the body, as Discord answers. */
export function formRefusal(problems: readonly Problem[]): Refusal {
  const errors: Record<string, unknown> = {};
  for (const { path, message } of problems) {
    let level = errors;
    for (const key of path) level = deeper(level, String(key));
    const before = Array.isArray(level['_errors']) ? level['_errors'] : [];
    level['_errors'] = [...before, { code: 'ROOM_CONTRACT', message }];
  }
  return new Refusal(400, 50035, 'Invalid Form Body', { errors });
}

function deeper(level: Record<string, unknown>, key: string): Record<string, unknown> {
  const next = level[key];
  if (isRecord(next)) return next;
  const made: Record<string, unknown> = {};
  level[key] = made;
  return made;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
