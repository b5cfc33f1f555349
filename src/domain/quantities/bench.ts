/** What the workbench sets, counts and measures: cuts, collar turns, and the bench test with the spring just snug. */
import { collarTurns, snugAt } from '../corner/snug.ts';
import { clearanceClosed, thinnestMetal } from '../corner/state.ts';
import { solidForce } from '../stack.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const corner = (w: Working) => w.state.corner;
const perch = (w: Working) => w.state.standing.perch;
const snug = (w: Working) => snugAt(corner(w), w.state.geometry, perch(w));
const lowest = (w: Working) => w.state.geometry.perchLowest;
const PARTS = 'geometry of the parts';

// biome-ignore format: one row a quantity
export const BENCH: readonly CornerQuantity[] = quantities<Working>('bench', PARTS, [
  ['sleeve_left', 'L_cut', 'sleeve length after cutting', 'length', (w) => corner(w).sleeve.length - corner(w).sleeve.trim, 'L_slv - t'],
  ['thread_below', 'h_below', 'perch seat above its lowest place: thread showing below the lock ring', 'length', (w) => perch(w) - lowest(w), 'P - P_min'],
  ['collar_turns', 'turns', 'collar turns up from the lowest place', 'ratio', (w) => collarTurns(corner(w).sleeve, perch(w), lowest(w)), '(P - P_min) / pitch'],
  ['length_snug', 'l_snug', 'damper length, spring just snug', 'length', (w) => snug(w).length, 'P + a_seat + L0'],
  ['seats_out', 'g_out', 'seat to seat, damper fully out', 'length', (w) => corner(w).damper.extended - w.state.geometry.seatBelowShoulder - perch(w), 'l_ext - a_seat - P'],
  ['bench_slack', 'slack_out', 'looseness of the spring, damper fully out (negative: preload)', 'length', (w) => snug(w).looseness - snug(w).preload, 'l_ext - l_snug'],
  ['gap_out', 'gap_out', 'gap to the bump stop, damper fully out', 'length', (w) => corner(w).damper.extended - w.state.geometry.stopLength, 'l_ext - l_stop'],
  ['gap_snug', 'gap_snug', 'gap to the bump stop, spring just snug', 'length', (w) => snug(w).gap, 'l_snug - l_stop'],
  ['gap_lowest', 'gap_low', 'the same, perch at its lowest usable place', 'length', (w) => gapWith(w, w.window?.low.perch), 'P_low + a_seat + L0 - l_stop'],
  ['gap_highest', 'gap_high', 'the same, perch at its highest usable place', 'length', (w) => gapWith(w, w.window?.high.perch), 'P_high + a_seat + L0 - l_stop'],
  ['spring_travel_snug', 'x_solid', 'travel of the spring stack, snug to solid', 'length', (w) => snug(w).springTravel, 'L0 - S0'],
  ['stop_travel_snug', 'u_closed', 'damper travel, snug to bump stop closed', 'length', (w) => snug(w).stopTravel, 'l_snug - l_closed'],
  ['snug_spare', 'spare_snug', 'spring travel left with the stop fully closed; bush give and margin still in it', 'length', (w) => snug(w).spare, 'x_solid - u_closed', { better: 'more' }],
  ['closed_metal_clearance', 'c_closed', 'thinnest clearance of metal with the stop fully closed', 'length', metalClosed, 'c_metal - (l_full - l_closed)', { better: 'more' }],
  ['block_load', 'F_block', 'force at which the spring stack is solid', 'force', (w) => solidForce(w.state.geometry.stack), blockExpression, { source: 'spring stack in series' }],
  ['stroke_used', 'share_stroke', 'share of the damper’s stroke used standing', 'share', strokeUsed, '100 * (l_ext - l_r) / (l_ext - l_in)'],
]);

/** Null where no stable window says which perch. */
function gapWith(w: Working, at: number | undefined): number | null {
  return at === undefined ? null : snugAt(corner(w), w.state.geometry, at).gap;
}

/** Beyond a full bump judged under a load the stop still closes, and all metal comes nearer alike. */
function metalClosed({ state }: Working): number {
  return clearanceClosed(state, thinnestMetal(state).clearance);
}

function blockExpression(w: Working): string {
  return corner(w).helper ? 'max(k * (L - S), k_h * (L_h - S_h))' : 'k * (L - S)';
}

function strokeUsed(w: Working): number {
  const { extended, compressed } = corner(w).damper;
  return (100 * (extended - w.state.standing.length)) / (extended - compressed);
}
