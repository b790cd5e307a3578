import type { Solved } from '../../shared/joint-plan-model.ts';

// What the solver and its worker thread say to each other.

export type SolverSetting = { wasmFile: string };
export type SolveOrder = { id: number; programme: string };
export type SolveAnswer = { id: number; solved: Solved };
