/** What each toleranced input does to each number: which measurement is worth the most care. */
import type { AxleName, Tolerances } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { judged, type Move, STANDS_AT, toleranceMoves } from './bands.ts';
import { standingMoves } from './bench.ts';
import type { Model } from './inputs.ts';

/** What one input, off by its whole tolerance, does to one quantity. */
export interface Effect {
  /** Id of the input, as in the tolerance table. */
  readonly input: string;
  /** Key of the quantity, its unit included: `clearance_coil_bind_mm`. */
  readonly key: string;
  readonly dimension: Dimension;
  /** The greater of its moves up and down, in the quantity's unit. */
  readonly by: number;
  /** Its part of all inputs' moves together, 0 to 1. */
  readonly share: number;
}

/** The effects on one axle of one setup's best combination. */
export interface AxleEffects {
  readonly setup: string;
  readonly axle: AxleName;
  readonly effects: readonly Effect[];
}

/**
 * Effects of every input on every studied quantity, those that move nothing left out.
 *
 * Units: `model` in mm, N, kg and N/mm, `tolerances` half-widths in the same or as shares; result in each quantity's own unit.
 * Valid: as `toleranceBands`, from whose steps it is read.
 */
export function effectsOf(model: Model, tolerances: Tolerances): Effect[] {
  const { perch } = judged(model).state.standing;
  const standing = { key: STANDS_AT, dimension: 'length', moves: standingMoves(model, tolerances, perch) } as const;
  return [standing, ...toleranceMoves(model, tolerances)].flatMap(({ key, dimension, moves }) => {
    const all = moves.reduce((sum, move) => sum + greater(move), 0);
    return moves.flatMap((move): Effect[] => {
      const by = greater(move);
      // Rounding of the model's own solving is no effect.
      return by > 1e-6 ? [{ input: move.input.id, key, dimension, by, share: by / all }] : [];
    });
  });
}

function greater({ down, up }: Move): number {
  return Math.max(down, up);
}
