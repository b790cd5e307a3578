import { SWAP_PROMISE_GUARDS } from './swap-promise-guards.ts';
import { RING_TABLES } from './ring-tables.ts';
import { SWAP_TABLES, SWAP_DRAFT_TABLES } from './swap-tables.ts';

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
  // Messages waiting to be delivered. An id is never used twice: it is the nonce by which Discord drops a repeat.
  `CREATE TABLE outbox (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     key TEXT NOT NULL UNIQUE,
     guild_id TEXT NOT NULL,
     topic TEXT NOT NULL,
     act TEXT NOT NULL CHECK (act IN ('post', 'edit', 'thread')),
     channel_id TEXT NOT NULL,
     fallback_channel_id TEXT,
     member_id TEXT,
     target_id TEXT,
     title TEXT,
     view TEXT,
     mark TEXT,
     file BLOB,
     late TEXT NOT NULL CHECK (late IN ('always', 'merge', 'drop')),
     due_at_ms INTEGER NOT NULL,
     not_before_ms INTEGER NOT NULL,
     state INTEGER NOT NULL DEFAULT 0 CHECK (state BETWEEN 0 AND 3),
     first_try_ms INTEGER,
     attempts INTEGER NOT NULL DEFAULT 0,
     message_id TEXT,
     why TEXT,
     settled_at_ms INTEGER,
     told_at_ms INTEGER
   ) STRICT;
   CREATE INDEX outbox_waiting ON outbox (not_before_ms, id) WHERE state < 2;
   CREATE INDEX outbox_owed ON outbox (guild_id, member_id) WHERE state = 3 AND told_at_ms IS NULL;
   CREATE INDEX outbox_settled ON outbox (settled_at_ms) WHERE state >= 2`,
  // Second opinions: the cases, one ballot a member, and how each voter did in cases that a curator settled.
  `CREATE TABLE cases (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     asker_id TEXT NOT NULL,
     asker_name TEXT NOT NULL,
     text TEXT NOT NULL,
     photo_name TEXT NOT NULL,
     photo_alt TEXT NOT NULL,
     credit TEXT,
     wants_thread INTEGER NOT NULL,
     opened_at_ms INTEGER NOT NULL,
     closes_at_ms INTEGER NOT NULL,
     closings INTEGER NOT NULL DEFAULT 0,
     closed TEXT,
     undo TEXT,
     message_id TEXT,
     thread_id TEXT,
     ballot_message_id TEXT
   ) STRICT;
   CREATE INDEX cases_open ON cases (closes_at_ms) WHERE closed IS NULL;
   CREATE INDEX cases_of_guild ON cases (guild_id, id);
   CREATE TABLE ballots (
     case_id INTEGER NOT NULL REFERENCES cases (id),
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     verdict TEXT NOT NULL CHECK (verdict IN ('pest', 'harmless', 'cannot-tell')),
     entry TEXT,
     is_curator INTEGER NOT NULL,
     cast_at_ms INTEGER NOT NULL,
     PRIMARY KEY (case_id, member_id)
   ) STRICT;
   CREATE TABLE records (
     case_id INTEGER NOT NULL REFERENCES cases (id),
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     was_right INTEGER NOT NULL,
     PRIMARY KEY (case_id, member_id)
   ) STRICT;
   CREATE INDEX records_of_member ON records (guild_id, member_id)`,
  // When the clock last turned, so that a jump is noticed over a restart; a database from before starts from its last run.
  `CREATE TABLE last_turn (
     id INTEGER PRIMARY KEY CHECK (id = 1),
     at_ms INTEGER NOT NULL
   ) STRICT;
   INSERT INTO last_turn (id, at_ms)
     SELECT 1, coalesce(stopped_at_ms, started_at_ms) FROM runs ORDER BY id DESC LIMIT 1`,
  // What a club has set otherwise than it comes: NULL is the default. A new setting is a new column.
  `CREATE TABLE club_settings (
     guild_id TEXT PRIMARY KEY,
     opinion_hours INTEGER,
     changed_at_ms INTEGER NOT NULL,
     changed_by_id TEXT NOT NULL
   ) STRICT`,
  // A case keeps its own time, and what a sighting brought along. A case without a photo has an empty name for it.
  `ALTER TABLE cases ADD COLUMN open_for_ms INTEGER NOT NULL DEFAULT 172800000;
   ALTER TABLE cases ADD COLUMN sighting_id INTEGER;
   ALTER TABLE cases ADD COLUMN sighting TEXT;
   CREATE INDEX cases_of_sighting ON cases (guild_id, sighting_id) WHERE sighting_id IS NOT NULL`,
  // The number of a forgotten sighting is never given to another: cases and buttons go by it.
  `CREATE TABLE numbered_sightings (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     member_id TEXT NOT NULL,
     guild_id TEXT,
     text TEXT NOT NULL,
     described TEXT NOT NULL,
     answers TEXT NOT NULL,
     updated_at_ms INTEGER NOT NULL
   ) STRICT;
   INSERT INTO numbered_sightings SELECT id, member_id, guild_id, text, described, answers, updated_at_ms FROM sightings;
   DROP TABLE sightings;
   ALTER TABLE numbered_sightings RENAME TO sightings;
   CREATE INDEX sightings_updated ON sightings (updated_at_ms)`,
  // Doses split over days, of which members are reminded; and worked answers for somebody else's tank, with their check.
  `CREATE TABLE dose_courses (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     title TEXT NOT NULL,
     doses TEXT NOT NULL,
     tank_id INTEGER,
     given INTEGER NOT NULL DEFAULT 0,
     time_of_day TEXT NOT NULL,
     zone TEXT NOT NULL,
     next_date TEXT,
     next_at_ms INTEGER,
     open_date TEXT,
     unanswered INTEGER NOT NULL DEFAULT 0,
     ended TEXT CHECK (ended IN ('finished', 'stopped', 'forgotten')),
     begun_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX dose_courses_due ON dose_courses (next_at_ms) WHERE ended IS NULL;
   CREATE INDEX dose_courses_of_member ON dose_courses (guild_id, member_id);
   CREATE TABLE worked_answers (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     asker_id TEXT NOT NULL,
     for_id TEXT,
     channel_id TEXT NOT NULL,
     title TEXT NOT NULL,
     view TEXT NOT NULL,
     doses TEXT NOT NULL,
     tank_id INTEGER,
     asked_at_ms INTEGER NOT NULL,
     checked_by_id TEXT,
     check_result TEXT CHECK (check_result IN ('right', 'off')),
     check_note TEXT,
     checked_at_ms INTEGER
   ) STRICT;
   CREATE INDEX worked_answers_of_guild ON worked_answers (guild_id, id)`,
  // Tanks, one or several a member and club, and what was measured, dosed and changed in them. Volumes are net litres, salinity is
  // practical, values are in the unit of their parameter; the units are only what the member reads. A tank that was removed
  // stays until it can no longer be brought back. The changes are what undo works from: rows as they were before.
  `CREATE TABLE tanks (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     name TEXT NOT NULL,
     name_key TEXT NOT NULL,
     purpose TEXT NOT NULL,
     net_volume_l REAL NOT NULL CHECK (net_volume_l > 0),
     volume_error REAL NOT NULL CHECK (volume_error BETWEEN 0 AND 1),
     practical_salinity REAL,
     temperature_c REAL,
     volume_unit TEXT NOT NULL,
     temperature_unit TEXT NOT NULL,
     alkalinity_unit TEXT NOT NULL,
     salinity_unit TEXT NOT NULL,
     visibility TEXT NOT NULL CHECK (visibility IN ('me', 'club')),
     added_at_ms INTEGER NOT NULL,
     removed_at_ms INTEGER
   ) STRICT;
   CREATE UNIQUE INDEX tanks_by_name ON tanks (guild_id, member_id, name_key) WHERE removed_at_ms IS NULL;
   CREATE INDEX tanks_removed ON tanks (removed_at_ms) WHERE removed_at_ms IS NOT NULL;
   CREATE TABLE tank_log (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     tank_id INTEGER NOT NULL REFERENCES tanks (id) ON DELETE CASCADE,
     kind TEXT NOT NULL CHECK (kind IN ('reading', 'dose', 'water-change')),
     parameter TEXT CHECK ((kind = 'reading') = (parameter IS NOT NULL)),
     value REAL CHECK ((kind = 'reading') = (value IS NOT NULL)),
     kit TEXT,
     kit_error REAL,
     detail TEXT CHECK ((kind = 'reading') = (detail IS NULL)),
     at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX tank_log_of_tank ON tank_log (guild_id, tank_id, parameter, at_ms);
   CREATE TABLE tank_changes (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     tank_id INTEGER NOT NULL REFERENCES tanks (id) ON DELETE CASCADE,
     what TEXT NOT NULL,
     rows_before TEXT NOT NULL,
     at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX tank_changes_of_member ON tank_changes (guild_id, member_id, id);
   CREATE INDEX tank_changes_of_tank ON tank_changes (guild_id, tank_id, id)`,
  // In which units a club reads and types, where a tank does not say otherwise.
  `ALTER TABLE club_settings ADD COLUMN volume_unit TEXT;
   ALTER TABLE club_settings ADD COLUMN temperature_unit TEXT;
   ALTER TABLE club_settings ADD COLUMN alkalinity_unit TEXT;
   ALTER TABLE club_settings ADD COLUMN salinity_unit TEXT`,
  // Chores that come again, what was done with them (history and undo in one), and where a member's clock stands.
  `CREATE TABLE chores (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     state TEXT NOT NULL,
     next_at_ms INTEGER,
     told_key TEXT,
     removed_at_ms INTEGER
   ) STRICT;
   CREATE INDEX chores_due ON chores (next_at_ms) WHERE removed_at_ms IS NULL AND next_at_ms IS NOT NULL;
   CREATE INDEX chores_of_member ON chores (guild_id, member_id) WHERE removed_at_ms IS NULL;
   CREATE INDEX chores_told ON chores (told_key) WHERE told_key IS NOT NULL;
   CREATE TABLE chore_acts (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     chore_id INTEGER NOT NULL REFERENCES chores (id) ON DELETE CASCADE,
     what TEXT NOT NULL CHECK (what IN ('added', 'done', 'skipped', 'later', 'edited', 'removed')),
     due_date TEXT NOT NULL,
     done_date TEXT,
     state_before TEXT,
     at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX chore_acts_of_chore ON chore_acts (chore_id, id);
   CREATE INDEX chore_acts_of_member ON chore_acts (guild_id, member_id, id);
   CREATE TABLE member_zones (
     member_id TEXT PRIMARY KEY,
     zone TEXT NOT NULL,
     time_of_day TEXT NOT NULL,
     changed_at_ms INTEGER NOT NULL
   ) STRICT`,
  // Quarantines and what happened in them. What follows from the events is worked out anew each time.
  `CREATE TABLE quarantines (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     animals TEXT NOT NULL,
     fish TEXT NOT NULL,
     plan TEXT NOT NULL,
     plan_option TEXT,
     zone TEXT NOT NULL,
     visibility TEXT NOT NULL CHECK (visibility IN ('me', 'club')),
     begun_at_ms INTEGER NOT NULL,
     ended TEXT CHECK (ended IN ('finished', 'called-off')),
     ended_at_ms INTEGER
   ) STRICT;
   CREATE INDEX quarantines_of_member ON quarantines (guild_id, member_id) WHERE ended IS NULL;
   CREATE INDEX quarantines_shown ON quarantines (guild_id, id) WHERE ended IS NULL AND visibility = 'club';
   CREATE TABLE quarantine_events (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     quarantine_id INTEGER NOT NULL REFERENCES quarantines (id),
     guild_id TEXT NOT NULL,
     by_id TEXT NOT NULL,
     detail TEXT NOT NULL,
     at_ms INTEGER NOT NULL,
     noted_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX quarantine_events_of ON quarantine_events (quarantine_id, id)`,
  // Who else may note, the tank, the label of a copper, and the reminders. What runs already is looked at on the next turn.
  `ALTER TABLE quarantines ADD COLUMN tank TEXT;
   ALTER TABLE quarantines ADD COLUMN copper_label TEXT;
   ALTER TABLE quarantines ADD COLUMN helpers TEXT NOT NULL DEFAULT '[]';
   ALTER TABLE quarantines ADD COLUMN time_of_day TEXT NOT NULL DEFAULT '19:00';
   ALTER TABLE quarantines ADD COLUMN follows INTEGER;
   ALTER TABLE quarantines ADD COLUMN reminding TEXT;
   ALTER TABLE quarantines ADD COLUMN next_at_ms INTEGER;
   UPDATE quarantines SET next_at_ms = 0 WHERE ended IS NULL;
   CREATE INDEX quarantines_due ON quarantines (next_at_ms) WHERE ended IS NULL AND next_at_ms IS NOT NULL`,
  // Frag swaps: what is offered and wanted, who was promised what, rings, meets, and what curators did.
  SWAP_TABLES,
  // A promise is extended once, and reminded of once; no act of any program promises more pieces than there are.
  SWAP_PROMISE_GUARDS,
  // What is to be planned for rings, and how members who swap are called on pictures.
  RING_TABLES,
  // Offers on their way, who is to hear of a new one, and the channel where a club swaps.
  SWAP_DRAFT_TABLES,
];
