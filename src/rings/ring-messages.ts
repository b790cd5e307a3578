import type { IndexedPlan, OpenBound } from './plan-rings.ts';
import type { IndexedGraph, Longest } from './swap-graph.ts';

// What the ring solver and its worker thread say to each other.

export type RingOrder = { id: number; graph: IndexedGraph; seed: number; longest: Longest; budgetMs: number };

/** A better plan than before, what a linear programme can still say of its bound, and in the end the plan. */
export type RingAnswer =
  | { id: number; kind: 'better'; plan: IndexedPlan }
  | { id: number; kind: 'open-bound'; bound: OpenBound }
  | { id: number; kind: 'done'; plan: IndexedPlan };
