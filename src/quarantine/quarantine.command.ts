import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer, type Request } from '../discord/message-view.ts';
import { calendarView } from './calendar.view.ts';
import { logCommand } from './log.command.ts';
import type { Quarantine } from './quarantine.ts';
import { startCommand } from './start.command.ts';
import { callOffView, saysView } from './start.view.ts';
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

/** `/quarantine start | today | plan | log | list | calendar | undo | finish`. */
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
    onOwn('quarantine undo', 'Takes back what was noted last', ({ quarantine }, request) =>
      undoLast(deps, quarantine, request),
    ),
    onOwn(
      'quarantine finish',
      'Closes a quarantine that is over, or calls it off',
      ({ quarantine, state }, { now }) => {
        if (!state.completed) return callOffView(quarantine);
        deps.store.save({ ...quarantine, ended: { how: 'finished', at: now } });
        return saysView(`${quarantine.animals}: finished`, md`Well done. It is off the list.`);
      },
    ),
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
        const others = deps.store.shown(guildId, MOST_SHOWN).filter((each) => each.memberId !== memberId);
        return boardView(standings(own), standings(others), now);
      },
    }),
  ];
}

function undoLast({ store }: QuarantineDeps, quarantine: Quarantine, { memberId, now }: Request): Answer {
  const events = store.events(quarantine);
  const gone = new Set(events.flatMap((event) => (event.kind === 'undone' ? [event.eventId] : [])));
  const last = events.findLast(
    ({ id, kind }) => kind !== 'undone' && kind !== 'started' && kind !== 'note' && !gone.has(id),
  );
  if (!last) return saysView('Nothing to take back', md`Nothing was noted since the start.`);
  store.note(quarantine, { kind: 'undone', at: now, eventId: last.id }, memberId, now);
  return saysView(
    'Taken back',
    md`The last entry (${last.kind.replaceAll('-', ' ')}) no longer counts. **/quarantine today** shows how it stands.`,
  );
}
