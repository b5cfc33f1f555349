/** What the main spring's wire says about it: information, never a verdict; estimated where the wire is. */
import { stressAtSolid } from '../corner/stress.ts';
import { shearModulusOf } from '../materials.ts';
import { type SEATS, type SpringDetails, springDetails } from '../springDetails.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const EN_13906 = 'EN 13906-1 (criterion from memory)';
export const SHIGLEY = 'Budynas & Nisbett, Shigley’s Mechanical Engineering Design, ch. 10';

/** How a wire quantity is known: from the wire given, or from an estimate of it. */
export const known = (source: string) => (w: Working) =>
  w.state.corner.spring.wire?.estimated === false ? source : `${source}; from estimated wire`;

// biome-ignore format: one row a quantity
export const SPRING: readonly CornerQuantity[] = quantities<Working>('spring', SHIGLEY, [
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
    return known(`${EN_13906}; ${said}: ${why}`)(w);
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
