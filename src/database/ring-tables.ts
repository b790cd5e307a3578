/** What rings of swaps need beside their own table, as one migration. It is never changed once it has been released. */
export const RING_TABLES = `CREATE TABLE swap_ring_jobs (
     guild_id TEXT NOT NULL,
     key TEXT NOT NULL,
     meet_id INTEGER REFERENCES swap_meets (id),
     state TEXT NOT NULL CHECK (state IN ('wanted', 'done')),
     at_ms INTEGER NOT NULL,
     PRIMARY KEY (guild_id, key)
   ) STRICT, WITHOUT ROWID;
   CREATE INDEX swap_ring_jobs_wanted ON swap_ring_jobs (state) WHERE state = 'wanted';
   CREATE INDEX swap_meets_planned ON swap_meets (held_on) WHERE state = 'planned';
   CREATE TABLE swap_names (
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     name TEXT NOT NULL,
     PRIMARY KEY (guild_id, member_id)
   ) STRICT, WITHOUT ROWID`;
