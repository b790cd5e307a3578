import { describe, expect, test } from 'vitest';
import { figuresOf, furtherFigure, raisedAs, type Parameter } from '../../../src/knowledge/parameter.ts';
import { judgeReading } from '../../../src/knowledge/reading-judged.ts';
import { base } from './real-base.ts';

const of = (id: string): Parameter => {
  const found = base.parameters.get(id);
  if (!found) throw new Error(`no parameter ${id}`);
  return found;
};

// practice.csv, common practice, no source; copper by UF/IFAS FA165 from memory.
describe('judgeReading', () => {
  test.each([
    ['alkalinity', 4.9, 'urgent-low'],
    ['alkalinity', 5.5, 'low'],
    ['alkalinity', 6.5, 'below-target'],
    ['alkalinity', 8, 'in-target'],
    ['alkalinity', 9.5, 'above-target'],
    ['alkalinity', 12.5, 'high'],
    ['calcium', 349, 'low'],
    ['calcium', 501, 'high'],
    ['temperature', 20.5, 'urgent-low'],
    ['temperature', 31.5, 'urgent-high'],
    ['copper-ionic', 0.14, 'low'],
    ['copper-ionic', 0.15, 'in-target'],
    ['copper-ionic', 0.18, 'in-target'],
    ['copper-ionic', 0.25, 'urgent-high'],
    ['copper-ionic', 0.3, 'urgent-high'],
    // Right for this form, and no alarm of the ionic one; its label rules, so nothing is compared.
    ['copper-chelated', 2, 'no-figures'],
    ['copper-amine', 0.5, 'no-figures'],
    ['ammonia', 0.02, 'high'],
    ['ammonia', 0.03, 'high'],
    ['ammonia', 0.05, 'urgent-high'],
    ['ammonia', 0.06, 'urgent-high'],
    ['ammonia', 0, 'no-figures'],
    // 350 and 525-700 explain; no reading of light is compared with them.
    ['light', 600, 'no-figures'],
    ['iodide', 0.03, 'no-figures'],
  ])('%s %f is %s', (id, reading, kind) => {
    expect(judgeReading(of(id), reading).kind).toBe(kind);
  });

  test('names the figure that decided', () => {
    expect(judgeReading(of('alkalinity'), 4).figure).toMatchObject({ low: 5, standing: 'common-practice' });
  });
});

test('what is there to explain is never one of the figures that readings are compared with', () => {
  for (const parameter of base.parameters.values()) {
    const { more, ...plain } = parameter;
    const explaining = Object.values(more).filter(({ use }) => use === 'context');
    for (const reading of explaining.flatMap(({ low, high }) => [low, high]))
      expect(judgeReading(parameter, reading)).toEqual(judgeReading({ ...plain, more: {} }, reading));
    expect(figuresOf(parameter).length).toBeGreaterThan(0);
  }
});

test('a further figure is asked for by its key, and a slip is told', () => {
  expect(furtherFigure(of('copper-ionic'), 'additions')).toMatchObject({ low: 3, high: 6 });
  expect(() => furtherFigure(of('copper-ionic'), 'addition')).toThrow('copper-ionic.yaml');
});

test.each([
  ['copper-ionic', 'copper'],
  ['copper-chelated', 'copper'],
  ['alkalinity', 'alkalinity'],
])('%s is raised as %s', (id, word) => {
  expect(raisedAs(of(id))).toBe(word);
});
