import { readFileSync } from 'node:fs';
import { suggestCritters } from '../../src/critters/critter.command.ts';
import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import { createFinder } from '../../src/knowledge/finder.ts';
import { quantile, type Row } from './figures.ts';

const HOSTILE = [
  'a'.repeat(6_000),
  'ab'.repeat(3_000),
  '\ud800'.repeat(100),
  "'; DROP TABLE critters; --".repeat(40),
  '(a+)+$'.repeat(100),
  '@everyone '.repeat(80),
  'ﷺ'.repeat(100),
  'star coral worm snail '.repeat(20),
];

/** CPU of autocomplete against the bare matcher, and of hostile input. */
export function benchFinding(): Row[] {
  const base = loadCompiledKnowledge('dist/knowledge.json');
  const finder = createFinder(base);
  const typed = readFileSync('tests/reference/typed-names.csv', 'utf8')
    .split('\n')
    .filter((line) => line && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(',')[0] ?? '');
  const queries = typed.flatMap((name) => [name, name.slice(0, 3), name.slice(0, 5)]);
  const matcher = (query: string) => void finder.nearest(query, 25);
  const suggest = (query: string) => void suggestCritters(base, finder, query);
  for (let round = 0; round < 5; round += 1) queries.forEach(suggest);
  const bare: number[] = [];
  const ours: number[] = [];
  const hostile: number[] = [];
  for (let round = 0; round < 5; round += 1) {
    for (const query of queries) bare.push(timed(matcher, query));
    for (const query of queries) ours.push(timed(suggest, query));
    for (const query of HOSTILE) hostile.push(timed(suggest, query));
  }
  const row = (what: string, samples: number[], floor: number[], share: number, goalMs: number): Row => ({
    what,
    ours: `${quantile(samples, share).toFixed(3)} ms`,
    floor: `${quantile(floor, share).toFixed(3)} ms`,
    ratio: (quantile(samples, share) / quantile(floor, share)).toFixed(2),
    goal: `≤ ${goalMs} ms`,
    met: quantile(samples, share) <= goalMs,
  });
  return [
    row('autocomplete CPU, p50', ours, bare, 0.5, 1),
    row('autocomplete CPU, p99', ours, bare, 0.99, 1),
    row('autocomplete, hostile input, worst', hostile, bare, 1, 5),
  ];
}

function timed(work: (query: string) => void, query: string): number {
  const startedMs = performance.now();
  work(query);
  return performance.now() - startedMs;
}
