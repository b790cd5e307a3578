import { joined, md, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { PlanEvent } from './plan-event.ts';
import { planPicture } from './plan-picture.ts';
import type { HoldState, PlanState, StepState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import {
  alarmWords,
  becauseWords,
  datesInWords,
  daysOf,
  ended,
  endWords,
  figure,
  headSince,
  moment,
  standingWords,
  text,
} from './state-words.ts';

type Drawn = { quarantine: Quarantine; plan: Plan; state: PlanState; events: readonly PlanEvent[] };
type Base = Pick<KnowledgeBase, 'sources' | 'signs'>;

const STATUS = { done: 'done', due: 'due now', overdue: 'overdue', coming: 'to come', blocked: 'waits' } as const;
/** What is left out first where there is no room for all. */
const FOLD = { conflicts: 5, done: 4, later: 3, cautions: 2, soon: 1 } as const;
/** So many open steps stay to the last. */
const NEXT = 3;

/** Every step and hold with its date, why it is that date, and how far the figure can be trusted. */
export function planView(base: Base, { quarantine, plan, state, events }: Drawn, now: Date): MessageView {
  const picture = planPicture(base.signs, { quarantine, plan, state, events }, now);
  const parts = stepParts(plan, state);
  const open = parts.filter((steps) => steps.some(({ doneAt }) => doneAt === null));
  const done = parts.filter((steps) => !open.includes(steps));
  return {
    audience: 'member',
    tone: state.alarms.some(({ urgency }) => urgency === 'emergency') ? 'urgent' : 'plain',
    blocks: [
      text(md`## ${headSince(quarantine, plan, state, now)}`),
      ...state.alarms.filter(({ urgency }) => urgency === 'emergency').map((alarm) => text(alarmWords(alarm))),
      text(endWords(state)),
      ...(picture ? [picture] : []),
      ...state.holds.map((hold) => text(holdWords(base, hold))),
      ...open.map((steps, at) => text(partWords(base, plan, steps, now), at < NEXT ? FOLD.soon : FOLD.later)),
      ...done.map((steps) => text(partWords(base, plan, steps, now), FOLD.done)),
      ...plan.conflicts.map((sentence): Block => text(md`-# Others say: ${ended(sentence)}`, FOLD.conflicts)),
      text(joined([md`**Mind**`, ...plan.cautions.map((sentence) => md`- ${sentence}`)]), FOLD.cautions),
      text(md`-# **/quarantine today** has what is due. I keep dates; a fish vet decides on medicines.`),
    ],
    foldedNotice: md`-# Shortened to fit: the nearest dates are here, **/quarantine calendar** has every date.`,
  };
}

/** The turns of a run together, every other step alone, in the order of their dates. */
function stepParts({ runs }: Plan, { steps }: PlanState): StepState[][] {
  const ofRuns = runs.map(({ id }) => steps.filter(({ run }) => run?.id === id));
  const single = steps.filter(({ run }) => !run).map((step) => [step]);
  const next = (part: StepState[]) => {
    const step = part.find(({ doneAt }) => doneAt === null) ?? part[0];
    return (step?.doneAt ?? step?.planned)?.getTime() ?? Infinity;
  };
  return [...ofRuns, ...single].filter(({ length }) => length > 0).sort((a, b) => next(a) - next(b));
}

function holdWords(base: Base, hold: HoldState): Markdown {
  const { name, counted: days, needed, endsEarliest, reached, restartedBy, paused } = hold;
  const count = needed === null ? 'no figure for the temperature of this tank' : `${figure(days)} of ${daysOf(needed)} counted`; // prettier-ignore
  const end = reached
    ? md`, reached ${moment(reached, 'D')}`
    : endsEarliest
      ? md`; earliest end ${moment(endsEarliest, 'D')}`
      : md``;
  return joined([
    md`**${name}**: ${count}${end}.`,
    ...(restartedBy ? [md`Began anew ${moment(restartedBy.at, 'D')}: ${ended(restartedBy.says)}`] : []),
    // A hold without a date says the same as its reason.
    ...(paused && paused !== hold.reason ? [md`Does not count now. ${ended(paused)}`] : []),
    becauseWords(base, hold),
  ]);
}

function partWords(base: Base, plan: Plan, steps: readonly StepState[], now: Date): Markdown {
  const [first] = steps;
  if (!first) return md``;
  if (!first.run) {
    const why = first.doneAt ? [] : [becauseWords(base, first)];
    return joined([md`**${first.title}**: ${whenWords(first, now)}. ${ended(first.says)}`, ...why]);
  }
  const title = plan.runs.find(({ id }) => id === first.run?.id)?.title ?? first.title;
  const lines = steps.map((step, at) => {
    const reason = step.doneAt ? '' : sharedReason(step.reason, steps[at - 1], at > 0);
    return md`- **${title} ${step.run?.turn ?? 1} of ${step.run?.of ?? 1}**: ${whenWords(step, now)}.${reason === '' ? '' : ` ${datesInWords(reason)}`}`;
  });
  return joined([...lines, md`${ended(first.says)}`, md`-# ${first.why} (${standingWords(base, first)})`]);
}

/** A reason that stood beside the turn before is not said again. */
function sharedReason(reason: string, before: StepState | undefined, follows: boolean): string {
  return follows && before && !before.doneAt && generally(before.reason) === generally(reason) ? '' : reason;
}
/** "64 hours after Transfer 2" and "64 hours after the transfer before" say the same of the turn that follows. */
const generally = (reason: string) => reason.replace(/after [^,]+,/, 'after the one before,');

function whenWords({ status, doneAt, planned, earliest, latest, projected }: StepState, now: Date): Markdown {
  if (doneAt) return md`done ${moment(doneAt)}`;
  if (!planned) return md`${STATUS[status]}`;
  const from = earliest && earliest > now && earliest.getTime() !== planned.getTime() ? md`, not before ${moment(earliest)}` : md``; // prettier-ignore
  const until = latest ? md`, at the latest ${moment(latest)}` : md``;
  const word = status === 'blocked' ? '' : `${STATUS[status]}, `;
  return md`${word}planned ${moment(planned)}${from}${until}${projected ? ' (if what comes first is on time)' : ''}`;
}
