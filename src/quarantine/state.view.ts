import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Because, DueItem, HoldState, PlanState, StepState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';

export const moment = (at: Date, style: 'f' | 'D' | 'R' = 'f'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});
const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

const DAY_MS = 86_400_000;

/** "Two clownfish · Observation, day 12". */
export function headOf({ animals, begunAt }: Quarantine, plan: Plan, now: Date): Markdown {
  const day = Math.floor((now.getTime() - begunAt.getTime()) / DAY_MS) + 1;
  return md`${animals} · ${plan.name}, day ${day}`;
}

/** How the whole stands: emergencies first, then what is due, then when it may end. */
export function todayView(quarantine: Quarantine, plan: Plan, state: PlanState, now: Date): MessageView {
  const { alarms, due, overdue } = state;
  return {
    audience: 'member',
    tone: alarms.some(({ urgency }) => urgency === 'emergency') ? 'urgent' : overdue.length > 0 ? 'watch' : 'calm',
    blocks: [
      text(md`## ${headOf(quarantine, plan, now)}`),
      ...alarms.map(({ says, at }) => text(md`**Now.** ${says} *${moment(at, 'R')}*`)),
      text(dueWords(due, overdue)),
      text(endWords(state)),
      ...state.broken.slice(-3).map(({ at, says }) => text(md`-# ${moment(at, 'D')}: ${says}`, 3)),
      text(
        md`-# Quarantine ${quarantine.id} · **/quarantine plan** says why each date is that date. I keep dates; a fish vet decides on medicines.`,
      ),
      { kind: 'buttons', buttons: todayButtons(quarantine, state) },
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}

function dueWords(due: readonly DueItem[], overdue: readonly DueItem[]): Markdown {
  if (due.length + overdue.length === 0)
    return md`**Nothing is due now.** A look each day still counts: press **All well** after it.`;
  const lines = (items: readonly DueItem[], word: string) =>
    items.map(({ title, says, since }) => md`- **${title}** (${word}, ${moment(since, 'R')}). ${says}`);
  return joined([md`**Today**`, ...lines(overdue, 'overdue'), ...lines(due, 'due')]);
}

function endWords({ endsEarliest, completed, holds }: PlanState): Markdown {
  if (completed) return md`**All of it is done**, since ${moment(completed, 'D')}. **/quarantine finish** closes it.`;
  const counting = holds.filter(({ reached }) => reached === null);
  const unstudied = counting.find(({ needed }) => needed === null);
  if (unstudied)
    return md`**No end can be given:** nobody has studied ${unstudied.name.toLowerCase()} at your temperature.`;
  return endsEarliest
    ? md`**Earliest end, if all goes well from now: ${moment(endsEarliest, 'D')}**, ${moment(endsEarliest, 'R')}.`
    : md`**The end has no date yet:** it waits for what has to come first.`;
}

function todayButtons({ id }: Quarantine, { due, overdue }: PlanState): ButtonView[] {
  const steps = [...overdue, ...due].filter(({ kind }) => kind === 'step').slice(0, 3);
  return [
    { label: 'All well', act: 'quarantine-well', args: [String(id)], style: 'primary' },
    { label: 'Something is off', act: 'quarantine-off', args: [String(id)], style: 'danger' },
    ...steps.map(({ id: step, title }): ButtonView => ({
      label: `Done: ${title}`.slice(0, 80),
      act: 'quarantine-step',
      args: [String(id), step],
    })),
    { label: 'Whole plan', act: 'quarantine-plan', args: [String(id)] },
  ];
}

const STATUS = { done: 'done', due: 'due now', overdue: 'overdue', coming: 'to come', blocked: 'waits' } as const;

/** Every step and hold with its date, why it is that date, and how far the figure can be trusted. */
export function planView(
  base: KnowledgeBase,
  quarantine: Quarantine,
  plan: Plan,
  state: PlanState,
  now: Date,
): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## ${headOf(quarantine, plan, now)}`),
      text(endWords(state)),
      ...state.holds.map((hold) => text(holdWords(base, hold))),
      ...state.steps.map((step) => text(stepWords(base, step), step.status === 'done' ? 4 : 1)),
      ...plan.conflicts.map((sentence) => text(md`-# Others say: ${sentence}`, 3)),
      text(joined([md`**Mind**`, ...plan.cautions.map((sentence) => md`- ${sentence}`)])),
    ],
    foldedNotice: md`-# Shortened to fit; **/quarantine calendar** has every date.`,
  };
}

function holdWords(base: KnowledgeBase, hold: HoldState): Markdown {
  const { name, counted, needed, unknownDays, endsEarliest, reached, restartedBy, paused } = hold;
  const count =
    needed === null ? md`no figure for your temperature` : md`${round(counted)} of ${round(needed)} days counted`;
  return joined([
    md`**${name}**: ${count}${unknownDays > 0 ? md`, ${unknownDays} without a check-in do not count` : md``}${reached ? md`, reached ${moment(reached, 'D')}` : endsEarliest ? md`; earliest end ${moment(endsEarliest, 'D')}` : md``}.`,
    ...(restartedBy ? [md`Began anew ${moment(restartedBy.at, 'D')}: ${restartedBy.says}`] : []),
    ...(paused ? [md`Does not count now: ${paused}`] : []),
    becauseWords(base, hold),
  ]);
}

function stepWords(base: KnowledgeBase, step: StepState): Markdown {
  const { title, status, doneAt, earliest, planned, latest, says, run, projected } = step;
  const turn = run ? md` ${run.turn} of ${run.of}` : md``;
  const when = doneAt
    ? md`done ${moment(doneAt)}`
    : planned
      ? md`${STATUS[status]}, planned ${moment(planned)}${earliest ? md`, not before ${moment(earliest)}` : md``}${latest ? md`, at the latest ${moment(latest)}` : md``}${projected ? md` (if what comes first is on time)` : md``}`
      : md`${STATUS[status]}`;
  return joined([md`**${title}${turn}**: ${when}. ${says}`, ...(doneAt ? [] : [becauseWords(base, step)])]);
}

const STANDING = {
  published: 'published',
  'common-practice': 'common practice, no source',
  'from-memory': 'cited from memory',
} as const;

function becauseWords(
  { sources }: Pick<KnowledgeBase, 'sources'>,
  { reason, why, standing, source }: Because,
): Markdown {
  const cited = source === undefined ? undefined : sources.get(source)?.short;
  return md`-# ${reason} ${why} (${cited ? `${cited}, ` : ''}${STANDING[standing]})`;
}

const round = (days: number): string => String(Math.floor(days * 10) / 10);

type Row = { quarantine: Quarantine; plan: Plan; state: PlanState };

/** One's own, then those that members of the club show. */
export function boardView(own: readonly Row[], others: readonly Row[], now: Date): MessageView {
  const line = ({ quarantine, plan, state }: Row, by: Markdown) =>
    md`- **${headOf(quarantine, plan, now)}**${by}${state.startedAt === null ? md`, not started yet` : state.completed ? md`, all done` : state.endsEarliest ? md`, earliest end ${moment(state.endsEarliest, 'D')}` : md``}${state.overdue.length > 0 ? md`, ${state.overdue.length} overdue` : md``}`;
  const ownLines = own.map((row) => line(row, md``));
  const otherLines = others.map((row) =>
    line(row, md` (<@${{ markdown: row.quarantine.memberId.replace(/\D/g, '') }}>)`),
  );
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Quarantines`),
      text(
        ownLines.length > 0
          ? joined([md`**Yours**`, ...ownLines])
          : md`You have none running. **/quarantine start** begins one.`,
      ),
      ...(otherLines.length > 0 ? [text(joined([md`**Shown by the club**`, ...otherLines]))] : []),
    ],
  };
}
