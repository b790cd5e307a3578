import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct, type FormAct } from '../discord/command.ts';
import { md, type Answer, type MessageView, type Request } from '../discord/message-view.ts';
import { localDate } from '../schedule/local-time.ts';
import { readDay } from '../upkeep/every.ts';
import type { MemberZoneStore } from '../upkeep/member-zone.store.ts';
import type { MemberNameStore } from './member-names.store.ts';
import { bringRead } from './bring.ts';
import { MOST_PLACE, type Meet } from './meet.ts';
import { meetPicture } from './meet-picture.ts';
import { comingView, meetPlannedView, meetView, noMeetView } from './meet.view.ts';
import type { Meets } from './meets.worker.ts';
import { saysView } from './ring.view.ts';
import { mayRun } from './rings.command.ts';

export type MeetCommandDeps = { meets: Meets; names: MemberNameStore; zones: MemberZoneStore };

const DO = ['I come', 'I cannot', 'Call it off'] as const;
const MOST_MEETS = 5;
const onlyInClub = () => saysView('Only in the club', md`A meet belongs to a club. Ask me there.`);
const goneView = () =>
  saysView('That meet is off the list', md`It is over or was called off. **/frag meet** shows the next one.`);

const Input = z.object({
  date: z.string().optional(),
  place: z.string().optional(),
  do: z.enum(DO).optional(),
  bring: z.string().optional(),
});

/** `/frag meet`: plans a meet, shows the next one, and says who comes. */
export function meetCommands(deps: MeetCommandDeps): AnyCommand[] {
  return [
    defineCommand({
      name: 'frag meet',
      description: 'Plan a swap meet, or see the next one: who comes, who gives what to whom',
      options: [
        {
          name: 'date',
          description: 'To plan one: Sat, tomorrow, in 2 weeks, or 2026-12-12',
          required: false,
          mostCharacters: 30,
        },
        { name: 'place', description: 'To plan one: where it is', required: false, mostCharacters: MOST_PLACE },
        { name: 'do', description: 'Of the next meet', required: false, choices: DO },
        {
          name: 'bring',
          description: 'With “I come”: the numbers of the offers you bring, such as 3, 5; left out: all',
          required: false,
          mostCharacters: 200,
        },
      ],
      input: Input,
      run: (given, request) => {
        const { guildId } = request;
        if (guildId === null) return onlyInClub();
        if (given.date !== undefined || given.place !== undefined) return planMeet(deps, given, guildId, request);
        const [next] = deps.meets.planned(guildId);
        if (!next) return noMeetView();
        if (given.do === 'Call it off') return callOff(deps, next, request);
        if (given.do === 'I cannot') return cannot(deps, next, request);
        if (given.do === 'I come' || given.bring !== undefined) return come(deps, next, given.bring ?? null, request);
        return showMeet(deps, next, request);
      },
    }),
  ];
}

function planMeet(
  { meets, zones }: MeetCommandDeps,
  given: z.infer<typeof Input>,
  guildId: string,
  request: Request,
): Answer {
  const { memberId, channelId, now } = request;
  const place = (given.place ?? '').trim().replace(/\s+/g, ' ');
  const today = localDate(now, zones.of(memberId)?.zone ?? 'UTC');
  const heldOn = given.date === undefined ? null : readDay(given.date, today);
  const again = (missing: string) =>
    md`${missing} Nothing was planned. Once more: **/frag meet date: ${given.date ?? 'Sat'} place: ${place || 'the club room'}**`;
  if (given.date === undefined) return saysView('On which day?', again('A meet needs a date as well.'));
  if (heldOn === null) {
    const isPast = /^\d{4}-\d{2}-\d{2}$/.test(given.date.trim()) && given.date.trim() < today;
    return saysView(
      isPast ? 'That day is over' : 'Which day?',
      isPast
        ? again(`${given.date.trim()} lies behind us.`)
        : again(
            `I read “${given.date}”. Write today, tomorrow, a day of the week, “in 2 weeks”, or a date within a year such as 2026-12-12.`,
          ),
    );
  }
  if (place === '') return saysView('Where?', again('A meet needs a place as well.'));
  if (channelId === null) return onlyInClub();
  const planned = meets.planned(guildId);
  if (planned.length >= MOST_MEETS)
    return saysView(
      'Enough meets',
      md`${MOST_MEETS} are planned already. When one is over or called off, there is room for another.`,
    );
  const same = planned.find((meet) => meet.heldOn === heldOn && meet.place.toLowerCase() === place.toLowerCase());
  if (same) return saysView('It is planned already', md`That day, that place: **/frag meet** shows it.`);
  return meetPlannedView(
    meets.add({ guildId, byId: memberId, channelId, heldOn, place: place.slice(0, MOST_PLACE), createdAt: now }),
  );
}

function showMeet({ meets, names }: MeetCommandDeps, meet: Meet, request: Request): Answer {
  const work = async (): Promise<MessageView> => {
    const shown = await meets.show(meet, request.now);
    return meetView(shown, meetPicture(shown, names.of(meet.guildId)), request.memberId, mayCallOff(meet, request));
  };
  return { kind: 'work', audience: 'member', work };
}

/** A member comes, with all their open offers or those that they name. */
function come({ meets }: MeetCommandDeps, meet: Meet, bring: string | null, { memberId, now }: Request): MessageView {
  const own = meets.offersOf(meet.guildId, memberId, now);
  const { offers, unknown } = bringRead(bring, own.map(({ id }) => id)); // prettier-ignore
  if (!meets.come(meet, { memberId, offers }, now)) return goneView();
  const chosen = own.filter(({ id }) => offers.includes(id)).map(({ details }) => details.name);
  return comingView(meet, chosen, unknown);
}

function cannot({ meets }: MeetCommandDeps, meet: Meet, { memberId, now }: Request): MessageView {
  return meets.stayAway(meet, memberId, now)
    ? saysView(
        'Noted: you cannot',
        md`You are off the list. Pieces that you promised stay promised: agree with the other on another day.`,
      )
    : saysView('You were not on the list', md`Nothing to change. **I come** puts you on it.`);
}

const mayCallOff = ({ byId }: Meet, request: Request): boolean => byId === request.memberId || mayRun(request);
function callOff({ meets }: MeetCommandDeps, meet: Meet, request: Request): MessageView {
  if (!mayCallOff(meet, request))
    return saysView('Not yours to call off', md`Whoever planned it does that, or an officer or curator.`);
  return meets.callOff(meet, request.now)
    ? saysView('Called off', md`Those who said that they come are told by direct message, and the card says so.`)
    : goneView();
}

const bringForm = (
  meet: Meet,
  own: readonly { id: number; details: { name: string } }[],
  chosen: readonly number[],
): Answer => ({
  kind: 'form',
  act: 'frag-meet-brings',
  args: [String(meet.id)],
  title: 'What do you bring?',
  fields: [
    {
      kind: 'paragraph',
      name: 'bring',
      label: 'Numbers of your offers',
      description: (
        own.map(({ id, details }) => `${id}: ${details.name}`).join(', ') || 'You have no open offer'
      ).slice(0, 100),
      required: false,
      mostCharacters: 200,
      placeholder: 'such as 3, 5; “all”; or “none”',
      value: chosen.join(', ') || 'none',
    },
  ],
});

/** The buttons of the card, the answer and the reminder. */
export function meetButtons(deps: MeetCommandDeps): ButtonAct[] {
  const on = (act: string, run: (meet: Meet, request: Request) => Answer): ButtonAct => ({
    act,
    run: ([id, guildId = ''], request) => {
      const meet = deps.meets.find(Number(id), request.guildId ?? guildId);
      if (!meet) return request.guildId === null ? onlyInClub() : goneView();
      return meet.state === 'planned' ? run(meet, request) : goneView();
    },
  });
  return [
    on('frag-meet-come', (meet, request) => come(deps, meet, null, request)),
    on('frag-meet-cannot', (meet, request) => cannot(deps, meet, request)),
    on('frag-meet-list', (meet, request) => showMeet(deps, meet, request)),
    on('frag-meet-off', (meet, request) => callOff(deps, meet, request)),
    on('frag-meet-bring', (meet, { memberId, now }) => {
      const own = deps.meets.offersOf(meet.guildId, memberId, now);
      return bringForm(meet, own, deps.meets.guest(meet, memberId)?.offers ?? []);
    }),
  ];
}

export function meetForms(deps: MeetCommandDeps): FormAct[] {
  return [
    {
      act: 'frag-meet-brings',
      run: ([id], { bring = '' }, request) => {
        const meet = deps.meets.find(Number(id), request.guildId ?? '');
        if (meet?.state !== 'planned') return goneView();
        return come(deps, meet, bring.trim() === '' ? 'none' : bring, request);
      },
    },
  ];
}
