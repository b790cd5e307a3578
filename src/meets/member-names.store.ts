import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { Request } from '../discord/message-view.ts';

const Row = z.object({ member_id: z.string(), name: z.string() });

/** How members who swap are called: a picture cannot show a mention. */
export function memberNameStore(db: Database) {
  const select = db.prepare('SELECT member_id, name FROM swap_names WHERE guild_id = ?');
  const upsert = db.prepare(`INSERT INTO swap_names (guild_id, member_id, name) VALUES (@guildId, @memberId, @name)
    ON CONFLICT (guild_id, member_id) DO UPDATE SET name = @name WHERE name <> @name`);
  return {
    /** Remembers whoever asks, under the name that they have here. */
    note({ guildId, memberId, memberName }: Pick<Request, 'guildId' | 'memberId' | 'memberName'>): void {
      const name = memberName.toWellFormed().trim().slice(0, 40);
      if (guildId !== null && name !== '') upsert.run({ guildId, memberId, name });
    },
    of: (guildId: string): ReadonlyMap<string, string> =>
      new Map(select.all(guildId).map((row) => Row.parse(row)).map(({ member_id, name }) => [member_id, name])), // prettier-ignore
  };
}
export type MemberNameStore = ReturnType<typeof memberNameStore>;
