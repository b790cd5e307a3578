import { joined, md, mentionOf, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { HoldState, PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { bar, daysOf, figure, headSince, moment, text } from './state-words.ts';

type Row = { quarantine: Quarantine; plan: Plan; state: PlanState };

/** One's own, then those that members of the club show. */
export function boardView(own: readonly Row[], others: readonly Row[], now: Date): MessageView {
  const ownLines = own.map((row) => line(row, md``, now));
  const otherLines = others.map((row) => line(row, md` (${mentionOf(row.quarantine.memberId)})`, now));
  return {
    audience: 'member',
    tone: [...own, ...others].some(({ state }) => inEmergency(state)) ? 'urgent' : 'plain',
    blocks: [
      text(md`## Quarantines`),
      text(
        ownLines.length > 0
          ? joined([md`**Yours**`, ...ownLines])
          : md`You have none running. **/quarantine start** begins one.`,
      ),
      ...(otherLines.length > 0 ? [text(joined([md`**Shown by the club**`, ...otherLines]))] : []),
    ],
  };
}

const inEmergency = ({ alarms }: PlanState) => alarms.some(({ urgency }) => urgency === 'emergency');

/** An emergency first, then how far it is, when it may end and what is late. */
function line({ quarantine, plan, state }: Row, by: Markdown, now: Date): Markdown {
  const { startedAt, completed, endsEarliest, overdue } = state;
  if (startedAt === null) return md`- **${quarantine.animals} · ${plan.name}**${by}: not started yet`;
  const open = completed ? undefined : openHold(state);
  const said = [
    ...(inEmergency(state) ? [md`**act now, see /quarantine today**`] : []),
    ...(open?.needed ? [md`${bar(open.counted, open.needed)} ${figure(open.counted)} of ${daysOf(open.needed)}`] : []),
    completed
      ? md`all done`
      : endsEarliest
        ? md`earliest end ${moment(endsEarliest, 'D')}`
        : md`no date for its end yet`,
    ...(overdue.length > 0 ? [md`${overdue.length} overdue`] : []),
  ];
  return md`- **${headSince(quarantine, plan, state, now)}**${by}: ${joined(said, ', ')}`;
}

/** The hold that ends last decides. */
function openHold({ holds }: PlanState): HoldState | undefined {
  return holds
    .filter(({ reached, needed, since }) => reached === null && needed !== null && since !== null)
    .sort((a, b) => (b.endsEarliest?.getTime() ?? 0) - (a.endsEarliest?.getTime() ?? 0))[0];
}
