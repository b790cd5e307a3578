// The outline of every critter of the knowledge base, by its id.
import type { SubjectTable } from './subject-data.ts';
import { CNIDARIANS } from './subjects/cnidarians.ts';
import { CRUSTACEANS } from './subjects/crustaceans.ts';
import { ECHINODERMS } from './subjects/echinoderms.ts';
import { GROWTHS } from './subjects/growths.ts';
import { SHELLS } from './subjects/shells.ts';
import { SLUGS } from './subjects/slugs.ts';
import { SMALL_LIFE } from './subjects/small-life.ts';
import { WORMS } from './subjects/worms.ts';

export const SUBJECTS: SubjectTable = {
  ...WORMS,
  ...ECHINODERMS,
  ...SHELLS,
  ...SLUGS,
  ...CRUSTACEANS,
  ...CNIDARIANS,
  ...GROWTHS,
  ...SMALL_LIFE,
};
