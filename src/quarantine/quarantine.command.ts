import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { calendarView } from './calendar.view.ts';
import { changeCommand } from './change.command.ts';
import { finish, undoLast } from './closing.command.ts';
import { logCommand } from './log.command.ts';
import type { Quarantine } from './quarantine.ts';
import { startCommand } from './start.command.ts';
import { boardView, planView, todayView } from './state.view.ts';
import {
  needsAClub,
  ownChoices,
  standingOf,
  WHICH,
  withOwn,
  type QuarantineDeps,
  type Standing,
} from './which.command.ts';

const MOST_SHOWN = 15;

/** `/quarantine start | today | plan | log | list | calendar | change | undo | finish`. */
export function quarantineCommands(deps: QuarantineDeps): AnyCommand[] {
  const onOwn = (
    name: `quarantine ${string}`,
    description: string,
    run: (standing: Standing, request: Request) => Answer,
  ): AnyCommand =>
    defineCommand({
      name,
      description,
      options: [WHICH],
      input: z.object({ which: z.string().max(100).optional() }),
      run: ({ which }, request) => withOwn(deps, which, request, (standing) => run(standing, request)),
      suggest: (_option, typed, request) => ownChoices(deps, typed, request),
    });
  return [
    startCommand(deps),
    onOwn('quarantine today', 'What is due now, and the check-in of the day', ({ quarantine, plan, state }, { now }) =>
      todayView(quarantine, plan, state, now),
    ),
    onOwn('quarantine plan', 'Every date, and why it is that date', (standing, { now }) =>
      planView(deps.base, standing, now),
    ),
    onOwn('quarantine calendar', 'The dates as a file for your calendar', ({ quarantine, plan, state }, { now }) =>
      calendarView(quarantine, plan, state, now),
    ),
    onOwn('quarantine undo', 'Takes back what was noted last', (standing, request) =>
      undoLast(deps, standing, request),
    ),
    onOwn('quarantine finish', 'Closes a quarantine that is over, or calls it off', (standing, request) =>
      finish(deps, standing, request),
    ),
    changeCommand(deps),
    logCommand(deps),
    defineCommand({
      name: 'quarantine list',
      description: 'Your quarantines, and those that members of the club show',
      options: [],
      input: z.object({}),
      run: (_input, { guildId, memberId, now }) => {
        if (guildId === null) return needsAClub();
        const standings = (list: readonly Quarantine[]) => list.flatMap((each) => standingOf(deps, each, now) ?? []);
        const own = deps.store.own(guildId, memberId);
        const helped = deps.store.helped(guildId, memberId);
        const listed = new Set([...own, ...helped].map(({ id }) => id));
        const others = deps.store.shown(guildId, MOST_SHOWN).filter(({ id }) => !listed.has(id));
        return boardView(standings(own), standings(helped), standings(others), now);
      },
    }),
  ];
}
