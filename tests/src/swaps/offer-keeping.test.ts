import { expect, onTestFinished, test } from 'vitest';
import { clubStore } from '../../../src/club/club.store.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { createCoralNames } from '../../../src/knowledge/coral-names.ts';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { promisesWorker } from '../../../src/promises/promises.worker.ts';
import { Typed } from '../../../src/swaps/draft.ts';
import { draftStore } from '../../../src/swaps/draft.store.ts';
import { offerActStore } from '../../../src/swaps/offer-acts.store.ts';
import { offerCards } from '../../../src/swaps/offer-cards.worker.ts';
import { offerKeeping } from '../../../src/swaps/offer-keeping.worker.ts';
import { MOST_OFFERS, MOST_WANTS, type OfferDetails } from '../../../src/swaps/offer.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import { offersDue } from '../../../src/swaps/offers-due.worker.ts';
import { wantNewsStore } from '../../../src/swaps/want-news.store.ts';
import { wantCommand } from '../../../src/swaps/want.command.ts';
import { wantStore } from '../../../src/swaps/want.store.ts';
import { knowledge } from '../../set-up-club.ts';

const NOW = new Date('2026-11-29T12:00:00Z');
const after = (days: number) => new Date(NOW.getTime() + days * 86_400_000);
const DETAILS: OfferDetails = {
  ...{ coral: 'euphyllia', name: 'Torch coral', special: null, size: null, cutOn: null, healsInDays: 14 },
  ...{ light: null, flow: null, colour: null, motherAge: null, pestsSeen: null, dips: null },
  ...{ swapFor: null, give: true, area: null, photoAlt: null },
};
const FILLED = { pieces: 1, details: DETAILS };

function openShelf() {
  const { db, close } = openTemporaryDatabase();
  onTestFinished(close);
  const base = knowledge();
  const [offers, outbox, promises] = [offerStore(db), outboxStore(db), promiseStore(db)];
  const cards = offerCards({ base, offers, outbox, promisesOf: promises.of });
  const promising = promisesWorker({ db, base, promises, offers, outbox, cards });
  const drafts = draftStore(db);
  const deps = {
    ...{ db, base, offers, outbox, promises, cards, promising, drafts },
    ...{ acts: offerActStore(db), wants: wantStore(db), news: wantNewsStore(db), zoneOf: () => null },
  };
  const begin = () =>
    drafts.add({ guildId: 'g', memberId: 'nell', channelId: 'c', offerId: null, typed: Typed.parse({ coral: 'euphyllia' }) }, NOW); // prettier-ignore
  const keys = (like: string) => db.prepare('SELECT key FROM outbox WHERE key LIKE ?').pluck().all(like);
  return { ...deps, begin, keys, keeping: offerKeeping(deps), due: offersDue(deps) };
}

test('so many offers stand at once and no more; the draft of the one too many is kept', () => {
  const { keeping, begin, drafts, offers } = openShelf();
  for (let count = 0; count < MOST_OFFERS; count += 1)
    expect(keeping.post(begin(), FILLED, 'c', NOW).kind).toBe('posted');
  const draft = begin();
  expect(keeping.post(draft, FILLED, 'c', NOW)).toEqual({ kind: 'too-many' });
  expect(drafts.find(draft.id, 'g', 'nell')).toBeDefined();
  expect(keeping.withdraw(offers.find(1, 'g')!, false, NOW).kind).toBe('withdrawn');
  expect(keeping.post(draft, FILLED, 'c', NOW).kind).toBe('posted');
  expect(keeping.undo(offers.find(1, 'g')!, NOW)).toEqual({ kind: 'too-many' });
});

test('so many wants stand at once and no more, and nothing is lost of those there are', () => {
  const shelf = openShelf();
  const command = wantCommand({ ...shelf, corals: createCoralNames(shelf.base), clubs: clubStore(shelf.db) });
  const request = {
    ...{ guildId: 'g', memberId: 'uma', memberName: 'Uma', channelId: 'c' },
    locale: 'en-GB',
    now: NOW,
  };
  const look = (coral: string) => {
    const parsed = command.parse({ coral });
    return JSON.stringify(parsed.ok ? parsed.run(request) : parsed.error);
  };
  const letters = [...'abcdefghijklmnopqrstuvwxyz'];
  const words = ['thing', 'stuff'].flatMap((noun) => letters.map((letter) => `${letter.repeat(7)} ${noun}`));
  for (const each of words.slice(0, MOST_WANTS)) expect(look(each)).toContain('You look for');
  expect(look('one more thing')).toContain(`${MOST_WANTS} things at once`);
  expect(look('aaaaaaa thing')).toContain('You look for that already');
  expect(shelf.wants.own('g', 'uma')).toHaveLength(MOST_WANTS);
});

test('a draft becomes one offer, however often it is posted', () => {
  const { keeping, begin, offers, keys } = openShelf();
  const draft = begin();
  expect(keeping.post(draft, FILLED, 'c', NOW).kind).toBe('posted');
  expect(keeping.post(draft, FILLED, 'c', NOW)).toEqual({ kind: 'gone' });
  expect(offers.own('g', 'nell')).toHaveLength(1);
  expect(keys('frag/offer/%')).toEqual(['frag/offer/1']);
});

test('the word before the end and the one at it come once for each end, however often the clock turns', () => {
  const { keeping, begin, offers, keys, due } = openShelf();
  keeping.post(begin(), FILLED, 'c', NOW);
  for (const day of [10, 39, 40, 41, 41, 44, 45, 46, 46]) due.fireDue(after(day));
  expect(keys('frag/ending/%')).toHaveLength(1);
  expect(keys('frag/ended/%')).toHaveLength(1);
  expect(offers.find(1, 'g')!.state).toBe('expired');
  keeping.renew(offers.find(1, 'g')!, after(50));
  for (const day of [51, 91, 92, 96]) due.fireDue(after(day));
  expect(keys('frag/ending/%')).toHaveLength(2);
  expect(keys('frag/ended/%')).toHaveLength(2);
});

test('what a curator did since is not undone by its keeper, and what was not posted is put up by a renewal', () => {
  const { db, keeping, begin, offers, keys, cards } = openShelf();
  keeping.post(begin(), FILLED, 'c', NOW);
  keeping.renew(offers.find(1, 'g')!, after(1));
  db.prepare(
    `INSERT INTO swap_acts (guild_id, offer_id, by_id, what, at_ms) VALUES ('g', 1, 'maren', 'curator-edit', 1)`,
  ).run();
  expect(keeping.undo(offers.find(1, 'g')!, after(2))).toEqual({ kind: 'nothing' });

  keeping.post(begin(), FILLED, 'c', NOW);
  const message = { guildId: 'g', topic: 'frag/2/card', channelId: 'c', view: null };
  cards.settled({ ...message } as unknown as Parameters<typeof cards.settled>[0], { kind: 'dead', why: 'gone' }, NOW);
  expect(offers.find(2, 'g')!.state).toBe('withdrawn');
  expect(keeping.renew(offers.find(2, 'g')!, after(1)).kind).toBe('renewed');
  expect(keys('frag/offer/2%')).toHaveLength(2);
});
