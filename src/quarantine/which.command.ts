import { md, type Answer, type Choice, type Request } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import type { Plan } from '../knowledge/plan.ts';
import { kindsOf, mayBe } from './advice.ts';
import { fold } from './fold.ts';
import type { PlanEvent } from './plan-event.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import type { QuarantineStore } from './quarantine.store.ts';
import type { SeenTanks } from '../tanks/tank.store.ts';
import type { MemberZoneStore } from '../upkeep/member-zone.store.ts';
import { beforeStartView, saysView } from './start.view.ts';
import { alarmsInWords } from './state-words.ts';
import { notSimplyBorne } from './suits.ts';

export type QuarantineDeps = {
  base: KnowledgeBase;
  store: QuarantineStore;
  /** Where a member's clock stands and when they like to be reminded, as they said once. */
  zones: Pick<MemberZoneStore, 'of' | 'remember'>;
  tanks: SeenTanks;
};

/** A quarantine with its plan and how it stands. */
export type Standing = { quarantine: Quarantine; plan: Plan; state: PlanState; events: readonly PlanEvent[] };

/** How a quarantine stands now; null when its plan is gone from the knowledge base. */
export function standingOf({ base, store }: QuarantineDeps, quarantine: Quarantine, now: Date): Standing | null {
  const plan = base.plans.get(quarantine.plan);
  if (!plan) return null;
  const events = store.events(quarantine);
  const state = fold(plan, events, now, { zone: quarantine.zone, lifeCycles: base.lifeCycles });
  return { quarantine, plan, events, state: { ...state, alarms: alarmsInWords(base.signs, state.alarms) } };
}

export const WHICH = {
  name: 'which',
  description: 'Which of your quarantines; left out: the only one',
  required: false,
  autocomplete: true,
} as const;

export const needsAClub = () => saysView('Only in a club', md`Use this in a channel of your club’s server.`);

export const planGone = () =>
  saysView(
    'That plan is gone',
    md`Its entry is no longer in the knowledge base. What you noted is kept; ask an officer.`,
  );

/** The quarantine that is meant, of those that a member keeps or helps with, once it has begun. */
export const withOwn = (
  deps: QuarantineDeps,
  which: string | undefined,
  request: Request,
  run: (standing: Standing) => Answer,
): Answer =>
  withChosen(deps, which, request, (standing) => {
    const { quarantine, plan, state } = standing;
    if (state.startedAt !== null) return run(standing);
    return beforeStartView(quarantine, plan, notSimplyBorne(plan, mayBe(kindsOf(deps.base, quarantine))));
  });

/** The same, whether it has begun or not. */
export function withChosen(
  deps: QuarantineDeps,
  which: string | undefined,
  { guildId, memberId, now }: Request,
  run: (standing: Standing) => Answer,
): Answer {
  if (guildId === null) return needsAClub();
  const own = [...deps.store.own(guildId, memberId), ...deps.store.helped(guildId, memberId)];
  if (own.length === 0)
    return saysView('You have none running', md`**/quarantine start** begins one: who waits, and how.`);
  const key = normaliseName(which ?? '');
  // What was asked for and never started is meant only when it is named, or when nothing else is there.
  const running = own.filter((each) => standingOf(deps, each, now)?.state.startedAt);
  const [only, ...more] = running.length > 0 ? running : own;
  const chosen =
    which === undefined && more.length === 0
      ? only
      : [...running, ...own].find(({ id, animals }) => String(id) === which || normaliseName(animals) === key);
  if (!chosen)
    return saysView('Which one?', md`You have: ${own.map(({ animals }) => animals).join(' · ')}. Add **which:**.`);
  const standing = standingOf(deps, chosen, now);
  return standing ? run(standing) : planGone();
}

export const ownChoices = ({ store }: QuarantineDeps, typed: string, { guildId, memberId }: Request): Choice[] =>
  guildId === null
    ? []
    : [...store.own(guildId, memberId), ...store.helped(guildId, memberId)]
        .filter(({ animals }) => normaliseName(animals).includes(normaliseName(typed)))
        .map(({ id, animals }) => ({ name: animals.slice(0, 100), value: String(id) }));
