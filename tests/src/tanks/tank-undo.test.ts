import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Tank } from '../../../src/tanks/tank.ts';
import { MOST_UNDONE, REMOVED_FOR_MS } from '../../../src/tanks/tank-change.ts';
import { keepTanks, type Tanks } from '../../../src/tanks/tank-keeping.store.ts';
import { MOST_ENTRIES, type NewLogEntry } from '../../../src/tanks/tank-log.ts';
import { aReading, aTank, daysLater, NOON } from './tanks.ts';

function open() {
  const { db } = openTemporaryDatabase();
  const everything = () =>
    ['tanks', 'tank_log', 'tank_changes'].map((table) => db.prepare(`SELECT * FROM ${table} ORDER BY id`).all());
  return { tanks: keepTanks(db), everything, db };
}
const added = (tanks: Tanks, given: Partial<Tank> = {}): Tank => {
  const done = tanks.addTank(aTank(given), NOON);
  if (done.kind !== 'done') throw new Error(done.kind);
  return done.tank;
};
const dose: NewLogEntry = {
  kind: 'dose',
  what: '20 g sodium hydrogencarbonate',
  effect: { by: 'total', of: { alkalinity: 667 } },
  days: 3,
  at: NOON,
};
const change: NewLogEntry = { kind: 'water-change', share: 0.1, newWater: { alkalinity: 8.5 }, at: NOON };

type Act = { tanks: Tanks; n: number };
const own = ({ tanks, n }: Act): Tank | undefined => {
  const all = tanks.tanksOf('one', 'ana');
  return all[n % Math.max(1, all.length)];
};
const onTank = (run: (act: Act, tank: Tank) => unknown) => (act: Act) => {
  const tank = own(act);
  if (tank) run(act, tank);
};
const onEntry = (run: (act: Act, tank: Tank, entry: ReturnType<Tanks['log']['newest']>[number]) => unknown) =>
  onTank((act, tank) => {
    const entries = act.tanks.log.newest('one', tank.id, 50);
    const entry = entries[act.n % Math.max(1, entries.length)];
    if (entry) run(act, tank, entry);
  });
/** Everything that a member can do to a tank. */
const ACTS: Record<string, (act: Act) => unknown> = {
  add: ({ tanks, n }) => tanks.addTank(aTank({ name: `Tank ${n % 3}`, practicalSalinity: n % 2 ? 35 : null }), NOON),
  rename: onTank(({ tanks, n }, tank) => tanks.editTank({ ...tank, name: `Tank ${n % 3}` }, NOON)),
  edit: onTank(({ tanks, n }, tank) =>
    tanks.editTank({ ...tank, netVolumeL: 100 + n, practicalSalinity: 30 + (n % 9), visibility: 'club' }, NOON),
  ),
  remove: onTank(({ tanks }, tank) => tanks.removeTank(tank, NOON)),
  read: onTank(({ tanks, n }, tank) => tanks.note(tank, aReading(8 + n / 10, n), NOON)),
  salinity: onTank(({ tanks, n }, tank) => tanks.note(tank, aReading(30 + (n % 9), n, 'salinity'), NOON)),
  dose: onTank(({ tanks }, tank) => tanks.note(tank, dose, NOON)),
  change: onTank(({ tanks }, tank) => tanks.note(tank, change, NOON)),
  correct: onEntry(({ tanks, n }, tank, entry) =>
    entry.kind === 'reading' ? tanks.correctReading(tank, { ...entry, value: 7 + n / 10, kit: 'drops' }, NOON) : null,
  ),
  delete: onEntry(({ tanks }, tank, entry) => tanks.deleteEntry(tank, entry, NOON)),
};

describe('undo', () => {
  test.each(Object.keys(ACTS))('takes back: %s', (name) => {
    const { tanks, everything } = open();
    const tank = added(tanks, { name: 'Tank 7', practicalSalinity: 34 });
    tanks.note(tank, aReading(8), NOON);
    const before = everything();
    ACTS[name]!({ tanks, n: 4 });
    expect(everything()).not.toEqual(before);
    expect(tanks.undo('one', 'ana', 'last')).toMatchObject({ kind: 'undone' });
    expect(everything()).toEqual(before);
  });

  test('takes back everything that was ever done, one by one, whatever it was', () => {
    const acts = fc.array(fc.tuple(fc.constantFrom(...Object.keys(ACTS)), fc.nat(40)), { maxLength: 30 });
    fc.assert(
      fc.property(acts, (given) => {
        const { tanks, everything } = open();
        const states = [everything()];
        for (const [name, n] of given) {
          ACTS[name]!({ tanks, n });
          const now = everything();
          // An act that was refused, such as a name that is taken, changed nothing.
          if (now[2]!.length > states.at(-1)![2]!.length) states.push(now);
          else expect(now).toEqual(states.at(-1));
        }
        for (let at = states.length - 1; at >= 0; at -= 1) {
          expect(everything()).toEqual(states[at]);
          expect(tanks.undo('one', 'ana', 'last').kind).toBe(at === 0 ? 'nothing' : 'undone');
        }
      }),
      { numRuns: 150 },
    );
  });

  test('is for one’s own changes', () => {
    const { tanks, everything } = open();
    const tank = added(tanks);
    const { changeId } = tanks.note(tank, aReading(8), NOON);
    const before = everything();
    for (const which of ['last', { changeId }, { tankId: tank.id }] as const)
      expect(tanks.undo('one', 'ben', which)).toEqual({ kind: 'nothing' });
    expect(everything()).toEqual(before);
  });

  test('by its button works only while nothing came after it in that tank', () => {
    const { tanks } = open();
    const [reef, other] = [added(tanks), added(tanks, { name: 'Other' })];
    const first = tanks.note(reef, aReading(8), NOON);
    tanks.note(other, aReading(9), NOON);
    const second = tanks.note(reef, aReading(7), NOON);
    expect(tanks.undo('one', 'ana', { changeId: first.changeId })).toEqual({ kind: 'later-changes' });
    expect(tanks.undo('one', 'ana', { changeId: second.changeId })).toMatchObject({ kind: 'undone' });
    expect(tanks.undo('one', 'ana', { changeId: first.changeId })).toMatchObject({ kind: 'undone' });
    expect(tanks.undo('one', 'ana', { changeId: first.changeId })).toEqual({ kind: 'nothing' });
    expect(tanks.log.count('one', other.id)).toBe(1);
  });

  test('of a removal or a new name is refused while another tank has the name', () => {
    const { tanks, everything } = open();
    const reef = added(tanks);
    tanks.removeTank(reef, NOON);
    added(tanks, { name: 'REEF' });
    const before = everything();
    expect(tanks.undo('one', 'ana', { tankId: reef.id })).toEqual({ kind: 'name-taken', name: 'Reef' });
    expect(everything()).toEqual(before);
  });

  test(`reaches ${MOST_UNDONE} changes of a tank back`, () => {
    const { tanks } = open();
    const tank = added(tanks);
    for (let n = 0; n < MOST_UNDONE + 5; n += 1) tanks.note(tank, aReading(n, n), NOON);
    for (let n = 0; n < MOST_UNDONE; n += 1) expect(tanks.undo('one', 'ana', 'last').kind).toBe('undone');
    expect(tanks.undo('one', 'ana', 'last')).toEqual({ kind: 'nothing' });
    expect(tanks.log.count('one', tank.id)).toBe(5);
  });
});

test('salinity and temperature are those last measured, also when readings come late, are corrected or deleted', () => {
  const { tanks } = open();
  const tank = added(tanks, { practicalSalinity: 34, temperatureC: 25 });
  const now = () => tanks.find('one', tank.id)!;
  tanks.note(tank, aReading(36, 2, 'salinity'), NOON);
  expect(now()).toMatchObject({ practicalSalinity: 36, temperatureC: 25 });
  tanks.note(tank, aReading(30, 1, 'salinity'), NOON);
  expect(now().practicalSalinity).toBe(36);
  const newest = tanks.log.readings('one', tank.id, 'salinity', 1)[0]!;
  tanks.correctReading(tank, { ...newest, value: 35.5 }, NOON);
  expect(now().practicalSalinity).toBe(35.5);
  tanks.deleteEntry(tank, newest, NOON);
  expect(now().practicalSalinity).toBe(30);
  tanks.editTank({ ...now(), practicalSalinity: 33 }, daysLater(3));
  expect(now().practicalSalinity).toBe(33);
});

test('a full log drops its oldest entry, says which, and undo brings it back', () => {
  const { tanks, db } = open();
  const tank = added(tanks);
  db.transaction(() => {
    for (let n = 0; n < MOST_ENTRIES; n += 1) tanks.log.add('one', tank.id, aReading(n, n / 10));
  })();
  const noted = tanks.note(tank, aReading(8, 999), NOON);
  expect(noted.dropped).toMatchObject({ value: 0 });
  expect(tanks.log.count('one', tank.id)).toBe(MOST_ENTRIES);
  expect(tanks.log.oldest('one', tank.id)).toMatchObject({ value: 1 });
  tanks.undo('one', 'ana', { changeId: noted.changeId });
  expect(tanks.log.oldest('one', tank.id)).toEqual(noted.dropped);
  expect(tanks.log.count('one', tank.id)).toBe(MOST_ENTRIES);
});

test('a removed tank is forgotten with its log after a month', () => {
  const { tanks, db } = open();
  const tank = added(tanks);
  tanks.note(tank, aReading(8), NOON);
  tanks.removeTank(tank, NOON);
  const later = new Date(NOON.getTime() + REMOVED_FOR_MS);
  tanks.addTank(aTank({ memberId: 'ben' }), later);
  expect(tanks.log.count('one', tank.id)).toBe(1);
  tanks.addTank(aTank({ memberId: 'cleo' }), new Date(later.getTime() + 1));
  expect(tanks.log.count('one', tank.id)).toBe(0);
  expect(db.prepare('SELECT count(*) AS n FROM tank_changes WHERE tank_id = ?').get(tank.id)).toEqual({ n: 0 });
});
