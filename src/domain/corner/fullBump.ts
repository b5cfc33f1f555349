/** Full bump: how short the damper gets, by the setup's bump policy. */
import { baseAt } from '../motion.ts';
import { rootBetween } from '../solve.ts';
import { surplusAt } from './balance.ts';
import type { Geometry } from './geometry.ts';
import type { Corner, Site } from './site.ts';

export interface FullBump {
  /** `l_full` and the ride height there. */
  readonly length: number;
  readonly height: number;
}

/**
 * The design position at full bump. `closed`: the stop fully closed. `load`: the balance of spring, gas and stop
 * under the multiple of the heaviest sprung load, kept between the stop closed and the stop just met (at the latest, where a sleeve
 * may be landed on or entered).
 *
 * Units: `site`, `corner`, `geometry` in mm, N and N/mm; `perch` mm; result mm.
 * Valid: with `load`, a harder hit goes further in.
 * Source: root of `surplusAt`, see `rootBetween`.
 */
export function fullBumpOf(site: Site, corner: Corner, geometry: Geometry, perch: number): FullBump {
  const { closedHeight, squeezeHeight } = geometry;
  if (site.bump.kind === 'closed') return { length: geometry.closedLength, height: closedHeight };
  const load = bumpLoad(site);
  const surplus = (height: number) => surplusAt(site, corner, geometry, height, load, perch);
  if (surplus(closedHeight) <= 0) return { length: geometry.closedLength, height: closedHeight };
  if (surplus(squeezeHeight) >= 0) return { length: geometry.squeezeLength, height: squeezeHeight };
  const height = rootBetween(surplus, closedHeight, squeezeHeight);
  return { length: baseAt(site.motion, height) + corner.mount.raise, height };
}

/**
 * Load at the wheel under which full bump is judged with the `load` policy; 0 with `closed`.
 *
 * Equation: n x the heaviest sprung load of all load states
 * Units: `site` loads in N; result N.
 * Valid: any setup.
 * Source: definition of the policy.
 */
export function bumpLoad(site: Site): number {
  return site.bump.kind === 'load' ? site.bump.multiple * site.heaviestLoad : 0;
}
