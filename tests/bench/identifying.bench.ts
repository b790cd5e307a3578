import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { drawPair } from '../../src/critters/pair-picture.ts';
import { createPainter } from '../../src/drawing/painter.ts';
import { createIdentifier } from '../../src/identification/identify.ts';
import { drawOptions } from '../../src/identification/option-pictures.ts';
import { NO_EVIDENCE } from '../../src/identification/evidence.ts';
import { posteriorOf } from '../../src/identification/posterior.ts';
import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import { createFinder } from '../../src/knowledge/finder.ts';
import { quantile, type Row } from './figures.ts';

const ROUNDS = 6;
const Cases = z.array(z.object({ text: z.string() }));

/** Description and key step against the bare inner loop, the posterior; plates in the worker and what they cost here. */
export async function benchIdentifying(): Promise<Row[]> {
  const base = loadCompiledKnowledge('dist/knowledge.json');
  const identifier = createIdentifier(base, createFinder(base));
  const model = identifier.model();
  const cases = Cases.parse(parse(readFileSync('tests/reference/descriptions.yaml', 'utf8')));
  const inner: number[] = [];
  const describing: number[] = [];
  const stepping: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1)
    for (const { text } of cases) {
      const read = identifier.read(text);
      const bare = timed(() => posteriorOf(model, base, read.evidence, new Map()));
      const whole = timed(() => identifier.identify(identifier.read(text).evidence));
      const step = timed(() => identifier.question(identifier.identify(read.evidence), new Set()));
      if (round === 0) continue;
      inner.push(bare);
      describing.push(whole);
      stepping.push(step);
    }
  const row = (what: string, ours: number[], goalMs: number): Row => ({
    what,
    ours: `${quantile(ours, 0.99).toFixed(2)} ms`,
    floor: `${quantile(inner, 0.99).toFixed(2)} ms`,
    ratio: (quantile(ours, 0.99) / quantile(inner, 0.99)).toFixed(2),
    goal: `≤ ${goalMs} ms`,
    met: quantile(ours, 0.99) <= goalMs,
  });
  const shapes = identifier.question(identifier.identify(NO_EVIDENCE), new Set())!;
  const sheetMs = performance.now();
  await drawOptions(shapes);
  const sheet = performance.now() - sheetMs;
  return [
    row('describe, p99', describing, 10),
    row('a step of the key, p99', stepping, 5),
    { what: 'sheet of shapes drawn, once', ours: `${sheet.toFixed(1)} ms`, floor: '', ratio: '', goal: '', met: null },
    ...(await benchPlates(base)),
  ];
}

async function benchPlates(base: ReturnType<typeof loadCompiledKnowledge>): Promise<Row[]> {
  const painter = createPainter({
    workerFile: resolve('dist/painter.js'),
    fontFiles: ['inter-regular.ttf', 'inter-semibold.ttf'].map((font) => resolve('dist/font', font)),
  });
  const painting: number[] = [];
  const blocking: number[] = [];
  try {
    for (const pair of [...base.lookAlikes.values()].slice(0, 40)) {
      const [a, b] = [base.critters.get(pair.a), base.critters.get(pair.b)];
      if (!a || !b) continue;
      const startedMs = performance.now();
      const picture = await drawPair(pair, a, b);
      const drawnMs = performance.now() - startedMs;
      const paintedMs = performance.now();
      const lag = worstLag();
      await painter.paint(picture.svg, picture.width);
      blocking.push(Math.max(drawnMs, lag.stop()));
      painting.push(performance.now() - paintedMs);
    }
  } finally {
    await painter.close();
  }
  const row = (what: string, samples: number[], share: number, goal: number): Row => ({
    what,
    ours: `${quantile(samples, share).toFixed(1)} ms`,
    floor: '',
    ratio: '',
    goal: `≤ ${goal} ms`,
    met: quantile(samples, share) <= goal,
  });
  return [
    row('a plate in the worker, p50', painting.slice(5), 0.5, 60),
    row('main loop blocked by a plate, p50', blocking.slice(5), 0.5, 5),
  ];
}

/** The longest time in which the event loop did not come round, until `stop`. */
function worstLag(): { stop: () => number } {
  let last = performance.now();
  let worst = 0;
  const timer = setInterval(() => {
    const now = performance.now();
    worst = Math.max(worst, now - last - 1);
    last = now;
  }, 1);
  return {
    stop: () => {
      clearInterval(timer);
      return worst;
    },
  };
}

function timed(work: () => unknown): number {
  const startedMs = performance.now();
  work();
  return performance.now() - startedMs;
}
