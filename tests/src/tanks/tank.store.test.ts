import { describe, expect, test } from 'vitest';
import { openDatabase, openTemporaryDatabase } from '../../../src/database/open.ts';
import { MOST_TANKS, UNITS, type Tank } from '../../../src/tanks/tank.ts';
import { keepTanks, type Tanks } from '../../../src/tanks/tank-keeping.store.ts';
import { tankStore } from '../../../src/tanks/tank.store.ts';
import { dataFolder } from '../database/folder.ts';
import { aReading, aTank, daysLater, NOON } from './tanks.ts';

const open = (): Tanks => keepTanks(openTemporaryDatabase().db);
const added = (tanks: Tanks, given: Partial<Tank> = {}): Tank => {
  const done = tanks.addTank(aTank(given), NOON);
  if (done.kind !== 'done') throw new Error(done.kind);
  return done.tank;
};
const names = (found: readonly Tank[]) => found.map(({ name }) => name);

describe('tanks', () => {
  test('come back as they were kept, in any unit', () => {
    const tanks = open();
    const given = aTank({
      purpose: 'quarantine',
      practicalSalinity: 34.5,
      temperatureC: 25.5,
      units: { volume: 'US gal', temperature: '°F', alkalinity: 'meq/L', salinity: 'SG' },
      visibility: 'club',
    });
    const { id } = added(tanks, given);
    expect(tanks.find('one', id)).toEqual({ ...given, id });
    for (const volume of UNITS.volume) added(tanks, { name: volume, units: { ...given.units, volume } });
    expect(tanks.tanksOf('one', 'ana')).toHaveLength(4);
  });

  test('survive the end of the program', () => {
    const folder = dataFolder();
    const first = openDatabase(folder);
    const tank = added(keepTanks(first.db), { visibility: 'club' });
    keepTanks(first.db).note(tank, aReading(8.2), NOON);
    first.close();
    const second = openDatabase(folder);
    const tanks = keepTanks(second.db);
    expect(tanks.tanksOf('one', 'ana')).toEqual([tank]);
    expect(tanks.log.lastReadings('one', tank.id)).toMatchObject([{ value: 8.2, at: NOON }]);
    expect(tanks.undo('one', 'ana', 'last')).toMatchObject({ kind: 'undone' });
    expect(tanks.log.lastReadings('one', tank.id)).toEqual([]);
    second.close();
  });

  test('two clubs do not see each other: neither the tank, nor its log, nor its changes', () => {
    const tanks = open();
    const tank = added(tanks, { visibility: 'club' });
    const { entry, changeId } = tanks.note(tank, aReading(8), NOON);
    expect(tanks.tanksOf('two', 'ana')).toEqual([]);
    expect(tanks.tankSeenBy('two', 'ben', 'ana')).toEqual([]);
    expect(tanks.find('two', tank.id)).toBeUndefined();
    expect(tanks.findSeenBy('two', 'ana', tank.id)).toBeUndefined();
    expect(tanks.log.find('two', entry.id)).toBeUndefined();
    expect(tanks.log.newest('two', tank.id, 9)).toEqual([]);
    expect(tanks.log.since('two', tank.id, daysLater(-9))).toEqual([]);
    expect(tanks.log.readings('two', tank.id, 'alkalinity', 9)).toEqual([]);
    expect(tanks.log.lastReadings('two', tank.id)).toEqual([]);
    expect(tanks.log.count('two', tank.id)).toBe(0);
    expect(tanks.log.oldest('two', tank.id)).toBeUndefined();
    expect(tanks.undo('two', 'ana', { changeId })).toEqual({ kind: 'nothing' });
    expect(tanks.undo('two', 'ana', 'last')).toEqual({ kind: 'nothing' });
    expect(tanks.undo('two', 'ana', { tankId: tank.id })).toEqual({ kind: 'nothing' });
    // Nor is anything changed from there, by a number that is right.
    tanks.deleteEntry({ ...tank, guildId: 'two' }, { ...entry, guildId: 'two' }, NOON);
    expect(tanks.log.find('one', entry.id)).toEqual(entry);
    expect(() => tanks.editTank({ ...tank, guildId: 'two', name: 'Stolen' }, NOON)).toThrow(RangeError);
    expect(tanks.find('one', tank.id)?.name).toBe('Reef');
    // The same name is free in another club.
    expect(added(tanks, { guildId: 'two' }).name).toBe('Reef');
  });

  test('one that is for me is seen by nobody else', () => {
    const tanks = open();
    const mine = added(tanks, { name: 'Mine' });
    const shared = added(tanks, { name: 'Shared', visibility: 'club' });
    expect(names(tanks.tankSeenBy('one', 'ben', 'ana'))).toEqual(['Shared']);
    expect(names(tanks.tankSeenBy('one', 'ana', 'ana'))).toEqual(['Mine', 'Shared']);
    expect(tanks.findSeenBy('one', 'ben', mine.id)).toBeUndefined();
    expect(tanks.findSeenBy('one', 'ana', mine.id)?.name).toBe('Mine');
    expect(tanks.findSeenBy('one', 'ben', shared.id)?.name).toBe('Shared');
  });

  test('have one name each, whatever its case, and a removed one gives its name back', () => {
    const tanks = open();
    const reef = added(tanks);
    expect(tanks.addTank(aTank({ name: 'REEF' }), NOON)).toEqual({ kind: 'name-taken', name: 'REEF' });
    expect(tanks.addTank(aTank({ name: 'Reef', memberId: 'ben' }), NOON)).toMatchObject({ kind: 'done' });
    tanks.removeTank(reef, NOON);
    expect(tanks.find('one', reef.id)).toBeUndefined();
    expect(names([added(tanks, { name: 'reef' })])).toEqual(['reef']);
  });

  test(`are ${MOST_TANKS} at most; a removed one makes room`, () => {
    const tanks = open();
    const all = Array.from({ length: MOST_TANKS }, (_, n) => added(tanks, { name: `Tank ${n}` }));
    expect(tanks.addTank(aTank(), NOON)).toEqual({ kind: 'too-many-tanks' });
    tanks.removeTank(all[3]!, NOON);
    expect(tanks.addTank(aTank(), NOON)).toMatchObject({ kind: 'done' });
    expect(tanks.undo('one', 'ana', { tankId: all[3]!.id })).toEqual({ kind: 'too-many-tanks' });
  });

  test.each([Number.NaN, 1.5, -1, Number.POSITIVE_INFINITY, 2 ** 60])('%s is the number of no tank', (id) => {
    const { find, findSeenBy } = tankStore(openTemporaryDatabase().db);
    expect(find('one', id)).toBeUndefined();
    expect(findSeenBy('one', 'ana', id)).toBeUndefined();
  });
});
