/** Full bump and every hard contact: where it would happen and the clearance left. */
import { leastGapsOf } from '../corner/coilGaps.ts';
import { CONTACT_LABELS } from '../corner/contactLabels.ts';
import { CONTACTS, type Contact, type ContactName } from '../corner/contacts.ts';
import { clearanceClosed, stackForceAtFullBump, thinnestContact, thinnestMetal } from '../corner/state.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';
import { known } from './spring.ts';

const EN_13906 = 'EN 13906-1 (from memory); 1.5 times as much under repeated load';
const POLICY = "the setup's bump policy";

// biome-ignore format: one row a quantity
export const FULL_BUMP: readonly CornerQuantity[] = quantities<Working>('full bump', POLICY, [
  ['length_full', 'l_full', 'damper length at full bump', 'length', (w) => w.state.full.length, (w) => (closed(w) ? 'l_closed' : null)],
  ['height_full', 'H_full', 'hub to arch at full bump', 'length', (w) => w.state.full.height, (w) => (closed(w) ? 'H_closed' : null)],
  ['full_bump_travel', 'z_full', 'wheel travel from standing to full bump', 'length', (w) => w.state.standing.height - w.state.full.height, 'H - H_full'],
  ['stop_squeeze', 'c_stop', 'squeeze of the stop at full bump', 'length', (w) => w.state.geometry.squeezeLength - w.state.full.length, 'B_close + p + b - l_full'],
  ['stop_share', 'share_stop', 'share of the bump travel that the stop carries', 'share', stopShare, '100 * (H_stop - H_full) / (H - H_full)'],
  ['full_spring_force', 'F_full', 'force of the spring stack at full bump', 'force', (w) => stackForceAtFullBump(w.state)],
]);

const CONTACT_EXPRESSIONS: Readonly<Record<ContactName, (w: Working) => string | null>> = {
  coil_bind: () => 'P + a_seat + S0',
  damper: () => 'l_in',
  sleeve_isolator: () => 'T + a_seat + h_isp',
  sleeve_flange: () => 'T + a_fl + h_spig',
  sleeve_washers: (w) => (contactOf(w, 'sleeve_washers')?.length === w.state.geometry.sleeveTop ? 'T' : 'T + p'),
  sleeve_plate: () => 'T - (h_bush + h_wash)',
  body_isolator: () => 'B + a_seat + h_isp',
  body_flange: () => 'B + a_fl + h_spig',
  tyre_arch: () => null,
};

/** Beside the clearance to coil bind: what the coils should keep. */
// biome-ignore format: one row a quantity
const LEAST_GAPS = quantities<Working>('contacts', EN_13906, [
  ['least_gap_sum', 'gap_least', 'least sum of gaps between coils', 'length', (w) => leastGapsOf(w.state.corner.spring), 'n_a * (0.0015 * D_mean^2 / d_wire + 0.1 * d_wire)', { source: known(EN_13906) }],
]);

/**
 * Four rows a contact: the damper length at which it happens, the clearance along the damper, with the stop fully closed
 * where full bump is judged under a load, and at the wheel.
 */
export const CONTACT_QUANTITIES: readonly CornerQuantity[] = [
  ...CONTACTS.flatMap((name) => [...contactRows(name), ...(name === 'coil_bind' ? LEAST_GAPS : [])]),
  // biome-ignore format: one row a quantity
  ...quantities<Working>('contacts', 'least of clearance less margin', [
    ['thinnest_clearance', 'c_thin', 'thinnest clearance, nearest its margin', 'length', (w) => thinnestContact(w.state).clearance, undefined, { better: 'more' }],
    ['thinnest_clearance_closed', 'c_thin_closed', 'the same with the stop fully closed', 'length', (w) => ifBeyond(w, thinnestContact(w.state).clearance), 'c_thin - (l_full - l_closed)', { better: 'more' }],
    ['thinnest_metal_clearance', 'c_metal', 'thinnest clearance of metal, the spring apart', 'length', (w) => thinnestMetal(w.state).clearance, undefined, { better: 'more' }],
    ['thinnest_spare', 'spare_thin', 'the same beyond its margin', 'length', thinnestSpare, undefined, { better: 'more' }],
  ]),
];

function contactRows(name: ContactName): CornerQuantity[] {
  const label = CONTACT_LABELS[name];
  const give = name === 'damper' || name === 'sleeve_washers' ? '' : ' - give';
  // biome-ignore format: one row a quantity
  return quantities<Working>(
    'contacts',
    name === 'tyre_arch' ? 'measured motion curve at H_arch' : 'geometry of the parts',
    [[ `length_${name}`, `l_${name}`, `damper length, ${label}`, 'length', (w) => contactOf(w, name)?.length ?? null, (w) => CONTACT_EXPRESSIONS[name](w), ], [ `clearance_${name}`, `c_${name}`, `clearance, ${label}`, 'length', (w) => contactOf(w, name)?.clearance ?? null, `l_full - l_${name}${give}`, { better: 'more' }, ], [ `clearance_${name}_closed`, `c_${name}_closed`, `clearance with the stop fully closed, ${label}`, 'length', (w) => ifBeyond(w, contactOf(w, name)?.clearance ?? null), `l_closed - l_${name}${give}`, { better: 'more' }, ], [ `wheel_clearance_${name}`, `z_${name}`, `the same at the wheel, ${label}`, 'length', (w) => contactOf(w, name)?.atWheel ?? null, undefined, { source: 'measured motion curve from l_full' }, ]],
  );
}

function contactOf(w: Working, name: ContactName): Contact | null {
  return w.state.contacts.find((c) => c.name === name) ?? null;
}

/** With the `closed` policy the clearance is that figure already. */
function ifBeyond(w: Working, clearance: number | null): number | null {
  return closed(w) || clearance === null ? null : clearanceClosed(w.state, clearance);
}

function closed(w: Working): boolean {
  return w.state.site.bump.kind === 'closed';
}

function stopShare(w: Working): number | null {
  const { standing, full, geometry } = w.state;
  const whole = standing.height - full.height;
  return whole > 0 ? (100 * (geometry.stopHeight - full.height)) / whole : null;
}

function thinnestSpare(w: Working): number {
  const thin = thinnestContact(w.state);
  return thin.clearance - thin.margin;
}
