import { fold } from '../../../src/quarantine/fold.ts';
import { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import type { Plan } from '../../../src/knowledge/plan.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';

const { knowledge } = loadKnowledge('knowledge');
export const lifeCycles = new Map(knowledge.lifeCycles.map((each) => [each.id, each]));
export const plans = knowledge.plans;

export function planOf(id: string): Plan {
  const found = plans.find((plan) => plan.id === id);
  if (!found) throw new Error(`no plan ${id}`);
  return found;
}

export const ZONE = 'Europe/Berlin';
/** 1 June 2026, 10:00 in Berlin; day 0 of every plan here. */
export const START = new Date('2026-06-01T08:00:00Z');
export const hour = (hours: number) => new Date(START.getTime() + hours * 3_600_000);
export const day = (days: number) => hour(days * 24);

let last = 0;
export const event = (at: Date, rest: object): PlanEvent => PlanEvent.parse({ id: `e${++last}`, at, ...rest });
export const started = (rest: object = {}) => event(START, { kind: 'started', ...rest });
export const checkIn = (at: Date, rest: object = {}) => event(at, { kind: 'check-in', ...rest });
export const checkIns = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, index) => checkIn(day(from + index)));
export const sign = (at: Date, effect = 'infectious', urgency = 'soon') =>
  event(at, { kind: 'sign-seen', sign: 'white-spots', effect, urgency });
export const did = (at: Date, step: string) => event(at, { kind: 'step-done', step });
export const moved = (at: Date) => event(at, { kind: 'moved-tank' });
export const salinity = (at: Date, value: number) =>
  event(at, { kind: 'reading', reading: { parameter: 'salinity', value, unit: 'ppt' } });
export const copper = (at: Date, value: number, form = 'ionic') =>
  event(at, { kind: 'reading', reading: { parameter: 'copper', value, unit: 'mg/L Cu', form } });

export const warm = (celsius: number, at = hour(0.5)) =>
  event(at, { kind: 'reading', reading: { parameter: 'temperature', value: celsius, unit: '°C' } });
export const reading = (at: Date, parameter: string, value: number, unit: string) =>
  event(at, { kind: 'reading', reading: { parameter, value, unit } });
export const death = (at: Date, causeKnown = false) => event(at, { kind: 'death', causeKnown });

export const foldOf = (id: string, events: readonly PlanEvent[], now: Date) =>
  fold(planOf(id), events, now, { zone: ZONE, lifeCycles });

export function holdOf(id: string, hold: string, events: readonly PlanEvent[], now: Date) {
  const found = foldOf(id, events, now).holds.find((each) => each.id === hold);
  if (!found) throw new Error(`no hold ${hold}`);
  return found;
}
