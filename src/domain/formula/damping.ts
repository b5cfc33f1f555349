/** Damper force against velocity, reduced to one number. */

export interface ForceVelocityPoint {
  /** m/s */
  readonly velocity: number;
  /** Force in bump and in rebound, both positive, N. */
  readonly bump: number;
  readonly rebound: number;
}

/** Body motion, not wheel hop, is what a first look at damping judges; common practice, no source. */
const REFERENCE_VELOCITY = 0.1;

/**
 * Damping coefficient at 0.1 m/s: secant slopes in bump and rebound, averaged.
 *
 * Equation: c = (F_bump(0.1) + F_rebound(0.1)) / (2 x 0.1), linear between points
 * Units: `table` velocities m/s and forces N, sorted by velocity; result N s/m, along the damper.
 * Valid: a table with points on both sides of 0.1 m/s, or one there; null otherwise: a damper's curve must not be guessed
 * onward, nor straight down to rest, where valves that open early make it steepest.
 * Example: secantDamping([{"velocity":0.05,"bump":200,"rebound":400},{"velocity":0.15,"bump":400,"rebound":800}]) = 4500
 * Source: common practice, no source; the example derived (300 N and 600 N at 0.1 m/s).
 */
export function secantDamping(table: readonly ForceVelocityPoint[]): number | null {
  const forces = forcesAtReference(table);
  return forces === null ? null : (forces.bump + forces.rebound) / (2 * REFERENCE_VELOCITY);
}

/**
 * Damping coefficient in rebound alone at 0.1 m/s: a stiffer spring asks most of the rebound.
 *
 * Equation: c_reb = F_rebound(0.1) / 0.1, linear between points
 * Units: `table` velocities m/s and forces N, sorted by velocity; result N s/m, along the damper.
 * Valid: as `secantDamping`; null otherwise.
 * Example: reboundDamping([{"velocity":0.05,"bump":200,"rebound":400},{"velocity":0.15,"bump":400,"rebound":800}]) = 6000
 * Source: common practice, no source; the example derived (600 N at 0.1 m/s).
 */
export function reboundDamping(table: readonly ForceVelocityPoint[]): number | null {
  const forces = forcesAtReference(table);
  return forces === null ? null : forces.rebound / REFERENCE_VELOCITY;
}

function forcesAtReference(table: readonly ForceVelocityPoint[]): Omit<ForceVelocityPoint, 'velocity'> | null {
  const upper = table.findIndex((p) => p.velocity >= REFERENCE_VELOCITY);
  const above = table[upper];
  if (above === undefined) return null;
  if (above.velocity === REFERENCE_VELOCITY) return above;
  const below = table[upper - 1];
  if (below === undefined) return null;
  const share = (REFERENCE_VELOCITY - below.velocity) / (above.velocity - below.velocity);
  const between = (key: 'bump' | 'rebound') => below[key] + share * (above[key] - below[key]);
  return { bump: between('bump'), rebound: between('rebound') };
}
