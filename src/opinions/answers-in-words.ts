import type { Identifier } from '../identification/identify.ts';
import { isTraitName } from '../identification/session.ts';
import type { CarriedSighting } from './carried-sighting.ts';

/** A question of the key, and what was answered to it. */
export type Answered = { asked: string; said: string };

/** What came along from a sighting beside its words, in words for people; questions that were skipped are left out. */
export function answersInWords(
  { base, model }: Pick<Identifier, 'base' | 'model'>,
  { described, answers }: CarriedSighting,
): Answered[] {
  const { vocabulary } = model();
  const coral = described.near === null ? undefined : base.corals.get(described.near);
  return [
    ...answers.flatMap(({ question, option }): Answered[] => {
      const [kind, pairId = '', feature = ''] = question.split('/');
      if (kind === 'pair') {
        const pair = base.lookAlikes.get(pairId);
        const look = pair?.features[Number(feature)];
        const said = pair?.a === option ? look?.a : pair?.b === option ? look?.b : undefined;
        return look && said ? [{ asked: look.feature, said }] : [];
      }
      if (question === 'sizeMm') {
        const said = vocabulary.sizeMm.options[Number(option)]?.say;
        return said ? [{ asked: vocabulary.sizeMm.ask, said }] : [];
      }
      const trait = isTraitName(question) ? vocabulary[question] : undefined;
      const said = trait?.values[option]?.say;
      return trait && said ? [{ asked: trait.ask, said }] : [];
    }),
    ...(coral ? [{ asked: 'The coral it sits on or beside', said: coral.name }] : []),
    ...(described.since ? [{ asked: 'What came in before it', said: SINCE[described.since] }] : []),
  ];
}

const SINCE = { 'new rock': 'new rock', 'new coral': 'a new coral', 'always here': 'nothing new' } as const;
