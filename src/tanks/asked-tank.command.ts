import { z } from 'zod';
import type { ClubStore } from '../club/club.store.ts';
import type { OptionSpec } from '../discord/command.ts';
import type { Answer, Choice, GivenMember, Request } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Tanks } from './tank-keeping.store.ts';
import { chooseTank, tankChoices } from './tank-option.ts';
import type { Tank } from './tank.ts';
import { goneView, needsAClubView, notYoursView, whichTankView } from './tank-trouble.view.ts';

export type TankDeps = { base: KnowledgeBase; tanks: Tanks; clubs: ClubStore };

export const TANK_OPTION: OptionSpec = {
  name: 'tank',
  description: 'Which of your tanks; with one tank you can leave it out',
  required: false,
  autocomplete: true,
  mostCharacters: 100,
};
export const FOR_OPTION: OptionSpec = {
  kind: 'member',
  name: 'for',
  description: 'Another member: a tank that they show to the club',
  required: false,
};
export const TypedTank = z.string().max(100).optional();
export const ForMember = z.object({ id: z.string(), name: z.string(), isBot: z.boolean() }).optional();

/** What a command does when a tank is named in a club. */
type OnTank = (tank: Tank, guildId: string) => Answer;

/** One of the asker's own tanks. */
export function onOwnTank({ tanks }: TankDeps, typed: string | undefined, request: Request, run: OnTank): Answer {
  if (request.guildId === null) return needsAClubView();
  const chosen = chooseTank(tanks.tanksOf(request.guildId, request.memberId), typed);
  return chosen.kind === 'tank' ? run(chosen.tank, request.guildId) : whichTankView(chosen, null);
}

/** Whose tank it is, when it is not the asker's own. */
export type Owner = { id: string } | null;
export const ownerOf = (member: GivenMember | undefined, { memberId }: Request): Owner =>
  member === undefined || member.id === memberId ? null : { id: member.id };

/** A tank that the asker may see: their own, or one that another member shows. */
export function onSeenTank(
  { tanks }: TankDeps,
  { tank: typed, for: member }: { tank?: string | undefined; for?: GivenMember | undefined },
  request: Request,
  run: (tank: Tank, guildId: string, owner: Owner) => Answer,
): Answer {
  const { guildId, memberId } = request;
  if (guildId === null) return needsAClubView();
  const owner = ownerOf(member, request);
  const chosen = chooseTank(tanks.tankSeenBy(guildId, memberId, owner?.id ?? memberId), typed);
  return chosen.kind === 'tank' ? run(chosen.tank, guildId, owner) : whichTankView(chosen, owner);
}

/** A tank by the number on a button, for its owner alone. Whoever may not see it hears nothing of it. */
export function onPressedTank({ tanks }: TankDeps, id: string | undefined, request: Request, run: OnTank): Answer {
  const { guildId, memberId } = request;
  if (guildId === null) return needsAClubView();
  const tank = tanks.findSeenBy(guildId, memberId, Number(id));
  if (!tank) return goneView();
  return tank.memberId === memberId ? run(tank, guildId) : notYoursView();
}

/** Tanks to choose from: one's own, or with `for:` those that member shows. */
export function suggestTanks(
  { tanks }: TankDeps,
  typed: string,
  { guildId, memberId }: Request,
  given: Readonly<Record<string, unknown>> = {},
): Choice[] {
  if (guildId === null) return [];
  const owner = typeof given['for'] === 'string' ? given['for'] : memberId;
  return tankChoices(tanks.tankSeenBy(guildId, memberId, owner), typed);
}
