import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { DEFAULT_SETTINGS, unitsOfClub } from '../../../src/club/club-settings.ts';
import { clubStore } from '../../../src/club/club.store.ts';
import { MIGRATIONS } from '../../../src/database/migrations.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { sightingStore } from '../../../src/identification/sighting.store.ts';
import { NOTHING_DESCRIBED } from '../../../src/identification/session.ts';
import { caseStore } from '../../../src/opinions/case.store.ts';

const NOON = new Date('2026-11-25T12:00:00Z');
const LATER = new Date('2026-11-26T12:00:00Z');

test('a club that set nothing has the defaults; what it sets is its own, and the last change is known', () => {
  const clubs = clubStore(openTemporaryDatabase().db);
  expect(clubs.of('one')).toEqual({ settings: DEFAULT_SETTINGS, changed: null });
  expect(DEFAULT_SETTINGS.opinionHours).toBe(48);
  clubs.change('one', { opinionHours: 6 }, 'olu', NOON);
  clubs.change('one', { opinionHours: 336 }, 'maren', LATER);
  expect(clubs.of('one')).toEqual({
    settings: { ...DEFAULT_SETTINGS, opinionHours: 336 },
    changed: { byId: 'maren', at: LATER },
  });
  expect(clubs.of('another').settings.opinionHours).toBe(48);
});

test('a setting that is left out of a change stays as it is', () => {
  const clubs = clubStore(openTemporaryDatabase().db);
  clubs.change('one', { opinionHours: 6 }, 'olu', NOON);
  clubs.change('one', {}, 'olu', LATER);
  expect(clubs.of('one').settings.opinionHours).toBe(6);
});

test('units are kept beside it, each by itself', () => {
  const clubs = clubStore(openTemporaryDatabase().db);
  expect(unitsOfClub(clubs.of('one').settings)).toEqual({
    volume: 'L',
    temperature: '°C',
    alkalinity: 'dKH',
    salinity: 'ppt',
  });
  clubs.change('one', { volumeUnit: 'US gal', salinityUnit: 'SG' }, 'olu', NOON);
  clubs.change('one', { temperatureUnit: '°F', alkalinityUnit: 'meq/L' }, 'olu', LATER);
  expect(unitsOfClub(clubs.of('one').settings)).toEqual({
    volume: 'US gal',
    temperature: '°F',
    alkalinity: 'meq/L',
    salinity: 'SG',
  });
  expect(clubs.of('one').settings.opinionHours).toBe(48);
  expect(unitsOfClub(clubs.of('another').settings).volume).toBe('L');
});

test('cases and sightings of an older database come along: a case keeps its two days, a sighting its number', () => {
  const db = new Database(':memory:');
  const before = MIGRATIONS.findIndex((step) => step.includes('CREATE TABLE club_settings'));
  for (const step of MIGRATIONS.slice(0, before)) db.exec(step);
  db.exec(`INSERT INTO cases (guild_id, channel_id, asker_id, asker_name, text, photo_name, photo_alt, wants_thread, opened_at_ms, closes_at_ms)
           VALUES ('one', 'ask', 'ana', 'Ana', 'a worm', 'photo.jpg', 'a worm', 1, 0, 172800000)`);
  const insert = db.prepare('INSERT INTO sightings VALUES (?, ?, ?, ?, ?, ?, ?)');
  insert.run(7, 'ana', 'one', 'a worm', JSON.stringify(NOTHING_DESCRIBED), '[]', NOON.getTime());
  for (const step of MIGRATIONS.slice(before)) db.exec(step);

  expect(caseStore(db).find(1, 'one')).toMatchObject({
    openForMs: 172_800_000,
    photoName: 'photo.jpg',
    sighting: null,
  });
  const sightings = sightingStore(db);
  expect(sightings.find(7, 'one')).toMatchObject({ memberId: 'ana', text: 'a worm' });
  db.exec('DELETE FROM sightings');
  const next = sightings.begin({ memberId: 'ben', guildId: 'one', text: '', described: NOTHING_DESCRIBED }, NOON);
  expect(next.id).toBe(8);
});
