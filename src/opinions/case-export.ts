import { observationKey } from '../identification/evidence.ts';
import { distinctObservations } from '../identification/evidence.ts';
import type { CaseShown } from './case.view.ts';

/**
 * Settled cases as YAML, in the shape of the engine's own lists of described animals, with what the club said beside it.
 *
 * Texts are written as JSON strings, which YAML reads to the letter whatever members wrote.
 */
export function caseExport(cases: readonly CaseShown[]): string {
  return ['# Cases that a curator settled. Members are not named.', ...cases.map(oneCase)].join('\n') + '\n';
}

function oneCase({ opinion, bot, ballots }: CaseShown): string {
  const { closed, guildId, channelId, messageId, text, openedAt, id } = opinion;
  const count = (verdict: string) => ballots.filter((ballot) => ballot.verdict === verdict).length;
  const observations = distinctObservations(bot.evidence.observations).map(observationKey);
  const features = bot.evidence.features
    .map(({ pair, feature, looksLike }) => `${pair}/${feature} ${looksLike}`)
    .sort();
  const quoted = (value: string) => JSON.stringify(value.toWellFormed());
  return [
    `- text: ${quoted(text)}`,
    `  entry: ${quoted(closed?.entry ?? '')}`,
    `  verdict: ${quoted(closed?.verdict ?? '')}`,
    `  reason: ${quoted(closed?.reason ?? '')}`,
    `  observations: [${observations.map(quoted).join(', ')}]`,
    `  features: [${features.map(quoted).join(', ')}]`,
    `  photo: ${quoted(messageId ? `https://discord.com/channels/${guildId}/${channelId}/${messageId}` : '')}`,
    `  tally: { pest: ${count('pest')}, harmless: ${count('harmless')}, cannot-tell: ${count('cannot-tell')} }`,
    `  case: ${id}`,
    `  opened: ${quoted(openedAt.toISOString().slice(0, 10))}`,
  ].join('\n');
}
