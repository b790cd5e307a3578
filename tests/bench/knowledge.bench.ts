import { readFileSync } from 'node:fs';
import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import { createFinder } from '../../src/knowledge/finder.ts';
import { loadKnowledge } from '../../src/knowledge/knowledge.loader.ts';
import { median, type Row } from './figures.ts';

const ROUNDS = 15;

/** The compiled base against the bare JSON.parse of the same file, the finder, and the YAML for comparison. */
export function benchKnowledge(): Row[] {
  const file = 'dist/knowledge.json';
  const bare = times(() => JSON.parse(readFileSync(file, 'utf8')));
  const compiled = times(() => loadCompiledKnowledge(file));
  const base = loadCompiledKnowledge(file);
  const finder = times(() => createFinder(base).warmUp());
  const yaml = times(() => loadKnowledge('knowledge'), 3);
  const ratio = median(compiled) / median(bare);
  const ms = (samples: number[]) => `${median(samples).toFixed(1)} ms`;
  return [
    {
      what: 'knowledge load, compiled',
      ours: ms(compiled),
      floor: ms(bare),
      ratio: ratio.toFixed(2),
      goal: '≤ 2',
      met: ratio <= 2,
    },
    { what: 'finder built', ours: ms(finder), floor: '', ratio: '', goal: '', met: null },
    {
      what: 'knowledge load and check from YAML',
      ours: ms(yaml),
      floor: ms(bare),
      ratio: (median(yaml) / median(bare)).toFixed(0),
      goal: '',
      met: null,
    },
  ];
}

function times(work: () => unknown, rounds = ROUNDS): number[] {
  return Array.from({ length: rounds }, () => {
    const startedMs = performance.now();
    work();
    return performance.now() - startedMs;
  });
}
