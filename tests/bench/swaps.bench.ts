import { openTemporaryDatabase } from '../../src/database/open.ts';
import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import { findCommands } from '../../src/swaps/find.command.ts';
import { findStore } from '../../src/swaps/find.store.ts';
import { offerStore, type NewOffer } from '../../src/swaps/offer.store.ts';
import { quantile, type Row } from './figures.ts';

const LISTINGS = 10_000;
const ROUNDS = 600;
const WARM_UPS = 100;
/** Somebody offers or takes something back between every so many questions. */
const CHANGES_EVERY = 5;
const GOAL_MS = 5;
const NOW = new Date('2026-11-29T12:00:00Z');
const COLOURS = ['green', 'teal', 'gold', 'toxic green', 'pink', 'bleeding red', null];
const WORDS = [
  'tips',
  'fast',
  'slow',
  'old',
  'colony',
  'mother',
  'bright',
  'under',
  'blue',
  'light',
  'splits',
  'often',
];
const AREAS = ['north side', 'old town', 'harbour', 'by the station', null];
const ASKED: Readonly<Record<string, string>>[] = [
  {},
  { text: 'torch' },
  { text: 'tael' },
  { text: 'green acropora' },
  { text: 'mother colony', settled: 'yes' },
  { light: 'low', free: 'yes' },
  { kind: 'soft', area: 'north' },
  { text: 'acroproa', growth: 'branching' },
  { text: 'nothing like this' },
];

/** The same twice, and the faster one counts: other programs run on the machine too. */
function fasterOfTwo(work: () => unknown, before: () => void = () => undefined): number {
  const times = [0, 1].map(() => {
    before();
    const began = performance.now();
    work();
    return performance.now() - began;
  });
  return Math.min(...times);
}

/** `/frag find` over ten thousand listings that change meanwhile, against a walk over all of them. */
export function benchFinds(): Row[] {
  const base = loadCompiledKnowledge('dist/knowledge.json');
  const { db, close } = openTemporaryDatabase();
  const offers = offerStore(db);
  const corals = [...base.corals.values()];
  const listing = (at: number): NewOffer => {
    const coral = corals[(at * 7) % corals.length];
    return {
      guildId: '1',
      memberId: String(1000 + (at % 400)),
      channelId: '2',
      pieces: 1 + (at % 4),
      expiresAt: new Date(NOW.getTime() + 86_400_000 * 40),
      details: {
        coral: at % 9 === 0 ? null : (coral?.id ?? null),
        name: coral?.hobbyNames[at % 3] ?? coral?.name ?? 'frag',
        special: `${WORDS[at % 12]} ${WORDS[(at >> 2) % 12]} ${WORDS[(at >> 4) % 12]} word${at % 3000}`,
        size: null,
        cutOn: at % 3 === 0 ? `2026-11-${String(1 + (at % 28)).padStart(2, '0')}` : null,
        healsInDays: 14,
        light: null,
        flow: null,
        colour: COLOURS[at % COLOURS.length] ?? null,
        motherAge: null,
        pestsSeen: null,
        dips: null,
        swapFor: null,
        give: at % 6 === 0,
        area: AREAS[at % AREAS.length] ?? null,
        photoAlt: null,
      },
    };
  };
  db.transaction(() => {
    for (let at = 0; at < LISTINGS; at += 1) offers.add(listing(at), NOW);
  })();
  const listings = findStore(db, offers, base);
  const [find] = findCommands({ base, listings, offers, blockedWith: () => new Set(), zones: { of: () => undefined } });
  if (!find) throw new Error('there is no /frag find');
  const request = { memberId: '5', memberName: 'Nell', guildId: '1', channelId: '2', locale: 'en-GB', now: NOW };
  const samples: number[] = [];
  const floor: number[] = [];
  const beganMs = performance.now();
  listings.index('1', NOW);
  const builtMs = performance.now() - beganMs;
  let came = LISTINGS;
  const change = () => {
    const { id } = offers.add(listing(came), NOW);
    came += 1;
    const old = offers.find(id - LISTINGS, '1');
    if (old) offers.save({ ...old, state: 'withdrawn' }, NOW);
  };
  for (let round = -WARM_UPS; round < ROUNDS; round += 1) {
    const parsed = find.parse(ASKED[(round + WARM_UPS) % ASKED.length] ?? {});
    if (!parsed.ok) throw new Error('not understood');
    const askedMs = fasterOfTwo(() => parsed.run(request), round % CHANGES_EVERY === 0 ? change : undefined);
    let open = 0;
    const walkedMs = fasterOfTwo(() => {
      open = listings
        .index('1', NOW)
        .offers()
        .filter(({ left }) => left > 0).length;
    });
    if (open !== LISTINGS) throw new Error(`${open} are open`);
    if (round < 0) continue;
    samples.push(askedMs);
    floor.push(walkedMs);
  }
  close();
  const [ours, walk] = [quantile(samples, 0.99), quantile(floor, 0.99)];
  return [
    {
      what: `find over ${LISTINGS} listings, p99 (first: ${builtMs.toFixed(0)} ms)`,
      ours: `${ours.toFixed(2)} ms`,
      floor: `${walk.toFixed(2)} ms`,
      ratio: (ours / walk).toFixed(1),
      goal: `< ${GOAL_MS} ms`,
      met: ours < GOAL_MS,
    },
  ];
}
