/** Between what the main spring works: its length and stress at droop and at full bump, and what EN 13906-1 asks. */
import { forcesAt } from '../corner/balance.ts';
import { leastGapsOf } from '../corner/coilGaps.ts';
import { stackForceAtFullBump } from '../corner/state.ts';
import { type StressLine, stressAtFullBump } from '../corner/stress.ts';
import { bergstraesserFactor, uncorrectedStress } from '../formula/coil.ts';
import { springDetails } from '../springDetails.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';
import { known, SHIGLEY } from './spring.ts';

const EN_13906 = 'EN 13906-1 (from memory)';
const BERGSTRAESSER = 'Bergstraesser factor; Budynas & Nisbett, Shigley’s Mechanical Engineering Design, ch. 10';
const KB = '(4 * w_index + 2) / (4 * w_index - 3)';

// biome-ignore format: one row a quantity
export const WORKING_RANGE: readonly CornerQuantity[] = quantities<Working>('spring', 'spring stack in series', [
  ['droop_spring_force', 'F_droop', 'force of the spring stack at full droop', 'force', droopForce, undefined, { source: 'spring stack, perch unchanged' }],
  ['main_deflection_full', 'x_main', 'deflection of the main spring at full bump', 'length', mainDeflectionFull, 'min(F_full / k, L - S)'],
  ['gaps_full', 'gap_full', 'sum of gaps between its coils at full bump', 'length', gapsFull, 'L - S - x_main', { better: 'more' }],
  ['gaps_beyond_least', 'gap_spare', 'the same beyond the least sum of gaps', 'length', (w) => beyondLeast(w), 'gap_full - gap_least', { better: 'more', source: known(EN_13906) }],
  ['largest_working_load', 'F_n', 'load at which only the least sum of gaps is left', 'force', largestLoad, 'k * (L - S - gap_least)', { source: known(EN_13906) }],
  ['standing_load_share', 'share_n', 'standing spring force as a share of it: the rate holds best from 30 to 70 %', 'share', loadShare, '100 * F_s / F_n', { source: known(EN_13906) }],
  ['stress_full', 'tau_full', 'uncorrected stress at full bump', 'stress', (w) => atFullBump(w)?.stress ?? null, '8 * min(F_full, k * (L - S)) * D_mean / (pi * d_wire^3)', { source: known(SHIGLEY) }],
  ['stress_allowed', 'tau_allowed', 'allowed at full bump (0.50 R_m, older DIN 2089, from memory)', 'stress', (w) => atFullBump(w)?.allowed ?? null, '0.5 * R_m', { source: known('older DIN 2089 (from memory)') }],
  ['stress_droop_corrected', 'tau_droop_c', 'working stress at full droop, corrected', 'stress', (w) => corrected(w, droopForce(w)), `8 * min(F_droop, k * (L - S)) * D_mean / (pi * d_wire^3) * ${KB}`, { source: known(BERGSTRAESSER) }],
  ['stress_full_corrected', 'tau_full_c', 'working stress at full bump, corrected', 'stress', (w) => corrected(w, stackForceAtFullBump(w.state)), `8 * min(F_full, k * (L - S)) * D_mean / (pi * d_wire^3) * ${KB}`, { source: known(BERGSTRAESSER) }],
  ['stress_range', 'tau_range', 'range of working stress, droop to full bump', 'stress', stressRange, 'tau_full_c - tau_droop_c', { source: known(BERGSTRAESSER) }],
]);

function atFullBump({ state }: Working): StressLine | null {
  return stressAtFullBump(state);
}

function droopForce({ state }: Working): number {
  const { site, corner, geometry, standing } = state;
  return forcesAt(site, corner, geometry, geometry.droopHeight, standing.perch).springForce;
}

function mainDeflectionFull({ state }: Working): number {
  const { rate, freeLength, solid } = state.corner.spring;
  return Math.min(stackForceAtFullBump(state) / rate, freeLength - solid.height);
}

function gapsFull(w: Working): number {
  const { freeLength, solid } = w.state.corner.spring;
  return freeLength - solid.height - mainDeflectionFull(w);
}

function leastGaps({ state }: Working): number | null {
  return leastGapsOf(state.corner.spring);
}

function beyondLeast(w: Working): number | null {
  const least = leastGaps(w);
  return least === null ? null : gapsFull(w) - least;
}

function largestLoad(w: Working): number | null {
  const { rate, freeLength, solid } = w.state.corner.spring;
  const least = leastGaps(w);
  return least === null ? null : rate * (freeLength - solid.height - least);
}

/** Nothing to be a share of where the least gaps use up the whole travel. */
function loadShare(w: Working): number | null {
  const largest = largestLoad(w);
  return largest === null || largest <= 0 ? null : (100 * w.state.standing.springForce) / largest;
}

/** Working stress under a force of the stack, MPa; the main spring takes no more than its own solid force. */
function corrected({ state }: Working, force: number): number | null {
  const { spring } = state.corner;
  const details = springDetails(spring);
  if (details === null || spring.wire === null) return null;
  const own = Math.min(force, spring.rate * (spring.freeLength - spring.solid.height));
  const stress = uncorrectedStress(own, details.meanDiameter, spring.wire.diameter);
  return stress * bergstraesserFactor(details.index);
}

function stressRange(w: Working): number | null {
  const droop = corrected(w, droopForce(w));
  const full = corrected(w, stackForceAtFullBump(w.state));
  return droop === null || full === null ? null : full - droop;
}
