import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import { md, type Answer, type MessageView, type Request } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import { knownZone, timeOfDayIn } from '../schedule/local-time.ts';
import { changedView, helpersInWords, settingsView, type Changed } from './change.view.ts';
import { helperTrouble, Member } from './member-option.ts';
import { kindsIn } from './kinds.ts';
import { needsLabel, standingEvents } from './may-start.ts';
import { choices, named } from './named-entry.ts';
import { asNew, beginNew } from './new-quarantine.command.ts';
import type { CopperLabel, Quarantine } from './quarantine.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { badZoneView, unknown, VET_SAID } from './start.command.ts';
import { labelTrouble } from './start-form.view.ts';
import { labelInWords, readLabel } from './start-words.ts';
import { keeperOnlyView, saysView } from './start.view.ts';
import { questionsView, refusal } from './starting.command.ts';
import { tankChoices, tankName } from './tank-option.ts';
import { ownChoices, WHICH, withChosen, type QuarantineDeps, type Standing } from './which.command.ts';

const Input = z.object({
  which: z.string().max(100).optional(),
  animals: z.string().trim().min(1).max(80).optional(),
  tank: z.string().max(60).optional(),
  time: z.string().max(12).optional(),
  zone: z.string().max(60).optional(),
  'seen-by': z.enum(['me', 'club']).optional(),
  helper: Member.optional(),
  'helper-gone': Member.optional(),
  plan: z.string().max(100).optional(),
  option: z.string().max(100).optional(),
  label: z.string().max(60).optional(),
  vet: z.literal('yes').optional(),
});
type Input = z.output<typeof Input>;

const OPTIONS: readonly OptionSpec[] = [
  WHICH,
  { name: 'animals', description: 'What you call them', required: false, mostCharacters: 80 },
  { name: 'tank', description: 'Where they wait', required: false, autocomplete: true, mostCharacters: 60 },
  { name: 'time', description: 'When I remind you each day: "7:30 pm"', required: false, mostCharacters: 12 },
  { name: 'zone', description: 'Your time zone, such as Europe/Lisbon', required: false, mostCharacters: 60 },
  { name: 'seen-by', description: 'Who may see it', required: false, choices: ['me', 'club'] },
  { kind: 'member', name: 'helper', description: 'Who else may check in', required: false },
  { kind: 'member', name: 'helper-gone', description: 'Who may not any more', required: false },
  { name: 'plan', description: 'Another plan; begins anew, and asks first', required: false, autocomplete: true },
  {
    name: 'option',
    description: 'Another way of it; begins anew, and asks first',
    required: false,
    autocomplete: true,
  },
  { name: 'label', description: 'Of bound copper: "chelated 1.5-2.0 mg/L"', required: false, mostCharacters: 60 },
  { name: 'vet', description: 'Yes, if a fish vet directed this', required: false, choices: ['yes'] },
];

/** `/quarantine change`: what is set, what is to be different, and another plan in the place of this one. */
export function changeCommand(deps: QuarantineDeps): AnyCommand {
  const { base } = deps;
  return defineCommand({
    name: 'quarantine change',
    description: 'Another name, tank, time, helper or plan',
    options: OPTIONS,
    input: Input,
    run: ({ which, ...given }, request) =>
      withChosen(deps, which, request, (standing) =>
        standing.quarantine.memberId === request.memberId
          ? change(deps, standing, given, request)
          : keeperOnlyView(standing.quarantine),
      ),
    suggest: (option, typed, request, so = {}) => {
      if (option === 'plan') return choices(base.plans.values(), typed);
      if (option === 'tank') return tankChoices(deps.tanks, typed, request);
      if (option !== 'option') return ownChoices(deps, typed, request);
      const own = request.guildId === null ? [] : deps.store.own(request.guildId, request.memberId);
      const [only] = own.length === 1 ? own : own.filter(({ id }) => String(id) === so['which']);
      const plan = typeof so['plan'] === 'string' ? named(base.plans.values(), so['plan']) : undefined;
      return choices((plan ?? base.plans.get(only?.plan ?? ''))?.options ?? [], typed);
    },
  });
}

function change(deps: QuarantineDeps, standing: Standing, given: Omit<Input, 'which'>, request: Request): Answer {
  const { quarantine, plan } = standing;
  const read = readChanges(deps, quarantine, given, request);
  if (read.kind === 'trouble') return read.view;
  const way = readPlan(deps, standing, given);
  if (way.kind === 'trouble') return way.view;
  const { changed, next } = read;
  if (changed.length === 0 && way.kind === 'same')
    return Object.values(given).some((value) => value !== undefined)
      ? saysView('Nothing is different', md`It is set like that already. **/quarantine change** alone shows how.`)
      : settingsView(quarantine, plan);
  if (changed.length > 0) {
    deps.store.together(() => {
      deps.store.save(next);
      relabel(deps, standing, next, request);
    });
    if (given.zone !== undefined || given.time !== undefined)
      deps.zones.remember(request.memberId, { zone: next.zone, timeOfDay: next.timeOfDay }, request.now);
  }
  if (way.kind === 'same') return changedView(next, changed);
  const view = anew(deps, { ...standing, quarantine: next }, way, given, request);
  const saved = changedView(next, changed).blocks.slice(1, 2);
  return changed.length === 0
    ? view
    : { ...view, blocks: [...view.blocks.slice(0, 1), ...saved, ...view.blocks.slice(1)] };
}

type Read = { kind: 'trouble'; view: MessageView } | { kind: 'read'; changed: Changed[]; next: Quarantine };
const trouble = (view: MessageView) => ({ kind: 'trouble', view }) as const;

/** What is saved at once. */
function readChanges(
  deps: QuarantineDeps,
  quarantine: Quarantine,
  given: Omit<Input, 'which'>,
  { guildId, memberId }: Request,
): Read {
  const changed: Changed[] = [];
  let next = quarantine;
  const set = <Key extends keyof Quarantine>(
    key: Key,
    value: Quarantine[Key],
    what: string,
    words: (one: Quarantine[Key]) => Changed['was'],
  ) => {
    if (JSON.stringify(value) === JSON.stringify(next[key])) return;
    changed.push({ what, was: words(next[key]), now: words(value) });
    next = { ...next, [key]: value };
  };
  if (given.animals !== undefined) {
    set('animals', given.animals, 'Animals', (name) => md`${name}`);
    const kinds = kindsIn(given.animals, deps.base.fish.values()).certain.map(({ id }) => id);
    if (kinds.length > 0) next = { ...next, fish: [...new Set([...next.fish, ...kinds])] };
  }
  if (given.tank !== undefined)
    set('tank', tankName(deps.tanks, guildId, memberId, given.tank), 'Tank', (name) => md`${name ?? 'not named'}`);
  if (given.time !== undefined) {
    const time = timeOfDayIn(given.time);
    if (time === null)
      return trouble(
        saysView(
          'I could not read that time',
          md`I read “${given.time}”. Write it like 19:30 or 7:30 pm. Nothing was changed.`,
        ),
      );
    set('timeOfDay', time, 'Reminders', (at) => md`${at}`);
  }
  if (given.zone !== undefined) {
    const zone = knownZone(given.zone);
    if (zone === null) return trouble(badZoneView(given.zone));
    set('zone', zone, 'Time zone', (name) => md`${name}`);
  }
  if (given['seen-by'] !== undefined) set('visibility', given['seen-by'], 'Seen by', (who) => md`${who}`);
  const gone = given['helper-gone'];
  if (gone && !next.helpers.includes(gone.id))
    return trouble(saysView('Not a helper', md`**${gone.name}** does not help here. Nothing was changed.`));
  const helpers = next.helpers.filter((id) => id !== gone?.id);
  const helping = given.helper;
  const hindered = helping && helperTrouble(helping, memberId, helpers);
  if (hindered) return trouble(hindered);
  set('helpers', helping ? [...new Set([...helpers, helping.id])] : helpers, 'Helpers', helpersInWords);
  if (given.label !== undefined) {
    const read = readLabel(given.label);
    if (read.kind === 'trouble')
      return trouble(saysView('I could not use that label', md`${labelTrouble(read)} Nothing was changed.`));
    const words = (label: CopperLabel | null) => md`${label ? labelInWords(label) : 'none'}`;
    set('copperLabel', read.label, 'Label', words);
  }
  return { kind: 'read', changed, next };
}

/** A label that was misread at the start counts from the start: readings are judged by it anew. */
function relabel(
  { store }: QuarantineDeps,
  { quarantine, state }: Standing,
  next: Quarantine,
  { memberId, now }: Request,
) {
  const { copperLabel } = next;
  if (copperLabel === null || state.startedAt === null) return;
  if (JSON.stringify(copperLabel) === JSON.stringify(quarantine.copperLabel)) return;
  const started = standingEvents(store.events(quarantine)).find(({ kind }) => kind === 'started');
  if (started?.kind !== 'started') return;
  store.note(quarantine, { kind: 'undone', at: now, eventId: started.id }, memberId, now);
  const { at, option } = started;
  const anew = { kind: 'started', at, copperLabel, ...(option === undefined ? {} : { option }) } as const;
  store.note(quarantine, anew, memberId, now);
}

type Way =
  { kind: 'trouble'; view: MessageView } | { kind: 'same' } | { kind: 'anew'; plan: Plan; option: string | null };

function readPlan({ base }: QuarantineDeps, { quarantine, plan: old }: Standing, given: Omit<Input, 'which'>): Way {
  if (given.plan === undefined && given.option === undefined) return { kind: 'same' };
  const plan = given.plan === undefined ? old : named(base.plans.values(), given.plan);
  if (!plan) return trouble(unknown('plan', given.plan ?? '', base.plans.values()));
  const kept = plan.id === old.id ? quarantine.option : (plan.options[0]?.id ?? null);
  const chosen = given.option === undefined ? undefined : named(plan.options, given.option);
  if (given.option !== undefined && !chosen) return trouble(unknown('option', given.option, plan.options));
  const option = chosen?.id ?? kept;
  return plan.id === old.id && option === quarantine.option ? { kind: 'same' } : { kind: 'anew', plan, option };
}

/** Another plan in the place of this one: at once while nothing runs, and after a yes where something would be lost. */
function anew(
  deps: QuarantineDeps,
  { quarantine, state }: Standing,
  { plan, option }: Extract<Way, { kind: 'anew' }>,
  { vet }: Omit<Input, 'which'>,
  request: Request,
): MessageView {
  const { now, memberId } = request;
  const vetSaid: NewPlanEvent[] = vet ? [{ kind: 'vet-said', at: now, text: VET_SAID }] : [];
  if (state.startedAt === null) {
    for (const event of vetSaid) deps.store.note(quarantine, event, memberId, now);
    const chosen = { ...quarantine, plan: plan.id, option };
    const refused = refusal(deps, chosen, plan, now);
    if (refused) return refused;
    deps.store.save(chosen);
    return questionsView(deps, chosen, plan, now);
  }
  const kept = asNew(quarantine);
  const copperLabel = needsLabel(plan, option) ? kept.copperLabel : null;
  const begun = beginNew(deps, { ...kept, plan: plan.id, option, copperLabel, follows: quarantine.id }, now, vetSaid);
  if (begun.kind === 'trouble') return begun.view;
  return refusal(deps, begun.quarantine, plan, now) ?? questionsView(deps, begun.quarantine, plan, now);
}
