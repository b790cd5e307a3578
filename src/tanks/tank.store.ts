import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { TANK_PURPOSES, UNITS, VISIBILITIES, type Tank } from './tank.ts';
import { nameKey } from './tank-name.ts';

const Row = z
  .object({
    id: z.int(),
    guild_id: z.string(),
    member_id: z.string(),
    name: z.string(),
    purpose: z.enum(TANK_PURPOSES),
    net_volume_l: z.number(),
    volume_error: z.number(),
    practical_salinity: z.number().nullable(),
    temperature_c: z.number().nullable(),
    volume_unit: z.enum(UNITS.volume),
    temperature_unit: z.enum(UNITS.temperature),
    alkalinity_unit: z.enum(UNITS.alkalinity),
    salinity_unit: z.enum(UNITS.salinity),
    visibility: z.enum(VISIBILITIES),
  })
  .transform((row): Tank => ({
    id: row.id,
    guildId: row.guild_id,
    memberId: row.member_id,
    name: row.name,
    purpose: row.purpose,
    netVolumeL: row.net_volume_l,
    volumeError: row.volume_error,
    practicalSalinity: row.practical_salinity,
    temperatureC: row.temperature_c,
    units: {
      volume: row.volume_unit,
      temperature: row.temperature_unit,
      alkalinity: row.alkalinity_unit,
      salinity: row.salinity_unit,
    },
    visibility: row.visibility,
  }));

const columnsOf = ({ units, ...tank }: Omit<Tank, 'id' | 'guildId' | 'memberId'>) => ({
  name: tank.name,
  nameKey: nameKey(tank.name),
  purpose: tank.purpose,
  netVolumeL: tank.netVolumeL,
  volumeError: tank.volumeError,
  practicalSalinity: tank.practicalSalinity,
  temperatureC: tank.temperatureC,
  volumeUnit: units.volume,
  temperatureUnit: units.temperature,
  alkalinityUnit: units.alkalinity,
  salinityUnit: units.salinity,
  visibility: tank.visibility,
});

/**
 * The tanks of every club. Each question names the club, and what another club has is not there.
 *
 * What a member may see of others: `tankSeenBy` and `findSeenBy`. Those without a viewer are for the owner's own acts and
 * for work that shows nothing.
 */
export function tankStore(db: Database) {
  const here = 'FROM tanks WHERE guild_id = @guildId AND removed_at_ms IS NULL';
  const seen = "(visibility = 'club' OR member_id = @viewerId)";
  const one = db.prepare(`SELECT * ${here} AND id = @id`);
  const oneSeen = db.prepare(`SELECT * ${here} AND id = @id AND ${seen}`);
  const ofMember = db.prepare(`SELECT * ${here} AND member_id = @memberId ORDER BY id`);
  const ofMemberSeen = db.prepare(`SELECT * ${here} AND member_id = @ownerId AND ${seen} ORDER BY id`);
  const insert = db.prepare(`INSERT INTO tanks
    (guild_id, member_id, name, name_key, purpose, net_volume_l, volume_error, practical_salinity, temperature_c,
     volume_unit, temperature_unit, alkalinity_unit, salinity_unit, visibility, added_at_ms)
    VALUES (@guildId, @memberId, @name, @nameKey, @purpose, @netVolumeL, @volumeError, @practicalSalinity, @temperatureC,
     @volumeUnit, @temperatureUnit, @alkalinityUnit, @salinityUnit, @visibility, @nowMs)`);
  const update = db.prepare(`UPDATE tanks SET name = @name, name_key = @nameKey, purpose = @purpose,
    net_volume_l = @netVolumeL, volume_error = @volumeError, practical_salinity = @practicalSalinity,
    temperature_c = @temperatureC, volume_unit = @volumeUnit, temperature_unit = @temperatureUnit,
    alkalinity_unit = @alkalinityUnit, salinity_unit = @salinityUnit, visibility = @visibility
    WHERE guild_id = @guildId AND id = @id`);
  const hide = db.prepare('UPDATE tanks SET removed_at_ms = @nowMs WHERE guild_id = @guildId AND id = @id');
  const forget = db.prepare('DELETE FROM tanks WHERE removed_at_ms < ?');
  const found = (row: unknown): Tank | undefined => (row === undefined ? undefined : Row.parse(row));
  return {
    /** A member's own tanks, the oldest first. */
    tanksOf: (guildId: string, memberId: string): Tank[] =>
      ofMember.all({ guildId, memberId }).map((row) => Row.parse(row)),
    /** The tanks of a member that somebody else in the club may see: all of them when it is their own. */
    tankSeenBy: (guildId: string, viewerId: string, ownerId: string): Tank[] =>
      ofMemberSeen.all({ guildId, viewerId, ownerId }).map((row) => Row.parse(row)),
    /** A tank of the club, whoever may see it. */
    find: (guildId: string, id: number): Tank | undefined => found(one.get({ guildId, id: whole(id) })),
    /** A tank of the club if this member may see it. */
    findSeenBy: (guildId: string, viewerId: string, id: number): Tank | undefined =>
      found(oneSeen.get({ guildId, viewerId, id: whole(id) })),
    add: ({ guildId, memberId, ...tank }: Omit<Tank, 'id'>, now: Date): number =>
      Number(insert.run({ guildId, memberId, ...columnsOf(tank), nowMs: now.getTime() }).lastInsertRowid),
    replace: ({ id, guildId, memberId: _owner, ...tank }: Tank): void =>
      void update.run({ id, guildId, ...columnsOf(tank) }),
    remove: (guildId: string, id: number, now: Date): void => void hide.run({ guildId, id, nowMs: now.getTime() }),
    /** Deletes what was removed before this moment, with everything noted for it. */
    forgetRemovedBefore: (moment: Date): void => void forget.run(moment.getTime()),
  };
}
export type TankStore = ReturnType<typeof tankStore>;
/** What calculators need of it: whose tanks there are, and who may see them. */
export type SeenTanks = Pick<TankStore, 'tanksOf' | 'tankSeenBy' | 'find' | 'findSeenBy'>;

/** A number from outside may be anything; what is no whole number is the number of no tank. */
const whole = (id: number): number => (Number.isSafeInteger(id) ? id : -1);
