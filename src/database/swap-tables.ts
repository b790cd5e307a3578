/** The tables of frag swaps, as one migration. Like every migration it is never changed once it has been released. */
export const SWAP_TABLES = `CREATE TABLE swap_offers (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     message_id TEXT,
     state TEXT NOT NULL CHECK (state IN ('open', 'withdrawn', 'expired', 'hidden')),
     pieces INTEGER NOT NULL CHECK (pieces > 0),
     details TEXT NOT NULL,
     created_at_ms INTEGER NOT NULL,
     changed_at_ms INTEGER NOT NULL,
     expires_at_ms INTEGER NOT NULL,
     reminded_at_ms INTEGER
   ) STRICT;
   CREATE INDEX swap_offers_of_guild ON swap_offers (guild_id, state, id);
   CREATE INDEX swap_offers_of_member ON swap_offers (guild_id, member_id, id);
   CREATE INDEX swap_offers_expiring ON swap_offers (expires_at_ms) WHERE state = 'open';
   CREATE TABLE swap_wants (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     coral TEXT,
     group_name TEXT,
     words TEXT NOT NULL,
     drive_km INTEGER,
     state TEXT NOT NULL CHECK (state IN ('open', 'met', 'withdrawn')),
     created_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_wants_of_guild ON swap_wants (guild_id, state, id);
   CREATE TABLE swap_promises (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     offer_id INTEGER NOT NULL REFERENCES swap_offers (id),
     giver_id TEXT NOT NULL,
     taker_id TEXT NOT NULL,
     state TEXT NOT NULL CHECK (state IN ('queued', 'promised', 'handed-over', 'released', 'expired', 'withdrawn')),
     ring_id INTEGER,
     until_ms INTEGER,
     giver_said INTEGER NOT NULL DEFAULT 0,
     taker_said INTEGER NOT NULL DEFAULT 0,
     word TEXT,
     thread_id TEXT,
     created_at_ms INTEGER NOT NULL,
     changed_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_promises_of_offer ON swap_promises (offer_id, state, id);
   CREATE UNIQUE INDEX swap_promises_one_each ON swap_promises (offer_id, taker_id) WHERE state IN ('queued', 'promised');
   CREATE INDEX swap_promises_of_taker ON swap_promises (guild_id, taker_id, id);
   CREATE INDEX swap_promises_ending ON swap_promises (until_ms) WHERE state = 'promised';
   CREATE TABLE swap_acts (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     offer_id INTEGER NOT NULL REFERENCES swap_offers (id),
     by_id TEXT NOT NULL,
     what TEXT NOT NULL,
     reason TEXT,
     state_before TEXT,
     at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_acts_of_offer ON swap_acts (offer_id, id);
   CREATE INDEX swap_acts_of_member ON swap_acts (guild_id, by_id, id);
   CREATE TABLE swap_blocks (
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     blocked_id TEXT NOT NULL,
     at_ms INTEGER NOT NULL,
     PRIMARY KEY (guild_id, member_id, blocked_id)
   ) STRICT;
   CREATE TABLE swap_no_shows (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     promise_id INTEGER NOT NULL REFERENCES swap_promises (id),
     about_id TEXT NOT NULL,
     by_id TEXT NOT NULL,
     at_ms INTEGER NOT NULL,
     UNIQUE (promise_id, by_id)
   ) STRICT;
   CREATE TABLE swap_reports (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     offer_id INTEGER NOT NULL REFERENCES swap_offers (id),
     by_id TEXT NOT NULL,
     words TEXT NOT NULL,
     settled_by TEXT,
     settled_how TEXT,
     at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_reports_open ON swap_reports (guild_id, id) WHERE settled_by IS NULL;
   CREATE TABLE swap_meets (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     by_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     message_id TEXT,
     held_on TEXT NOT NULL,
     place TEXT NOT NULL,
     state TEXT NOT NULL CHECK (state IN ('planned', 'called-off', 'over')),
     created_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE TABLE swap_meet_guests (
     meet_id INTEGER NOT NULL REFERENCES swap_meets (id),
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     offers TEXT NOT NULL,
     at_ms INTEGER NOT NULL,
     PRIMARY KEY (meet_id, member_id)
   ) STRICT;
   CREATE TABLE swap_rings (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     meet_id INTEGER REFERENCES swap_meets (id),
     state TEXT NOT NULL CHECK (state IN ('proposed', 'agreed', 'dissolved', 'done')),
     arcs TEXT NOT NULL,
     answers TEXT NOT NULL,
     until_ms INTEGER,
     created_at_ms INTEGER NOT NULL,
     changed_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_rings_open ON swap_rings (guild_id, state, id);
   CREATE TABLE swap_left_out (
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     times INTEGER NOT NULL,
     PRIMARY KEY (guild_id, member_id)
   ) STRICT`;

/** Offers on their way, what those who look for a coral are to hear, and where a club swaps. */
export const SWAP_DRAFT_TABLES = `CREATE TABLE swap_drafts (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     channel_id TEXT NOT NULL,
     offer_id INTEGER REFERENCES swap_offers (id),
     typed TEXT NOT NULL,
     photo BLOB,
     photo_name TEXT,
     created_at_ms INTEGER NOT NULL
   ) STRICT;
   CREATE INDEX swap_drafts_of_member ON swap_drafts (guild_id, member_id, id);
   CREATE TABLE swap_news (
     guild_id TEXT NOT NULL,
     member_id TEXT NOT NULL,
     offer_id INTEGER NOT NULL REFERENCES swap_offers (id),
     due_at_ms INTEGER NOT NULL,
     told_at_ms INTEGER,
     PRIMARY KEY (guild_id, member_id, offer_id)
   ) STRICT;
   CREATE INDEX swap_news_due ON swap_news (due_at_ms) WHERE told_at_ms IS NULL;
   CREATE INDEX swap_offers_to_remind ON swap_offers (expires_at_ms) WHERE state = 'open' AND reminded_at_ms IS NULL;
   ALTER TABLE swap_offers ADD COLUMN settles_at_ms INTEGER;
   CREATE INDEX swap_offers_settling ON swap_offers (settles_at_ms) WHERE state = 'open' AND settles_at_ms IS NOT NULL;
   ALTER TABLE club_settings ADD COLUMN swap_channel_id TEXT`;
