import type { ButtonAct } from '../discord/command.ts';
import type { Request } from '../discord/message-view.ts';
import { onNoting, onQuarantine, todayAnswer } from './on-quarantine.command.ts';
import type { PlanEvent } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { isRepeat } from './repeat.ts';
import { planView } from './state.view.ts';
import { planGone, standingOf, type QuarantineDeps } from './which.command.ts';

/** The buttons of a quarantine: each looks up anew how it stands. */
export function quarantineButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base } = deps;
  return [
    onNoting(deps, 'quarantine-well', (quarantine, _args, request) => {
      noteOnce(deps, quarantine, { kind: 'check-in', at: request.now, signs: [], appetite: 'normal' }, request);
      return todayAnswer(deps, quarantine, request);
    }),
    onNoting(deps, 'quarantine-step', (quarantine, [step = ''], request) => {
      noteOnce(deps, quarantine, { kind: 'step-done', at: request.now, step }, request);
      return todayAnswer(deps, quarantine, request);
    }),
    onQuarantine(deps, 'quarantine-plan', (quarantine, _args, { now }) => {
      const standing = standingOf(deps, quarantine, now);
      return standing ? planView(base, standing, now) : planGone();
    }),
  ];
}

/** Notes what a button says, unless the same was just noted: a second press does no harm. */
function noteOnce(
  { base, store }: QuarantineDeps,
  quarantine: Quarantine,
  event: NewPlanEvent,
  request: Request,
): void {
  const plan = base.plans.get(quarantine.plan);
  const pressed = { ...event, id: 'pressed' } as PlanEvent;
  if (plan && isRepeat(plan, store.events(quarantine), pressed, quarantine.zone)) return;
  store.note(quarantine, event, request.memberId, request.now);
}
