import { md, type Answer, type Request } from '../discord/message-view.ts';
import { eventInWords } from './event-words.ts';
import { standingEvents } from './may-start.ts';
import { callOffView, finishedView, keeperOnlyView, saysView } from './start.view.ts';
import { moment } from './state-words.ts';
import type { QuarantineDeps, Standing } from './which.command.ts';

/** Takes back what was noted last and says what it was. */
export function undoLast(deps: QuarantineDeps, { quarantine, plan }: Standing, { memberId, now }: Request): Answer {
  const { base, store } = deps;
  const last = standingEvents(store.events(quarantine)).findLast(({ kind }) => kind !== 'started' && kind !== 'note');
  if (!last) return saysView('Nothing to take back', md`Nothing was noted since the start.`);
  store.note(quarantine, { kind: 'undone', at: now, eventId: last.id }, memberId, now);
  return saysView(
    'Taken back',
    md`**${quarantine.animals}:** ${eventInWords(last, plan, base.signs)}, of ${moment(last.at)}, no longer counts. **/quarantine today** shows how it stands.`,
  );
}

/** Closes what is complete and says what follows; asks before what is not. */
export function finish(
  deps: QuarantineDeps,
  { quarantine, plan, state }: Standing,
  { memberId, now }: Request,
): Answer {
  if (quarantine.memberId !== memberId) return keeperOnlyView(quarantine);
  if (!state.completed) return callOffView(quarantine);
  deps.store.save({ ...quarantine, ended: { how: 'finished', at: now } });
  const then = plan.then === undefined ? undefined : deps.base.plans.get(plan.then);
  return finishedView(quarantine, plan, then);
}
