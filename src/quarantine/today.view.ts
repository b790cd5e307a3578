import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { DueItem, PlanState, StepState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import {
  alarmWords,
  bar,
  begun,
  dueTitle,
  ended,
  endWords,
  headSince,
  holdProgress,
  labelWords,
  lookWords,
  moment,
  notADoctor,
  optionWords,
  text,
} from './state-words.ts';
import { stepGroups } from './step-groups.ts';
import { ofWords } from './turn-words.ts';

const MOST_DUE = 8;
const MOST_BROKEN = 3;

/** How the whole stands: emergencies first, then what is due, then how far it is and when it may end. */
export function todayView(quarantine: Quarantine, plan: Plan, state: PlanState, now: Date): MessageView {
  const { alarms, due, overdue, broken } = state;
  const progress = progressOf(plan, state);
  return {
    audience: 'member',
    tone: alarms.some(({ urgency }) => urgency === 'emergency')
      ? 'urgent'
      : overdue.length + alarms.length > 0
        ? 'watch'
        : 'calm',
    blocks: [
      text(md`## ${headSince(quarantine, plan, state, now)}`),
      ...alarms.map((alarm, at) => text(alarmWords(alarm), at === 0 || alarm.urgency === 'emergency' ? 0 : 1)),
      ...(state.completed ? [] : dueBlocks(plan, due, overdue, now)),
      ...nextBlocks(state),
      ...[labelWords(quarantine, plan)].flatMap((words) => (words && !state.completed ? [text(words)] : [])),
      ...(progress.length > 0 ? [text(joined([md`**How far it is**`, ...progress]))] : []),
      ...[optionWords(quarantine, plan, state)].flatMap((words) => (words ? [text(words)] : [])),
      text(endWords(state)),
      ...(broken.length > 0 ? [text(brokenWords(broken.slice(-MOST_BROKEN)), 3)] : []),
      text(
        md`-# Quarantine ${quarantine.id} · **/quarantine plan** says why each date is that date. ${notADoctor(plan)}`,
      ),
      { kind: 'buttons', buttons: todayButtons(quarantine, state) },
    ],
    foldedNotice: md`-# Shortened to fit; **Whole plan** has the rest.`,
  };
}

/** What is due, the overdue first; reminders say it too. */
export function dueBlocks(plan: Plan, due: readonly DueItem[], overdue: readonly DueItem[], now: Date): Block[] {
  if (due.length + overdue.length === 0) {
    const look = lookWords(plan);
    const then = look === null ? '' : ` ${begun(look)} is asked for: press **All well** after it.`;
    return [text(md`**Nothing is due now.**${{ markdown: then }}`)];
  }
  const items = [
    ...inOrder(overdue).map((item) => ({ item, late: true })),
    ...inOrder(due).map((item) => ({ item, late: false })),
  ];
  const lines = items.map(({ item, late }, at): Markdown => {
    const when = whenDue(item, late, now);
    const saidBefore = items.slice(0, at).some((other) => other.item.says === item.says);
    return md`- **${dueTitle(item)}** (${when}).${item.says === '' || saidBefore ? '' : ` ${ended(item.says)}`}`;
  });
  return [
    text(joined([md`**Today**`, ...lines.slice(0, MOST_DUE)])),
    ...(lines.length > MOST_DUE ? [text(joined(lines.slice(MOST_DUE)), 2)] : []),
  ];
}

/** The step that comes next, so that nobody plans an evening over it. */
function nextBlocks({ steps, completed }: PlanState): Block[] {
  const coming = steps
    .filter(({ status, planned }) => status === 'coming' && planned !== null)
    .sort((a, b) => (a.planned?.getTime() ?? 0) - (b.planned?.getTime() ?? 0));
  const [next] = coming;
  if (completed || !next?.planned) return [];
  const until = next.latest ? md`, at the latest ${moment(next.latest)}` : md``;
  return [text(md`**Next:** ${next.title}, planned ${moment(next.planned)}${until}.`)];
}

const JUST_NOW_MS = 60_000;

function whenDue({ since }: DueItem, late: boolean, now: Date): Markdown {
  if (late) return md`overdue: it was due ${moment(since, 'R')}`;
  if (Math.abs(since.getTime() - now.getTime()) < JUST_NOW_MS) return md`due now`;
  return md`${since > now ? 'planned' : 'due'} ${moment(since, 'R')}`;
}

const KINDS: readonly DueItem['kind'][] = ['step', 'check-in', 'reading'];
/** What cannot be made up for comes first. */
const inOrder = (items: readonly DueItem[]): DueItem[] =>
  [...items].sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind));

/** A bar and words for each run of turns, each hold, and the steps where there are several. */
export function progressOf(plan: Plan, { holds, steps }: PlanState): Markdown[] {
  const groups = stepGroups(plan, steps);
  const runs = groups.flatMap(({ run, name, steps: turns }) => (run === null ? [] : [doneOf(name, turns)]));
  const single = steps.filter(({ run }) => !run);
  return [
    ...runs,
    ...holds.flatMap((hold) => holdProgress(hold) ?? []),
    ...(single.length > 1 ? [doneOf('Steps', single)] : []),
  ];
}

function doneOf(name: string, steps: readonly StepState[]): Markdown {
  const done = steps.filter(({ doneAt }) => doneAt !== null).length;
  const all = steps[0]?.run ? ofWords(steps[0].run) : `of ${steps.length}`;
  return md`${bar(done, steps.length)} ${name}: ${done} ${all} done`;
}

/** What went wrong with the count, so that nobody wonders where the days went. */
export const brokenWords = (broken: PlanState['broken']): Markdown =>
  joined(broken.map(({ at, says }) => md`-# ${moment(at, 'D')}: ${begun(ended(says))}`));

function todayButtons(quarantine: Quarantine, state: PlanState): ButtonView[] {
  const id = String(quarantine.id);
  return [
    { label: 'All well', act: 'quarantine-well', args: [id], style: state.completed ? 'secondary' : 'primary' },
    { label: 'Something is off', act: 'quarantine-off', args: [id], style: 'danger' },
    ...stepButtons(quarantine, state),
    { label: 'Whole plan', act: 'quarantine-plan', args: [id] },
  ];
}

/** A button for each of the first steps that are due; reminders carry them too. */
export const stepButtons = ({ id }: Quarantine, { due, overdue }: PlanState): ButtonView[] =>
  [...overdue, ...due]
    .filter(({ kind }) => kind === 'step')
    .slice(0, 3)
    .map(({ id: step, title }) => ({
      label: `Done: ${title}`.slice(0, 80),
      act: 'quarantine-step',
      args: [String(id), step],
    }));
