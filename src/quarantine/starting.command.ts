import type { FormView, MessageView, Request } from '../discord/message-view.ts';
import { md } from '../discord/message-view.ts';
import type { ButtonAct } from '../discord/command.ts';
import { knownZone, timeOfDayIn } from '../schedule/local-time.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Purpose } from '../knowledge/purpose.ts';
import { adviseOn, kindsOf, mayBe, purposeIn } from './advice.ts';
import { adviceView, askPurposeView } from './advice.view.ts';
import { askerOf, hindrance, needsLabel, standingEvents } from './may-start.ts';
import { onQuarantine, startedStanding } from './on-quarantine.command.ts';
import type { Quarantine } from './quarantine.ts';
import { readingInWords } from './reading-option.ts';
import { readLabel } from './start-words.ts';
import {
  beforeStartView,
  keeperOnlyView,
  refusedView,
  saysView,
  startedView,
  twoMedicinesView,
  urgentView,
} from './start.view.ts';
import { labelTroubleView, missingForm, tryAgainView, type Missing } from './start-form.view.ts';
import { nextThings, temperatureCarried } from './started.ts';
import { todayView } from './state.view.ts';
import { notSimplyBorne } from './suits.ts';
import { planGone, standingOf, type QuarantineDeps, type Standing } from './which.command.ts';

/** A button that only the keeper may press. */
export const onKept = (deps: QuarantineDeps, act: string, run: Parameters<typeof onQuarantine>[2]): ButtonAct =>
  onQuarantine(deps, act, (quarantine, args, request, chosen) =>
    quarantine.memberId === request.memberId ? run(quarantine, args, request, chosen) : keeperOnlyView(quarantine),
  );

/** Whom it is for, with what was noted here and in the quarantine whose place it takes. */
const askerFor = ({ store }: QuarantineDeps, quarantine: Quarantine, now: Date) => {
  const before = quarantine.follows === null ? undefined : store.find(quarantine.follows, quarantine.guildId);
  return askerOf(quarantine, store.events(quarantine), before ? store.events(before) : [], now);
};

/** The card that says which plan is the best, for what was named or what the words say. */
export function adviceAnswer(deps: QuarantineDeps, quarantine: Quarantine, now: Date, named?: Purpose): MessageView {
  const asker = askerFor(deps, quarantine, now);
  const purpose = named ?? purposeIn(deps.base, asker);
  return purpose
    ? adviceView(deps.base, quarantine, adviseOn(deps.base, purpose, asker))
    : askPurposeView(deps.base, quarantine);
}

/** Why a plan may not begin as things are; null when it may. */
export function refusal(deps: QuarantineDeps, quarantine: Quarantine, plan: Plan, now: Date): MessageView | null {
  const { base, store } = deps;
  const { guildId, memberId } = quarantine;
  const running = [...store.own(guildId, memberId), ...store.helped(guildId, memberId)].flatMap((each) => {
    const standing = startedStanding(deps, each, now);
    return standing ? [{ quarantine: each, isCompleted: standing.state.completed !== null }] : [];
  });
  const found = hindrance(base, { ...quarantine, plan: plan.id }, plan, askerFor(deps, quarantine, now), running);
  switch (found?.kind) {
    case undefined:
      return null;
    case 'urgent':
      return urgentView(quarantine, found.purpose, plan);
    case 'not-borne':
      return refusedView(quarantine, plan, found.suited, found.open);
    case 'two-medicines':
      return twoMedicinesView(quarantine, found.other);
  }
}

/** The questions of a plan that has not begun; where it takes another one’s place, what that one loses. */
export function questionsView(deps: QuarantineDeps, quarantine: Quarantine, plan: Plan, now: Date): MessageView {
  const suited = notSimplyBorne(plan, mayBe(kindsOf(deps.base, quarantine)));
  const old = quarantine.follows === null ? undefined : deps.store.find(quarantine.follows, quarantine.guildId);
  const before = old && !old.ended ? startedStanding(deps, old, now) : null;
  return beforeStartView(quarantine, plan, suited, before ? lostWords(before) : undefined);
}

function lostWords({ plan, state }: Standing): string {
  const counted = Math.max(0, ...state.holds.map(({ counted: days }) => Math.floor(days)));
  const turns = state.steps.filter(({ doneAt }) => doneAt !== null).length;
  if (state.completed) return `nothing; ${plan.name} is complete and is closed as finished.`;
  if (counted === 0 && turns === 0) return `${plan.name} ends here. Nothing was counted yet. What was noted is kept.`;
  const lost = [
    ...(counted > 0 ? [`${counted} counted ${counted === 1 ? 'day' : 'days'}`] : []),
    ...(turns > 0 ? [`${turns} ${turns === 1 ? 'step' : 'steps'} done`] : []),
  ];
  return `${plan.name} ends here. ${lost.join(' and ')} do not carry over. What was noted is kept.`;
}

const missingFor = ({ zones }: QuarantineDeps, quarantine: Quarantine, plan: Plan): Missing => ({
  label: needsLabel(plan, quarantine.option) && quarantine.copperLabel === null,
  zone: zones.of(quarantine.memberId) === undefined,
});

/** Starts it, after asking for what is still missing. */
export function start(deps: QuarantineDeps, quarantine: Quarantine, request: Request): MessageView | FormView {
  const { now } = request;
  const plan = deps.base.plans.get(quarantine.plan);
  if (!plan) return planGone();
  const refused = refusal(deps, quarantine, plan, now);
  if (refused) return refused;
  const missing = missingFor(deps, quarantine, plan);
  if (missing.label || missing.zone) return missingForm(quarantine, missing);
  const { begunAt, carried } = begin(deps, quarantine, request);
  const standing = standingOf(deps, { ...quarantine, begunAt }, now);
  if (!standing) return planGone();
  return startedView(standing.quarantine, todayView(standing.quarantine, plan, standing.state, now), {
    ...nextThings(standing, now),
    carried: carried ? readingInWords(carried.reading) : undefined,
  });
}

/** Notes the start, the first reading and the end of what it follows, in one go. */
function begin({ base, store }: QuarantineDeps, quarantine: Quarantine, { memberId, now }: Request) {
  const events = standingEvents(store.events(quarantine));
  const asked = events.find(({ kind }) => kind === 'note');
  // A start that was named lies before the asking; one that was not is now.
  const isNamed = asked !== undefined && quarantine.begunAt.getTime() < asked.at.getTime();
  const begunAt = isNamed ? quarantine.begunAt : now;
  const before = quarantine.follows === null ? undefined : store.find(quarantine.follows, quarantine.guildId);
  const measured = events.some((event) => event.kind === 'reading' && event.reading.parameter === 'temperature');
  const carried = before && !measured ? temperatureCarried(standingEvents(store.events(before)), now) : null;
  store.together(() => {
    store.save({ ...quarantine, begunAt });
    const { option, copperLabel } = quarantine;
    store.note(
      quarantine,
      {
        kind: 'started',
        at: begunAt,
        ...(option === null ? {} : { option }),
        ...(copperLabel === null ? {} : { copperLabel }),
      },
      memberId,
      now,
    );
    for (const event of events) {
      if (event.kind !== 'reading' || event.at.getTime() === begunAt.getTime()) continue;
      store.note(quarantine, { kind: 'undone', at: now, eventId: event.id }, memberId, now);
      store.note(quarantine, { kind: 'reading', at: begunAt, reading: event.reading }, memberId, now);
    }
    if (carried) store.note(quarantine, { kind: 'reading', at: begunAt, reading: carried.reading }, memberId, now);
    endFollowed({ base, store }, quarantine, now);
  });
  return { begunAt, carried };
}

function endFollowed({ base, store }: Pick<QuarantineDeps, 'base' | 'store'>, quarantine: Quarantine, now: Date): void {
  const old = quarantine.follows === null ? undefined : store.find(quarantine.follows, quarantine.guildId);
  if (!old || old.ended || old.memberId !== quarantine.memberId) return;
  const isCompleted = standingOf({ base, store } as QuarantineDeps, old, now)?.state.completed;
  store.save({ ...old, ended: { how: isCompleted ? 'finished' : 'called-off', at: now } });
}

/** Puts another plan in, while nothing has begun. */
export function choosePlan(
  deps: QuarantineDeps,
  quarantine: Quarantine,
  planId: string,
  request: Request,
): MessageView {
  const plan = deps.base.plans.get(planId);
  if (!plan) return planGone();
  const own = plan.options.some(({ id }) => id === quarantine.option) ? quarantine.option : null;
  const chosen = { ...quarantine, plan: plan.id, option: own ?? plan.options[0]?.id ?? null };
  const refused = refusal(deps, chosen, plan, request.now);
  if (refused) return refused;
  deps.store.save(chosen);
  return { ...questionsView(deps, chosen, plan, request.now), replaces: true };
}

/** What was filled in is kept where it can be read; the rest is asked for again. */
export function startFilled(
  deps: QuarantineDeps,
  quarantine: Quarantine,
  filled: Readonly<Record<string, string>>,
  request: Request,
): MessageView | FormView {
  const plan = deps.base.plans.get(quarantine.plan);
  if (!plan) return planGone();
  if (startedStanding(deps, quarantine, request.now))
    return saysView('It runs already', md`**/quarantine today** shows how it stands.`);
  const missing = missingFor(deps, quarantine, plan);
  let now = quarantine;
  if (missing.label) {
    const form = filled['form'] === 'chelated' || filled['form'] === 'amine' ? filled['form'] : undefined;
    const read = readLabel(filled['label'] ?? '', form);
    if (read.kind === 'trouble') return labelTroubleView(read, quarantine);
    now = { ...now, copperLabel: read.label };
    deps.store.save(now);
  }
  if (missing.zone) {
    const zone = knownZone(filled['zone'] ?? '');
    if (zone === null)
      return tryAgainView(
        quarantine,
        'I know no such time zone',
        md`I read “${(filled['zone'] ?? '').slice(0, 60)}”. Write a region and a city, such as Europe/Lisbon or America/Chicago.`,
      );
    const timeOfDay = timeOfDayIn(filled['time'] ?? '');
    if (timeOfDay === null)
      return tryAgainView(
        quarantine,
        'I could not read that time',
        md`I read “${(filled['time'] ?? '').slice(0, 40)}”. Write it like 19:30 or 7:30 pm.`,
      );
    deps.zones.remember(quarantine.memberId, { zone, timeOfDay }, request.now);
    now = { ...now, zone, timeOfDay };
    deps.store.save(now);
  }
  return start(deps, now, request);
}
