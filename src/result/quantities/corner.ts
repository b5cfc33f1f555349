/** Every quantity of one corner, in the order in which one follows from the other. */
import { closedLength } from '../../model/bumpStop.ts';
import { forcesAt } from '../../model/corner/balance.ts';
import { STOP_FORCE_UNKNOWN } from '../../model/corner/messages.ts';
import { type Rates, ratesAt } from '../../model/corner/rates.ts';
import { collarTurns, snugAt } from '../../model/corner/snug.ts';
import { clearanceClosed, isStopForceKnown, type LoadedState, thinnestMetal } from '../../model/corner/state.ts';
import { coveredShare, type Working } from '../../model/corner/window.ts';
import { baseAt } from '../../model/motion.ts';
import { solidForce } from '../../model/stack.ts';
import { CONTACT_QUANTITIES, FIT, FULL_BUMP } from './contacts.ts';
import { GIVEN } from './given.ts';
import { type KeyOf, quantities, type Values } from './quantity.ts';
import { RATES } from './rates.ts';
import { SPRING, WORKING_RANGE } from './spring.ts';

/**
 * @param loadStates names of the setup's load states, each of which brings rows of its own
 * @param track track of the axle, mm; null: the roll rate is left out
 */
export function cornerQuantities(loadStates: readonly string[], track: number | null = null) {
  return [
    ...GIVEN,
    ...GEOMETRY,
    ...FIT,
    ...STANDING,
    ...RATES,
    ...TRAVEL,
    ...rollQuantities(track),
    ...FULL_BUMP,
    ...CONTACT_QUANTITIES,
    ...WINDOW,
    ...BENCH,
    ...SPRING,
    ...WORKING_RANGE,
    ...loadQuantities(loadStates),
  ];
}

export type CornerQuantity = ReturnType<typeof cornerQuantities>[number];
/** What no table has is no key. */
export type CornerKey = KeyOf<CornerQuantity>;
export type CornerValues = Values<CornerKey>;

// Lengths that follow from the parts alone.

const g = (w: Working) => w.state.geometry;
const corner = (w: Working) => w.state.corner;
const MOTION = 'measured motion curve (Fritsch & Carlson 1980)';

// biome-ignore format: one row a quantity
const GEOMETRY = quantities('geometry', 'geometry of the parts', [
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

// The corner at rest at its ride height.

const s = (w: Working) => w.state.standing;
const BALANCE = 'balance of forces (virtual work)';

// biome-ignore format: one row a quantity
export const STANDING = quantities('standing', BALANCE, [
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

// The height window and what it covers of the wanted range.

const LIMITS = 'the limits solved for the ride height that meets them';
const target = (w: Working) => w.state.site.target;

// biome-ignore format: one row a quantity
export const WINDOW = quantities('height window', LIMITS, [
  ['wanted_from', 'H_from', 'wanted heights from', 'length', (w) => target(w).wantedFrom, undefined, { source: 'given' }],
  ['wanted_to', 'H_to', 'wanted heights to', 'length', (w) => target(w).wantedTo, undefined, { source: 'given' }],
  ['lowest_height', 'H_low', 'lowest usable ride height', 'length', (w) => w.window?.low.height ?? null],
  ['highest_height', 'H_high', 'highest usable ride height', 'length', (w) => w.window?.high.height ?? null],
  ['lowest_perch', 'P_low', 'lowest usable place of the perch seat', 'length', (w) => w.window?.low.perch ?? null],
  ['highest_perch', 'P_high', 'highest usable place of the perch seat', 'length', (w) => w.window?.high.perch ?? null],
  ['height_coverage', 'cover', 'share of the wanted heights that the window covers', 'share', (w) => 100 * coveredShare(w.window, target(w).wantedFrom, target(w).wantedTo), coverage, { better: 'more' }],
]);

function coverage(w: Working): string | null {
  if (!w.window?.usable || target(w).wantedTo <= target(w).wantedFrom) return null;
  return '100 * max(0, min(H_high, H_to) - max(H_low, H_from)) / (H_to - H_from)';
}

// The corner under each load state, the perch left where the design load put it.

const SOLVED = 'balance of forces solved for the height, perch unchanged';

/** Four rows a load state; ids and symbols carry the state's position, labels its name. */
export function loadQuantities(names: readonly string[]) {
  return names.flatMap((name, k) => {
    const at = (w: Working) => w.state.loads[k] as LoadedState;
    const n = k + 1;
    return quantities('load states', SOLVED, [
      [`load_${n}_height`, `H_${n}`, `${name}: standing height`, 'length', (w) => at(w).height],
      [
        `load_${n}_bump_travel`,
        `z_bump_${n}`,
        `${name}: bump travel left`,
        'length',
        (w) => at(w).bumpTravel,
        `H_${n} - H_stop`,
        { better: 'more' },
      ],
      [
        `load_${n}_droop_travel`,
        `z_droop_${n}`,
        `${name}: droop travel left`,
        'length',
        (w) => at(w).droopTravel,
        `H_droop - H_${n}`,
        { better: 'more' },
      ],
      [
        `load_${n}_frequency`,
        `f_body_${n}`,
        `${name}: body frequency, without the tyre`,
        'frequency',
        (w) => at(w).rates.bodyFrequency,
      ],
    ]);
  });
}

// The corner away from rest: wheel rates at full bump and at droop, and what the axle's springs hold in roll.

const RATES_OF_PARTS = 'rates of the parts there, as at rest';

// biome-ignore format: one row a quantity
const TRAVEL = quantities('rates', RATES_OF_PARTS, [
  ['wheel_rate_full', 'k_w_full', 'wheel rate at full bump, stop included', 'rate', (w) => whereKnown(w, () => ratesWhere(w, w.state.full.height).wheel), undefined, { unknown: STOP_FORCE_UNKNOWN }],
  ['wheel_rate_droop', 'k_w_droop', 'wheel rate at full droop', 'rate', (w) => ratesWhere(w, w.state.geometry.droopHeight).wheel],
  ['wheel_force_full', 'W_full', 'force at the wheel at full bump', 'force', (w) => whereKnown(w, () => forcesWhere(w, w.state.full.height).load), undefined, { unknown: STOP_FORCE_UNKNOWN }],
]);

/** Roll rate of one axle's springs; exists where the axle's track is given. */
function rollQuantities(track: number | null) {
  if (track === null) return [];
  return quantities('rates', 'virtual work: k_w t^2 / 2', [
    ['track', 'track', 'track', 'length', () => track, undefined, { source: 'given' }],
    [
      'roll_rate',
      'K_roll',
      'roll rate of the springs of the axle',
      'angularRate',
      (w) => (((w.state.rates.wheel * track ** 2) / 2) * Math.PI) / 180 / 1000,
      'k_w * track^2 / 2 * pi / 180 / 1000',
    ],
  ]);
}

/** Null where full bump squeezes a stop whose force nobody gave: then no total that contains it is known. */
function whereKnown(w: Working, read: () => number): number | null {
  return isStopForceKnown(w.state) ? read() : null;
}

function forcesWhere(w: Working, height: number) {
  const { site, corner, geometry, standing } = w.state;
  return forcesAt(site, corner, geometry, height, standing.perch);
}

function ratesWhere(w: Working, height: number): Rates {
  const { site, corner, geometry } = w.state;
  return ratesAt(site, corner, geometry, forcesWhere(w, height), site.sprungMass);
}

// What the workbench sets, counts and measures: cuts, collar turns, and the bench test with the spring just snug.

const perch = (w: Working) => w.state.standing.perch;
const snug = (w: Working) => snugAt(corner(w), w.state.geometry, perch(w));
const lowest = (w: Working) => w.state.geometry.perchLowest;
const PARTS = 'geometry of the parts';

// biome-ignore format: one row a quantity
export const BENCH = quantities('bench', PARTS, [
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
