import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  askedIn,
  evidenceOf,
  NOTHING_DESCRIBED,
  type Answer,
  type Described,
} from '../../../src/identification/session.ts';
import { SEED } from '../../set-up-hostile.ts';
import { base, evidence, identifier, model } from './engine.ts';

const after = (answers: readonly Answer[], described: Described = NOTHING_DESCRIBED) =>
  evidenceOf(model, base, { described, answers });
const posteriorAfter = (answers: readonly Answer[]) => [...identifier.identify(after(answers)).posterior.probabilities];

const [pair] = [...base.lookAlikes.values()].filter(({ danger }) => danger === undefined);
const anyAnswer: fc.Arbitrary<Answer> = fc.oneof(
  fc
    .constantFrom('bodyForm', 'colour', 'moves', 'whereSeen', 'texture' as const)
    .chain((trait) =>
      fc
        .constantFrom(...Object.keys(Reflect.get(model.vocabulary, trait).values as object))
        .map((option) => ({ question: trait, option })),
    ),
  fc.integer({ min: 0, max: 4 }).map((at) => ({ question: 'sizeMm', option: String(at) })),
  fc.constantFrom(pair?.a ?? '', pair?.b ?? '').map((option) => ({ question: `pair/${pair?.id}/0`, option })),
);

describe('answers become evidence', () => {
  test('nothing told and nothing answered is no evidence', () => {
    expect(after([])).toEqual(evidence({}));
  });

  test('an option of a trait was chosen', () => {
    expect(after([{ question: 'colour', option: 'red' }]).observations).toEqual([
      { kind: 'chose', readings: [{ trait: 'colour', value: 'red' }] },
    ]);
  });

  test('a length is the span of its option', () => {
    const { low, high } = model.vocabulary.sizeMm.options[2] ?? { low: NaN, high: NaN };
    expect(after([{ question: 'sizeMm', option: '2' }]).observations).toEqual([
      { kind: 'size', lowMm: low, highMm: high },
    ]);
  });

  test('a telling feature is a look at its pair', () => {
    const answer = { question: `pair/${pair?.id}/0`, option: pair?.b ?? '' };
    expect(after([answer]).features).toEqual([{ pair: pair?.id, feature: 0, looksLike: pair?.b }]);
  });

  test.each([
    { question: 'colour', option: 'skip' },
    { question: 'sizeMm', option: 'skip' },
    { question: `pair/${pair?.id}/0`, option: 'skip' },
    { question: 'sizeMm', option: '99' },
    { question: 'pair/gone--away/0', option: 'gone' },
    { question: 'no-such-question', option: 'red' },
    { question: '__proto__', option: 'constructor' },
  ])('$question: $option says nothing', (answer) => {
    expect(after([answer])).toEqual(evidence({}));
  });

  test('"can’t see" changes nothing, wherever it stands', () => {
    fc.assert(
      fc.property(fc.array(anyAnswer, { maxLength: 5 }), fc.nat(5), (answers, at) => {
        const skip = { question: 'numbers', option: 'skip' };
        const withSkip = [...answers.slice(0, at), skip, ...answers.slice(at)];
        expect(after(withSkip)).toEqual(after(answers));
      }),
      { seed: SEED },
    );
  });

  test('an option that is gone from the vocabulary changes no odds', () => {
    expect(posteriorAfter([{ question: 'colour', option: 'no-such-colour' }])).toEqual(posteriorAfter([]));
  });

  test('in any order they say the same', () => {
    const shuffled = fc
      .array(anyAnswer, { maxLength: 6 })
      .chain((answers) =>
        fc.shuffledSubarray(answers, { minLength: answers.length }).map((again) => ({ answers, again })),
      );
    fc.assert(
      fc.property(shuffled, ({ answers, again }) => {
        expect(posteriorAfter(again)).toEqual(posteriorAfter(answers));
      }),
      { seed: SEED },
    );
  });

  test('the last one taken back leaves what was before', () => {
    fc.assert(
      fc.property(fc.array(anyAnswer, { minLength: 1, maxLength: 6 }), (answers) => {
        const before = posteriorAfter(answers.slice(0, -1));
        posteriorAfter(answers);
        expect(posteriorAfter(answers.slice(0, -1))).toEqual(before);
      }),
      { seed: SEED },
    );
    expect(posteriorAfter([{ question: 'colour', option: 'red' }])).not.toEqual(posteriorAfter([]));
  });
});

describe('a description and its answers', () => {
  const described: Described = {
    observations: [
      { kind: 'saw', readings: [{ trait: 'bodyForm', value: 'star' }], said: 'starfish' },
      { kind: 'size', lowMm: 10, highMm: 20 },
      { kind: 'word', word: 'ring' },
    ],
    named: ['aiptasia'],
    alarm: true,
    hurt: [],
    near: 'zoanthus',
    since: 'new rock',
  };

  test('are folded together', () => {
    const folded = after([{ question: 'colour', option: 'red' }], described);
    expect(folded).toEqual({
      observations: [...described.observations, { kind: 'chose', readings: [{ trait: 'colour', value: 'red' }] }],
      features: [],
      named: ['aiptasia'],
      alarm: true,
      hurt: [],
      context: { near: 'zoanthus', since: 'new rock' },
    });
  });

  test('what was asked is known from the answers, skipped ones too', () => {
    const answers = [
      { question: 'colour', option: 'red' },
      { question: 'sizeMm', option: 'skip' },
    ];
    expect(askedIn({ answers })).toEqual(new Set(['colour', 'sizeMm']));
  });
});
