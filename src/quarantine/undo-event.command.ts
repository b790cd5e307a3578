import type { ButtonAct } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { onQuarantine, todayAnswer } from './on-quarantine.command.ts';
import { saysView } from './start.view.ts';
import { TAKE_BACK_ACT, takeBack } from './take-back.ts';
import type { QuarantineDeps } from './which.command.ts';

export { takeBack };

/** Takes back one event, once; a second press changes nothing. */
export function undoEventButton(deps: QuarantineDeps): ButtonAct {
  return onQuarantine(deps, TAKE_BACK_ACT, (quarantine, [eventId = ''], request) => {
    const events = deps.store.events(quarantine);
    const meant = events.find(({ id, kind }) => id === eventId && kind !== 'started' && kind !== 'undone');
    if (!meant) return saysView('Nothing to take back', md`That entry is not there any more.`);
    if (!events.some((event) => event.kind === 'undone' && event.eventId === eventId))
      deps.store.note(quarantine, { kind: 'undone', at: request.now, eventId }, request.memberId, request.now);
    return todayAnswer(deps, quarantine, request);
  });
}
