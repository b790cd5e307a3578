// The outline that traits alone lead to, for animals that nobody has set down a special outline for.
import type { Outline } from './outline.ts';
import type { Subject } from './subject.ts';
export function outlineFromTraits(_subject: Subject): Outline {
  return { outline: 'worm' };
}
