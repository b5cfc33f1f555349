/** What the main spring's wire says about it: information, never a verdict; estimated where the wire is. */
import { forcesAt } from '../../model/corner/balance.ts';
import { leastGapsOf } from '../../model/corner/coilGaps.ts';
import { stackForceAtFullBump } from '../../model/corner/state.ts';
import { type StressLine, stressAtFullBump, stressAtSolid } from '../../model/corner/stress.ts';
import type { Working } from '../../model/corner/window.ts';
import { bergstraesserFactor, uncorrectedStress } from '../../model/formula/coil.ts';
import { type SEATS, type SpringDetails, springDetails } from '../../model/spring/details.ts';
import { shearModulusOf } from '../../model/spring/materials.ts';
import { quantities } from './quantity.ts';

const EN_13906_CRITERION = 'EN 13906-1 (criterion from memory)';
const SHIGLEY = 'Budynas & Nisbett, Shigley’s Mechanical Engineering Design, ch. 10';

/** How a wire quantity is known: from the wire given, or from an estimate of it. */
export const known = (source: string) => (w: Working) =>
  w.state.corner.spring.wire?.estimated === false ? source : `${source}; from estimated wire`;

// biome-ignore format: one row a quantity
export const SPRING = quantities('spring', SHIGLEY, [
  ['mean_diameter', 'D_mean', 'mean coil diameter', 'length', of((d) => d.meanDiameter), 'D_bore + d_wire', { source: known('bore and wire') }],
  ['spring_index', 'w_index', 'spring index', 'ratio', of((d) => d.index), 'D_mean / d_wire', { source: known(SHIGLEY) }],
  ['spring_mass', 'm_spring', 'mass of the main spring', 'mass', of((d) => d.mass), undefined, { source: known('volume of the wire') }],
  ['surge_frequency', 'f_surge', 'first surge frequency, both ends fixed', 'frequency', of((d) => d.surgeFrequency), '0.5 * sqrt(1000 * k * n_t / (m_spring * n_a))', { source: known(SHIGLEY) }],
  ['stress_solid', 'tau_solid', 'uncorrected stress at solid', 'stress', of((d) => d.stressAtSolid), '8 * k * (L - S) * D_mean / (pi * d_wire^3)', { source: known(SHIGLEY) }],
  ['stress_solid_allowed', 'tau_solid_allowed', 'allowed at solid (0.56 R_m, EN 13906-1, from memory)', 'stress', (w) => stressAtSolid(w.state.corner.spring)?.allowed ?? null, '0.56 * R_m', { source: known('EN 13906-1 (from memory)') }],
  ['stress_solid_corrected', 'tau_corr', 'stress at solid with the Bergstraesser factor', 'stress', of((d) => d.correctedStressAtSolid), 'tau_solid * (4 * w_index + 2) / (4 * w_index - 3)', { source: known(SHIGLEY) }],
  ['tensile_strength', 'R_m', 'tensile strength of the wire', 'stress', of((d) => d.tensileStrength), undefined, { source: known('A / d^m of the material') }],
  ['slenderness', 'slender', 'slenderness between flat seats (factor 0.5)', 'ratio', of((d) => d.slenderness.flat), '0.5 * L / D_mean', { source: seats('flat') }],
  ['slenderness_tilting', 'slender_tilt', 'slenderness where a seat can tilt (factor 0.7)', 'ratio', of((d) => d.slenderness.tilting), '0.7 * L / D_mean', { source: seats('tilting') }],
  ['buckling_deflection', 'x_buckle', 'deflection at which an unguided spring buckles, flat seats (0.5)', 'length', of((d) => d.criticalDeflection.flat), undefined, { source: seats('flat') }],
  ['buckling_deflection_tilting', 'x_buckle_tilt', 'the same where a seat can tilt (0.7)', 'length', of((d) => d.criticalDeflection.tilting), undefined, { source: seats('tilting') }],
  ['working_share', 'share_work', 'share of the free length that is travel', 'share', of((d) => 100 * d.workingShare), '100 * (L - S) / L', { source: 'free length and solid height' }],
  ['shear_modulus', 'G_s', 'shear modulus of the wire', 'stress', shearModulus, undefined, { source: known('material') }],
  ['rate_from_geometry', 'k_geo', 'rate that wire, coils and bore would give', 'rate', of((d) => d.rateFromGeometry), 'G_s * d_wire^4 / (8 * D_mean^3 * n_a)', { source: known(SHIGLEY) }],
]);

/** Which seats this stack is assumed to have: a helper or its coupler lets the main spring's end tilt. */
function seats(kind: keyof typeof SEATS): (w: Working) => string {
  return (w) => {
    const tilts = w.state.corner.helper !== null;
    const why = tilts ? 'a helper or its coupler lets a seat tilt' : 'no helper, both seats flat';
    const said = tilts === (kind === 'tilting') ? 'assumed here' : 'not assumed here';
    return known(`${EN_13906_CRITERION}; ${said}: ${why}`)(w);
  };
}

function shearModulus({ state }: Working): number | null {
  const { wire } = state.corner.spring;
  return wire === null ? null : shearModulusOf(wire.material, wire.diameter);
}

function of(read: (details: SpringDetails) => number): (w: Working) => number | null {
  return (w) => {
    const details = springDetails(w.state.corner.spring);
    return details === null ? null : read(details);
  };
}

// Between what the main spring works: its length and stress at droop and at full bump, and what EN 13906-1 asks.

const EN_13906 = 'EN 13906-1 (from memory)';
const BERGSTRAESSER = 'Bergstraesser factor; Budynas & Nisbett, Shigley’s Mechanical Engineering Design, ch. 10';
const KB = '(4 * w_index + 2) / (4 * w_index - 3)';

// biome-ignore format: one row a quantity
export const WORKING_RANGE = quantities('spring', 'spring stack in series', [
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
