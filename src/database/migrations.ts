/** Every change of the database's shape, in order. A line that has been released is never edited; append. */
export const MIGRATIONS: readonly string[] = [
  // One row a run of the program, so that the next start can say whether the last one ended cleanly.
  `CREATE TABLE runs (
     id INTEGER PRIMARY KEY,
     version TEXT NOT NULL,
     started_at_ms INTEGER NOT NULL,
     stopped_at_ms INTEGER
   ) STRICT`,
];
