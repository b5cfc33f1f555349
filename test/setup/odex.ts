/**
 * The odex package (Hairer, Norsett & Wanner's Gragg-Bulirsch-Stoer integrator), reached without its sources:
 * it ships TypeScript that our compiler settings do not accept.
 */
import { createRequire } from 'node:module';

export type Derivative = (time: number, y: number[]) => number[];
export type Watch = (step: number, from: number, to: number, y: number[]) => unknown;

export interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  denseOutput: boolean;
  grid(interval: number, watch: (time: number, y: number[]) => void): Watch;
  solve(f: Derivative, from: number, y0: number[], to: number, watch?: Watch): { y: number[] };
}

const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (n: number) => OdexSolver };

export function odexSolver(equations: number, tolerance: number): OdexSolver {
  const solver = new Solver(equations);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 200_000;
  return solver;
}
