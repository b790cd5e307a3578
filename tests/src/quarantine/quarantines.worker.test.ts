import { expect, onTestFinished, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { catchUpLate } from '../../../src/outbox/outbox.worker.ts';
import { fold } from '../../../src/quarantine/fold.ts';
import { quarantineStore } from '../../../src/quarantine/quarantine.store.ts';
import { quarantinesWorker } from '../../../src/quarantine/quarantines.worker.ts';
import { lifeCycles, planOf } from './fold-of.ts';

const BEGUN = new Date('2026-11-25T12:00:00Z');
const DAY_MS = 86_400_000;
const dayAt = (days: number, time = '19:00') => new Date(Date.parse(`2026-11-25T${time}:00Z`) + days * DAY_MS);

function opened() {
  const { db, close } = openTemporaryDatabase();
  onTestFinished(() => close());
  const [store, outbox] = [quarantineStore(db), outboxStore(db)];
  const worker = quarantinesWorker({
    db,
    store,
    outbox,
    standing: (quarantine, now) => {
      const plan = planOf(quarantine.plan);
      return { plan, state: fold(plan, store.events(quarantine), now, { zone: quarantine.zone, lifeCycles }) };
    },
  });
  const begin = (memberId = '1', tank: string | null = null) =>
    store.begin(
      {
        guildId: 'g',
        memberId,
        channelId: 'c',
        animals: 'two clownfish',
        fish: [],
        plan: 'coral-hold',
        option: planOf('coral-hold').options[0]?.id ?? null,
        tank,
        copperLabel: null,
        helpers: [],
        zone: 'Europe/Lisbon',
        timeOfDay: '19:00',
        visibility: 'me',
        begunAt: BEGUN,
        follows: null,
      },
      { kind: 'started', at: BEGUN },
    );
  return { db, store, outbox, worker, begin, waiting: () => outbox.pending(dayAt(400), 10_000) };
}

test('one that was only asked for is never told, and one that is over is told no more', () => {
  const { store, worker, begin, waiting } = opened();
  const asked = store.begin({ ...begin('2'), follows: null }, { kind: 'note', at: BEGUN, text: 'asked for' });
  store.save({ ...begin('3'), ended: { how: 'called-off', at: BEGUN } });
  worker.remindDue(dayAt(0));
  worker.remindDue(dayAt(3));
  expect(new Set(waiting().map(({ memberId }) => memberId))).toEqual(new Set(['2']));
  expect(store.reminding(asked)?.told).toEqual([]);
});

test('a look and its message are there together, once, by direct message with the channel to fall back on', () => {
  const { worker, begin, waiting } = opened();
  begin('1', 'the spare tank');
  worker.remindDue(BEGUN);
  expect(waiting()).toEqual([]);
  worker.remindDue(dayAt(1));
  worker.remindDue(dayAt(1));
  expect(waiting()).toHaveLength(1);
  expect(waiting()[0]).toMatchObject({
    memberId: '1',
    channelId: 'dm:1',
    fallbackChannelId: 'c',
    late: 'merge',
    view: { calls: '1' },
  });
  expect(JSON.stringify(waiting()[0]?.view)).toContain('the spare tank');
  expect(JSON.stringify(waiting()[0]?.view)).toContain(waiting()[0]?.mark?.split(':').at(-1));
});

test('what is noted before the look keeps it away', () => {
  const { store, worker, begin, waiting } = opened();
  const one = begin();
  worker.remindDue(BEGUN);
  store.note(one, { kind: 'check-in', at: dayAt(1, '09:00'), signs: [], appetite: 'normal' }, '1', dayAt(1, '09:00'));
  const steps = planOf('coral-hold').steps.map(({ id }) => id);
  for (const step of steps) store.note(one, { kind: 'step-done', at: dayAt(1, '09:01'), step }, '1', dayAt(1, '09:01'));
  worker.remindDue(dayAt(1));
  expect(waiting()).toEqual([]);
});

test('1,000 quarantines of 100 members, unseen for 30 days, become few messages for each', () => {
  const { db, outbox, worker, begin, waiting } = opened();
  for (let member = 0; member < 100; member += 1) for (let each = 0; each < 10; each += 1) begin(String(1000 + member));
  worker.remindDue(BEGUN);
  worker.remindDue(dayAt(30));
  expect(waiting()).toHaveLength(1_000);
  catchUpLate(db, outbox, dayAt(30, '19:20'));
  const left = waiting();
  expect(new Set(left.map(({ memberId }) => memberId)).size).toBe(100);
  // A message shows five buttons of each at most, so ten do not always fit one.
  expect(left.length).toBeLessThanOrEqual(300);
}, 60_000);
