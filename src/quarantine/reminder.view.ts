import { joined, md, mentionOf, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import { occurrenceOn } from '../schedule/local-time.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import type { Reminder } from './reminder-times.ts';
import { missedDates, type ToRemind } from './reminders.ts';
import { saysView } from './start.view.ts';
import { alarmWords, endWords, lookWords, moment, text } from './state-words.ts';
import { dueBlocks, stepButtons } from './today.view.ts';
import { ofWords } from './turn-words.ts';

const MOST_STEP_BUTTONS = 2;

/** The words by which a reminder is known again: its first button carries the minute of it. */
const markArgs = ({ id }: Quarantine, tell: readonly Reminder[]): string[] => [
  String(id),
  String(Math.floor((tell[0]?.at.getTime() ?? 0) / 60_000)),
];
const firstAct = ({ completed }: PlanState) => (completed ? 'quarantine-plan' : 'quarantine-well');

/** The custom id on this reminder and on no other message. */
export const reminderMark = (quarantine: Quarantine, state: PlanState, tell: readonly Reminder[]): string =>
  `1:${firstAct(state)}:${markArgs(quarantine, tell).join(':')}`;

/** What is due, what comes, and the buttons that answer it. */
export function reminderView(
  quarantine: Quarantine,
  plan: Plan,
  state: PlanState,
  { tell, isLast }: Pick<ToRemind, 'tell' | 'isLast'>,
  now: Date,
): MessageView {
  const { animals, tank, memberId } = quarantine;
  const urgent = state.alarms.some(({ urgency }) => urgency === 'emergency');
  const missed = missedDates(tell);
  return {
    audience: 'member',
    tone: urgent ? 'urgent' : state.completed ? 'calm' : 'watch',
    calls: memberId,
    blocks: [
      text(md`## ${animals}${tank === null ? md`` : md`, ${tank}`}: ${titleOf(plan, state, tell)}`),
      text(md`${mentionOf(memberId)} · ${plan.name}`),
      ...state.alarms.map((alarm, at) => text(alarmWords(alarm), at > 0 ? 1 : 0)),
      ...tell.flatMap(({ of }) => (of.kind === 'last-call' || of.kind === 'ahead' ? [text(comingWords(of))] : [])),
      ...(state.due.length + state.overdue.length > 0 ? dueBlocks(plan, state.due, state.overdue, now) : []),
      ...(missed.length > 0 ? [text(missedWords(quarantine, plan, missed))] : []),
      text(endWords(state)),
      ...(isLast
        ? [
            text(
              md`-# Nobody has answered for weeks, so I remind no more until something is noted. **/quarantine finish** closes it.`,
            ),
          ]
        : []),
      { kind: 'buttons', buttons: buttonsOf(quarantine, state, tell) },
    ],
    foldedNotice: md`-# Shortened to fit; **/quarantine today** has all of it.`,
  };
}

function titleOf(plan: Plan, state: PlanState, tell: readonly Reminder[]): Markdown {
  if (state.completed) return md`all of it is done`;
  const lastCall = tell.find(({ of }) => of.kind === 'last-call');
  if (lastCall?.of.kind === 'last-call') return md`last call for “${nameOf(lastCall.of)}”`;
  const step = tell.find(({ of }) => of.kind === 'step');
  if (step?.of.kind === 'step') return md`time for “${nameOf(step.of)}”`;
  if (tell.some(({ of }) => of.kind === 'daily'))
    return lookWords(plan) === null ? md`what is due` : md`the look of the day`;
  const ahead = tell.find(({ of }) => of.kind === 'ahead');
  if (ahead?.of.kind === 'ahead') return md`“${nameOf(ahead.of)}” comes`;
  return md`a test is due`;
}

type OfStep = Extract<Reminder['of'], { step: unknown }>;
const nameOf = ({ step: { title, run } }: OfStep): string => (run ? `${title} ${ofWords(run)}` : title);

function comingWords(of: OfStep): Markdown {
  const { planned, latest, projected, says } = of.step;
  const when = planned ? md`${moment(planned)}, ${moment(planned, 'R')}` : md`soon`;
  const limit = latest ? md`, **at the latest ${moment(latest)}**` : md``;
  return md`**${nameOf(of)}**: planned ${when}${limit}${projected ? md` (if all goes well until then)` : md``}. ${says}`;
}

/** "Missed while I could not send: 3 looks, from … to …". */
function missedWords({ zone, timeOfDay }: Quarantine, { holds }: Plan, missed: readonly string[]): Markdown {
  const [first = '', last = first] = [missed[0], missed.at(-1)];
  const day = (date: string) => moment(occurrenceOn({ timeOfDay, zone }, date).at, 'D');
  const span = missed.length === 1 ? day(first) : md`${day(first)} to ${day(last)}`;
  const lost = holds.some(({ kind }) => kind === 'clear-days') ? ' Days without a check-in do not count.' : '';
  return md`-# I could not remind you on ${span}.${lost}`;
}

function buttonsOf(quarantine: Quarantine, state: PlanState, tell: readonly Reminder[]): ButtonView[] {
  const id = String(quarantine.id);
  if (state.completed)
    return [{ label: 'Whole plan', act: firstAct(state), args: markArgs(quarantine, tell), style: 'primary' }];
  return [
    { label: 'All well', act: firstAct(state), args: markArgs(quarantine, tell), style: 'primary' },
    { label: 'Something is off', act: 'quarantine-off', args: [id], style: 'danger' },
    ...stepButtons(quarantine, state).slice(0, MOST_STEP_BUTTONS),
    { label: 'Later', act: 'quarantine-later', args: [id] },
  ];
}

/** When a reminder may come again. */
export const laterChoiceView = ({ id, animals }: Quarantine, evening: Date | null, tomorrow: Date): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [
    text(joined([md`## ${animals}: remind you when?`, md`Steps with a limit still get a last call before it passes.`])),
    {
      kind: 'buttons',
      buttons: [
        { label: 'In 1 hour', act: 'quarantine-to', args: [String(id), 'hour'], style: 'primary' },
        ...(evening ? [{ label: 'This evening', act: 'quarantine-to', args: [String(id), 'evening'] }] : []),
        { label: 'Tomorrow', act: 'quarantine-to', args: [String(id), 'tomorrow'] },
        { label: 'Pick a time', act: 'quarantine-pick', args: [String(id)] },
      ],
    },
    text(md`-# Tomorrow is ${moment(tomorrow)}.`),
  ],
});

export const putOffView = ({ animals }: Quarantine, at: Date): MessageView => ({
  ...saysView(
    `${animals}: later`,
    md`I remind you ${moment(at)}, ${moment(at, 'R')}. **/quarantine today** shows it before that.`,
  ),
  replaces: true,
});
