import type { Plan } from '../knowledge/plan.ts';
import type { Sign } from '../knowledge/sign.ts';
import type { PlanEvent, Reading } from './plan-event.ts';
import { signName } from './state-words.ts';

const READS: Readonly<Record<string, string>> = { ph: 'pH' };

const readingWords = (reading: Reading): string => {
  const { parameter, value, unit } = reading;
  const form = reading.parameter === 'copper' ? ` (${reading.form})` : '';
  const figures = String(Math.round(value * 1000) / 1000);
  return `${READS[parameter] ?? parameter} ${figures}${unit === 'pH' ? '' : ` ${unit}`}${form}`;
};

/** What was noted, as it stands in a sentence: "sign seen: Dust on the skin". */
export function eventInWords(event: PlanEvent, plan: Plan, signs: ReadonlyMap<string, Sign>): string {
  switch (event.kind) {
    case 'started':
      return 'the start';
    case 'animal-added':
      return `animal added${event.animal === undefined ? '' : `: ${event.animal}`}`;
    case 'check-in': {
      const seen = event.signs.map(({ sign }) => signName(signs, sign));
      const appetite = event.appetite === 'normal' ? '' : `, eating: ${event.appetite}`;
      return `check-in: ${seen.length === 0 ? 'all well' : seen.join(', ')}${appetite}`;
    }
    case 'sign-seen':
      return `sign seen: ${signName(signs, event.sign)}`;
    case 'reading':
      return `reading: ${readingWords(event.reading)}`;
    case 'step-done':
      return `step done: ${[...plan.steps, ...plan.runs].find(({ id }) => id === event.step)?.title ?? event.step}`;
    case 'moved-tank':
      return 'moved to the next tank';
    case 'dose-given':
      return 'dose or dip given';
    case 'shared-water':
      return 'water or wet tools shared';
    case 'death':
      return `death, cause ${event.causeKnown ? 'known' : 'unknown'}`;
    case 'note':
      return `note: ${event.text.slice(0, 80)}`;
    case 'vet-said':
      return `word of a vet: ${event.text.slice(0, 80)}`;
    case 'undone':
      return 'something taken back';
  }
}
