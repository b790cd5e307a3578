import { expect, onTestFinished, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { later, scheduled, tomorrow, type Chore } from '../../../src/upkeep/chore-rule.ts';
import { choreStore } from '../../../src/upkeep/chore.store.ts';
import { choresWorker } from '../../../src/upkeep/chores.worker.ts';
import { memberZoneStore } from '../../../src/upkeep/member-zone.store.ts';

const begun = new Date('2026-11-25T12:00:00Z');
const DAY_MS = 86_400_000;
const dayAt = (days: number, time = '19:00') => new Date(Date.parse(`2026-11-25T${time}:00Z`) + days * DAY_MS);

function opened() {
  const { db, close } = openTemporaryDatabase();
  onTestFinished(() => close());
  const [chores, outbox] = [choreStore(db), outboxStore(db)];
  const told = (chore: Chore) => ({ chore, tankName: null, idea: null });
  const worker = choresWorker({ db, chores, outbox, told });
  const add = (title: string, due = '2026-11-25', memberId = 'ana'): Chore => {
    const rule = { timeOfDay: '19:00', zone: 'Europe/Lisbon' };
    const every = { kind: 'days', days: 4 } as const;
    const rest = { idea: null, tankId: null, next: null, told: null, toldKey: null, unanswered: 0, lastDone: null };
    return chores.add(
      scheduled({ guildId: 'g', memberId, channelId: 'c', title, every, rule, due, ...rest }, begun),
      begun,
    ).chore;
  };
  const waiting = () => outbox.pending(dayAt(400), 100);
  return { db, chores, outbox, worker, add, waiting };
}
const words = (view: unknown) => JSON.stringify(view);

test('all that one member has due is one message; another member has their own', () => {
  const { worker, add, waiting } = opened();
  for (const title of ['Cup', 'Floss', 'Glass']) add(title);
  add('Bath', '2026-11-25', 'ben');
  worker.remindDue(dayAt(0, '18:59'));
  expect(waiting()).toEqual([]);
  worker.remindDue(dayAt(0));
  worker.remindDue(dayAt(0));
  expect(waiting().map(({ memberId }) => memberId)).toEqual(['ana', 'ben']);
  expect(words(waiting()[0]!.view)).toMatch(/3 chores.*Cup.*Floss.*Glass/);
  expect(words(waiting()[0]!.view)).not.toContain('Bath');
});

test('repeats that could not be sent do not pile up', () => {
  const { worker, add, waiting } = opened();
  add('Cup');
  for (let day = 0; day <= 40; day += 1) worker.remindDue(dayAt(day));
  expect(waiting()).toHaveLength(1);
  expect(words(waiting()[0]!.view)).toContain('18 days overdue');
});

test('weeks away end in one message, and a clock that goes back tells nothing twice', () => {
  const { worker, add, waiting, outbox } = opened();
  for (const [at, title] of ['Cup', 'Floss'].entries()) add(title, `2026-11-2${6 + at}`);
  worker.remindDue(dayAt(30, '12:00'));
  expect(waiting()).toHaveLength(1);
  outbox.sent(waiting()[0]!.id, '1', dayAt(30));
  worker.remindDue(dayAt(3));
  worker.remindDue(dayAt(30, '20:00'));
  expect(waiting()).toEqual([]);
});

test('after a month away 1,000 overdue chores of 250 members are 250 messages in one turn', () => {
  const { worker, add, waiting, outbox } = opened();
  for (let member = 0; member < 250; member += 1)
    for (const title of ['Cup', 'Floss', 'Glass', 'Bath']) add(title, '2026-11-26', `member-${member}`);
  worker.remindDue(dayAt(30));
  worker.remindDue(dayAt(30));
  const messages = outbox.pending(dayAt(400), 2_000);
  expect(messages).toHaveLength(250);
  expect(new Set(messages.map(({ memberId }) => memberId)).size).toBe(250);
  expect(waiting().every(({ view }) => words(view).includes('4 chores'))).toBe(true);
});

test('a due chore and its message are there together or not at all', () => {
  const { db, chores, worker, add, waiting } = opened();
  const { id } = add('Cup');
  db.exec(`CREATE TRIGGER broken BEFORE INSERT ON outbox BEGIN SELECT RAISE(ABORT, 'disk'); END`);
  expect(() => worker.remindDue(dayAt(0))).toThrow('disk');
  expect(chores.find(id, 'ana')!.told).toBeNull();
  db.exec('DROP TRIGGER broken');
  worker.remindDue(dayAt(0));
  expect(waiting()).toHaveLength(1);
});

test('undo brings back what was there, also what was removed, and only the last act', () => {
  const { chores, add } = opened();
  const cup = add('Cup');
  const moved = later(cup, tomorrow(cup, begun));
  chores.act(cup, moved, 'later', null, begun);
  chores.act(moved, moved, 'removed', null, begun);
  expect(chores.ofMember('g', 'ana')).toEqual([]);
  for (const expected of ['removed', 'later', 'added']) {
    const last = chores.lastAct('g', 'ana')!;
    expect(last.act.what).toBe(expected);
    chores.takeBack(last.act.id, last.current, last.before, begun);
    expect(chores.find(cup.id, 'ana')?.next?.asked).toBe({ removed: true, later: false, added: undefined }[expected]);
  }
  expect(chores.lastAct('g', 'ana')).toBeUndefined();
  expect(chores.find(cup.id, 'ben')).toBeUndefined();
});

test('zone and time are remembered, the latest ones', () => {
  const { db } = opened();
  const zones = memberZoneStore(db);
  expect(zones.of('ana')).toBeUndefined();
  for (const timeOfDay of ['19:00', '07:30']) zones.remember('ana', { zone: 'Europe/Lisbon', timeOfDay }, begun);
  expect(zones.of('ana')).toEqual({ zone: 'Europe/Lisbon', timeOfDay: '07:30' });
  expect(zones.of('ben')).toBeUndefined();
});
