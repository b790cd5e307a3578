import { expect, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { quarantineStore, type NewPlanEvent } from '../../../src/quarantine/quarantine.store.ts';

const begunAt = new Date('2026-11-25T12:00:00Z');
const later = (hours: number) => new Date(begunAt.getTime() + hours * 3_600_000);
const started: NewPlanEvent = { kind: 'started', at: begunAt };
const new_ = {
  guildId: 'club-a',
  memberId: 'ana',
  channelId: 'ask',
  animals: 'two clownfish',
  fish: ['clownfish'],
  plan: 'observation',
  option: null,
  tank: 'the spare tank',
  copperLabel: null,
  helpers: ['bo'],
  timeOfDay: '19:00',
  follows: null,
  zone: 'Europe/Lisbon',
  visibility: 'me' as const,
  begunAt,
};

function opened() {
  const { db } = openTemporaryDatabase();
  const store = quarantineStore(db);
  return { db, store, one: store.begin(new_, started) };
}

test('a quarantine comes back as it was begun, with its first event', () => {
  const { store, one } = opened();
  expect(store.find(one.id, 'club-a')).toEqual({ ...new_, id: one.id, ended: null });
  expect(store.events(one)).toEqual([{ ...started, id: expect.any(String) }]);
});

test('another club never sees it', () => {
  const { store, one } = opened();
  expect(store.find(one.id, 'club-b')).toBeUndefined();
  expect(store.own('club-b', 'ana')).toEqual([]);
  expect(store.events({ ...one, guildId: 'club-b' })).toEqual([]);
  store.save({ ...one, guildId: 'club-b', visibility: 'club' });
  expect(store.find(one.id, 'club-a')!.visibility).toBe('me');
});

test('only what its keeper shows stands on the board of the club, and nothing that is over', () => {
  const { store, one } = opened();
  expect(store.shown('club-a', 10)).toEqual([]);
  store.save({ ...one, visibility: 'club' });
  expect(store.shown('club-a', 10).map(({ id }) => id)).toEqual([one.id]);
  store.save({ ...one, visibility: 'club', ended: { how: 'finished', at: later(720) } });
  expect(store.shown('club-a', 10)).toEqual([]);
  expect(store.own('club-a', 'ana')).toEqual([]);
  expect(store.find(one.id, 'club-a')!.ended).toEqual({ how: 'finished', at: later(720) });
});

test('every kind of event survives the database to the letter', () => {
  const { store, one } = opened();
  const events: NewPlanEvent[] = [
    {
      kind: 'check-in',
      at: later(24),
      signs: [{ sign: 'fish-white-spots', effect: 'infectious', urgency: 'urgent' }],
      appetite: 'some',
    },
    { kind: 'sign-seen', at: later(25), sign: 'fish-white-spots', effect: 'infectious', urgency: 'urgent' },
    { kind: 'reading', at: later(26), reading: { parameter: 'copper', value: 0.17, unit: 'mg/L Cu', form: 'ionic' } },
    { kind: 'step-done', at: later(27), step: 'photos' },
    { kind: 'death', at: later(28), causeKnown: false },
    { kind: 'note', at: later(29), text: 'eats “mysis” \u{1f420}' },
    { kind: 'undone', at: later(30), eventId: '3' },
  ];
  const ids = events.map((event) => store.note(one, event, 'ana', later(31)));
  expect(store.events(one).slice(1)).toEqual(events.map((event, at) => ({ ...event, id: String(ids[at]) })));
});

test('an id that is no number of a quarantine finds nothing', () => {
  const { store } = opened();
  for (const id of [NaN, 0.5, -1, 1e300, 999]) expect(store.find(id, 'club-a')).toBeUndefined();
});
