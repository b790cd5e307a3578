const TOO_MANY = `SELECT RAISE(ABORT, 'more pieces promised than there are')
     FROM swap_offers WHERE id = NEW.offer_id AND pieces < (SELECT count(*) FROM swap_promises
       WHERE offer_id = NEW.offer_id AND state IN ('promised', 'handed-over'));`;

/** What promises need to know besides, and the guards of their count. Like every migration it is never changed. */
export const SWAP_PROMISE_GUARDS = `ALTER TABLE swap_promises ADD COLUMN extended INTEGER NOT NULL DEFAULT 0;
   ALTER TABLE swap_promises ADD COLUMN reminded_for_ms INTEGER;
   CREATE TRIGGER swap_promises_added AFTER INSERT ON swap_promises
   BEGIN
     ${TOO_MANY}
   END;
   CREATE TRIGGER swap_promises_moved AFTER UPDATE OF state, offer_id ON swap_promises
   BEGIN
     ${TOO_MANY}
   END;
   CREATE TRIGGER swap_offers_shrunk AFTER UPDATE OF pieces ON swap_offers WHEN NEW.pieces < OLD.pieces
   BEGIN
     SELECT RAISE(ABORT, 'more pieces promised than there are')
     WHERE NEW.pieces < (SELECT count(*) FROM swap_promises
       WHERE offer_id = NEW.id AND state IN ('promised', 'handed-over'));
   END`;
