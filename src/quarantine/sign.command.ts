import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import { md, type Answer, type Request } from '../discord/message-view.ts';
import type { Sign } from '../knowledge/sign.ts';
import {
  hurtView,
  noSignView,
  offView,
  otherSignView,
  personView,
  whichHurtView,
  whichSignView,
  type Along,
} from './off.view.ts';
import { onNoting, onQuarantine, todayAnswer } from './on-quarantine.command.ts';
import { APPETITES } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';
import { isOfPeople, toldIn } from './sign-told.ts';
import { signsToldIn } from './signs.ts';
import { saysView } from './start.view.ts';
import { BY, replyOf, tell, type Appetite } from './telling.command.ts';
import { planGone, type QuarantineDeps } from './which.command.ts';

const MOST_WORDS = 600;
const MOST_MATCHES = 25;

const appetiteOf = (word: string | undefined): Appetite | null => APPETITES.find((each) => each === word) ?? null;
const alongOf = (quarantine: Quarantine, [appetite = '-', replaces = '-']: readonly string[]): Along => ({
  quarantineId: quarantine.id,
  appetite: appetiteOf(appetite),
  replaces: replaces === '-' ? null : replaces,
});

const signGone = () => saysView('I don’t know that sign', md`Its entry is gone. Choose again.`);
const answeredAlready = () =>
  saysView(
    'That was answered already',
    md`It was taken back, or answered with another button. **/quarantine today** shows how it stands.`,
  );

/** The buttons by which a keeper tells what is off. First aid for people asks nobody who they are. */
export function signButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base, store } = deps;
  const choose = onQuarantine(deps, 'quarantine-sign', (quarantine, args, request, [id = '']) => {
    const sign = base.signs.get(id);
    return sign ? tellAlong(deps, quarantine, sign, alongOf(quarantine, args), request) : signGone();
  });
  return [
    { act: 'quarantine-hurt', run: () => hurtView(base) },
    { act: 'quarantine-hurt-by', run: (_args, _request, [id = ''] = []) => personFor(deps, id) ?? signGone() },
    {
      ...choose,
      run: (args, request, chosen = []) => personFor(deps, chosen[0] ?? '') ?? choose.run(args, request, chosen),
    },
    onQuarantine(deps, 'quarantine-off', (quarantine, args) => {
      const plan = base.plans.get(quarantine.plan);
      return plan ? offView(plan, base.signs.values(), alongOf(quarantine, args)) : planGone();
    }),
    onQuarantine(deps, 'quarantine-words', (quarantine, args) => ({
      kind: 'form',
      act: 'quarantine-told',
      args: [String(quarantine.id), ...args],
      title: 'What is off?',
      fields: [
        {
          kind: 'paragraph',
          name: 'words',
          label: 'What do you see, in your words?',
          description: 'Where on the animal, since when, one of them or all',
          required: true,
          mostCharacters: MOST_WORDS,
          placeholder: 'My clown breathes very fast since this morning',
        },
      ],
    })),
    onQuarantine(deps, 'quarantine-reply', (quarantine, [signId = '', by = '', eventId = ''], request) => {
      const sign = base.signs.get(signId);
      if (!sign) return signGone();
      const replaces = toldIn(store.events(quarantine), eventId, signId);
      if (!replaces && eventId !== '-') return answeredAlready();
      const reply = replyOf(sign, by);
      const others = (reply?.insteadSee ?? []).flatMap((id) => base.signs.get(id) ?? []);
      const [other, ...more] = others;
      if (reply && more.length > 0) {
        const along = { quarantineId: quarantine.id, appetite: null, replaces: replaces?.id ?? null };
        return { ...otherSignView(reply.says, others, along), replaces: true };
      }
      // The other sign puts its own question, unless it is the one that was just answered.
      const isAnswered = other?.checkFirst === sign.checkFirst;
      const next = other ? { sign: other, by: isAnswered ? BY.elsewhere : BY.open } : { sign, by };
      return inPlace(tell(deps, quarantine, { ...next, appetite: null, replaces }, request));
    }),
    onQuarantine(deps, 'quarantine-ate', (quarantine, [eventId = '', word, by = BY.cannotTell], request) => {
      const replaces = toldIn(store.events(quarantine), eventId);
      const appetite = appetiteOf(word);
      if (!replaces || !appetite) return answeredAlready();
      const sign = base.signs.get(replaces.kind === 'sign-seen' ? replaces.sign : (replaces.signs[0]?.sign ?? ''));
      if (!sign) return signGone();
      return inPlace(tell(deps, quarantine, { sign, by, appetite, replaces }, request));
    }),
    onNoting(deps, 'quarantine-seen', (quarantine, [word], request) => {
      const appetite = appetiteOf(word) ?? 'normal';
      store.note(quarantine, { kind: 'check-in', at: request.now, signs: [], appetite }, request.memberId, request.now);
      return todayAnswer(deps, quarantine, request);
    }),
    onQuarantine(deps, 'quarantine-today', (quarantine, _args, request) => todayAnswer(deps, quarantine, request)),
  ];
}

const Filled = z.object({ words: z.string().default('') });

/** What a keeper wrote in the form. */
export function signForms(deps: QuarantineDeps): FormAct[] {
  return [
    {
      act: 'quarantine-told',
      run: (args, filled, request) => {
        const { words } = Filled.parse(filled);
        const gated = onQuarantine(deps, 'quarantine-told', (quarantine, along) =>
          toldInWords(deps, quarantine, words, alongOf(quarantine, along), request),
        );
        return peopleIn(deps, words) ?? gated.run(args, request);
      },
    },
  ];
}

/** First aid where the words are about people or pets alone; null when they are not. */
export function peopleIn({ base }: QuarantineDeps, words: string): Answer | null {
  const matches = signsToldIn([...base.signs.values()], words);
  const [only, ...more] = matches;
  if (!only || !matches.every(isOfPeople)) return null;
  return more.length > 0 ? whichHurtView(base, matches.slice(0, MOST_MATCHES)) : personView(base, only);
}

/** A member's own words: straight to the sign they fit, or a list; nothing is noted where they fit none. */
export function toldInWords(
  deps: QuarantineDeps,
  quarantine: Quarantine,
  words: string,
  along: Along,
  request: Request,
): Answer {
  const { base } = deps;
  const plan = base.plans.get(quarantine.plan);
  if (!plan) return planGone();
  const people = peopleIn(deps, words);
  if (people) return people;
  const matches = signsToldIn([...base.signs.values()], words).slice(0, MOST_MATCHES);
  const [only, ...more] = matches;
  if (!only) return noSignView(words, plan, base.signs.values(), along);
  return more.length > 0
    ? whichSignView(words, matches, along)
    : tellAlong(deps, quarantine, only, along, request, words);
}

/** Tells of a sign, with what came along. */
export function tellAlong(
  deps: QuarantineDeps,
  quarantine: Quarantine,
  sign: Sign,
  { appetite, replaces }: Along,
  request: Request,
  typed?: string,
): Answer {
  const before = replaces === null ? null : toldIn(deps.store.events(quarantine), replaces);
  if (replaces !== null && !before) return answeredAlready();
  return tell(
    deps,
    quarantine,
    {
      sign,
      by: BY.open,
      appetite: appetiteOf(appetite ?? ''),
      replaces: before,
      ...(typed === undefined ? {} : { typed }),
    },
    request,
  );
}

function personFor({ base }: QuarantineDeps, id: string): Answer | null {
  const sign = base.signs.get(id);
  return sign && isOfPeople(sign) ? personView(base, sign) : null;
}

const inPlace = (answer: Answer): Answer => ('kind' in answer ? answer : { ...answer, replaces: true });
