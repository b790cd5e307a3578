import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer, type Choice, type Request } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { HAPPENINGS } from './happenings.ts';
import { changesBy } from './log-changes.ts';
import { notedView } from './noted.view.ts';
import { MOST_DAYS_BACK, notedWhen, type NotedWhen } from './noted-when.ts';
import type { PlanEvent } from './plan-event.ts';
import type { StepState } from './plan-state.ts';
import { fullBookView } from './on-quarantine.command.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { readingIn, readingInWords, readingTroubleView } from './reading-option.ts';
import { isRepeat } from './repeat.ts';
import { saysView } from './start.view.ts';
import { todayView } from './state.view.ts';
import {
  ownChoices,
  planGone,
  standingOf,
  WHICH,
  withOwn,
  type QuarantineDeps,
  type Standing,
} from './which.command.ts';

const READINGS = ['temperature', 'salinity', 'copper', 'ammonia', 'nitrite', 'ph'] as const;
const FORMS = ['ionic', 'chelated', 'amine'] as const;
const MOST_CHOICES = 25;

const Input = z.object({
  reading: z.enum(READINGS).optional(),
  value: z.string().max(40).optional(),
  form: z.enum(FORMS).optional(),
  happened: z.string().max(60).optional(),
  step: z.string().max(100).optional(),
  at: z.string().max(40).optional(),
  note: z.string().trim().min(1).max(500).optional(),
  which: z.string().max(100).optional(),
});
type Given = z.infer<typeof Input>;

/** `/quarantine log`: a reading, a step, something that happened, or words of one's own; now or up to sixty days back. */
export function logCommand(deps: QuarantineDeps): AnyCommand {
  return defineCommand({
    name: 'quarantine log',
    description: 'Notes a reading, a step, or something that happened',
    options: [
      { name: 'reading', description: 'What was measured', required: false, choices: READINGS },
      {
        name: 'value',
        description: 'With its unit: "78 F", "35 ppt", "0.17 mg/L", "0.25 ppm NH3"',
        required: false,
        mostCharacters: 40,
      },
      {
        name: 'form',
        description: 'How copper is bound; a copper reading without it is refused',
        required: false,
        choices: FORMS,
      },
      { name: 'happened', description: 'What happened', required: false, choices: Object.keys(HAPPENINGS) },
      { name: 'step', description: 'A step of the plan that was done', required: false, autocomplete: true },
      {
        name: 'at',
        description: 'When, if not now: "2 h ago", "19:30", "yesterday 7 pm", "2026-11-20 18:30"',
        required: false,
        mostCharacters: 40,
      },
      { name: 'note', description: 'In your own words', required: false, mostCharacters: 500 },
      WHICH,
    ],
    input: Input,
    run: (given, request) => withOwn(deps, given.which, request, (standing) => log(deps, given, standing, request)),
    suggest: (option, typed, request, so = {}) =>
      option === 'step' ? stepChoices(deps, typed, so['which'], request) : ownChoices(deps, typed, request),
  });
}

type Entry = { event: NewPlanEvent; what: string; understood: readonly string[] };

function log(deps: QuarantineDeps, given: Given, standing: Standing, request: Request): Answer {
  const { quarantine, plan, state: before, events } = standing;
  const { now, memberId } = request;
  if (deps.store.isFull(quarantine)) return fullBookView(quarantine);
  const when: NotedWhen =
    given.at === undefined ? { kind: 'at', at: now } : notedWhen(given.at, quarantine.zone, before.startedAt, now);
  if (when.kind !== 'at') return whenTrouble(given.at ?? '', when.kind);
  const named = [given.reading ?? given.value, given.happened, given.step].filter((each) => each !== undefined);
  if (named.length > 1)
    return saysView(
      'One thing at a time',
      md`Give **reading:**, **happened:** or **step:**, not two of them. Nothing was noted.`,
    );
  const entry = entryOf(given, standing, when.at);
  if ('answer' in entry) return entry.answer;
  const { event, what, understood } = entry;
  // An id that no row has, until it is kept.
  const asNoted = { ...event, id: 'noted' } as PlanEvent;
  if (isRepeat(plan, events, asNoted, quarantine.zone))
    return saysView(
      'Noted already',
      md`The same was noted just before, so I left it at one. **/quarantine today** shows how it stands.`,
    );
  const eventId = deps.store.note(quarantine, event, memberId, now);
  if (given.note !== undefined && event.kind !== 'note')
    deps.store.note(quarantine, { kind: 'note', at: when.at, text: given.note }, memberId, now);
  const after = standingOf(deps, quarantine, now);
  if (!after) return planGone();
  return notedView(
    {
      quarantineId: quarantine.id,
      eventId,
      what,
      at: when.at < now ? when.at : null,
      understood,
      changes: changesBy(plan, asNoted, before, after.state),
    },
    todayView(quarantine, plan, after.state, now),
  );
}

/** What is to be noted, or the answer that says why nothing is. */
function entryOf(given: Given, { state }: Standing, at: Date): Entry | { answer: Answer } {
  const { happened, step, note } = given;
  if (happened !== undefined) {
    const known = HAPPENINGS[happened];
    if (!known) return { answer: saysView('I don’t know that', md`Choose from the list of **happened:**.`) };
    return { event: { ...known, at }, what: capital(happened), understood: [] };
  }
  if (step !== undefined) {
    const key = normaliseName(step);
    const meant = state.steps.filter((each) => each.id === step || normaliseName(each.title) === key);
    const found = meant.find(({ doneAt }) => !doneAt) ?? meant[0];
    if (!found)
      return {
        answer: saysView(
          'I don’t know that step',
          md`I read “${step.slice(0, 40)}”. Choose from the list of **step:**.`,
        ),
      };
    return { event: { kind: 'step-done', at, step: found.id }, what: found.title, understood: [] };
  }
  if (given.reading === undefined && given.value === undefined && note !== undefined)
    return { event: { kind: 'note', at, text: note }, what: 'Your words', understood: [] };
  const read = readingIn(given.reading, given.value, given.form);
  if (read.kind !== 'read') return { answer: readingTroubleView(read) };
  return {
    event: { kind: 'reading', at, reading: read.reading },
    what: readingInWords(read.reading),
    understood: [`I read ${read.understood}.`, ...(read.granted === '' ? [] : [`${capital(read.granted)}.`])],
  };
}

function whenTrouble(came: string, kind: Exclude<NotedWhen['kind'], 'at'>): Answer {
  const read = md`I read “${came.slice(0, 40)}”.`;
  const nothing = md`Nothing was noted.`;
  switch (kind) {
    case 'unreadable':
      return saysView(
        'When was that?',
        md`${read} Write **2 h ago**, **19:30**, **yesterday 7 pm** or **2026-11-20 18:30**. ${nothing}`,
      );
    case 'ahead':
      return saysView('That lies ahead', md`${read} Note it when it has happened. ${nothing}`);
    case 'long-ago':
      return saysView(
        'That is long ago',
        md`${read} I take what happened in the last ${MOST_DAYS_BACK} days. ${nothing}`,
      );
    case 'before-start':
      return saysView(
        'Before the start',
        md`${read} This quarantine had not begun then, so it cannot count. ${nothing}`,
      );
  }
}

/** Open steps, those that are late or due first; of a run only the next turn. */
function stepChoices(deps: QuarantineDeps, typed: string, which: unknown, request: Request): Choice[] {
  if (request.guildId === null) return [];
  const own = [
    ...deps.store.own(request.guildId, request.memberId),
    ...deps.store.helped(request.guildId, request.memberId),
  ];
  const meant = own.find(({ id }) => String(id) === which) ?? own[0];
  const state = meant && standingOf(deps, meant, request.now)?.state;
  if (!state) return [];
  const open = state.steps.filter(({ doneAt }) => doneAt === null);
  const isNext = ({ run, id }: StepState) => !run || open.find((each) => each.run?.id === run.id)?.id === id;
  const order = ['overdue', 'due', 'coming', 'blocked', 'done'];
  return open
    .filter(isNext)
    .filter(({ title }) => normaliseName(title).includes(normaliseName(typed)))
    .sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status))
    .slice(0, MOST_CHOICES)
    .map(({ id, title }) => ({ name: title.slice(0, 100), value: id }));
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
