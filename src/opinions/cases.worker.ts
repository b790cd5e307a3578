import type { Database } from 'better-sqlite3';
import type { Identifier } from '../identification/identify.ts';
import type { OutboxMessage, Settled } from '../outbox/outbox.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { BallotStore } from './ballot.store.ts';
import { answersInWords } from './answers-in-words.ts';
import { botOpinion } from './bot-opinion.ts';
import { callOf, verdictByVote } from './call.ts';
import {
  ballotChange,
  ballotMessage,
  changesOf,
  noticeKey,
  noticeMessage,
  openingMessage,
  readTopic,
  threadMessage,
  topicOf,
} from './case-messages.ts';
import type { CaseStore, NewCase } from './case.store.ts';
import { takenBackView, type CaseShown } from './case.view.ts';
import { closeByVote, wasRight, withdraw, type Ballot, type Case, type Moved } from './opinion.ts';

const BATCH = 50;
/** An opening that could only be posted this late starts its time anew. */
const LATE_OPENING_MS = 15 * 60_000;
/** An entry is named at the end of a vote from this probability on. */
const NAMED_FROM = 0.5;

export type CasesDeps = {
  db: Database;
  cases: CaseStore;
  ballots: BallotStore;
  outbox: OutboxStore;
  identifier: Identifier;
};

/** What happens to cases: every step and the messages that follow from it are one transaction. */
export function casesWorker({ db, cases, ballots, outbox, identifier }: CasesDeps) {
  const atOnce = <T>(work: () => T): T => db.transaction(work).immediate();

  const show = (opinion: Case): CaseShown => {
    const answered = opinion.sighting ? answersInWords(identifier, opinion.sighting) : [];
    const bot = botOpinion(identifier, opinion);
    const cast = ballots.of(opinion.id, opinion.guildId);
    return {
      base: identifier.base,
      opinion,
      bot,
      answered,
      ballots: cast,
      call: callOf(bot.prior, cast, opinion.askerId),
    };
  };

  const refresh = (opinion: Case, now: Date): CaseShown => {
    const shown = show(opinion);
    for (const change of changesOf(shown)) outbox.addEdit(change, now);
    return shown;
  };

  /** Only what a curator settled counts in records: a majority must not make its own members look reliable. */
  const keepRecords = (opinion: Case): void => {
    const { closed } = opinion;
    const truth = closed?.how === 'settled' ? closed.verdict : null;
    const outcomes =
      truth === null
        ? []
        : ballots.of(opinion.id, opinion.guildId).flatMap(({ memberId, verdict }) => {
            const right = memberId === closed?.byId ? null : wasRight(verdict, truth);
            return right === null ? [] : [{ memberId, wasRight: right }];
          });
    ballots.record(opinion.id, opinion.guildId, outcomes);
  };

  /** Keeps a case that has moved, brings its messages up to date, and tells the asker of a decision. */
  const keep = (opinion: Case, before: Case, dueAt: Date, now: Date): CaseShown => {
    cases.save(opinion);
    keepRecords(opinion);
    const shown = refresh(opinion, now);
    if (opinion.closed && opinion.closings > before.closings) outbox.add(noticeMessage(shown, opinion.closed, dueAt));
    return shown;
  };

  /** What was told of a decision that is taken back: called off, or changed where it stands. */
  const takeBackNotice = (opinion: Case, now: Date): void => {
    const key = noticeKey(opinion);
    if (outbox.callOff(key, opinion.guildId, now)) return;
    const sent = outbox.sentAs(key, opinion.guildId);
    if (!sent?.messageId) return;
    const { guildId } = opinion;
    const [topic, view] = [topicOf(opinion, 'change'), takenBackView(opinion)];
    outbox.addEdit({ guildId, topic, channelId: sent.channelId, targetId: sent.messageId, view }, now);
  };

  const posted = (opinion: Case, messageId: string, now: Date): void => {
    const isLate = now.getTime() - opinion.openedAt.getTime() > LATE_OPENING_MS;
    const placed: Case = {
      ...opinion,
      messageId,
      closesAt: isLate ? new Date(now.getTime() + opinion.openForMs) : opinion.closesAt,
    };
    cases.place(placed);
    cases.save(placed);
    if (isLate) refresh(placed, now);
    outbox.add(placed.wantsThread ? threadMessage(placed, now) : ballotMessage(show(placed), now));
  };

  /** The asker hears of it at their next use of the bot; nobody else ever saw the case. */
  const neverPosted = (opinion: Case, now: Date): void => {
    const result = withdraw(opinion, opinion.askerId, now);
    if (result.kind === 'moved') cases.save(result.opinion);
  };

  const balloted = (opinion: Case, message: OutboxMessage, messageId: string, now: Date): void => {
    // A thread that did not take the ballot is no place to vote in.
    const threadId = message.channelId === opinion.threadId ? opinion.threadId : null;
    const placed = { ...opinion, threadId, ballotMessageId: messageId };
    cases.place(placed);
    refresh(placed, now);
  };

  return {
    show,
    find: cases.find,
    /** The case that was opened from a sighting and not withdrawn since. */
    ofSighting: cases.ofSighting,
    /** Opens a case; it goes up as soon as the outbox is delivered. */
    open: (opened: NewCase, photo: Buffer | null): CaseShown =>
      atOnce(() => {
        const shown = show(cases.open(opened));
        outbox.add(openingMessage(shown, photo));
        return shown;
      }),
    /** Keeps a ballot. `where`: whether the member voted on the ballot message, which then shows the count itself. */
    cast: (opinion: Case, ballot: Ballot, where: 'on-the-ballot' | 'elsewhere', now: Date): CaseShown =>
      atOnce(() => {
        ballots.cast(opinion.id, opinion.guildId, ballot, now);
        const shown = show(opinion);
        const { guildId, ballotMessageId } = opinion;
        if (where === 'elsewhere') for (const change of ballotChange(shown)) outbox.addEdit(change, now);
        else if (ballotMessageId) outbox.giveUpEdits(guildId, ballotMessageId, now);
        return shown;
      }),
    ballotOf: (opinion: Case, memberId: string): Ballot | undefined =>
      ballots.of(opinion.id, opinion.guildId).find((ballot) => ballot.memberId === memberId),
    /** Takes a step that `decide` allows on the case as it is at this moment. */
    move: (id: number, guildId: string, decide: (opinion: Case) => Moved, now: Date): Moved =>
      atOnce(() => {
        const before = cases.find(id, guildId);
        if (!before) return { kind: 'no', why: 'closed' };
        const result = decide(before);
        if (result.kind === 'moved') {
          const isTakenBack = before.undo !== null && result.opinion.undo === null && before.closed?.how === 'settled';
          if (isTakenBack && result.opinion.closings === before.closings) takeBackNotice(before, now);
          keep(result.opinion, before, now, now);
        }
        return result;
      }),
    /** Closes what is due, each case in a transaction with its notice. */
    closeDue(now: Date): void {
      for (let due = cases.due(now, BATCH); due.length > 0; due = cases.due(now, BATCH))
        for (const opinion of due)
          atOnce(() => {
            const { call, bot } = show(opinion);
            const verdict = verdictByVote(call, bot.dangers.length > 0);
            const [top] = call.entries;
            const entry = call.voters > 0 && top && top.probability >= NAMED_FROM ? top.id : null;
            const result = closeByVote(opinion, verdict, verdict === 'cannot-tell' ? null : entry, now);
            if (result.kind === 'moved') keep(result.opinion, opinion, opinion.closesAt, now);
          });
    },
    /** Hears, inside its transaction, that a message of a case needs no more work, and takes the next step. */
    settled(message: OutboxMessage, outcome: Settled, now: Date): void {
      const topic = readTopic(message.topic);
      const opinion = topic && cases.find(topic.caseId, message.guildId);
      if (!topic || !opinion) return;
      switch (topic.step) {
        case 'opening':
          if (outcome.kind === 'sent') posted(opinion, outcome.messageId, now);
          else neverPosted(opinion, now);
          return;
        case 'thread': {
          const placed = { ...opinion, threadId: outcome.kind === 'sent' ? outcome.messageId : null };
          cases.place(placed);
          outbox.add(ballotMessage(show(placed), now));
          return;
        }
        case 'ballot':
          if (outcome.kind === 'sent') balloted(opinion, message, outcome.messageId, now);
          return;
        case 'notice':
        case 'change':
          return;
      }
    },
    settledCases: (guildId: string, limit: number): CaseShown[] => cases.settled(guildId, limit).map(show),
  };
}
export type Cases = ReturnType<typeof casesWorker>;
