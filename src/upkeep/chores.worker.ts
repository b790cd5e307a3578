import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { directTo } from '../outbox/outbox.ts';
import { reminded, type Chore } from './chore-rule.ts';
import type { ChoreStore } from './chore.store.ts';
import { reminderMark, reminderView, type ToldChore } from './chore.view.ts';

const BATCH = 200;

export type ChoresWorkerDeps = {
  db: Database;
  chores: ChoreStore;
  outbox: OutboxStore;
  told: (chore: Chore) => ToldChore;
};

/** Turns due chores into messages: all that one member has due in a club are one message, in one transaction with it. */
export function choresWorker({ db, chores, outbox, told }: ChoresWorkerDeps) {
  /** A reminder that never went out says nothing that this one does not say: it is called off. */
  const giveUpOlder = (waiting: readonly Chore[], told: ReadonlySet<number>, now: Date): void => {
    for (const { toldKey, guildId, memberId } of waiting)
      if (toldKey !== null && chores.toldBy(toldKey, memberId).every(({ id }) => told.has(id)))
        outbox.callOff(toldKey, guildId, now);
  };
  const tell = (waiting: readonly Chore[], now: Date): void => {
    const due = waiting.flatMap(({ id, memberId }) => {
      const chore = chores.find(id, memberId);
      const next = chore && reminded(chore, now);
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
      const groups = new Map<string, Chore[]>();
      for (const chore of chores.due(now, BATCH)) {
        const whose = `${chore.guildId}/${chore.memberId}`;
        groups.set(whose, [...(groups.get(whose) ?? []), chore]);
      }
      for (const waiting of groups.values()) db.transaction(() => tell(waiting, now)).immediate();
    },
  };
}
