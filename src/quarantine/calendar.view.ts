import { md, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import { calendarFile, type CalendarEntry } from '../schedule/calendar-file.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';

/** Every date that is still to come, as a calendar file. A later file moves its entries, since they keep their ids. */
export function calendarView(quarantine: Quarantine, plan: Plan, state: PlanState, now: Date): MessageView {
  const name = `${quarantine.animals}: ${plan.name}`;
  const idOf = (part: string) => `quarantine-${quarantine.id}-${part}@reef-club-bot`;
  const steps = state.steps.flatMap(({ id, title, says, planned, doneAt, run }): CalendarEntry[] =>
    planned === null || doneAt !== null || planned < now
      ? []
      : [
          {
            id: idOf(run ? `${id}-${run.turn}` : id),
            title: `${title}${run ? ` ${run.turn}` : ''} (${quarantine.animals})`,
            says,
            at: planned,
            remindBeforeMin: 60,
          },
        ],
  );
  const holds = state.holds.flatMap(({ id, name: hold, endsEarliest, reached, reason }): CalendarEntry[] =>
    endsEarliest === null || reached !== null || endsEarliest < now
      ? []
      : [
          {
            id: idOf(`hold-${id}`),
            title: `${hold}: earliest end (${quarantine.animals})`,
            says: reason,
            at: endsEarliest,
          },
        ],
  );
  const entries = [...new Map([...steps, ...holds].map((entry) => [entry.id, entry])).values()];
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      { kind: 'text', text: md`## ${name}: dates for your calendar` },
      {
        kind: 'text',
        text: md`${entries.length} dates as they stand now. They move when a sign appears or a reading is out of range: take a new file then, it moves the old ones.`,
      },
      ...(entries.length > 0
        ? [
            {
              kind: 'file',
              name: `quarantine-${quarantine.id}.ics`,
              content: calendarFile(name, entries, now),
            } as const,
          ]
        : []),
    ],
  };
}
