import type { Database } from 'better-sqlite3';
import { afterOutcome, CLOSED, heldUntil } from './breaker.ts';
import { joinLate, mergedView } from './catch-up.ts';
import {
  isDoubtful,
  LATE_AFTER_MS,
  retryAt,
  type DeliveryOutcome,
  type LookUpOutcome,
  type OutboxMessage,
  type Settled,
} from './outbox.ts';
import type { OutboxStore } from './outbox.store.ts';

const BATCH = 20;
/** Late messages are read this many places at a time, so that a month of them does not fill the memory. */
const PLACES = 50;
const FORGET_EVERY_MS = 3_600_000;

export type Delivery = {
  /** Sends one message. Never throws: what went wrong is an outcome. */
  deliver: (message: OutboxMessage, now: Date) => Promise<DeliveryOutcome>;
  /** Looks in the channel's history for a message whose fate is unknown. */
  lookUp: (message: OutboxMessage) => Promise<LookUpOutcome>;
};

export type OutboxDeps = {
  db: Database;
  outbox: OutboxStore;
  delivery: Delivery;
  /** Tells the feature, in the transaction that settles the message. */
  onSettled: (message: OutboxMessage, settled: Settled, now: Date) => void;
  onFailed: (message: OutboxMessage, outcome: DeliveryOutcome) => void;
  now: () => Date;
  /** Whether time passes as it should; once it does not, nothing more is sent in this turn. */
  isSteady: () => boolean;
};

/**
 * Delivers what waits, one message at a time, until nothing is left that may go out now.
 *
 * A try is committed before it is made. A crash between the two, or a connection that breaks, leaves a message whose
 * fate is unknown: it is sent again under the same nonce, and after a minute the channel's history is asked first.
 */
export function outboxWorker({ db, outbox, delivery, onSettled, onFailed, now, isSteady }: OutboxDeps) {
  let breaker = CLOSED;
  let forgotAt: Date | null = null;

  const settle = (message: OutboxMessage, settled: Settled, at: Date): void =>
    db
      .transaction(() => {
        const isFirst =
          settled.kind === 'sent'
            ? outbox.sent(message.id, settled.messageId, at)
            : outbox.dead(message.id, settled.why, at);
        if (isFirst) onSettled(message, settled, at);
      })
      .immediate();

  const record = (message: OutboxMessage, outcome: DeliveryOutcome, at: Date): void => {
    switch (outcome.kind) {
      case 'sent':
        return settle(message, outcome, at);
      case 'later':
        // Where all have to wait, this one keeps its place in the line.
        if (outcome.forAll) return;
        return outbox.postpone(message.id, retryAt(message.attempts + 1, outcome.retryAfterMs, at), outcome.why);
      case 'refused':
        return outbox.postpone(message.id, retryAt(message.attempts + 1, null, at), outcome.why);
      case 'unreachable':
        return message.act === 'post' && message.fallbackChannelId !== null
          ? outbox.redirect(message.id, at)
          : settle(message, { kind: 'dead', why: outcome.why }, at);
      case 'malformed':
        return settle(message, { kind: 'dead', why: outcome.why }, at);
    }
  };

  const attempt = async (message: OutboxMessage): Promise<void> => {
    if (isDoubtful(message, now())) {
      const found = await delivery.lookUp(message);
      if (found.kind === 'found') return settle(message, { kind: 'sent', messageId: found.messageId }, now());
      // A Discord that cannot tell is knocked at as seldom as one that takes nothing.
      if (found.kind === 'later') {
        breaker = afterOutcome(breaker, found, now());
        return record(message, found, now());
      }
    }
    if (!outbox.tried(message.id, now())) return;
    const outcome = await delivery.deliver(message, now());
    if (outcome.kind !== 'sent') onFailed(message, outcome);
    breaker = afterOutcome(breaker, outcome, now());
    record(message, outcome, now());
  };

  const forgetOld = (at: Date): void => {
    if (forgotAt && Math.abs(at.getTime() - forgotAt.getTime()) < FORGET_EVERY_MS) return;
    outbox.forgetOld(at);
    forgotAt = at;
  };

  return {
    /** @returns when to look again; null when nothing waits. */
    async deliverPending(signal?: AbortSignal): Promise<Date | null> {
      forgetOld(now());
      // Most turns end here, after one look into an index.
      const next = outbox.nextAt();
      if (next === null || next > now()) return next;
      catchUpLate(db, outbox, now());
      for (;;) {
        const waiting = outbox.pending(now(), BATCH);
        if (waiting.length === 0) return outbox.nextAt();
        for (const message of waiting) {
          const held = heldUntil(breaker, now());
          if (held) return held;
          if (signal?.aborted) return null;
          if (!isSteady()) return now();
          await attempt(message);
        }
      }
    },
  };
}

/** Joins and leaves out everything that is late, before anything of it is tried. */
export function catchUpLate(db: Database, outbox: OutboxStore, now: Date): void {
  const before = new Date(now.getTime() - LATE_AFTER_MS);
  outbox.dropLate(before, now);
  const places = outbox.lateTogether(before, now);
  for (let from = 0; from < places.length; from += PLACES)
    db.transaction(() => {
      for (const ids of places.slice(from, from + PLACES))
        for (const { carrier, others } of joinLate(outbox.byIds(ids), now)) {
          outbox.rewrite(carrier.id, mergedView([carrier, ...others].flatMap(({ view }) => view ?? [])));
          for (const { id } of others) outbox.sent(id, '', now);
        }
    }).immediate();
}
