import type { Choice, Request } from '../discord/message-view.ts';
import { nameKey, singleLine } from '../tanks/tank-name.ts';
import type { Tank } from '../tanks/tank.ts';

type OwnTanks = { tanksOf: (guildId: string, memberId: string) => Tank[] };
const MOST_CHOICES = 25;

/** The tank as its keeper calls it; words that name none of theirs stay as they are. */
export function tankName(
  { tanksOf }: OwnTanks,
  guildId: string | null,
  memberId: string,
  typed: string,
): string | null {
  const own = guildId === null ? [] : tanksOf(guildId, memberId);
  const name = own.find(({ name: each }) => nameKey(each) === nameKey(typed))?.name ?? singleLine(typed);
  return name === '' ? null : name;
}

export function tankChoices({ tanksOf }: OwnTanks, typed: string, { guildId, memberId }: Request): Choice[] {
  if (guildId === null) return [];
  return tanksOf(guildId, memberId)
    .filter(({ name }) => nameKey(name).includes(nameKey(typed)))
    .slice(0, MOST_CHOICES)
    .map(({ name }) => ({ name, value: name }));
}
