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
  labelWords,
  moment,
  notADoctor,
  optionWords,
  standingWords,
  text,
} from './state-words.ts';
import { stepGroups, type StepGroup } from './step-groups.ts';
import { turnOf } from './turn-words.ts';

type Drawn = { quarantine: Quarantine; plan: Plan; state: PlanState; events: readonly PlanEvent[] };
type Base = Pick<KnowledgeBase, 'sources' | 'signs'>;

const STATUS = { done: 'done', due: 'due now', overdue: 'overdue', coming: 'to come', blocked: 'waits' } as const;
/** What is left out first where there is no room for all. */
const FOLD = { conflicts: 5, done: 4, later: 3, cautions: 2, soon: 1 } as const;
/** So many open steps stay to the last. */
const NEXT = 3;
/** All of them were read at the start; the first ones matter most. */
const MOST_CAUTIONS = 2;

/** Every step and hold with its date, why it is that date, and how far the figure can be trusted. */
export function planView(base: Base, { quarantine, plan, state, events }: Drawn, now: Date): MessageView {
  const picture = planPicture(base.signs, { quarantine, plan, state, events }, now);
  const groups = inOrder(stepGroups(plan, state.steps));
  const open = groups.filter(({ steps }) => steps.some(({ doneAt }) => doneAt === null));
  const done = groups.filter((group) => !open.includes(group));
  return {
    audience: 'member',
    tone: state.alarms.some(({ urgency }) => urgency === 'emergency') ? 'urgent' : 'plain',
    blocks: [
      text(md`## ${headSince(quarantine, plan, state, now)}`),
      ...state.alarms.filter(({ urgency }) => urgency === 'emergency').map((alarm) => text(alarmWords(alarm))),
      ...[optionWords(quarantine, plan, state)].flatMap((words) => (words ? [text(words)] : [])),
      text(endWords(state)),
      ...[labelWords(quarantine, plan)].flatMap((words) => (words ? [text(words)] : [])),
      ...(picture ? [picture] : []),
      ...state.holds.map((hold) => text(holdWords(base, hold))),
      ...undatedWords(plan, state).map((words) => text(words)),
      ...open.map((group, at) => text(groupWords(base, group, now), at < NEXT ? FOLD.soon : FOLD.later)),
      ...done.map((group) => text(groupWords(base, group, now), FOLD.done)),
      ...plan.conflicts.map((sentence): Block => text(md`-# Others say: ${ended(sentence)}`, FOLD.conflicts)),
      text(
        joined([md`**Mind**`, ...plan.cautions.slice(0, MOST_CAUTIONS).map((sentence) => md`- ${sentence}`)]),
        FOLD.cautions,
      ),
      text(md`-# **/quarantine today** has what is due. ${notADoctor(plan)}`),
    ],
    foldedNotice: md`-# Shortened to fit: the nearest dates are here, **/quarantine calendar** has every date.`,
  };
}

/** What is next comes first; done steps keep the order of their dates. */
function inOrder(groups: readonly StepGroup[]): StepGroup[] {
  const next = ({ steps }: StepGroup) => {
    const step = steps.find(({ doneAt }) => doneAt === null) ?? steps[0];
    return (step.doneAt ?? step.planned)?.getTime() ?? Infinity;
  };
  return [...groups].sort((a, b) => next(a) - next(b));
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

function groupWords(base: Base, { name, run, steps }: StepGroup, now: Date): Markdown {
  const [first, ...others] = steps;
  if (others.length === 0 && run === null) {
    const why = first.doneAt ? [] : [becauseWords(base, first)];
    return joined([md`**${first.title}**: ${whenWords(first, now)}. ${ended(first.says)}`, ...why]);
  }
  // What is the same for all is said once, below them.
  const alike = others.every(({ why, standing, source }) => why === first.why && standing === first.standing && source === first.source); // prettier-ignore
  const lines = steps.map((step, at) => {
    const title = step.run ? `${name} ${turnOf(step.run)}` : step.title;
    const reasons = step.doneAt
      ? []
      : [newReason(step, steps[at - 1]), alike ? '' : `${step.why} (${standingWords(base, step)})`].filter(Boolean);
    return md`- **${title}**: ${whenWords(step, now)}.${reasons.length > 0 ? ` ${datesInWords(reasons.join(' '))}` : ''}`;
  });
  const why = alike ? [md`-# ${first.why} (${standingWords(base, first)})`] : [];
  return joined([...lines, md`${ended(first.says)}`, ...why]);
}

/** The reason of a step, unless it stood beside the one before. */
function newReason({ reason }: StepState, before: StepState | undefined): string {
  return before && !before.doneAt && generally(before.reason) === generally(reason) ? '' : reason;
}
/** "64 hours after Transfer 2" and "64 hours after the transfer before" say the same of the turn that follows. */
const generally = (reason: string) => reason.replace(/after [^,]+,/, 'after the one before,');

/** Runs without a date, with what they wait for. */
function undatedWords({ runs }: Plan, { steps, option }: PlanState): Markdown[] {
  return runs
    .filter((run) => run.option === undefined || run.option === option)
    .filter(({ id }) => !steps.some(({ run }) => run?.id === id))
    .map(({ title }) => md`**${title}**: no dates yet. They follow once the temperature is noted: **/quarantine log**. Where nobody has studied it I give none; ask a vet.`); // prettier-ignore
}

function whenWords({ status, doneAt, planned, earliest, latest, projected }: StepState, now: Date): Markdown {
  if (doneAt) return md`done ${moment(doneAt)}`;
  if (!planned) return md`${STATUS[status]}`;
  const from = earliest && earliest > now && earliest.getTime() !== planned.getTime() ? md`, not before ${moment(earliest)}` : md``; // prettier-ignore
  const until = latest ? md`, at the latest ${moment(latest)}` : md``;
  const word = status === 'blocked' ? '' : `${STATUS[status]}, `;
  return md`${word}planned ${moment(planned)}${from}${until}${projected ? ' (if what comes first is on time)' : ''}`;
}
