import type { GivenMember, Markdown, MessageView, Request } from '../discord/message-view.ts';
import { md, mentionOf } from '../discord/message-view.ts';
import { DEFAULT_UNITS, type Tank, type TankUnits } from '../tanks/tank.ts';
import { chooseTank, tankChoices, type ChosenTank } from '../tanks/tank-option.ts';
import { cannotView, whichTankView } from '../water/asked.view.ts';

/** Whose tanks there are, and who may see them. */
export type SeenTanks = {
  tanksOf: (guildId: string, memberId: string) => Tank[];
  tankSeenBy: (guildId: string, viewerId: string, ownerId: string) => Tank[];
};

export type WhoseDeps = { tanks: SeenTanks; unitsOf: (guildId: string | null) => TankUnits };

/** Whose water a dose is for. `forMember` is null where it is the asker's own. */
export type Whose = {
  kind: 'whose';
  tank: Tank | null;
  units: TankUnits;
  forMember: { id: string; name: string } | null;
};

export type Named = { tank?: string | undefined; for?: GivenMember | undefined; volume?: string | undefined };

/** Finds the tank, in which units to read the rest, and whom it is for; or a private message that says what is missing. */
export function whoseTank(
  { tanks, unitsOf }: WhoseDeps,
  named: Named,
  { guildId, memberId }: Request,
): Whose | { kind: 'cannot'; view: MessageView } {
  const cannot = (title: string, ...lines: Markdown[]) => ({ kind: 'cannot' as const, view: cannotView(title, lines) });
  const forMember = named.for && named.for.id !== memberId ? named.for : null;
  if (forMember && guildId === null)
    return cannot('Only in a club', md`**for:** works in a channel of your club’s server, where the other one is too.`);
  if (forMember?.isBot) return cannot('Bots have no tanks', md`Choose a member of the club with **for:**.`);
  const seen =
    guildId === null
      ? []
      : forMember
        ? tanks.tankSeenBy(guildId, memberId, forMember.id)
        : tanks.tanksOf(guildId, memberId);
  const chosen = chooseTank(seen, named.tank);
  const isMeant = named.tank !== undefined || named.volume === undefined;
  const tank = chosen.kind === 'tank' && isMeant ? chosen.tank : null;
  if (!tank && isMeant)
    return { kind: 'cannot', view: forMember ? noneOfTheirs(forMember, chosen) : whichTankView(chosen) };
  return {
    kind: 'whose',
    tank,
    units: tank?.units ?? (guildId === null ? DEFAULT_UNITS : unitsOf(guildId)),
    forMember: forMember && { id: forMember.id, name: forMember.name },
  };
}

function noneOfTheirs({ id, name }: GivenMember, chosen: ChosenTank): MessageView {
  if (chosen.kind === 'which' || chosen.kind === 'unknown') {
    const names = chosen.tanks.map((tank) => tank.name).join(', ');
    return cannotView(`Which of ${name}’s tanks?`, [md`They share: ${names}. Add **tank:** with one of these names.`]);
  }
  return cannotView(`${name} shares no tank`, [
    md`${mentionOf(id)} has no tank that you may see. They can share one with **/tank edit** and **seen-by: club**.`,
    md`Or add **volume:** with the net water, such as **volume: 300 L**.`,
  ]);
}

/** Choices while `tank` is typed: the asker’s own, or those that whoever `for` names shares. */
export function suggestTank(
  { tanks }: WhoseDeps,
  typed: string,
  { guildId, memberId }: Request,
  given: Readonly<Record<string, unknown>> = {},
) {
  if (guildId === null) return [];
  const owner = typeof given['for'] === 'string' ? given['for'] : memberId;
  return tankChoices(
    owner === memberId ? tanks.tanksOf(guildId, memberId) : tanks.tankSeenBy(guildId, memberId, owner),
    typed,
  );
}
