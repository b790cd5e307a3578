import { md, type MessageView } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { startedStanding } from './on-quarantine.command.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { MOST_QUARANTINES, type Quarantine } from './quarantine.ts';
import { saysView } from './start.view.ts';
import type { QuarantineDeps } from './which.command.ts';

/** What the next one for the same animals has in common with this one. */
export const asNew = ({ id: _id, ended: _ended, begunAt: _begunAt, ...kept }: Quarantine) => kept;

type Begun = { kind: 'begun'; quarantine: Quarantine } | { kind: 'trouble'; view: MessageView };

/**
 * Keeps what was asked for; nothing runs before a yes.
 *
 * What its keeper asked for before for the same animals and never started goes, and whatever was to take the same place.
 */
export function beginNew(
  deps: QuarantineDeps,
  asked: Omit<Quarantine, 'id' | 'ended' | 'begunAt'>,
  now: Date,
  first: readonly NewPlanEvent[] = [],
  began?: Date,
): Begun {
  const { store } = deps;
  const { guildId, memberId } = asked;
  const key = normaliseName(asked.animals);
  const isReplaced = (each: Quarantine) =>
    deps.base.plans.has(each.plan) &&
    startedStanding(deps, each, now) === null &&
    (normaliseName(each.animals) === key || (asked.follows !== null && each.follows === asked.follows));
  const own = store.own(guildId, memberId);
  const stale = own.filter(isReplaced);
  if (own.length - stale.length >= MOST_QUARANTINES + (asked.follows === null ? 0 : 1))
    return {
      kind: 'trouble',
      view: saysView('That is a lot of tanks', md`You have ${MOST_QUARANTINES} running. Finish one first.`),
    };
  let begun: Quarantine | undefined;
  store.together(() => {
    for (const each of stale) store.save({ ...each, ended: { how: 'called-off', at: now } });
    begun = store.begin({ ...asked, begunAt: began ?? now }, { kind: 'note', at: now, text: 'asked for' });
    for (const event of first) store.note(begun, event, memberId, now);
  });
  if (!begun) throw new Error('the quarantine that was just asked for is not there');
  return { kind: 'begun', quarantine: begun };
}
