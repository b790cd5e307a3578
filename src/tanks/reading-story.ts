import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { judge } from './judge.ts';
import { measuredAs } from './measured.ts';
import { nextTest, type NextTest } from './next-test.ts';
import type { Tank } from './tank.ts';
import type { LogEntry, Reading } from './tank-log.ts';
import { courseOf, errorOf, shownBy, type Course, type Shown } from './what-it-shows.ts';

/** The last reading of a parameter with all that follows from it. */
export type ReadingStory = {
  parameter: Parameter;
  last: Reading;
  course: Course;
  shown: Shown;
  next: NextTest;
};

/** What is to be said of one parameter of a tank; null when it was never measured, or is not known any more. */
export function storyOf(
  base: KnowledgeBase,
  tank: Tank,
  parameterId: string,
  log: readonly LogEntry[],
): ReadingStory | null {
  const parameter = base.parameters.get(parameterId);
  if (!parameter || measuredAs(parameter) === null) return null;
  const course = courseOf(parameter, tank, log);
  const last = course.readings.at(-1);
  if (!last) return null;
  const shown = shownBy(parameter, course, tank.volumeError);
  const judged = judge(parameter, last.value).kind;
  const next = nextTest({
    lastAt: last.at,
    outside: judged === 'urgent' || judged === 'warn' ? judged : null,
    consumption: shown.kind === 'consumption' ? shown.consumption : null,
    kitError: errorOf(parameter, last),
  });
  return { parameter, last, course, shown, next };
}
