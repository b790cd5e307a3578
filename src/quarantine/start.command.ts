import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import { md, type Answer, type Choice, type MessageView, type Request } from '../discord/message-view.ts';
import type { Fish } from '../knowledge/fish.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import { knownZone } from '../schedule/local-time.ts';
import { adviseOn, kindsOf, purposeIn } from './advice.ts';
import { helperTrouble, Member } from './member-option.ts';
import { choices, named, oneOfTheList, typedOrChosen } from './named-entry.ts';
import { beginNew } from './new-quarantine.command.ts';
import type { CopperLabel, Quarantine } from './quarantine.ts';
import type { NewPlanEvent } from './quarantine.store.ts';
import { readingIn, readingTroubleView } from './reading-option.ts';
import { labelTrouble } from './start-form.view.ts';
import { MOST_DAYS_AGO, readBegan, readLabel, type Began } from './start-words.ts';
import { saysView, UNKNOWN_ZONE } from './start.view.ts';
import { adviceAnswer, questionsView, refusal } from './starting.command.ts';
import { tankChoices, tankName } from './tank-option.ts';
import { needsAClub, type QuarantineDeps } from './which.command.ts';

const DEFAULT_TIME = '19:00';
/** Where nobody has said what it is for: it harms nothing. */
const IN_DOUBT = 'observation';
export const VET_SAID = 'directed by a vet';

const Input = z.object({
  animals: z.string().trim().min(1).max(80),
  plan: z.string().max(100).optional(),
  for: z.string().max(100).optional(),
  fish: z.string().max(100).optional(),
  option: z.string().max(100).optional(),
  tank: z.string().max(60).optional(),
  temperature: z.string().max(40).optional(),
  began: z.string().max(40).optional(),
  helper: Member.optional(),
  label: z.string().max(60).optional(),
  'seen-by': z.enum(['me', 'club']).default('me'),
  zone: z.string().max(60).optional(),
  vet: z.literal('yes').optional(),
});
type Input = z.output<typeof Input>;

function optionsOf({ purposes }: Pick<KnowledgeBase, 'purposes'>): OptionSpec[] {
  const labels = [...purposes.values()].map(({ label }) => label);
  return [
    {
      name: 'animals',
      description: 'Who waits, in your words: "two clownfish"',
      required: true,
      autocomplete: true,
      mostCharacters: 80,
    },
    // A base that was put together for a test may have none.
    {
      name: 'for',
      description: 'What it is for; left out, I go by your words',
      required: false,
      ...(labels.length > 0 ? { choices: labels } : {}),
    },
    { name: 'plan', description: 'How; left out, I say what fits', required: false, autocomplete: true },
    { name: 'fish', description: 'The kind of fish, so that I can warn', required: false, autocomplete: true },
    {
      name: 'tank',
      description: 'Where they wait, in your words',
      required: false,
      autocomplete: true,
      mostCharacters: 60,
    },
    { name: 'temperature', description: 'Of the water now: "78 F" or "25.5 C"', required: false, mostCharacters: 40 },
    {
      name: 'began',
      description: 'If they wait already: "yesterday", "Saturday 18:00"',
      required: false,
      mostCharacters: 40,
    },
    { kind: 'member', name: 'helper', description: 'Who may check in for you', required: false },
    { name: 'option', description: 'A way of doing it that the plan offers', required: false, autocomplete: true },
    { name: 'label', description: 'Of bound copper: "chelated 1.5-2.0 mg/L"', required: false, mostCharacters: 60 },
    { name: 'seen-by', description: 'Who may see it', required: false, choices: ['me', 'club'] },
    { name: 'zone', description: 'Your time zone, such as Europe/Lisbon', required: false, mostCharacters: 60 },
    { name: 'vet', description: 'Yes, if a fish vet directed this', required: false, choices: ['yes'] },
  ];
}

/** `/quarantine start`: which plan fits and why, whom it does not suit, and the questions that all need a yes. */
export function startCommand(deps: QuarantineDeps): AnyCommand {
  const { base } = deps;
  return defineCommand({
    name: 'quarantine start',
    description: 'New animals wait before they join: the plan, its dates and its questions',
    options: optionsOf(base),
    input: Input,
    run: (given, request) => {
      if (request.guildId === null || request.channelId === null) return needsAClub();
      const read = readGiven(deps, given, request);
      if (read.kind === 'trouble') return read.view;
      const { plan, first, began } = read;
      const purpose = [...base.purposes.values()].find(({ label }) => label === given.for);
      const asked = { ...read.asked, guildId: request.guildId, channelId: request.channelId };
      const asker = { animals: given.animals, fish: asked.fish, isVetLed: given.vet === 'yes' };
      const wanted = purpose ?? purposeIn(base, asker);
      const fits = wanted && adviseOn(base, wanted, asker).first?.plan;
      const begun = beginNew(deps, { ...asked, plan: (plan ?? fits)?.id ?? IN_DOUBT }, request.now, first, began);
      if (begun.kind === 'trouble') return begun.view;
      return plan
        ? (refusal(deps, begun.quarantine, plan, request.now) ??
            questionsView(deps, begun.quarantine, plan, request.now))
        : adviceAnswer(deps, begun.quarantine, request.now, purpose);
    },
    suggest: (option, typed, request, so = {}) => suggested(deps, option, typed, request, so),
  });
}

type Read =
  | { kind: 'trouble'; view: MessageView }
  | {
      kind: 'read';
      plan: Plan | undefined;
      asked: Omit<Quarantine, 'id' | 'ended' | 'begunAt' | 'plan' | 'guildId' | 'channelId'>;
      first: NewPlanEvent[];
      began: Date | undefined;
    };
const trouble = (view: MessageView): Read => ({ kind: 'trouble', view });

/** Every option in its own form, or what is wrong with the first that cannot be used. */
function readGiven(deps: QuarantineDeps, given: Input, { guildId, memberId, now }: Request): Read {
  const { base } = deps;
  const plan = given.plan === undefined ? undefined : named(base.plans.values(), given.plan);
  if (given.plan !== undefined && !plan) return trouble(unknown('plan', given.plan, base.plans.values()));
  const fish = given.fish === undefined ? undefined : named(base.fish.values(), given.fish);
  if (given.fish !== undefined && !fish) return trouble(unknown('kind of fish', given.fish, base.fish.values()));
  if (given.option !== undefined && !plan)
    return trouble(saysView('Which plan?', md`An option belongs to a plan. Add **plan:**, or leave **option:** out.`));
  const option = given.option === undefined ? plan?.options[0] : named(plan?.options ?? [], given.option);
  if (given.option !== undefined && !option) return trouble(unknown('option', given.option, plan?.options ?? []));
  const remembered = deps.zones.of(memberId);
  const zone = given.zone === undefined ? (remembered?.zone ?? UNKNOWN_ZONE) : knownZone(given.zone);
  if (zone === null) return trouble(badZoneView(given.zone ?? ''));
  const began = given.began === undefined ? undefined : readBegan(given.began, now, zone);
  if (began && began.kind !== 'at') return trouble(beganTroubleView(began, given.began ?? ''));
  const temperature =
    given.temperature === undefined ? undefined : readingIn('temperature', given.temperature, undefined);
  if (temperature && temperature.kind !== 'read') return trouble(readingTroubleView(temperature));
  const read = given.label === undefined ? undefined : readLabel(given.label);
  if (read?.kind === 'trouble')
    return trouble(saysView('I could not use that label', md`${labelTrouble(read)} Nothing was begun.`));
  const helper = given.helper && helperTrouble(given.helper, memberId, []);
  if (helper) return trouble(helper);
  const timeOfDay = remembered?.timeOfDay ?? DEFAULT_TIME;
  if (given.zone !== undefined && !remembered) deps.zones.remember(memberId, { zone, timeOfDay }, now);
  const copperLabel: CopperLabel | null = read?.label ?? null;
  const kinds = kindsOf(base, { animals: given.animals, fish: fish ? [fish.id] : [] });
  return {
    kind: 'read',
    plan,
    began: began?.at,
    first: [
      ...(given.vet ? [{ kind: 'vet-said', at: now, text: VET_SAID } satisfies NewPlanEvent] : []),
      ...(temperature
        ? [{ kind: 'reading', at: began?.at ?? now, reading: temperature.reading } satisfies NewPlanEvent]
        : []),
    ],
    asked: {
      memberId,
      animals: given.animals,
      fish: kinds.certain.map(({ id }: Fish) => id),
      option: option?.id ?? null,
      tank: given.tank === undefined ? null : tankName(deps.tanks, guildId, memberId, given.tank),
      copperLabel,
      helpers: given.helper ? [given.helper.id] : [],
      zone,
      timeOfDay,
      follows: null,
      visibility: given['seen-by'],
    },
  };
}

function suggested(
  { base, tanks }: QuarantineDeps,
  option: string,
  typed: string,
  request: Request,
  so: Readonly<Record<string, unknown>>,
): Choice[] {
  switch (option) {
    case 'animals':
      return typedOrChosen(base.fish.values(), typed);
    case 'plan':
      return choices(base.plans.values(), typed);
    case 'fish':
      return choices(base.fish.values(), typed);
    case 'tank':
      return tankChoices(tanks, typed, request);
    default: {
      const plan = typeof so['plan'] === 'string' ? named(base.plans.values(), so['plan']) : undefined;
      return option === 'option' ? choices(plan?.options ?? [], typed) : [];
    }
  }
}

export const unknown = (what: string, typed: string, entries: Iterable<{ name: string }>): MessageView =>
  saysView(`I don’t know that ${what}`, md`I read “${typed.slice(0, 40)}”. ${oneOfTheList(entries)}`);

export const badZoneView = (typed: string): MessageView =>
  saysView(
    'I know no such time zone',
    md`I read “${typed}”. Write a region and a city, such as Europe/Lisbon or America/Chicago.`,
  );

function beganTroubleView(began: Exclude<Began, { kind: 'at' }>, typed: string): Answer & MessageView {
  switch (began.kind) {
    case 'unreadable':
      return saysView(
        'I could not read when it began',
        md`I read “${typed}”. Write **yesterday**, **3 days ago**, **Saturday 18:00** or a date such as 2026-11-20. Nothing was begun.`,
      );
    case 'ahead':
      return saysView(
        'That is still to come',
        md`I read “${typed}”. Start it when they are in the water; **began:** is for animals that wait already.`,
      );
    case 'long-ago':
      return saysView(
        'That is long ago',
        md`I read “${typed}”. ${MOST_DAYS_AGO} days at most: what was not noted then cannot be counted now.`,
      );
  }
}
