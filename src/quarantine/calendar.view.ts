import { md, type Block, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import { calendarFile, type CalendarEntry } from '../schedule/calendar-file.ts';
import { daysAfter, localDate, occurrenceOn } from '../schedule/local-time.ts';
import { HOUR_MS } from './fold-moment.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { counted, datesInWords, ended } from './state-words.ts';

/** Half a year of looks is more than any plan takes. */
const MOST_LOOKS = 200;

/** Every date that is still to come, as a calendar file. A later file moves its entries, since they keep their ids. */
export function calendarView(quarantine: Quarantine, plan: Plan, state: PlanState, now: Date): MessageView {
  const dates = planEntries(quarantine, state, now);
  const looks = lookEntries(quarantine, plan, state, now);
  const file: Block = {
    kind: 'file',
    name: `quarantine-${quarantine.id}.ics`,
    content: calendarFile(`${quarantine.animals}: ${plan.name}`, [...dates, ...looks], now),
  };
  const found = [
    ...(dates.length > 0 ? [counted(dates.length, 'date')] : []),
    ...(looks.length > 0 ? [counted(looks.length, 'check-in')] : []),
  ];
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      { kind: 'text', text: md`## Dates for your calendar: ${quarantine.animals}, ${plan.name}` },
      {
        kind: 'text',
        text:
          found.length > 0
            ? md`${found.join(' and ')}, as things stand now. They move when a sign appears or a reading is out of range: take a new file then, and it moves the old ones.${looks.length > 0 ? ' Check-ins that are no longer needed you delete yourself.' : ''}`
            : md`Nothing has a date yet, so there is no file. **/quarantine plan** says what each date waits for.`,
      },
      ...(found.length > 0 ? [file] : []),
    ],
  };
}

/** The steps and turns that are still to be done, and the earliest ends of the holds. */
function planEntries(quarantine: Quarantine, { steps, holds }: PlanState, now: Date): CalendarEntry[] {
  const acts = steps.flatMap(({ id, title, says, planned, latest, doneAt, projected }): CalendarEntry[] =>
    planned === null || doneAt !== null || (latest ?? planned) < now
      ? []
      : [
          {
            id: idOf(quarantine, id),
            title: `${title} (${quarantine.animals})`,
            says: projected ? `${ended(says)} If what comes first is on time.` : says,
            at: planned,
            remindBeforeMin: 60,
          },
        ],
  );
  const ends = holds.flatMap(({ id, name, endsEarliest, reached, reason }): CalendarEntry[] =>
    endsEarliest === null || reached !== null || endsEarliest < now
      ? []
      : [
          {
            id: idOf(quarantine, `hold-${id}`),
            title: `${name}: earliest end (${quarantine.animals})`,
            says: datesInWords(reason),
            at: endsEarliest,
          },
        ],
  );
  return [...new Map([...acts, ...ends].map((entry) => [entry.id, entry])).values()];
}

/** A look on every day that asks for one, at the quarantine's own time of day, until the earliest end. */
function lookEntries(quarantine: Quarantine, plan: Plan, { endsEarliest, completed }: PlanState, now: Date) {
  const monitor = plan.monitors.find(({ what }) => what === 'check-in');
  if (!monitor || completed || endsEarliest === null) return [];
  const { zone, timeOfDay } = quarantine;
  const gapDays = Math.max(1, Math.round((monitor.everyH * HOUR_MS) / 86_400_000));
  const entries: CalendarEntry[] = [];
  const last = localDate(endsEarliest, zone);
  const today = localDate(now, zone);
  for (let date = today; date <= last && entries.length < MOST_LOOKS; date = daysAfter(date, gapDays)) {
    const { at } = occurrenceOn({ timeOfDay, zone }, date);
    if (at < now) continue;
    const id = idOf(quarantine, `look-${date}`);
    entries.push({ id, title: `Check in (${quarantine.animals})`, says: monitor.says, at });
  }
  return entries;
}

const idOf = ({ id }: Quarantine, part: string) => `quarantine-${id}-${part}@reef-club-bot`;
