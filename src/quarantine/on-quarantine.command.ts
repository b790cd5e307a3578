import type { ButtonAct } from '../discord/command.ts';
import { md, type Answer, type MessageView, type Request } from '../discord/message-view.ts';
import { MOST_EVENTS, mayNote, type Quarantine } from './quarantine.ts';
import { MOST_DAYS_AGO } from './start-words.ts';
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

/** Said when so much was noted that no more is taken. Nothing that was noted is lost by it. */
export const fullBookView = ({ animals }: Quarantine): MessageView => ({
  ...saysView(
    `${animals}: the book is full`,
    md`${MOST_EVENTS} entries are noted here, and I take no more. Nothing of it is lost, but **this was not noted**.`,
    md`**/quarantine finish** closes this one. If they still wait, **/quarantine start** begins the same plan anew; with **began:** it counts from a day up to ${MOST_DAYS_AGO} days back.`,
  ),
  tone: 'watch',
});

/** A button that notes something, while there is room for it. */
export const onNoting: typeof onQuarantine = (deps, act, run) =>
  onQuarantine(deps, act, (quarantine, args, request, chosen) =>
    deps.store.isFull(quarantine) ? fullBookView(quarantine) : run(quarantine, args, request, chosen),
  );

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
