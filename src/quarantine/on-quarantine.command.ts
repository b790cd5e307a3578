import type { ButtonAct } from '../discord/command.ts';
import { md, type Answer, type Request } from '../discord/message-view.ts';
import { mayNote, type Quarantine } from './quarantine.ts';
import { saysView } from './start.view.ts';
import { todayView } from './state.view.ts';
import { planGone, standingOf, type QuarantineDeps, type Standing } from './which.command.ts';

/**
 * A button of one quarantine, named by its first argument. It looks for itself who presses, since in direct messages a
 * press carries no club: the keeper, and whoever they named to check in.
 */
export const onQuarantine = (
  { store }: QuarantineDeps,
  act: string,
  run: (quarantine: Quarantine, args: readonly string[], request: Request, chosen: readonly string[]) => Answer,
): ButtonAct => ({
  act,
  run: ([id = '', ...args], request, chosen = []) => {
    const found = store.findAnywhere(Number(id));
    const elsewhere = request.guildId !== null && found?.guildId !== request.guildId;
    if (!found || elsewhere || !mayNote(found, request.memberId))
      return saysView('Not yours', md`Only whoever keeps these animals, or helps with them, can press that.`);
    return found.ended
      ? saysView('It is closed', md`This quarantine is off the list. **/quarantine list** shows what runs.`)
      : run(found, args, request, chosen);
  },
});

/** How it stands now, in place of the message whose button was pressed. */
export function todayAnswer(deps: QuarantineDeps, quarantine: Quarantine, { now }: Request): Answer {
  const standing = standingOf(deps, quarantine, now);
  return standing ? { ...todayView(quarantine, standing.plan, standing.state, now), replaces: true } : planGone();
}

/** How it stands when it has begun; null before that. */
export function startedStanding(deps: QuarantineDeps, quarantine: Quarantine, now: Date): Standing | null {
  const standing = standingOf(deps, quarantine, now);
  return standing?.state.startedAt ? standing : null;
}
