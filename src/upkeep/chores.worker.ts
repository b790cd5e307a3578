import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { directTo } from '../outbox/outbox.ts';
import { reminded, type Chore } from './chore-rule.ts';
import type { ChoreStore } from './chore.store.ts';
import { reminderMark, reminderView, type ToldChore } from './chore.view.ts';

const BATCH = 200;
const MOST_BATCHES = 100;

export type ChoresWorkerDeps = {
  db: Database;
  chores: ChoreStore;
  outbox: OutboxStore;
  told: (chore: Chore) => ToldChore;
};

/** Turns due chores into messages: all that one member has due in a club are one message, in one transaction with it. */
export function choresWorker({ db, chores, outbox, told }: ChoresWorkerDeps) {
  const waitingOf = (guildId: string, memberId: string, now: Date): Chore[] =>
    chores
      .ofMember(guildId, memberId)
      .filter(({ next }) => next !== null && next.at <= now)
      .sort((a, b) => Number(a.next?.at) - Number(b.next?.at));
  /** A reminder that never went out says nothing that this one does not say: it is called off. */
  const giveUpOlder = (waiting: readonly Chore[], told: ReadonlySet<number>, now: Date): void => {
    for (const { toldKey, guildId, memberId } of waiting)
      if (toldKey !== null && chores.toldBy(toldKey, memberId).every(({ id }) => told.has(id)))
        outbox.callOff(toldKey, guildId, now);
  };
  const tell = (waiting: readonly Chore[], now: Date): void => {
    const due = waiting.flatMap((chore) => {
      const next = reminded(chore, now);
      if (next?.kind === 'held') chores.save(next.chore);
      return next?.kind === 'told' ? [next] : [];
    });
    const [first] = due;
    if (!first) return;
    giveUpOlder(waiting, new Set(due.map(({ chore }) => chore.id)), now);
    const list = due.map(({ chore }) => ({ ...chore, toldKey: first.key }));
    for (const chore of list) chores.save(chore);
    const { id, guildId, memberId, channelId } = first.chore;
    outbox.add({
      key: first.key,
      guildId,
      topic: `chore/${id}/reminder`,
      act: 'post',
      channelId: directTo(memberId),
      fallbackChannelId: channelId,
      memberId,
      targetId: null,
      title: null,
      view: reminderView(list.map(told), now),
      mark: reminderMark(first.chore),
      file: null,
      // A chore that is told hours late is still to be done.
      late: 'always',
      dueAt: first.at,
    });
  };
  return {
    remindDue(now: Date): void {
      // After a long time away there may be thousands; what was told or held is no longer due.
      for (let batches = 0; batches < MOST_BATCHES; batches += 1) {
        const due = chores.due(now, BATCH);
        if (due.length === 0) return;
        const whose = new Map(due.map(({ guildId, memberId }) => [`${guildId}/${memberId}`, { guildId, memberId }]));
        for (const { guildId, memberId } of whose.values())
          db.transaction(() => tell(waitingOf(guildId, memberId, now), now)).immediate();
      }
    },
  };
}
