/** What the scenario gives: loads, targets and the dimensions of the chosen parts. */
import { closedAtForce } from '../../model/bumpStop.ts';
import { type CoilBindMargin, coilBindMargin, MARGIN_BASES } from '../../model/corner/coilGaps.ts';
import type { Working } from '../../model/corner/window.ts';
import type { Helper } from '../../model/parts.ts';
import { quantities } from './quantity.ts';

const corner = (w: Working) => w.state.corner;
const site = (w: Working) => w.state.site;
const gas = (w: Working) => corner(w).damper.gas;

// biome-ignore format: one row a quantity
export const GIVEN = quantities('given', 'given', [
  ['wheel_load', 'm_wheel', 'wheel load', 'mass', (w) => site(w).sprungMass + site(w).unsprungMass],
  ['unsprung_mass', 'm_u', 'unsprung mass of the corner', 'mass', (w) => site(w).unsprungMass],
  ['tyre_rate', 'k_t', 'tyre rate', 'rate', (w) => site(w).tyreRate],
  ['ride_height', 'H', 'ride height, hub to arch', 'length', (w) => w.state.standing.height],
  ['tyre_on_arch', 'H_arch', 'hub to arch, tyre on arch', 'length', (w) => site(w).tyreOnArchHeight],
  ['lowest_wheel', 'H_strap', 'hub to arch where something ends the droop', 'length', (w) => site(w).lowestWheelHeight],
  ['bush_rate', 'k_p', 'rate of twisted bushes at the wheel', 'rate', (w) => site(w).bushes?.rate ?? null],
  ['bush_unloaded', 'H_p', 'height where the bushes are unloaded', 'length', (w) => site(w).bushes?.unloadedHeight ?? null],
  ['damper_extended', 'l_ext', 'damper length, fully out', 'length', (w) => corner(w).damper.extended],
  ['damper_compressed', 'l_in', 'damper length, fully in', 'length', (w) => corner(w).damper.compressed],
  ['body_length', 'B', 'lower eye to top of body', 'length', (w) => corner(w).damper.bodyLength],
  ['body_diameter', 'd_body', 'body diameter', 'length', (w) => corner(w).damper.bodyDiameter],
  ['gas_out', 'F_out', 'gas push, fully out', 'force', gasOut],
  ['gas_in', 'F_in', 'gas push, fully in', 'force', gasIn],
  ['gas_charge', 'p_g', 'charge pressure at the working temperature, gauge', 'stress', (w) => charge(w)?.chargePressure ?? null],
  ['rod_area', 'A_rod', 'rod area', 'area', (w) => charge(w)?.rodArea ?? null],
  ['gas_volume', 'V_gas', 'gas volume, fully out', 'volume', (w) => charge(w)?.gasVolume ?? null],
  ['ledge_height', 'G', 'lower eye to sleeve ledge', 'length', (w) => corner(w).sleeve.ledgeHeight],
  ['groove_drop', 'e', 'groove lowered by', 'length', (w) => corner(w).sleeve.grooveDrop],
  ['sleeve_length', 'L_slv', 'sleeve length as bought', 'length', (w) => corner(w).sleeve.length],
  ['trim', 't', 'sleeve trim', 'length', (w) => corner(w).sleeve.trim],
  ['sleeve_diameter', 'd_slv', 'sleeve outer diameter', 'length', (w) => corner(w).sleeve.outerDiameter],
  ['sleeve_bore', 'D_slv', 'sleeve bore', 'length', (w) => corner(w).sleeve.bore],
  ['thread_pitch', 'pitch', 'sleeve thread, rise per turn', 'length', (w) => corner(w).sleeve.threadPitch],
  ['lock_ring', 'h_ring', 'lock ring thickness', 'length', (w) => corner(w).perch.lockRing],
  ['perch_height', 'h_perch', 'perch, lower face to seat', 'length', (w) => corner(w).perch.height],
  ['perch_inset', 'inset', 'perch seat stays below sleeve top by', 'length', (w) => corner(w).perch.inset],
  ['perch_spigot', 'd_spigot', 'perch spigot diameter', 'length', (w) => corner(w).perch.spigotDiameter],
  ['engagement', 'h_eng', 'seat spigots hold the spring by', 'length', (w) => corner(w).perch.engagement],
  ['free_length', 'L', 'main spring free length', 'length', (w) => corner(w).spring.freeLength],
  ['rate', 'k', 'main spring rate', 'rate', (w) => corner(w).spring.rate, undefined, { source: rateSource }],
  ['spring_bore', 'D_bore', 'main spring bore', 'length', (w) => corner(w).spring.bore],
  ['wire_diameter', 'd_wire', 'main spring wire diameter', 'length', (w) => corner(w).spring.wire?.diameter ?? null, undefined, { source: wireSource }],
  ['active_coils', 'n_a', 'main spring active coils', 'ratio', (w) => corner(w).spring.wire?.activeCoils ?? null, undefined, { source: wireSource }],
  ['total_coils', 'n_t', 'main spring coils in all', 'ratio', (w) => corner(w).spring.wire?.totalCoils ?? null, undefined, { source: wireSource }],
  ['solid_height', 'S', 'main spring solid height', 'length', (w) => corner(w).spring.solid.height, undefined, { source: solidSource }],
  ['solid_height_least', 'S_least', 'least possible solid height', 'length', (w) => corner(w).spring.solid.least, undefined, { source: solidSource }],
  ['solid_height_most', 'S_most', 'greatest possible solid height', 'length', (w) => corner(w).spring.solid.most, undefined, { source: solidSource }],
  ['helper_free_length', 'L_h', 'helper free length', 'length', (w) => corner(w).helper?.freeLength ?? null],
  ['helper_rate', 'k_h', 'helper rate', 'rate', (w) => corner(w).helper?.rate ?? null],
  ['helper_block_height', 'S_h', 'helper solid height', 'length', (w) => corner(w).helper?.blockHeight ?? null],
  ['helper_bore', 'D_h', 'helper bore', 'length', (w) => corner(w).helper?.bore ?? null],
  ['coupler', 'c', 'coupler thickness', 'length', (w) => corner(w).helper?.coupler ?? null],
  ['coupler_bore', 'D_c', 'coupler bore', 'length', (w) => (hasCoupler(w) ? (corner(w).helper as Helper).couplerBore : null)],
  ['raise', 'r', 'rod shoulder above tower plane', 'length', (w) => corner(w).mount.raise],
  ['bare_raise', 'r_bare', 'the same without spacer', 'length', (w) => corner(w).mount.bareRaise],
  ['spacer', 'h_spacer', 'spacer at the mount', 'length', (w) => corner(w).mount.spacer],
  ['flange_depth', 's', 'seat flange below tower plane', 'length', (w) => corner(w).mount.flangeDepth],
  ['mount_bore', 'D_mount', 'mount bore', 'length', (w) => corner(w).mount.bore],
  ['mount_spigot', 'h_spig', 'mount spigot below its flange', 'length', (w) => corner(w).mount.spigot],
  ['lower_bush', 'h_bush', 'lower bush of the mount', 'length', (w) => corner(w).mount.lowerBush],
  ['washers', 'h_wash', 'washers under the plate', 'length', (w) => corner(w).mount.washers],
  ['washer_diameter', 'd_wash', 'widest of washers and lower bush', 'length', (w) => corner(w).mount.washerDiameter],
  ['bush_give', 'give', 'rise of the shoulder in the bush at full bump', 'length', (w) => corner(w).mount.bushGive],
  ['isolator_thickness', 'i', 'isolator thickness', 'length', (w) => corner(w).isolator?.thickness ?? null],
  ['isolator_bore', 'D_iso', 'isolator bore', 'length', (w) => corner(w).isolator?.bore ?? null],
  ['isolator_spigot', 'h_isp', 'isolator spigot below the upper seat', 'length', (w) => corner(w).isolator?.spigot ?? null],
  ['stop_length', 'b', 'bump stop length as cut', 'length', (w) => corner(w).bumpStop.length],
  ['closed_fraction', 'f_closed', 'closed length over free length of the stop', 'ratio', (w) => corner(w).bumpStop.closedFraction],
  ['closed_at_force', 'F_closed', 'force at which the stop counts as closed', 'force', (w) => closedAtForce(corner(w).bumpStop), undefined, { source: (w) => (corner(w).bumpStop.closedAtForce === null ? 'force curve of the stop, scaled by strain' : 'given') }],
  ['stop_diameter', 'd_stop', 'bump stop diameter', 'length', (w) => corner(w).bumpStop.diameter],
  ['packer', 'p', 'packer above the stop', 'length', (w) => corner(w).bumpStop.packer],
  ['packer_diameter', 'd_pack', 'packer diameter', 'length', (w) => (corner(w).bumpStop.packer > 0 ? corner(w).bumpStop.packerDiameter : null)],
  ['thread_starts', 'z_thread', 'thread of the rod starts above the shoulder', 'length', (w) => corner(w).rodEnd?.threadStart ?? null],
  ['thread_ends', 'z_end', 'thread of the rod ends above the shoulder', 'length', (w) => corner(w).rodEnd?.threadEnd ?? null],
  ['plate_thickness', 'h_plate', 'plate of the mount', 'length', (w) => corner(w).rodEnd?.plateThickness ?? null],
  ['upper_bush', 'h_upper', 'upper bush of the mount', 'length', (w) => corner(w).rodEnd?.upperBush ?? null],
  ['upper_washers', 'h_uwash', 'washers under the nut', 'length', (w) => corner(w).rodEnd?.upperWashers ?? null],
  ['nut', 'h_nut', 'nut height', 'length', (w) => corner(w).rodEnd?.nut ?? null],
  ['jam_nut', 'h_jam', 'jam nut height', 'length', (w) => corner(w).rodEnd?.jamNut ?? null],
  ['margin_coil_bind', 'mg_bind', 'margin to coil bind', 'length', (w) => bindMargin(w).value, bindExpression, { source: bindSource }],
  ['margin_damper', 'mg_damper', 'margin inside the damper', 'length', (w) => site(w).margins.damper],
  ['margin_sleeve', 'mg_sleeve', 'margin of the sleeve to metal', 'length', (w) => site(w).margins.sleeve],
  ['margin_body', 'mg_body', 'margin of the body to metal', 'length', (w) => site(w).margins.body],
  ['margin_tyre', 'mg_tyre', 'margin of the tyre to the arch', 'length', (w) => site(w).margins.tyre],
  ['passing', 'mg_pass', 'clearance on diameter that a part needs to pass a bore', 'length', (w) => site(w).margins.passing],
]);

function bindMargin(w: Working): CoilBindMargin {
  return coilBindMargin(site(w).margins.coilBind, corner(w).spring);
}

function bindExpression(w: Working): string | null {
  const expressions: Partial<Record<CoilBindMargin['basis'], string>> = {
    least_gaps: 'gap_least',
    half_least_gaps: 'gap_least / 2',
  };
  return expressions[bindMargin(w).basis] ?? null;
}

function bindSource(w: Working): string {
  return MARGIN_BASES[bindMargin(w).basis];
}

function hasCoupler(w: Working): boolean {
  return (corner(w).helper?.coupler ?? 0) > 0;
}

function charge(w: Working) {
  const found = gas(w);
  return found.kind === 'charge' ? found : null;
}

function gasOut(w: Working): number | null {
  const found = gas(w);
  return found.kind === 'linear' ? found.outForce : null;
}

function gasIn(w: Working): number | null {
  const found = gas(w);
  return found.kind === 'linear' ? (found.inForce ?? found.outForce) : null;
}

function wireSource(w: Working): string {
  return corner(w).spring.wire?.estimated ? 'estimated from free length, rate and bore' : 'given';
}

function rateSource(w: Working): string {
  return corner(w).spring.rateEstimated ? 'estimated from wire, coils and bore' : 'given';
}

const SOLID_SOURCES = {
  catalogue: 'given',
  'wire x coils': 'wire times counted coils',
  estimated: 'estimated: wire unknown (EN 13906-1 stress shares, from memory)',
} as const;

function solidSource(w: Working): string {
  return SOLID_SOURCES[corner(w).spring.solid.source];
}
