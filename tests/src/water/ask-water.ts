import { expect } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Paint } from '../../../src/discord/painted.ts';
import { GUILD } from '../../../src/room/members.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { DEFAULT_UNITS, type Tank } from '../../../src/tanks/tank.ts';
import { tankStore } from '../../../src/tanks/tank.store.ts';
import { knowledge, openClub, openRoomWithBot } from '../../set-up-club.ts';

/** Options as members type them: `{ volume: '300 L' }`. */
export type Typed = Readonly<Record<string, string>>;

/** What a member sees in answer to `/water <name>`; the contract was kept and nothing went wrong on our side. */
export async function asks(who: Actor, name: string, typed: Typed = {}): Promise<SeenMessage> {
  const options = Object.entries(typed).map(([option, value]) => ({ name: option, value }));
  const { replies, error } = await who.slash(`water ${name}`, options);
  expect(error).toBeUndefined();
  expect(replies).toHaveLength(1);
  const [reply] = replies;
  expect(reply!.text).not.toContain('went wrong on my side');
  // Discord shows a backslash before a dot as the dot alone.
  return { ...reply!, text: reply!.text.replaceAll('\\.', '.') };
}

/** One member of a club, asking in private. With a painter, charts are drawn. */
export async function openWater({ paint }: { paint?: Paint } = {}) {
  const club = await openClub(paint ? { paint } : {});
  const ana = club.room.actor('Ana');
  return { ...club, ana, water: (name: string, typed: Typed = {}) => asks(ana, name, typed) };
}

/** A club in which Ana and Ben have tanks. */
export async function openWithTanks(tanksOf: Readonly<Record<string, readonly Partial<Tank>[]>>) {
  const { db } = openTemporaryDatabase();
  const opened = await openRoomWithBot({}, { abilities: createAbilities(knowledge(), { db }) });
  const store = tankStore(db);
  const actors = Object.fromEntries(
    Object.entries(tanksOf).map(([name, tanks]) => {
      const actor = opened.room.actor(name);
      const memberId = opened.room.world.members.named(name)?.id;
      if (memberId === undefined) throw new Error(`no member ${name}`);
      for (const tank of tanks) store.add({ ...PLAIN, ...tank, guildId: GUILD.id, memberId }, new Date(0));
      return [name, actor];
    }),
  );
  return { ...opened, actor: (name: string): Actor => actors[name] ?? opened.room.actor(name) };
}

const PLAIN: Omit<Tank, 'id' | 'guildId' | 'memberId'> = {
  name: 'Reef',
  purpose: 'display',
  netVolumeL: 300,
  volumeError: 0.1,
  practicalSalinity: 35,
  temperatureC: 25,
  units: DEFAULT_UNITS,
  visibility: 'me',
};
