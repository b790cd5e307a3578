import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KeptPromise } from '../../../src/promises/promise.ts';
import { DAY_MS, later, NOW, openStores } from './promise-club.ts';

const who = (list: readonly KeptPromise[], state: KeptPromise['state']) =>
  list.filter((each) => each.state === state).map(({ takerId }) => takerId);

describe('promises of a listing', () => {
  test('go to the first who press, the rest wait in order, and a piece let go is the next one’s at once', () => {
    const { promises, offer } = openStores();
    const zoas = offer('nell', 2);
    const pressed = ['uma', 'bo', 'olu', 'tom'].map((taker) => promises.promise(zoas, taker, NOW));
    expect(pressed.map(({ kind, place }) => [kind, place])).toEqual([
      ['promised', undefined],
      ['promised', undefined],
      ['queued', 1],
      ['queued', 2],
    ]);
    expect(promises.promise(zoas, 'olu', NOW)).toMatchObject({ kind: 'already', place: 1 });
    expect(promises.promise(zoas, 'nell', NOW)).toEqual({ kind: 'own' });
    const released = promises.release(pressed[0]!.promise!, 'uma', 'no room', later(1));
    expect(released).toMatchObject({ kind: 'moved', promise: { state: 'released', word: 'no room' } });
    expect(released.kind === 'moved' && released.next.map(({ takerId }) => takerId)).toEqual(['olu']);
    expect(who(promises.of(zoas), 'promised')).toEqual(['bo', 'olu']);
    expect(promises.promise(zoas, 'uma', later(2))).toMatchObject({ kind: 'queued', place: 2 });
    expect(promises.release(pressed[1]!.promise!, 'tom', null, NOW)).toEqual({ kind: 'no', why: 'not-yours' });
  });

  test('end with the pieces: when all were handed over nobody waits in vain', () => {
    const { promises, offer } = openStores();
    const zoas = offer('nell', 1);
    const { promise } = promises.promise(zoas, 'uma', NOW);
    promises.act(promise!.id, 'hand-over', 'nell', NOW);
    expect(promises.act(promise!.id, 'receive', 'uma', NOW)).toMatchObject({ promise: { state: 'handed-over' } });
    expect(promises.promise(zoas, 'bo', NOW)).toEqual({ kind: 'gone' });
    expect(promises.record('club', 'nell')).toEqual({ given: 1, received: 0 });
    expect(promises.record('club', 'uma')).toEqual({ given: 0, received: 1 });
  });

  test('are never more than the pieces, whatever is written to the tables', () => {
    const { db, promises, offer } = openStores();
    const zoas = offer('nell', 1);
    promises.promise(zoas, 'uma', NOW);
    promises.promise(zoas, 'bo', NOW);
    const refused = 'more pieces promised than there are';
    expect(() => db.exec(`UPDATE swap_promises SET state = 'promised'`)).toThrow(refused);
    expect(() =>
      db.exec(`INSERT INTO swap_promises (guild_id, offer_id, giver_id, taker_id, state, created_at_ms, changed_at_ms)
        VALUES ('club', ${zoas.id}, 'nell', 'tom', 'handed-over', 1, 1)`),
    ).toThrow(refused);
    const two = offer('nell', 2);
    promises.promise(two, 'tom', NOW);
    promises.promise(two, 'olu', NOW);
    expect(() => db.exec(`UPDATE swap_offers SET pieces = 1 WHERE id = ${two.id}`)).toThrow(refused);
    expect(() =>
      db.exec(`UPDATE swap_promises SET offer_id = ${zoas.id} WHERE offer_id = ${two.id} AND taker_id = 'tom'`),
    ).toThrow(refused);
  });

  test('of a ring are all promised or none', () => {
    const { promises, offer } = openStores();
    const [a, b, c] = [offer('nell', 1), offer('uma', 1), offer('bo', 1)];
    const arcs = [
      { offerId: a.id, giverId: 'nell', takerId: 'uma' },
      { offerId: b.id, giverId: 'uma', takerId: 'bo' },
      { offerId: c.id, giverId: 'bo', takerId: 'nell' },
    ];
    const { promise } = promises.promise(c, 'olu', NOW);
    promises.promise(c, 'nell', NOW);
    expect(promises.promiseForRing(arcs, 9, later(7 * DAY_MS), NOW)).toBe(false);
    expect([...promises.of(a), ...promises.of(b)]).toEqual([]);
    promises.release(promise!, 'olu', null, NOW);
    promises.act(promises.of(c).at(-1)!.id, 'release', 'nell', NOW);
    promises.blocks.block('club', 'bo', 'uma', NOW);
    expect(promises.promiseForRing(arcs, 9, later(7 * DAY_MS), NOW)).toBe(false);
    promises.blocks.unblock('club', 'bo', 'uma');
    expect(promises.promiseForRing(arcs, 9, later(7 * DAY_MS), NOW)).toBe(true);
    for (const each of [a, b, c])
      expect(promises.of(each).at(-1)).toMatchObject({ state: 'promised', ringId: 9, until: later(7 * DAY_MS) });
  });

  test('pass over whom a block keeps apart, and keep their place', () => {
    const { promises, offer } = openStores();
    const zoas = offer('nell', 1);
    const { promise } = promises.promise(zoas, 'uma', NOW);
    promises.promise(zoas, 'bo', NOW);
    promises.promise(zoas, 'olu', NOW);
    promises.blocks.block('club', 'nell', 'bo', NOW);
    promises.release(promise!, 'nell', null, NOW);
    expect(who(promises.of(zoas), 'promised')).toEqual(['olu']);
    expect(who(promises.of(zoas), 'queued')).toEqual(['bo']);
    promises.act(promises.of(zoas).at(-1)!.id, 'release', 'olu', NOW);
    expect(promises.promise(zoas, 'tom', NOW).kind).toBe('promised');
    expect(promises.blocked('club')).toEqual(new Set(['nell/bo', 'bo/nell']));
    promises.release(promises.of(zoas).at(-1)!, 'tom', null, NOW);
    promises.blocks.unblock('club', 'nell', 'bo');
    promises.fill(zoas, NOW);
    expect(who(promises.of(zoas), 'promised')).toEqual(['bo']);
  });
});

type Step = { what: string; member: number; at: number };
const MEMBERS = ['uma', 'bo', 'olu', 'tom', 'ana', 'ira'];

/** What a plain list says of one listing: who has a piece, who waits, who was given one. */
type Model = { promised: string[]; queued: string[]; given: number };

test('random acts never promise more than the pieces and never lose a place, and a withdrawal is taken back exactly', () => {
  const step: fc.Arbitrary<Step> = fc.record({
    what: fc.constantFrom(
      'press',
      'press',
      'press',
      'release',
      'give',
      'expire',
      'gone-and-back',
      'block',
      'unblock',
      'grow',
    ),
    member: fc.nat(MEMBERS.length - 1),
    at: fc.nat(3),
  });
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 3 }), fc.array(step, { maxLength: 40 }), (pieces, steps) => {
      const { promises, offers, offer } = openStores();
      const zoas = offer('nell', pieces);
      const model: Model = { promised: [], queued: [], given: 0 };
      const blocked = new Set<string>();
      let room = pieces;
      let now = NOW;
      const fill = () => {
        for (const taker of model.queued.filter((each) => !blocked.has(each)))
          if (model.promised.length + model.given < room) {
            model.queued = model.queued.filter((each) => each !== taker);
            model.promised.push(taker);
          }
      };
      const live = (taker: string) =>
        promises.of(zoas).find((each) => each.takerId === taker && ['queued', 'promised'].includes(each.state));
      for (const { what, member, at } of steps) {
        now = new Date(now.getTime() + at);
        const taker = MEMBERS[member]!;
        const has = model.promised.includes(taker);
        switch (what) {
          case 'press': {
            const { kind } = promises.promise(zoas, taker, now);
            if (has || model.queued.includes(taker)) expect(kind).toBe('already');
            else if (blocked.has(taker)) expect(kind).toBe('blocked');
            else if (model.given >= room) expect(kind).toBe('gone');
            else {
              model.queued.push(taker);
              fill();
              expect(kind).toBe(model.promised.includes(taker) ? 'promised' : 'queued');
            }
            break;
          }
          case 'release': {
            const found = live(taker);
            if (found) promises.release(found, at % 2 ? taker : 'nell', null, now);
            model.promised = model.promised.filter((each) => each !== taker);
            model.queued = model.queued.filter((each) => each !== taker);
            fill();
            break;
          }
          case 'give': {
            const found = live(taker);
            if (found) promises.act(found.id, 'receive', taker, now);
            if (found) promises.act(found.id, 'hand-over', 'nell', now);
            if (has) model.given += 1;
            model.promised = model.promised.filter((each) => each !== taker);
            break;
          }
          case 'expire': {
            const found = live(taker);
            if (found) promises.act(found.id, 'expire', 'clock', new Date(now.getTime() + 8 * DAY_MS));
            // What the next one gets there lasts from then on; only who has it matters here.
            model.promised = model.promised.filter((each) => each !== taker);
            if (has) fill();
            break;
          }
          case 'gone-and-back': {
            const before = promises.of(zoas).map(({ changedAt: _changed, ...rest }) => rest);
            promises.offerGone(zoas, now);
            expect(promises.of(zoas).filter(({ state }) => state === 'queued' || state === 'promised')).toEqual([]);
            promises.offerBack(zoas, now);
            expect(promises.of(zoas).map(({ changedAt: _changed, ...rest }) => rest)).toEqual(before);
            break;
          }
          case 'block':
            promises.blocks.block('club', 'nell', taker, now);
            blocked.add(taker);
            break;
          case 'unblock':
            promises.blocks.unblock('club', 'nell', taker);
            blocked.delete(taker);
            promises.fill(zoas, now);
            fill();
            break;
          case 'grow':
            if (room < 5) {
              room += 1;
              offers.save({ ...offers.find(zoas.id, 'club')!, pieces: room }, now);
              promises.fill(zoas, now);
              fill();
            }
            break;
        }
        const kept = promises.of(zoas);
        const taken = kept.filter(({ state }) => state === 'promised' || state === 'handed-over');
        expect(taken.length).toBeLessThanOrEqual(room);
        expect(offers.find(zoas.id, 'club')!.left).toBe(room - taken.length);
        expect(who(kept, 'queued')).toEqual(model.queued);
        expect(who(kept, 'promised').sort()).toEqual([...model.promised].sort());
        expect(kept.filter(({ state }) => state === 'handed-over')).toHaveLength(model.given);
      }
    }),
    { numRuns: 80, seed: 77 },
  );
});
