/** Lengths that follow from the parts alone. */
import { closedLength } from '../bumpStop.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const g = (w: Working) => w.state.geometry;
const corner = (w: Working) => w.state.corner;
const MOTION = 'measured motion curve (Fritsch & Carlson 1980)';

// biome-ignore format: one row a quantity
export const GEOMETRY: readonly CornerQuantity[] = quantities<Working>('geometry', 'geometry of the parts', [
  ['sleeve_top', 'T', 'top of the sleeve above the lower eye', 'length', (w) => g(w).sleeveTop, 'G - e + L_slv - t'],
  ['perch_lowest', 'P_min', 'lowest place of the perch seat', 'length', (w) => g(w).perchLowest, 'G - e + h_ring + h_perch'],
  ['perch_highest', 'P_max', 'highest place of the perch seat', 'length', (w) => g(w).perchHighest, 'T - inset'],
  ['flange_below_shoulder', 'a_fl', 'flange below rod shoulder', 'length', (w) => g(w).flangeBelowShoulder, flange],
  ['seat_below_shoulder', 'a_seat', 'upper seat below rod shoulder', 'length', (w) => g(w).seatBelowShoulder, seat],
  ['stop_closed_length', 'b_c', 'bump stop closed', 'length', (w) => closedLength(corner(w).bumpStop), 'f_closed * b'],
  ['stop_meets_at', 'B_stop', 'what the stop meets first, above the lower eye', 'length', (w) => g(w).stopMeetsAt, (w) => (g(w).stopMeets === 'body' ? 'B' : 'T')],
  ['stop_closes_at', 'B_close', 'what the stop is closed against, above the lower eye', 'length', (w) => g(w).stopClosesAt, (w) => (g(w).stopMeets === 'sleeve' ? 'T' : 'B')],
  ['length_at_stop', 'l_stop', 'damper length, stop just met', 'length', (w) => g(w).stopLength, 'B_stop + p + b'],
  ['length_closed', 'l_closed', 'damper length, stop closed', 'length', (w) => g(w).closedLength, 'B_close + p + b_c'],
  ['length_at_droop', 'l_droop', 'damper length at full droop', 'length', (w) => g(w).droopLength, undefined],
  ['height_at_stop', 'H_stop', 'hub to arch, stop just met', 'length', (w) => g(w).stopHeight, undefined, { source: `${MOTION} at l_stop - r` }],
  ['height_closed', 'H_closed', 'hub to arch, stop closed', 'length', (w) => g(w).closedHeight, undefined, { source: `${MOTION} at l_closed - r` }],
  ['height_at_droop', 'H_droop', 'hub to arch at full droop', 'length', (w) => g(w).droopHeight, undefined, { source: `${MOTION} at l_droop - r` }],
  ['stack_free_length', 'L0', 'free length of the spring stack', 'length', (w) => g(w).stack.freeLength, (w) => withHelper(w, 'L', 'L_h')],
  ['stack_solid_length', 'S0', 'solid height of the spring stack', 'length', (w) => g(w).stack.solidLength, (w) => withHelper(w, 'S', 'S_h')],
]);

function flange(w: Working): string {
  return corner(w).mount.seat === 'fixed' ? 'r + s' : 'r_bare + s';
}

function seat(w: Working): string {
  return corner(w).isolator ? 'a_fl + i' : 'a_fl';
}

function withHelper(w: Working, main: string, helper: string): string {
  return corner(w).helper ? `${main} + ${helper} + c` : main;
}
