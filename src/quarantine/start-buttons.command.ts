import type { ButtonAct, FormAct } from '../discord/command.ts';
import { md, type Answer, type Request } from '../discord/message-view.ts';
import { startedStanding, todayAnswer } from './on-quarantine.command.ts';
import type { Quarantine } from './quarantine.ts';
import { keeperOnlyView, saysView } from './start.view.ts';
import { adviceAnswer, choosePlan, onKept, questionsView, start, startFilled } from './starting.command.ts';
import { asNew, beginNew } from './new-quarantine.command.ts';
import { planGone, type QuarantineDeps } from './which.command.ts';

/** The buttons from the first question to the start, and those that close a quarantine. */
export function startButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base, store } = deps;
  const beforeStart = (
    act: string,
    run: (quarantine: Quarantine, args: readonly string[], request: Request, chosen: readonly string[]) => Answer,
  ) =>
    onKept(deps, act, (quarantine, args, request, chosen) =>
      startedStanding(deps, quarantine, request.now)
        ? saysView('It runs already', md`**/quarantine today** shows how it stands, **/quarantine change** changes it.`)
        : run(quarantine, args, request, chosen),
    );
  return [
    onKept(deps, 'quarantine-start', (quarantine, _args, request) =>
      startedStanding(deps, quarantine, request.now)
        ? todayAnswer(deps, quarantine, request)
        : start(deps, quarantine, request),
    ),
    beforeStart('quarantine-choose', (quarantine, [plan = ''], request) => choosePlan(deps, quarantine, plan, request)),
    beforeStart('quarantine-advice', (quarantine, _args, { now }) => ({
      ...adviceAnswer(deps, quarantine, now),
      replaces: true,
    })),
    beforeStart('quarantine-for', (quarantine, _args, { now }, [id = '']) => {
      const purpose = base.purposes.get(id);
      if (!purpose) return saysView('I don’t know that', md`Its entry is gone. Choose again.`);
      return { ...adviceAnswer(deps, quarantine, now, purpose), replaces: true };
    }),
    beforeStart('quarantine-kind', (quarantine, _args, { now }, [id = '']) => {
      if (!base.fish.has(id)) return saysView('I don’t know that fish', md`Its entry is gone. Choose again.`);
      const known = { ...quarantine, fish: [...new Set([...quarantine.fish, id])] };
      store.save(known);
      return { ...adviceAnswer(deps, known, now), replaces: true };
    }),
    beforeStart('quarantine-drop', (quarantine, _args, { now }) => {
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView('Not started', md`Nothing was begun. Come back when every answer is a yes.`),
        replaces: true,
      };
    }),
    onKept(deps, 'quarantine-call-off', (quarantine, _args, { now }) => {
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView(`${quarantine.animals}: called off`, md`It is off the list. What was noted is kept.`),
        replaces: true,
      };
    }),
    {
      act: 'quarantine-follow',
      run: ([id = '', planId = ''], request) => {
        const old = store.findAnywhere(Number(id));
        if (!old || (request.guildId !== null && old.guildId !== request.guildId))
          return saysView('Not yours', md`Only whoever keeps these animals can press that.`);
        if (old.memberId !== request.memberId) return keeperOnlyView(old);
        const plan = base.plans.get(planId);
        if (!plan) return planGone();
        const kept = asNew(old);
        const option = plan.options[0]?.id ?? null;
        const begun = beginNew(deps, { ...kept, plan: plan.id, option, copperLabel: null, follows: null }, request.now);
        return begun.kind === 'trouble'
          ? begun.view
          : { ...questionsView(deps, begun.quarantine, plan, request.now), replaces: true };
      },
    },
  ];
}

/** The form that asks for what is missing. */
export function startForms(deps: QuarantineDeps): FormAct[] {
  return [
    {
      act: 'quarantine-begin',
      run: ([id = ''], filled, request) => {
        const found = deps.store.findAnywhere(Number(id));
        const elsewhere = request.guildId !== null && found?.guildId !== request.guildId;
        if (!found || elsewhere || found.memberId !== request.memberId)
          return saysView('Not yours', md`Only whoever keeps these animals can fill that in.`);
        if (found.ended)
          return saysView('It is closed', md`This quarantine is off the list. **/quarantine start** begins a new one.`);
        return startFilled(deps, found, filled, request);
      },
    },
  ];
}
