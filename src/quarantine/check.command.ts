import type { ButtonAct } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { onQuarantine, startedStanding, todayAnswer } from './on-quarantine.command.ts';
import { saysView } from './start.view.ts';
import { planView } from './state.view.ts';
import { planGone, standingOf, type QuarantineDeps } from './which.command.ts';

/** The buttons of a quarantine: each looks up anew how it stands. */
export function quarantineButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base, store } = deps;
  return [
    onQuarantine(deps, 'quarantine-start', (quarantine, _args, request) => {
      if (!startedStanding(deps, quarantine, request.now)) {
        const option = quarantine.option === null ? {} : { option: quarantine.option };
        store.note(quarantine, { kind: 'started', at: request.now, ...option }, request.memberId, request.now);
      }
      return todayAnswer(deps, quarantine, request);
    }),
    onQuarantine(deps, 'quarantine-drop', (quarantine, _args, { now }) => {
      if (startedStanding(deps, quarantine, now))
        return saysView('It runs already', md`**/quarantine finish** closes it.`);
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView('Not started', md`Nothing was begun. Come back when every answer is a yes.`),
        replaces: true,
      };
    }),
    onQuarantine(deps, 'quarantine-call-off', (quarantine, _args, { now }) => {
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView(`${quarantine.animals}: called off`, md`It is off the list. What was noted is kept.`),
        replaces: true,
      };
    }),
    onQuarantine(deps, 'quarantine-well', (quarantine, _args, request) => {
      store.note(
        quarantine,
        { kind: 'check-in', at: request.now, signs: [], appetite: 'normal' },
        request.memberId,
        request.now,
      );
      return todayAnswer(deps, quarantine, request);
    }),
    onQuarantine(deps, 'quarantine-step', (quarantine, [step = ''], request) => {
      store.note(quarantine, { kind: 'step-done', at: request.now, step }, request.memberId, request.now);
      return todayAnswer(deps, quarantine, request);
    }),
    onQuarantine(deps, 'quarantine-plan', (quarantine, _args, { now }) => {
      const standing = standingOf(deps, quarantine, now);
      return standing ? planView(base, standing, now) : planGone();
    }),
  ];
}
