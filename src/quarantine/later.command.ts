import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import { md, type Answer } from '../discord/message-view.ts';
import { daysAfter, localDate, occurrenceOn, timeOfDayIn } from '../schedule/local-time.ts';
import { thisEvening, tomorrow } from '../upkeep/chore-rule.ts';
import { readDay } from '../upkeep/every.ts';
import { hoursAfter } from './fold-moment.ts';
import { onQuarantine } from './on-quarantine.command.ts';
import { mayNote, type Quarantine } from './quarantine.ts';
import { laterChoiceView, putOffView } from './reminder.view.ts';
import { putOff } from './reminders.ts';
import { saysView } from './start.view.ts';
import type { QuarantineDeps } from './which.command.ts';

const ruleOf = ({ zone, timeOfDay }: Quarantine) => ({ rule: { zone, timeOfDay } });
/** Whoever wants none for longer calls the quarantine off. */
const MOST_DAYS = 14;

function putOffTo({ store }: QuarantineDeps, quarantine: Quarantine, at: Date, now: Date): Answer {
  const kept = store.reminding(quarantine) ?? { told: [], until: now, later: null, unanswered: 0, seen: 0 };
  // Looked at once more on the next turn, which finds the new moment.
  store.keepReminding(quarantine, putOff(kept, at), now);
  return putOffView(quarantine, at);
}

/** **Later** on a reminder: in an hour, this evening, tomorrow, or a time of one’s own. */
export function laterButtons(deps: QuarantineDeps): ButtonAct[] {
  return [
    onQuarantine(deps, 'quarantine-later', (quarantine, _args, { now }) =>
      laterChoiceView(quarantine, thisEvening(ruleOf(quarantine), now), tomorrow(ruleOf(quarantine), now)),
    ),
    onQuarantine(deps, 'quarantine-to', (quarantine, [to], { now }) => {
      const evening = to === 'evening' ? thisEvening(ruleOf(quarantine), now) : null;
      const at = to === 'hour' ? hoursAfter(now, 1) : (evening ?? tomorrow(ruleOf(quarantine), now));
      return putOffTo(deps, quarantine, at, now);
    }),
    onQuarantine(deps, 'quarantine-pick', (quarantine, _args, { now }) => ({
      kind: 'form',
      act: 'quarantine-moved',
      args: [String(quarantine.id)],
      title: 'Remind me later',
      fields: [
        {
          kind: 'line',
          name: 'day',
          label: 'On which day?',
          description: `today, tomorrow, Sat, in 5 days, or ${daysAfter(localDate(now, quarantine.zone), 3)}`,
          required: true,
          mostCharacters: 20,
          value: 'tomorrow',
        },
        {
          kind: 'line',
          name: 'time',
          label: 'At what time?',
          description: `In ${quarantine.zone}`.slice(0, 100),
          required: true,
          mostCharacters: 12,
          value: quarantine.timeOfDay,
        },
      ],
    })),
  ];
}

const Moved = z.object({ day: z.string().default(''), time: z.string().default('') });

export function laterForms(deps: QuarantineDeps): FormAct[] {
  return [
    {
      act: 'quarantine-moved',
      run: ([id], filled, { memberId, now }) => {
        const quarantine = deps.store.findAnywhere(Number(id));
        if (!quarantine || !mayNote(quarantine, memberId) || quarantine.ended)
          return saysView('It is closed', md`This quarantine is off the list, or not yours.`);
        const given = Moved.parse(filled);
        const date = readDay(given.day, localDate(now, quarantine.zone));
        if (date === null)
          return saysView(
            'Which day?',
            md`I read “${given.day}”. Write today, tomorrow, a day of the week, “in 5 days”, or a date such as 2026-12-01. Nothing was changed.`,
          );
        const timeOfDay = timeOfDayIn(given.time);
        if (timeOfDay === null)
          return saysView(
            'What time?',
            md`I read “${given.time}”. Write a time such as 19:30 or 7:30 pm. Nothing was changed.`,
          );
        const { at } = occurrenceOn({ timeOfDay, zone: quarantine.zone }, date);
        if (at <= now) return saysView('That is over', md`Choose a time that is still to come. Nothing was changed.`);
        if (at > hoursAfter(now, MOST_DAYS * 24))
          return saysView(
            'That is far off',
            md`Put a reminder off by ${MOST_DAYS} days at most; if the animals no longer wait, **/quarantine finish** closes it.`,
          );
        return putOffTo(deps, quarantine, at, now);
      },
    },
  ];
}
