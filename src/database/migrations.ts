/** Every change of the database's shape, in order. A line that has been released is never edited; append. */
export const MIGRATIONS: readonly string[] = [
  // One row a run of the program, so that the next start can say whether the last one ended cleanly.
  `CREATE TABLE runs (
     id INTEGER PRIMARY KEY,
     version TEXT NOT NULL,
     started_at_ms INTEGER NOT NULL,
     stopped_at_ms INTEGER
   ) STRICT`,
  // Sightings that are being identified: what was written, and the answers so far.
  `CREATE TABLE sightings (
     id INTEGER PRIMARY KEY,
     member_id TEXT NOT NULL,
     guild_id TEXT,
     text TEXT NOT NULL,
     described TEXT NOT NULL,
     answers TEXT NOT NULL,
     updated_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX sightings_updated ON sightings (updated_at_ms)`,
];
