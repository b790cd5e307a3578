import { joined, md, mentionOf, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { bar, counted, daysOf, figure, headSince, moment, text } from './state-words.ts';
import { stepGroups } from './step-groups.ts';

type Row = { quarantine: Quarantine; plan: Plan; state: PlanState };

/** One's own, those that one helps with, then those that members of the club show. */
export function boardView(own: readonly Row[], helped: readonly Row[], others: readonly Row[], now: Date): MessageView {
  const byKeeper = (row: Row) => line(row, md` (${mentionOf(row.quarantine.memberId)})`, now);
  const ownLines = own.map((row) => line(row, md``, now));
  const helpedLines = helped.map(byKeeper);
  const otherLines = others.map(byKeeper);
  return {
    audience: 'member',
    tone: [...own, ...helped, ...others].some(({ state }) => inEmergency(state)) ? 'urgent' : 'plain',
    blocks: [
      text(md`## Quarantines`),
      text(
        ownLines.length > 0
          ? joined([md`**Yours**`, ...ownLines])
          : md`You have none running. **/quarantine start** begins one.`,
      ),
      ...(helpedLines.length > 0 ? [text(joined([md`**You help with**`, ...helpedLines]))] : []),
      ...(otherLines.length > 0 ? [text(joined([md`**Shown by the club**`, ...otherLines]))] : []),
    ],
  };
}

const inEmergency = ({ alarms }: PlanState) => alarms.some(({ urgency }) => urgency === 'emergency');

/** An emergency first, then how far it is, when it may end and what is late. */
function line({ quarantine, plan, state }: Row, by: Markdown, now: Date): Markdown {
  const { startedAt, completed, endsEarliest, overdue } = state;
  if (startedAt === null) return md`- **${quarantine.animals} · ${plan.name}**${by}: not started yet`;
  const said = [
    ...(inEmergency(state) ? [md`**act now, see /quarantine today**`] : []),
    ...(completed ? [] : progress(plan, state)),
    completed
      ? md`all done`
      : endsEarliest
        ? md`earliest end ${moment(endsEarliest, 'D')}`
        : md`no date for its end yet`,
    ...(overdue.length > 0 ? [md`${overdue.length} overdue`] : []),
  ];
  return md`- **${headSince(quarantine, plan, state, now)}**${by}: ${joined(said, ', ')}`;
}

/** The counting hold that ends last; before any counts, the turns or the steps that come first. */
function progress(plan: Plan, { holds, steps }: PlanState): Markdown[] {
  const open = holds
    .filter(({ reached, needed }) => reached === null && needed !== null)
    .sort((a, b) => (b.endsEarliest?.getTime() ?? 0) - (a.endsEarliest?.getTime() ?? 0));
  const [group] = stepGroups(plan, steps);
  const hold = open.find(({ counted: days }) => days > 0) ?? (group?.run ? undefined : open[0]);
  if (hold?.needed) return [md`${bar(hold.counted, hold.needed)} ${figure(hold.counted)} of ${daysOf(hold.needed)}`];
  if (!group) return [];
  const all = group.run === null ? steps : group.steps;
  const done = all.filter(({ doneAt }) => doneAt !== null).length;
  const word = group.run === null ? 'step' : group.name.toLowerCase();
  return [md`${bar(done, all.length)} ${done} of ${counted(all.length, word)}`];
}
