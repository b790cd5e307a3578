import { loadCompiledKnowledge } from '../../src/knowledge/compiled.loader.ts';
import { fold } from '../../src/quarantine/fold.ts';
import type { PlanEvent, Reading } from '../../src/quarantine/plan-event.ts';
import { quantile, type Row } from './figures.ts';

const ROUNDS = 200;
const WARM_UPS = 40;
const DAYS = 90;
const EVENTS = 400;
const GOAL_MS = 5;
const START = Date.UTC(2026, 0, 1, 12);
const at = (hours: number) => new Date(START + hours * 3_600_000);

const COPPER: Reading = { parameter: 'copper', value: 0.17, unit: 'mg/L Cu', form: 'ionic' };
const MEASURED: readonly Reading[] = [
  COPPER,
  { parameter: 'ammonia', value: 0.1, unit: 'mg/L NH3-N' },
  COPPER,
  { parameter: 'temperature', value: 25.5, unit: '°C' },
  COPPER,
  { parameter: 'ph', value: 8.1, unit: 'pH' },
];

/** Ninety days of copper with four hundred readings and check-ins, against a walk through the same events. */
export function benchFold(): Row[] {
  const base = loadCompiledKnowledge('dist/knowledge.json');
  const plan = base.plans.get('copper-ionic');
  if (!plan) throw new Error('knowledge/plans/copper-ionic.yaml is missing');
  const every = (DAYS * 24) / EVENTS;
  const events: PlanEvent[] = Array.from({ length: EVENTS }, (_, index): PlanEvent => {
    const id = String(index);
    if (index === 0) return { kind: 'started', id, at: at(0), option: 'thirty-days' };
    if (index % 2 === 0) return { kind: 'check-in', id, at: at(index * every), signs: [], appetite: 'normal' };
    return { kind: 'reading', id, at: at(index * every), reading: MEASURED[(index >> 1) % MEASURED.length] ?? COPPER };
  });
  const context = { zone: 'Europe/Lisbon', lifeCycles: base.lifeCycles };
  const folding: number[] = [];
  const walking: number[] = [];
  for (let round = -WARM_UPS; round < ROUNDS; round += 1) {
    const startedMs = performance.now();
    const state = fold(plan, events, at(DAYS * 24), context);
    const foldedMs = performance.now();
    const sum = [...events]
      .sort((a, b) => a.at.getTime() - b.at.getTime())
      .reduce((days, event) => days + event.at.getTime(), 0);
    const walkedMs = performance.now();
    if (state.startedAt === null || sum === 0) throw new Error('the plan did not start');
    if (round < 0) continue;
    folding.push(foldedMs - startedMs);
    walking.push(walkedMs - foldedMs);
  }
  const [ours, floor] = [quantile(folding, 0.5), quantile(walking, 0.5)];
  return [
    {
      what: `fold of a ${DAYS}-day plan with ${EVENTS} events, p50`,
      ours: `${ours.toFixed(2)} ms`,
      floor: `${floor.toFixed(2)} ms`,
      ratio: (ours / floor).toFixed(0),
      goal: `< ${GOAL_MS} ms`,
      met: ours < GOAL_MS,
    },
  ];
}
