/** The corner at rest at its ride height. */
import { baseAt } from '../motion.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const s = (w: Working) => w.state.standing;
const BALANCE = 'balance of forces (virtual work)';
const MOTION = 'measured motion curve (Fritsch & Carlson 1980)';

// biome-ignore format: one row a quantity
export const STANDING: readonly CornerQuantity[] = quantities<Working>('standing', BALANCE, [
  ['sprung_mass', 'm_s', 'sprung mass of the corner', 'mass', (w) => w.state.site.sprungMass, 'm_wheel - m_u'],
  ['sprung_load', 'W', 'sprung load at the wheel', 'force', (w) => s(w).load, 'm_s * g_n'],
  ['base_length', 'l_base', 'damper length less raise, from the measured motion', 'length', (w) => baseAt(w.state.site.motion, s(w).height), undefined, { source: `${MOTION} at H` }],
  ['damper_length', 'l_r', 'damper length standing', 'length', (w) => s(w).length, 'l_base + r'],
  ['motion_ratio', 'MR', 'motion ratio, damper over wheel travel', 'ratio', (w) => s(w).motionRatio, undefined, { source: 'least squares through the measured pairs' }],
  ['bush_force', 'F_bush', 'force of twisted bushes at the wheel', 'force', (w) => (w.state.site.bushes ? s(w).bushForce : null), 'k_p * (H_p - H)'],
  ['axial_force', 'F_d', 'axial force needed at the damper', 'force', (w) => s(w).axialForce, (w) => (w.state.site.bushes ? '(W - F_bush) / MR' : 'W / MR')],
  ['gas_force', 'F_g', 'gas push standing', 'force', (w) => s(w).gasForce, gasExpression],
  ['stop_force', 'F_stop', 'force of the bump stop standing', 'force', (w) => s(w).stopForce, undefined, { source: 'force curve of the stop, scaled by strain' }],
  ['spring_force', 'F_s', 'spring force standing', 'force', (w) => s(w).springForce, 'F_d - F_g - F_stop'],
  ['deflection', 'x', 'deflection of the spring stack', 'length', (w) => s(w).deflection, deflection],
  ['spring_length', 'g', 'seat to seat, the stack at ride height', 'length', (w) => w.state.geometry.stack.freeLength - s(w).deflection, 'L0 - x'],
  ['perch', 'P', 'perch seat above the lower eye', 'length', (w) => s(w).perch, 'l_r - a_seat - g'],
  ['perch_below_top', 'h_top', 'perch seat below the sleeve top', 'length', (w) => w.state.geometry.sleeveTop - s(w).perch, 'T - P'],
  ['bump_travel', 'z_bump', 'bump travel left at the wheel, to the stop', 'length', (w) => w.state.bumpTravel, 'H - H_stop', { better: 'more' }],
  ['droop_travel', 'z_droop', 'droop travel left at the wheel', 'length', (w) => w.state.droopTravel, 'H_droop - H', { better: 'more' }],
  ['damper_bump_travel', 'u_bump', 'damper travel to the stop', 'length', (w) => s(w).length - w.state.geometry.stopLength, 'l_r - l_stop'],
  ['damper_droop_travel', 'u_droop', 'damper travel to full droop', 'length', (w) => w.state.geometry.droopLength - s(w).length, 'l_droop - l_r'],
  ['slack', 'slack', 'looseness of the spring at full droop (negative: preload)', 'length', (w) => w.state.slack, 'l_droop - a_seat - P - L0', { better: 'less' }],
  ['force_residual', 'dW', 'axial forces times motion ratio, less the load', 'force', residual, residualExpression],
]);

function gasExpression(w: Working): string | null {
  const { kind } = w.state.corner.damper.gas;
  if (kind === 'none') return '0';
  if (kind === 'linear') return 'F_out + (F_in - F_out) * (l_ext - l_r) / (l_ext - l_in)';
  return 'A_rod * ((p_g + p_a) * V_gas / (V_gas - A_rod * (l_ext - l_r)) - p_a)';
}

/** A spring doesn't pull, so a force below 0 leaves it at its free length. */
function deflection(w: Working): string {
  if (s(w).springForce <= 0) return '0';
  const main = 'min(F_s / k, L - S)';
  return w.state.corner.helper ? `${main} + min(F_s / k_h, L_h - S_h)` : main;
}

function residual(w: Working): number {
  const { springForce, gasForce, stopForce, motionRatio, bushForce, load } = s(w);
  return (springForce + gasForce + stopForce) * motionRatio + bushForce - load;
}

function residualExpression(w: Working): string {
  return `(F_s + F_g + F_stop) * MR${w.state.site.bushes ? ' + F_bush' : ''} - W`;
}
