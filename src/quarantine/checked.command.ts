import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Answer, Choice, MessageView, Request } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Sign } from '../knowledge/sign.ts';
import { hurtView, personView } from './off.view.ts';
import { APPETITES } from './plan-event.ts';
import { isOfPeople, signsUnder } from './sign-told.ts';
import { peopleIn, tellAlong, toldInWords } from './sign.command.ts';
import { signsMatching } from './signs.ts';
import type { Appetite } from './telling.command.ts';
import { todayView } from './today.view.ts';
import { ownChoices, WHICH, withOwn, type QuarantineDeps, type Standing } from './which.command.ts';

const MOST_CHOICES = 25;
const MOST_TYPED = 100;

/** Offered before anything is typed. */
const HURT: Choice = { name: 'A person or a pet is hurt', value: 'hurt' };

const ATE: Readonly<Record<Appetite, string>> = {
  normal: 'All well',
  some: 'Ate a little, else all well',
  none: 'Ate nothing, else all well',
};

/** `/quarantine check`: the look of the day, with what is off. */
export function checkCommand(deps: QuarantineDeps): AnyCommand {
  const { base } = deps;
  return defineCommand({
    name: 'quarantine check',
    description: 'The look of the day: all well, or what is off',
    options: [
      {
        name: 'see',
        description: 'What is off, in your words: "breathing fast", "white dots"',
        required: false,
        autocomplete: true,
        mostCharacters: MOST_TYPED,
      },
      { name: 'appetite', description: 'How they ate today', required: false, choices: APPETITES.toReversed() },
      WHICH,
    ],
    input: z.object({
      see: z.string().trim().max(MOST_TYPED).optional(),
      appetite: z.enum(APPETITES).optional(),
      which: z.string().max(100).optional(),
    }),
    run: ({ see = '', appetite = null, which }, request) =>
      peopleFirst(deps, see) ??
      withOwn(deps, which, request, (standing) =>
        see === '' ? looked(standing, appetite, request) : seenAnswer(deps, standing, see, appetite, request),
      ),
    suggest: (option, typed, request, given = {}) =>
      option === 'which' ? ownChoices(deps, typed, request) : signChoices(deps, typed, request, given['which']),
  });

  function peopleFirst({ base: { signs } }: QuarantineDeps, see: string): Answer | null {
    if (see === HURT.value) return hurtView(base);
    const sign = signs.get(see);
    if (sign) return isOfPeople(sign) ? personView(base, sign) : null;
    return peopleIn(deps, see);
  }
}

function seenAnswer(
  deps: QuarantineDeps,
  { quarantine }: Standing,
  see: string,
  appetite: Appetite | null,
  request: Request,
): Answer {
  const along = { quarantineId: quarantine.id, appetite, replaces: null };
  const sign = deps.base.signs.get(see);
  return sign ? tellAlong(deps, quarantine, sign, along, request) : toldInWords(deps, quarantine, see, along, request);
}

/** How it stands, with the two buttons of the daily look; how they ate goes along with either. */
function looked({ quarantine, plan, state }: Standing, appetite: Appetite | null, { now }: Request): MessageView {
  const view = todayView(quarantine, plan, state, now);
  if (appetite === null) return view;
  const args = [String(quarantine.id), appetite];
  return {
    ...view,
    blocks: [
      ...view.blocks.filter(({ kind }) => kind !== 'buttons'),
      {
        kind: 'buttons',
        buttons: [
          { label: ATE[appetite], act: 'quarantine-seen', args, style: 'primary' },
          { label: 'Something is off', act: 'quarantine-off', args, style: 'danger' },
        ],
      },
    ],
  };
}

/** Signs while they are typed, people and pets first; with nothing typed those of the plan, the most urgent first. */
function signChoices(deps: QuarantineDeps, typed: string, request: Request, which: unknown): Choice[] {
  const { signs } = deps.base;
  const found = typed.trim() === '' ? null : signsMatching(signs.values(), typed);
  const choices = found ?? underOwnPlan(deps, request, which, deps.base);
  return [...(found ? [] : [HURT]), ...choices.map(({ id, name }) => ({ name, value: id }))].slice(0, MOST_CHOICES);
}

function underOwnPlan(
  { store }: QuarantineDeps,
  { guildId, memberId }: Request,
  which: unknown,
  { plans, signs }: KnowledgeBase,
): Sign[] {
  const own = guildId === null ? [] : [...store.own(guildId, memberId), ...store.helped(guildId, memberId)];
  const meant = own.find(({ id }) => String(id) === which) ?? own[0];
  return signsUnder(plans.get(meant?.plan ?? '') ?? { for: 'fish' }, signs.values());
}
