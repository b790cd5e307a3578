import type { Database } from 'better-sqlite3';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { createFindIndex, type FindIndex } from './find-index.ts';
import type { OfferStore } from './offer.store.ts';

type Changed = Map<string, Set<number>>;
const LISTENERS = new WeakMap<Database, Changed[]>();

/**
 * Which offers changed, club by club: their own rows, or promises of them. Triggers of this connection tell, so nothing
 * is missed whoever writes; this connection is the only one that does.
 */
function changesOf(db: Database): Changed {
  const changed: Changed = new Map();
  const listeners = LISTENERS.get(db);
  if (listeners) {
    listeners.push(changed);
    return changed;
  }
  const all = [changed];
  LISTENERS.set(db, all);
  db.function('swap_offer_changed', (guildId: unknown, id: unknown) => {
    for (const each of all) {
      const ids = each.get(String(guildId));
      if (ids) ids.add(Number(id));
    }
    return null;
  });
  for (const [table, column] of [
    ['swap_offers', 'id'],
    ['swap_promises', 'offer_id'],
  ] as const)
    // prettier-ignore
    for (const [act, row] of [['INSERT', 'new'], ['UPDATE', 'new'], ['DELETE', 'old']] as const) // prettier-ignore
      db.exec(`CREATE TEMP TRIGGER ${table}_told_${act.toLowerCase()} AFTER ${act} ON main.${table}
        BEGIN SELECT swap_offer_changed(${row}.guild_id, ${row}.${column}); END`);
  return changed;
}

/** The open offers of each club, ready to be looked through; what changed since is read anew, and nothing else. */
export function findStore(db: Database, offers: Pick<OfferStore, 'find' | 'open'>, base: KnowledgeBase) {
  const changed = changesOf(db);
  const indexes = new Map<string, FindIndex>();
  return {
    index(guildId: string, now: Date): FindIndex {
      const ids = changed.get(guildId);
      const index = indexes.get(guildId);
      if (!ids || !index) {
        changed.set(guildId, new Set());
        const anew = createFindIndex(base);
        for (const offer of offers.open(guildId, now)) anew.put(offer);
        indexes.set(guildId, anew);
        return anew;
      }
      for (const id of ids) {
        const offer = offers.find(id, guildId);
        if (offer) index.put(offer);
        else index.drop(id);
      }
      ids.clear();
      return index;
    },
  };
}
export type FindStore = ReturnType<typeof findStore>;
