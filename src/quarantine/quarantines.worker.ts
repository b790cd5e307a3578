import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { directTo } from '../outbox/outbox.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import type { QuarantineStore } from './quarantine.store.ts';
import { reminderMark, reminderView } from './reminder.view.ts';
import { toRemind } from './reminders.ts';

const BATCH = 200;
const MOST_BATCHES = 100;

export type QuarantinesWorkerDeps = {
  db: Database;
  store: QuarantineStore;
  outbox: OutboxStore;
  /** Null when its plan is gone from the knowledge base. */
  standing: (quarantine: Quarantine, now: Date) => { plan: Plan; state: PlanState } | null;
};

/** Turns what is due in quarantines into messages: each look and its message in one transaction, so neither is without the other. */
export function quarantinesWorker({ db, store, outbox, standing }: QuarantinesWorkerDeps) {
  const look = (quarantine: Quarantine, now: Date): void => {
    const stands = standing(quarantine, now);
    const kept = store.reminding(quarantine);
    if (!stands) {
      const nothing = { told: [], until: now, later: null, unanswered: 0, seen: 0 };
      return store.keepReminding(quarantine, kept ?? nothing, null);
    }
    const { plan, state } = stands;
    const result = toRemind(quarantine, plan, state, kept, store.events(quarantine).length, now);
    store.keepReminding(quarantine, result.reminding, result.next);
    const [first] = result.tell;
    if (!first) return;
    const { id, guildId, memberId, channelId } = quarantine;
    outbox.add({
      key: first.key,
      guildId,
      topic: `quarantine/${id}/reminder`,
      act: 'post',
      channelId: directTo(memberId),
      fallbackChannelId: channelId,
      memberId,
      targetId: null,
      title: null,
      view: reminderView(quarantine, plan, state, result, now),
      mark: reminderMark(quarantine, state, result.tell),
      file: null,
      // The end of a quarantine is a message of its own; other late ones of a member go out as one.
      late: state.completed ? 'always' : 'merge',
      dueAt: first.at,
    });
  };
  return {
    remindDue(now: Date): void {
      for (let batches = 0; batches < MOST_BATCHES; batches += 1) {
        const due = store.due(now, BATCH);
        if (due.length === 0) return;
        for (const quarantine of due) db.transaction(() => look(quarantine, now)).immediate();
      }
    },
  };
}
