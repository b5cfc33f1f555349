/**
 * Frequencies and shapes read off a motion, knowing nothing of the masses and springs behind it: two coordinates swing
 * from rest, each a sum of the same two cosines, so that their samples obey one symmetric recurrence (Prony's method).
 */

import { Matrix, solve } from 'ml-matrix';
import { type Derivative, odexSolver } from '../../setup/odex.ts';

export interface Reading {
  /** rad/s, slow first. */
  readonly omegas: readonly [number, number];
  /** Amplitude of the second coordinate over that of the first, in each mode. */
  readonly ratios: readonly [number, number];
}

/** Positions of the first two coordinates at `steps` + 1 times, integrated with odex from rest at an offset. */
export function swing(derivative: Derivative, offset: readonly [number, number], step: number, steps: number) {
  const samples: [number, number][] = [];
  const solver = odexSolver(4, 1e-13);
  let state: number[] = [...offset, 0, 0];
  for (let k = 0; k <= steps; k++) {
    samples.push([state[0] ?? 0, state[1] ?? 0]);
    state = solver.solve(derivative, k * step, state, (k + 1) * step).y;
  }
  return samples;
}

export function readMotion(samples: readonly (readonly [number, number])[], step: number): Reading {
  // x(n+2) + x(n-2) + p (x(n+1) + x(n-1)) + q x(n) = 0 for both coordinates, least squares over all samples.
  const rows: number[][] = [];
  const right: number[][] = [];
  for (let n = 2; n < samples.length - 2; n++) {
    for (const c of [0, 1] as const) {
      const at = (shift: number) => samples[n + shift]?.[c] ?? 0;
      rows.push([at(1) + at(-1), at(0)]);
      right.push([-(at(2) + at(-2))]);
    }
  }
  const [p = 0, q = 0] = solve(new Matrix(rows), new Matrix(right)).to1DArray();
  // With x = cos(n theta): 4 cos^2 theta + 2 p cos theta + q - 2 = 0.
  const root = Math.sqrt(p * p - 4 * (q - 2));
  const omegas = [(-p + root) / 4, (-p - root) / 4].map((cosine) => Math.acos(cosine) / step) as [number, number];
  return { omegas, ratios: amplitudeRatios(samples, step, omegas) };
}

function amplitudeRatios(samples: readonly (readonly [number, number])[], step: number, omegas: [number, number]) {
  const cosines = new Matrix(samples.map((_, n) => omegas.map((omega) => Math.cos(omega * n * step))));
  const amplitudes = solve(cosines, new Matrix(samples.map((pair) => [...pair])));
  return [0, 1].map((mode) => amplitudes.get(mode, 1) / amplitudes.get(mode, 0)) as [number, number];
}
