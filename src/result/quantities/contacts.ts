/** Full bump and every hard contact: where it would happen and the clearance left. */
import { leastGapsOf } from '../../model/corner/coilGaps.ts';
import {
  COIL_BIND,
  CONTACT,
  CONTACT_EXPRESSIONS,
  CONTACTS,
  type Contact,
  type ContactName,
} from '../../model/corner/contacts.ts';
import { FIT_QUANTITIES, FIT as FIT_RECORD, FITS, type FitName, fitsOf, rodStack } from '../../model/corner/fit.ts';
import { clearanceClosed, stackForceAtFullBump, thinnestContact, thinnestMetal } from '../../model/corner/state.ts';
import type { Working } from '../../model/corner/window.ts';
import { quantities } from './quantity.ts';
import { known } from './spring.ts';

const EN_13906 = 'EN 13906-1 (from memory); 1.5 times as much under repeated load';
const POLICY = "the setup's bump policy";

// biome-ignore format: one row a quantity
export const FULL_BUMP = quantities('full bump', POLICY, [
  ['length_full', 'l_full', 'damper length at full bump', 'length', (w) => w.state.full.length, (w) => (closed(w) ? 'l_closed' : null)],
  ['height_full', 'H_full', 'hub to arch at full bump', 'length', (w) => w.state.full.height, (w) => (closed(w) ? 'H_closed' : null)],
  ['full_bump_travel', 'z_full', 'wheel travel from standing to full bump', 'length', (w) => w.state.standing.height - w.state.full.height, 'H - H_full'],
  ['stop_squeeze', 'c_stop', 'squeeze of the stop at full bump', 'length', (w) => w.state.geometry.squeezeLength - w.state.full.length, 'B_close + p + b - l_full'],
  ['stop_share', 'share_stop', 'share of the bump travel that the stop carries', 'share', stopShare, '100 * (H_stop - H_full) / (H - H_full)'],
  ['full_spring_force', 'F_full', 'force of the spring stack at full bump', 'force', (w) => stackForceAtFullBump(w.state)],
]);

/** Beside the clearance to coil bind: what the coils should keep. */
// biome-ignore format: one row a quantity
const LEAST_GAPS = quantities('contacts', EN_13906, [
  ['least_gap_sum', 'gap_least', 'least sum of gaps between coils', 'length', (w) => leastGapsOf(w.state.corner.spring), 'n_a * (0.0015 * D_mean^2 / d_wire + 0.1 * d_wire)', { source: known(EN_13906) }],
]);

/**
 * Four rows a contact: the damper length at which it happens, the clearance along the damper, with the stop fully closed
 * where full bump is judged under a load, and at the wheel.
 */
export const CONTACT_QUANTITIES = [
  ...CONTACTS.flatMap((name) => [...contactRows(name), ...(name === COIL_BIND ? LEAST_GAPS : [])]),
  // biome-ignore format: one row a quantity
  ...quantities('contacts', 'least of clearance less margin', [
    ['thinnest_clearance', 'c_thin', 'thinnest clearance, nearest its margin', 'length', (w) => thinnestContact(w.state).clearance, undefined, { better: 'more' }],
    ['thinnest_clearance_closed', 'c_thin_closed', 'the same with the stop fully closed', 'length', (w) => ifBeyond(w, thinnestContact(w.state).clearance), 'c_thin - (l_full - l_closed)', { better: 'more' }],
    ['thinnest_metal_clearance', 'c_metal', 'thinnest clearance of metal, the spring apart', 'length', (w) => thinnestMetal(w.state).clearance, undefined, { better: 'more' }],
    ['thinnest_spare', 'spare_thin', 'the same beyond its margin', 'length', thinnestSpare, undefined, { better: 'more' }],
  ]),
];

function contactRows(name: ContactName) {
  const { label } = CONTACT[name];
  const expression = CONTACT_EXPRESSIONS[name];
  const give = 'ridesOnRod' in CONTACT[name] ? '' : ' - give';
  const lengthOf = (w: Working) =>
    typeof expression === 'function' ? expression(contactOf(w, name)?.length, w.state.geometry) : expression;
  // biome-ignore format: one row a quantity
  return quantities(
    'contacts',
    expression === null ? 'measured motion curve at H_arch' : 'geometry of the parts',
    [[ `length_${name}`, `l_${name}`, `damper length, ${label}`, 'length', (w) => contactOf(w, name)?.length ?? null, lengthOf, ], [ `clearance_${name}`, `c_${name}`, `clearance, ${label}`, 'length', (w) => contactOf(w, name)?.clearance ?? null, `l_full - l_${name}${give}`, { better: 'more' }, ], [ `clearance_${name}_closed`, `c_${name}_closed`, `clearance with the stop fully closed, ${label}`, 'length', (w) => ifBeyond(w, contactOf(w, name)?.clearance ?? null), `l_closed - l_${name}${give}`, { better: 'more' }, ], [ `wheel_clearance_${name}`, `z_${name}`, `the same at the wheel, ${label}`, 'length', (w) => contactOf(w, name)?.atWheel ?? null, undefined, { source: 'measured motion curve from l_full' }, ]],
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

// Fits: for every part that must pass through or over another, what is to spare and what is needed.

/** Two rows a fit; what does not exist for a corner (no helper, no rod end) has none. */
export const FIT = [
  ...quantities('fit', 'geometry of the parts', [
    [
      'rod_stack',
      'h_stack',
      'stack on the rod end, shoulder to nut',
      'length',
      (w) => rodStack(w.state.corner),
      'h_wash + h_bush + h_plate + h_upper + h_uwash',
    ],
  ]),
  ...FITS.flatMap(fitRows),
];

function fitRows(name: FitName) {
  const [label, expression] = FIT_QUANTITIES[name];
  const spare = typeof expression === 'string' ? expression : ({ state }: Working) => expression(state.corner);
  // biome-ignore format: one row a quantity
  return quantities('fit', 'geometry of the parts', [
    [`fit_${name}`, `fit_${name}`, `${label}: to spare`, 'length', (w) => fitOf(w, name)?.spare ?? null, spare, { better: 'more' }],
    [`need_${name}`, `need_${name}`, `${label}: needed`, 'length', (w) => fitOf(w, name)?.needed ?? null, FIT_RECORD[name].slides ? 'mg_pass' : '0'],
  ]);
}

function fitOf({ state }: Working, name: FitName) {
  return fitsOf(state.site, state.corner, state.geometry).find((fit) => fit.name === name);
}
