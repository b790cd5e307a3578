import { beforeAll, describe, expect, test } from 'vitest';
import { isHarmful } from '../../../src/identification/decide.ts';
import { askedIn } from '../../../src/identification/session.ts';
import { identifier, model } from './engine.ts';
import {
  evidenceAfter,
  keyFigures,
  keyRuns,
  keyText,
  MOST_QUESTIONS,
  type KeyFigures,
  type KeyRun,
} from './key-simulation.ts';

const RUNS_EACH = 2;
const WRONG = 0.1;

describe('the key, over every entry, with one answer in ten wrong', () => {
  let runs: KeyRun[];
  let figures: KeyFigures;
  let table: string;
  beforeAll(() => {
    runs = keyRuns(identifier, RUNS_EACH, WRONG, 20_261_201);
    figures = keyFigures(runs);
    table = keyText(figures);
  }, 120_000);

  test('usually needs five questions or fewer', async ({ annotate }) => {
    await annotate(`\n${table}`, 'key');
    expect(figures.runs).toBe(model.critters.length * RUNS_EACH);
    expect(figures.medianWeighted, table).toBeLessThanOrEqual(5);
    expect(figures.withinFive, table).toBeGreaterThanOrEqual(0.55);
    expect(figures.unweighted.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
    expect(figures.weighted.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  test('ends in an act as careful as the animal asks for', () => {
    expect(figures.careful, table).toBeGreaterThanOrEqual(0.88);
    expect(figures.carefulOrAsked, table).toBeGreaterThanOrEqual(0.92);
  });

  test('finds the animal', () => {
    expect(figures.first, table).toBeGreaterThanOrEqual(0.55);
    expect(figures.inThree, table).toBeGreaterThanOrEqual(0.75);
  });

  test('says "leave it" of something harmful in no more than one run of two hundred', () => {
    expect(figures.harmfulLeft.length / figures.runs, figures.harmfulLeft.join(', ')).toBeLessThanOrEqual(0.005);
  });

  test('asks nothing twice, and nothing that means touching or needs a close photo', () => {
    for (const { answers } of runs) {
      expect(askedIn({ answers }).size).toBe(answers.length);
      for (const { question } of answers)
        if (!question.startsWith('pair/'))
          expect(['first', 'later']).toContain(Reflect.get(model.vocabulary, question)?.stage);
    }
  });

  test('takes an answer back without a trace', () => {
    const long = runs.filter(({ answers }) => answers.length > 2).slice(0, 60);
    expect(long).toHaveLength(60);
    let told = 0;
    for (const { answers } of long) {
      const before = identifier.identify(evidenceAfter(identifier, answers.slice(0, -1)));
      const after = identifier.identify(evidenceAfter(identifier, answers));
      const back = identifier.identify(evidenceAfter(identifier, [...answers].slice(0, -1)));
      expect(back.posterior).toEqual(before.posterior);
      expect(back.decision).toEqual(before.decision);
      const asked = identifier.question(before, askedIn({ answers: answers.slice(0, -1) }));
      expect(asked?.id).toBe(answers.at(-1)?.question);
      if (after.posterior.nothing !== before.posterior.nothing) told += 1;
    }
    expect(told).toBeGreaterThan(20);
  });
});

describe('the key, with every answer right', () => {
  test('says "leave it" of nothing harmful', () => {
    const figures = keyFigures(keyRuns(identifier, 1, 0, 7));
    expect(figures.harmfulLeft).toEqual([]);
    expect(figures.carefulOrAsked, keyText(figures)).toBeGreaterThanOrEqual(0.95);
  }, 60_000);

  test('stops after some questions even for who sees nothing', () => {
    const asked = new Set<string>();
    while (asked.size <= MOST_QUESTIONS) {
      const question = identifier.question(identifier.identify(evidenceAfter(identifier, [])), asked);
      if (!question) break;
      expect(asked.has(question.id)).toBe(false);
      asked.add(question.id);
    }
    expect(asked.size).toBeGreaterThan(2);
    const skipped = [...asked].map((question) => ({ question, option: 'skip' }));
    const { decision, posterior } = identifier.identify(evidenceAfter(identifier, skipped));
    expect([...posterior.probabilities]).toEqual([
      ...identifier.identify(evidenceAfter(identifier, [])).posterior.probabilities,
    ]);
    expect(decision).toMatchObject({ kind: 'cannot-tell', act: 'ask' });
  });

  test('never asks for a touch or a close photo, whatever else has been asked', () => {
    const nothing = identifier.identify(evidenceAfter(identifier, []));
    const asked = new Set<string>();
    for (let next = identifier.question(nothing, asked); next; next = identifier.question(nothing, asked)) {
      expect(asked.has(next.id)).toBe(false);
      asked.add(next.id);
      if (next.trait) expect(['first', 'later']).toContain(model.vocabulary[next.trait].stage);
    }
    expect(asked.size).toBeGreaterThan(5);
    expect(asked.has('segments') || asked.has('onTouch')).toBe(false);
  });

  test('is asked of entries of which some are harmful', () => {
    expect(model.critters.filter(isHarmful).length).toBeGreaterThan(50);
  });
});
