import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decide, isHarmful, type Decision } from '../../../src/identification/decide.ts';
import type { Evidence, Observation } from '../../../src/identification/evidence.ts';
import {
  ACTS,
  expectedHarms,
  leastHarm,
  severityOf,
  severityWeights,
  type Act,
} from '../../../src/identification/harm.ts';
import type { Identified } from '../../../src/identification/identify.ts';
import { valuesOf } from '../../../src/identification/model.ts';
import { NOTHING_DESCRIBED } from '../../../src/identification/session.ts';
import { sightingView } from '../../../src/identification/sighting.view.ts';
import type { Critter } from '../../../src/knowledge/critter.ts';
import { isGrave } from '../../../src/knowledge/look-up.ts';
import { NAMED_TRAITS } from '../../../src/knowledge/trait-words.ts';
import { SEED } from '../../set-up-hostile.ts';
import { anyEvidence, anyFeature } from './any-evidence.ts';
import { base, evidence, identifier, model, probabilityOf } from './engine.ts';

const RUNS = { numRuns: 400, seed: SEED };
const care = (act: Act) => ACTS.indexOf(act);

/** What one entry says of itself, or most of it: the evidence that leads to names. */
const tellingOf = (critter: Critter): fc.Arbitrary<Evidence> => {
  const own = NAMED_TRAITS.flatMap((trait) => valuesOf(critter, trait).map((value) => ({ trait, value })));
  const features = [...base.lookAlikes.values()]
    .filter(({ a, b }) => a === critter.id || b === critter.id)
    .flatMap((pair) => pair.features.map((_each, feature) => ({ pair: pair.id, feature, looksLike: critter.id })));
  return fc
    .tuple(fc.shuffledSubarray(own, { minLength: Math.min(3, own.length) }), fc.subarray(features), fc.boolean())
    .map(([readings, looks, chosen]) =>
      evidence({
        observations: readings.map((reading): Observation => ({ kind: chosen ? 'chose' : 'saw', readings: [reading] })),
        features: looks,
      }),
    );
};
const tellingOfAny = fc.constantFrom(...model.critters).chain(tellingOf);
const anyTale = fc.oneof(anyEvidence, tellingOfAny, tellingOfAny);
const keptCritters = model.critters.filter(({ verdict }) => verdict === 'keep');
const tellingOfKept = fc.constantFrom(...keptCritters).chain(tellingOf);

/** Look-alikes of the first candidate that could do harm, with how far below it they are. */
function harmfulDoubles({ decision, posterior }: Identified) {
  const [top] = decision.candidates;
  return (base.lookAlikesOf.get(top?.critter.id ?? '') ?? []).flatMap((pair) => {
    const other = base.critters.get(pair.a === top?.critter.id ? pair.b : pair.a);
    if (!top || !other || !(isHarmful(other) || pair.danger === other.id)) return [];
    return [{ pair, other, below: probabilityOf({ posterior }, other.id) / top.probability }];
  });
}

describe('the decision', () => {
  test('names at most three entries of the base, the most probable first, with the probabilities of the posterior', () => {
    fc.assert(
      fc.property(anyTale, (given) => {
        const { decision, posterior } = identifier.identify(given);
        const { candidates, nothing } = decision;
        expect(candidates.length).toBeGreaterThan(0);
        expect(candidates.length).toBeLessThanOrEqual(3);
        expect(candidates[0]?.probability).toBe(Math.max(...posterior.probabilities));
        expect(candidates).toEqual(candidates.toSorted((one, other) => other.probability - one.probability));
        expect(nothing).toBe(posterior.nothing);
        for (const { critter, probability } of candidates) {
          expect(critter).toBe(base.critters.get(critter.id));
          expect(probability).toBe(probabilityOf({ posterior }, critter.id));
        }
      }),
      RUNS,
    );
  });

  test('says "can’t tell" exactly when it says to ask, and names nothing less probable than an even chance', () => {
    const kinds = new Set<Decision['kind']>();
    fc.assert(
      fc.property(anyTale, (given) => {
        const { kind, act, candidates } = identifier.identify(given).decision;
        kinds.add(kind);
        expect(kind === 'cannot-tell').toBe(act === 'ask');
        if (kind === 'likely') expect(candidates[0]?.probability).toBeGreaterThanOrEqual(0.5);
      }),
      RUNS,
    );
    expect(kinds.size).toBe(2);
    expect(identifier.identify(evidence({})).decision).toMatchObject({ kind: 'cannot-tell', act: 'ask' });
  });

  test('never advises less than the named animal asks for', () => {
    const two = fc
      .tuple(
        fc.constantFrom(...model.critters),
        fc.constantFrom(...model.critters),
        fc.double({ min: 0.51, max: 0.75, noNaN: true }),
      )
      .filter(([named, other]) => named !== other && named.verdict !== 'keep');
    let raised = 0;
    fc.assert(
      fc.property(two, ([named, other, share]) => {
        const probabilities = new Float64Array(model.critters.length);
        probabilities[model.indexOf.get(named.id) ?? -1] = share;
        probabilities[model.indexOf.get(other.id) ?? -1] = 1 - share;
        const posterior = { probabilities, nothing: 0, contributions: [], logPrior: model.prior };
        const { kind, act } = decide(model, base, posterior, evidence({}));
        const weights = severityWeights(model.critters.map(severityOf), probabilities);
        if (kind === 'likely') expect(care(act)).toBeGreaterThanOrEqual(care(named.verdict));
        if (kind === 'likely' && act !== leastHarm(expectedHarms(weights, 0)).act) raised += 1;
      }),
      { ...RUNS, numRuns: 3_000 },
    );
    expect(raised).toBeGreaterThan(10);
  });
});

describe('"leave it"', () => {
  test('is never said while a harmful look-alike is not ruled out, nor with a word of alarm', () => {
    let kept = 0;
    let heldBack = 0;
    fc.assert(
      fc.property(tellingOfKept, (given) => {
        const identified = identifier.identify(given);
        const { act, notRuledOut, candidates, nothing } = identified.decision;
        const alarmed = identifier.identify({ ...given, alarm: true }).decision;
        expect(alarmed.act).not.toBe('keep');
        expect(care(alarmed.act)).toBeGreaterThanOrEqual(care(act));
        if (notRuledOut.length > 0) heldBack += 1;
        if (act !== 'keep') return;
        kept += 1;
        expect(notRuledOut).toEqual([]);
        expect(candidates[0]?.critter.verdict).toBe('keep');
        expect(candidates[0]?.probability).toBeGreaterThanOrEqual(0.8);
        expect(nothing).toBeLessThanOrEqual(0.12);
        const harmful = model.critters.reduce(
          (sum, critter) => sum + (isHarmful(critter) ? probabilityOf(identified, critter.id) : 0),
          0,
        );
        expect(harmful).toBeLessThanOrEqual(0.01);
        for (const { pair, other, below } of harmfulDoubles(identified)) {
          const cleared = given.features.some(
            (answer) =>
              answer.pair === pair.id &&
              answer.looksLike === candidates[0]?.critter.id &&
              pair.features[answer.feature]?.clears === true,
          );
          if (!(cleared && pair.danger === other.id)) expect(below).toBeLessThan(isGrave(other) ? 1 / 3000 : 1 / 400);
        }
      }),
      { ...RUNS, numRuns: 1_500 },
    );
    expect(kept).toBeGreaterThan(100);
    expect(heldBack).toBeGreaterThan(100);
  });

  test('is not said of a name that is not itself harmless, whatever was told', () => {
    fc.assert(
      fc.property(anyTale, (given) => {
        const { act, candidates } = identifier.identify(given).decision;
        if (act === 'keep') expect(candidates[0]?.critter.verdict).toBe('keep');
      }),
      RUNS,
    );
  });

  test('is held back by the look-alike that is left, and a clearing look at it sets it free', () => {
    const freed = [...base.lookAlikes.values()].flatMap((pair) => {
      const clearing = pair.features.findIndex(({ clears }) => clears);
      const danger = base.critters.get(pair.danger ?? '');
      const harmless = base.critters.get(pair.a === pair.danger ? pair.b : pair.a);
      if (clearing < 0 || !danger || harmless?.verdict !== 'keep') return [];
      const told = whatBothHave(harmless, danger);
      const { candidates, notRuledOut } = identifier.identify(told).decision;
      if (candidates[0]?.critter !== harmless || !notRuledOut.includes(danger)) return [];
      const look = { pair: pair.id, feature: clearing, looksLike: harmless.id };
      const after = identifier.identify({ ...told, features: [look] }).decision;
      return [{ pair: pair.id, left: after.notRuledOut.includes(danger) }];
    });
    expect(freed.length).toBeGreaterThan(3);
    expect(freed.filter(({ left }) => left)).toEqual([]);
  });

  /** What fits the harmless one and its dangerous double alike; the member takes it for the harmless one. */
  const whatBothHave = (harmless: Critter, danger: Critter): Evidence =>
    evidence({
      named: [harmless.id],
      observations: NAMED_TRAITS.flatMap((trait) =>
        valuesOf(harmless, trait)
          .filter((value) => valuesOf(danger, trait).includes(value))
          .map((value): Observation => ({ kind: 'saw', readings: [{ trait, value }] })),
      ),
    });
});

describe('one animal that is worse', () => {
  const WORSE = { keep: 'watch', watch: 'remove', remove: 'urgent', urgent: 'urgent' } as const;

  test('never makes the act less careful', () => {
    let changed = 0;
    const tales = anyTale.chain((given) => {
      const { candidates, notRuledOut } = identifier.identify(given).decision;
      const near = [...candidates.map(({ critter }) => critter), ...notRuledOut];
      return fc
        .oneof(fc.constantFrom(...near), fc.constantFrom(...model.critters))
        .map((critter) => ({ given, critter }));
    });
    fc.assert(
      fc.property(tales, ({ given, critter }) => {
        const { posterior, decision } = identifier.identify(given);
        const raised = { ...critter, verdict: WORSE[critter.verdict] };
        const critters = new Map(base.critters).set(critter.id, raised);
        const worse = decide({ ...model, critters: [...critters.values()] }, { ...base, critters }, posterior, given);
        if (worse.act !== decision.act) changed += 1;
        expect(care(worse.act)).toBeGreaterThanOrEqual(care(decision.act));
      }),
      { ...RUNS, numRuns: 1_500 },
    );
    expect(changed).toBeGreaterThan(20);
  });
});

describe('the feature that would settle it', () => {
  test('is of the first candidate and one that rivals it, was not answered, and clears where a danger is left', () => {
    const tales = fc.tuple(anyTale, fc.array(anyFeature, { maxLength: 2 }));
    fc.assert(
      fc.property(tales, ([given, looks]) => {
        const told = { ...given, features: [...given.features, ...looks] };
        const { settle, candidates, notRuledOut } = identifier.identify(told).decision;
        if (!settle) return;
        const { pair, feature, suspect, against } = settle;
        expect(against).toBe(candidates[0]?.critter);
        expect([...notRuledOut, ...candidates.map(({ critter }) => critter)]).toContain(suspect);
        expect([pair.a, pair.b].toSorted()).toEqual([suspect.id, against.id].toSorted());
        const isOpen = (at: number) =>
          !told.features.some((answer) => answer.pair === pair.id && answer.feature === at);
        expect(isOpen(feature)).toBe(true);
        const clearing = pair.features.filter(({ clears }, at) => clears && isOpen(at));
        if (clearing.length > 0) expect(clearing).toContain(pair.features[feature]);
      }),
      RUNS,
    );
  });
});

describe('what is shown', () => {
  test('bears the entry’s own name and nothing finer', () => {
    let titled = 0;
    fc.assert(
      fc.property(tellingOfAny, (given) => {
        const identified = identifier.identify(given);
        const { kind, candidates } = identified.decision;
        const sighting = { id: 1, memberId: '1', guildId: '1', text: '', described: NOTHING_DESCRIBED, answers: [] };
        const view = sightingView(base, model.vocabulary, sighting, identified, { audience: 'member' });
        const shown = view.blocks.flatMap((block) => (block.kind === 'text' ? block.text.markdown.split('\n') : []));
        const [title = ''] = shown;
        const name = candidates[0]?.critter.name ?? '';
        if (kind === 'likely') titled += 1;
        expect(title.startsWith(kind === 'likely' ? `## ${name}, likely — ` : '## Can’t tell — ')).toBe(true);
        const headed = shown.filter((line) => /^\*\*.+\*\*, (about|almost|more|less) /.test(line));
        for (const line of headed)
          expect(candidates.map(({ critter }) => critter.name)).toContain(/^\*\*(.+?)\*\*/.exec(line)?.[1]);
        for (const { critter } of candidates.filter(({ critter: { rank } }) => rank !== 'species'))
          if (!plain(critter).includes(critter.scientificName))
            expect(shown.join('\n')).not.toContain(critter.scientificName);
      }),
      RUNS,
    );
    expect(titled).toBeGreaterThan(100);
  });

  /** Everything an entry says outside its scientific name. */
  const plain = (critter: Critter) => JSON.stringify({ ...critter, scientificName: '' });
});
