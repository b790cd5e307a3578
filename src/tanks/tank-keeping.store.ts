import type { Database } from 'better-sqlite3';
import { MOST_TANKS, type Tank } from './tank.ts';
import { REMOVED_FOR_MS, type ChangeKind, type TankChange } from './tank-change.ts';
import { tankChangeStore, type RowBefore } from './tank-change.store.ts';
import { MOST_ENTRIES, type LogEntry, type NewLogEntry, type Reading } from './tank-log.ts';
import { tankLogStore } from './tank-log.store.ts';
import { tankStore } from './tank.store.ts';

/** Entries of knowledge/parameters whose last reading is the tank's own value. */
export const SALINITY = 'salinity';
export const TEMPERATURE = 'temperature';

/** A change that was made, by the number that takes it back. */
export type Done = { kind: 'done'; tank: Tank; changeId: number };
export type Noted = Done & { entry: LogEntry; dropped: LogEntry | null };
type Refused = { kind: 'name-taken'; name: string } | { kind: 'too-many-tanks' };
export type Undone =
  | { kind: 'undone'; change: TankChange; tankName: string; tank: Tank | undefined }
  | { kind: 'nothing' }
  | { kind: 'later-changes' }
  | Refused;

/**
 * Tanks and their log as members change them: every change is one transaction together with what undo needs.
 *
 * Undo goes backwards through the changes of a tank, the last first, and puts rows back as they were.
 */
export function keepTanks(db: Database) {
  const tanks = tankStore(db);
  const log = tankLogStore(db);
  const changes = tankChangeStore(db);
  const newestOf = (parameter: string) =>
    `(SELECT value FROM tank_log WHERE tank_id = @id AND parameter = '${parameter}' ORDER BY at_ms DESC, id DESC LIMIT 1)`;
  const refresh = db.prepare(`UPDATE tanks SET practical_salinity = ${newestOf(SALINITY)},
    temperature_c = ${newestOf(TEMPERATURE)} WHERE guild_id = @guildId AND id = @id`);

  /** Makes a change and keeps what it takes to undo it. `touched` are the rows as they are before. */
  const change = (tank: Tank, what: ChangeKind, touched: readonly RowBefore[], now: Date, make: () => void): Done => {
    make();
    refresh.run({ guildId: tank.guildId, id: tank.id });
    const { guildId, memberId, id: tankId } = tank;
    const changeId = changes.keep({ guildId, memberId, tankId, what, before: touched, now });
    return { kind: 'done', tank: tanks.find(guildId, tankId) ?? tank, changeId };
  };
  const rowOf = (tank: Tank) => changes.rowNow(tank.guildId, 'tanks', tank.id);
  const entryRow = (entry: LogEntry) => changes.rowNow(entry.guildId, 'tank_log', entry.id);
  const newRow = (id: number): RowBefore => ({ table: 'tank_log', id, row: null });
  const whole = <T>(run: () => T): T => db.transaction(run).immediate();

  /** Salinity and temperature that a member states are readings like any other. */
  const stated = (tank: Pick<Tank, 'practicalSalinity' | 'temperatureC'>, now: Date): NewLogEntry[] =>
    (
      [
        [SALINITY, tank.practicalSalinity],
        [TEMPERATURE, tank.temperatureC],
      ] as const
    ).flatMap(([parameter, value]) =>
      value === null ? [] : [{ kind: 'reading', parameter, value, kit: null, kitError: null, at: now } as const],
    );

  /** The database itself keeps names apart. What a refused step had done before it was refused is taken back. */
  const orTaken = <T>(name: string, run: () => T): T | { kind: 'name-taken'; name: string } => {
    try {
      return db.transaction(run)();
    } catch (error) {
      if (error instanceof Error && Reflect.get(error, 'code') === 'SQLITE_CONSTRAINT_UNIQUE')
        return { kind: 'name-taken', name };
      throw error;
    }
  };

  const { tanksOf, tankSeenBy, find, findSeenBy } = tanks;
  return {
    tanksOf,
    tankSeenBy,
    find,
    findSeenBy,
    log,
    /** A new tank. `practicalSalinity` and `temperatureC` become its first readings. */
    addTank: (tank: Omit<Tank, 'id'>, now: Date): Done | Refused =>
      whole(() => {
        tanks.forgetRemovedBefore(new Date(now.getTime() - REMOVED_FOR_MS));
        if (tanks.tanksOf(tank.guildId, tank.memberId).length >= MOST_TANKS) return { kind: 'too-many-tanks' };
        const id = orTaken(tank.name, () => tanks.add(tank, now));
        if (typeof id !== 'number') return id;
        const added: Tank = { ...tank, id };
        return change(added, 'added', [{ table: 'tanks', id, row: null }], now, () => {
          for (const entry of stated(tank, now)) log.add(tank.guildId, id, entry);
        });
      }),
    /** The tank as it shall be. A salinity or temperature that differs becomes a reading of now. */
    editTank: (tank: Tank, now: Date): Done | Refused =>
      whole(() => {
        const before = tanks.find(tank.guildId, tank.id);
        if (!before) throw new RangeError(`there is no tank ${tank.id} to edit`);
        const touched = [rowOf(before)];
        const refused = orTaken(tank.name, () => tanks.replace(tank));
        if (refused) return refused;
        const news = stated(
          {
            practicalSalinity: tank.practicalSalinity === before.practicalSalinity ? null : tank.practicalSalinity,
            temperatureC: tank.temperatureC === before.temperatureC ? null : tank.temperatureC,
          },
          now,
        ).map((entry) => newRow(log.add(tank.guildId, tank.id, entry)));
        return change(tank, 'edited', [...touched, ...news], now, () => {});
      }),
    removeTank: (tank: Tank, now: Date): Done =>
      whole(() => change(tank, 'removed', [rowOf(tank)], now, () => tanks.remove(tank.guildId, tank.id, now))),
    /** Notes a reading, dose or change. When the log is full, the oldest entry makes room; undo brings it back. */
    note: (tank: Tank, entry: NewLogEntry, now: Date): Noted =>
      whole(() => {
        const { guildId, id: tankId } = tank;
        const dropped = log.count(guildId, tankId) >= MOST_ENTRIES ? (log.oldest(guildId, tankId) ?? null) : null;
        const touched = dropped ? [entryRow(dropped)] : [];
        if (dropped) log.remove(guildId, dropped.id);
        const id = log.add(guildId, tankId, entry);
        const done = change(tank, `${entry.kind}-noted`, [newRow(id), ...touched], now, () => {});
        return { ...done, entry: { ...entry, id, guildId, tankId }, dropped };
      }),
    correctReading: (tank: Tank, reading: Reading, now: Date): Done =>
      whole(() => change(tank, 'reading-corrected', [entryRow(reading)], now, () => log.replaceReading(reading))),
    deleteEntry: (tank: Tank, entry: LogEntry, now: Date): Done =>
      whole(() => change(tank, 'entry-deleted', [entryRow(entry)], now, () => log.remove(entry.guildId, entry.id))),
    /** Takes back the member's last change in the club, or the one given, if no later one of that tank stands. */
    undo: (guildId: string, memberId: string, which: 'last' | { tankId: number } | { changeId: number }): Undone =>
      whole(() => {
        const last =
          which === 'last'
            ? changes.lastOfMember(guildId, memberId)
            : 'tankId' in which
              ? changes.lastOfTank(guildId, which.tankId)
              : changes.find(guildId, which.changeId);
        if (!last || last.memberId !== memberId) return { kind: 'nothing' };
        if (changes.lastOfTank(guildId, last.tankId)?.id !== last.id) return { kind: 'later-changes' };
        const name = tanks.find(guildId, last.tankId)?.name;
        if (last.what === 'removed' && tanks.tanksOf(guildId, memberId).length >= MOST_TANKS)
          return { kind: 'too-many-tanks' };
        const wanted = last.before.find(({ table }) => table === 'tanks')?.row?.['name'];
        const refused = orTaken(String(wanted ?? name ?? ''), () => changes.takeBack(last));
        if (refused) return refused;
        refresh.run({ guildId, id: last.tankId });
        const tank = tanks.find(guildId, last.tankId);
        return { kind: 'undone', change: last, tankName: tank?.name ?? name ?? '', tank };
      }),
  };
}
export type Tanks = ReturnType<typeof keepTanks>;
