import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, MessageView, Request } from '../discord/message-view.ts';
import { localDate, occurrenceOn, timeOfDayIn } from '../schedule/local-time.ts';
import { addChore, choreTitle, driftOf, ideaForm, readRule, toldOf, type UpkeepDeps } from './asked-chore.command.ts';
import { done, later, restored, skipped, thisEvening, tomorrow, type Chore } from './chore-rule.ts';
import { ideaView, laterChoiceView, undoneView } from './chore-said.view.ts';
import * as trouble from './chore-trouble.view.ts';
import { answeredView, cardView, doneView, laterView, skippedView } from './chore.view.ts';
import { readDay, readEvery } from './every.ts';

export function doneAnswer(
  deps: UpkeepDeps,
  chore: Chore,
  { now }: Request,
  which: { round?: string; on?: string },
  isButton: boolean,
): MessageView {
  const result = done(chore, now, which);
  if (result.kind === 'answered-already') return trouble.answeredAlreadyView(chore);
  const actId = deps.chores.act(chore, result.chore, 'done', result.date, now);
  return (
    (isButton ? othersOf(deps, result.chore, now, actId) : null) ??
    doneView(toldOf(deps)(result.chore), result.date, actId, driftOf(deps, result.chore), isButton)
  );
}

export function skipAnswer(
  deps: UpkeepDeps,
  chore: Chore,
  { now }: Request,
  round: string | undefined,
  isButton: boolean,
): MessageView {
  const result = skipped(chore, now, round);
  if (result.kind === 'answered-already') return trouble.answeredAlreadyView(chore);
  const actId = deps.chores.act(chore, result.chore, 'skipped', null, now);
  return (
    (isButton ? othersOf(deps, result.chore, now, actId) : null) ??
    skippedView(toldOf(deps)(result.chore), actId, isButton)
  );
}

/** Where one message told of several chores, it goes on showing what is left of them. */
function othersOf(deps: UpkeepDeps, chore: Chore, now: Date, actId: number | null): MessageView | null {
  const told = chore.toldKey === null ? [] : deps.chores.toldBy(chore.toldKey, chore.memberId);
  return told.length > 1 ? answeredView(told.map(toldOf(deps)), now, actId) : null;
}

export const laterAnswer = (deps: UpkeepDeps, chore: Chore, { now }: Request): MessageView =>
  laterChoiceView(toldOf(deps)(chore), thisEvening(chore, now), tomorrow(chore, now));

export function ideaAnswer({ base }: UpkeepDeps, id: string, isMine = false): MessageView {
  const idea = base.chores.get(id);
  return idea ? ideaView(idea, isMine) : trouble.choreGoneView();
}

/** Takes the member’s last act in a club back; with a number only when it is that one. */
export function undoAnswer(
  deps: UpkeepDeps,
  { memberId, now }: Request,
  guildId: string,
  actId: number | null,
): MessageView {
  const last = deps.chores.lastAct(guildId, memberId);
  if (!last || (actId !== null && last.act.id !== actId)) return trouble.nothingToUndoView();
  const { act, before, current } = last;
  const back = before && restored(before, current, now);
  deps.chores.takeBack(act.id, current, back, now);
  const others = actId === null || act.what === 'added' ? null : othersOf(deps, back ?? current, now, null);
  return others ?? undoneView(toldOf(deps)(back ?? current), act.what, actId !== null);
}

function moved(deps: UpkeepDeps, chore: Chore, at: Date, now: Date): MessageView {
  if (at <= now) return trouble.timeOverView();
  const after = later(chore, at);
  return laterView(toldOf(deps)(after), deps.chores.act(chore, after, 'later', null, now));
}

/** The buttons of reminders and cards. They look for themselves whose chore it is, and work in direct messages too. */
export function choreButtons(deps: UpkeepDeps): ButtonAct[] {
  const { base, chores } = deps;
  const onRound = (
    act: string,
    run: (chore: Chore, round: string, request: Request, rest: readonly string[]) => Answer,
  ): ButtonAct => ({
    act,
    run: ([id, round = '', ...rest], request) => {
      const chore = chores.find(Number(id), request.memberId);
      if (!chore) return trouble.choreGoneView();
      return chore.due === round ? run(chore, round, request, rest) : trouble.answeredAlreadyView(chore);
    },
  });
  return [
    onRound('chore-done', (chore, round, request) => doneAnswer(deps, chore, request, { round }, true)),
    onRound('chore-skip', (chore, round, request) => skipAnswer(deps, chore, request, round, true)),
    onRound('chore-later', (chore, _round, request) => laterAnswer(deps, chore, request)),
    onRound('chore-to', (chore, _round, { now }, [to]) =>
      moved(deps, chore, (to === 'evening' ? thisEvening(chore, now) : null) ?? tomorrow(chore, now), now),
    ),
    onRound('chore-pick', (chore, round, { now }) => ({
      kind: 'form',
      act: 'chore-moved',
      args: [String(chore.id), round],
      title: 'Remind me later',
      fields: [
        {
          kind: 'line',
          name: 'day',
          label: 'On which day?',
          description: 'today, tomorrow, Sat, in 5 days, or 2026-12-01',
          required: true,
          mostCharacters: 20,
          value: localDate(tomorrow(chore, now), chore.rule.zone),
        },
        {
          kind: 'line',
          name: 'time',
          label: 'At what time?',
          description: `In ${chore.rule.zone}`.slice(0, 100),
          required: true,
          mostCharacters: 12,
          value: chore.rule.timeOfDay,
        },
      ],
    })),
    {
      act: 'chore-card',
      run: (_args, { memberId, now }, chosen) => {
        const chore = chores.find(Number(chosen?.[0]), memberId);
        return chore ? cardView(toldOf(deps)(chore), driftOf(deps, chore), now) : trouble.choreGoneView();
      },
    },
    {
      act: 'chore-how',
      run: ([id, mine], _request, chosen) => ideaAnswer(deps, chosen?.[0] ?? id ?? '', mine === 'mine'),
    },
    {
      act: 'chore-add',
      run: ([id = ''], request) => {
        const idea = base.chores.get(id);
        if (!idea) return trouble.choreGoneView();
        return request.guildId === null ? trouble.needsAClubView() : ideaForm(deps, idea, request);
      },
    },
    {
      act: 'chore-undo',
      run: ([id], request) => {
        const guildId = chores.clubOfAct(Number(id), request.memberId);
        return guildId === undefined ? trouble.nothingToUndoView() : undoAnswer(deps, request, guildId, Number(id));
      },
    },
  ];
}

const Begun = z.object({
  title: z.string().default(''),
  every: z.string().default(''),
  time: z.string().default(''),
  zone: z.string().default(''),
});
const Moved = z.object({ day: z.string().default(''), time: z.string().default('') });

export function choreForms(deps: UpkeepDeps): FormAct[] {
  return [
    {
      act: 'chore-begin',
      run: ([idea = '-', tank = '-', first = '-'], filled, request) => {
        const given = Begun.parse(filled);
        const title = choreTitle(given.title);
        if (title === null) return trouble.badTitleView();
        const every = readEvery(given.every);
        if (every === null) return trouble.badEveryView(given.every);
        const read = readRule(given.time, given.zone, undefined);
        if (read.kind === 'problem') return read.view;
        if (read.kind === 'ask') return trouble.badZoneView(given.zone);
        const { rule } = read;
        const found = deps.base.chores.get(idea);
        const asked = first === '-' ? null : readDay(first, localDate(request.now, rule.zone));
        const tankId = tank === '-' ? null : Number(tank);
        return addChore(deps, { title, idea: found?.id ?? null, tankId, every, rule, first: asked }, request);
      },
    },
    {
      act: 'chore-moved',
      run: ([id, round], filled, { memberId, now }) => {
        const chore = deps.chores.find(Number(id), memberId);
        if (!chore) return trouble.choreGoneView();
        if (chore.due !== round) return trouble.answeredAlreadyView(chore);
        const given = Moved.parse(filled);
        const date = readDay(given.day, localDate(now, chore.rule.zone));
        if (date === null) return trouble.badDayView(given.day);
        const timeOfDay = timeOfDayIn(given.time);
        if (timeOfDay === null) return trouble.badTimeView(given.time);
        return moved(deps, chore, occurrenceOn({ timeOfDay, zone: chore.rule.zone }, date).at, now);
      },
    },
  ];
}
