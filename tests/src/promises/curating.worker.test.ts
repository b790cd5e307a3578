import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outboxStore } from '../../../src/outbox/outbox.store.ts';
import { curatedStore } from '../../../src/promises/curated.store.ts';
import { curatingWorker } from '../../../src/promises/curating.worker.ts';
import { promisesWorker } from '../../../src/promises/promises.worker.ts';
import { base } from '../knowledge/real-base.ts';
import { later, NOW, openStores } from './promise-club.ts';

function opened() {
  const stores = openStores();
  const { db, offers, promises } = stores;
  const outbox = outboxStore(db);
  const happens = promisesWorker({ db, base, promises, offers, outbox, cards: { refresh: () => undefined } });
  const curates = curatingWorker({ db, offers, promises, kept: curatedStore(db), happens, outbox });
  return { ...stores, curates, happens };
}
const TAKERS = ['uma', 'bo', 'olu', 'tom', 'ana'];

test('two offers that are joined lose no promise, and a merge that nothing followed is taken back exactly', () => {
  let joined = 0;
  let returned = 0;
  fc.assert(
    fc.property(
      fc.array(fc.record({ first: fc.boolean(), taker: fc.nat(4), release: fc.boolean() }), { maxLength: 14 }),
      fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 3 })),
      (steps, [some, others]) => {
        const { offers, promises, offer, curates, happens } = opened();
        const [one, two] = [offer('nell', some), offer('nell', others)];
        for (const [at, { first, taker, release }] of steps.entries()) {
          const { promise } = happens.press(first ? one : two, TAKERS[taker]!, later(at));
          if (release && promise) happens.act(promise, 'release', TAKERS[taker]!, later(at));
        }
        const standing = () =>
          [one, two].map((each) => ({
            offer: offers.find(each.id, 'club'),
            promises: promises.of(each).map(({ changedAt: _changed, ...rest }) => rest),
          }));
        const before = standing();
        const taken = (of: ReturnType<typeof standing>) =>
          of.flatMap((each) => each.promises).filter(({ state }) => state === 'promised').length;
        const takers = (of: ReturnType<typeof standing>) =>
          new Set(
            of
              .flatMap((each) => each.promises)
              .flatMap(({ state, takerId }) => (state === 'promised' || state === 'queued' ? [takerId] : [])),
          );
        const into = offers.find(two.id, 'club')!;
        const result = curates.curate(one.id, 'club', { act: 'merge', into }, 'cora', 'the same coral', NOW);
        const after = standing();
        if (result.kind === 'no') {
          expect(result.why).toBe('promised-twice');
          expect(after).toEqual(before);
          return;
        }
        joined += 1;
        expect(after[1]!.offer).toMatchObject({ pieces: some + others });
        expect(after[0]!.promises).toEqual([]);
        expect(after[1]!.promises).toHaveLength(before.flatMap((each) => each.promises).length);
        expect(takers(after)).toEqual(takers(before));
        // A piece that lay free in one went on to the queue of the other: that cannot be undone without taking it away.
        const moved = taken(after) !== taken(before);
        const undone = curates.undo(one.id, 'club', 'cora', NOW);
        if (undone.kind === 'done' && !moved) {
          returned += 1;
          expect(standing()).toEqual(before);
        } else if (undone.kind === 'no') expect(standing()).toEqual(after);
        for (const each of standing())
          expect(each.promises.filter(({ state }) => state === 'promised').length).toBeLessThanOrEqual(
            each.offer!.pieces,
          );
      },
    ),
    { numRuns: 60, seed: 5 },
  );
  expect(joined).toBeGreaterThan(10);
  expect(returned).toBeGreaterThan(5);
});
