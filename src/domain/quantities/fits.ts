/** Fits: for every part that must pass through or over another, what is to spare and what is needed. */
import { FITS, type FitName, fitsOf } from '../corner/fit.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const LABELS: Readonly<Record<FitName, string>> = {
  spring_over_sleeve: 'main spring over sleeve',
  spring_over_spigot: 'lowest spring over the perch’s spigot',
  sleeve_over_body: 'sleeve over damper body',
  helper_over_sleeve: 'helper over sleeve',
  coupler_over_sleeve: 'coupler over sleeve',
  stop_in_mount: 'bump stop inside the mount’s bore',
  stop_in_isolator: 'bump stop inside the isolator’s bore',
  thread_start: 'stack above the start of the rod’s thread',
  thread_end: 'thread beyond nut and jam nut',
};

const SPARES: Readonly<Record<FitName, (w: Working) => string>> = {
  spring_over_sleeve: () => 'D_bore - d_slv',
  spring_over_spigot: (w) => (w.state.corner.helper ? 'min(D_h, D_bore) - d_spigot' : 'D_bore - d_spigot'),
  sleeve_over_body: () => 'D_slv - d_body',
  helper_over_sleeve: () => 'D_h - d_slv',
  coupler_over_sleeve: () => 'D_c - d_slv',
  stop_in_mount: () => 'D_mount - d_stop',
  stop_in_isolator: () => 'D_iso - d_stop',
  thread_start: () => 'h_stack - z_thread',
  thread_end: () => 'z_end - h_stack - h_nut - h_jam',
};

/** Whatever goes over without having to slide needs no more than to go over. */
const NEEDS_NOTHING: readonly FitName[] = ['spring_over_spigot', 'sleeve_over_body', 'thread_start', 'thread_end'];

/** Two rows a fit; what does not exist for a corner (no helper, no rod end) has none. */
export const FIT: readonly CornerQuantity[] = [
  ...quantities<Working>('fit', 'geometry of the parts', [
    ['rod_stack', 'h_stack', 'stack on the rod end, shoulder to nut', 'length', rodStack, rodStackExpression],
  ]),
  ...FITS.flatMap(fitRows),
];

// biome-ignore format: one row a quantity
function fitRows(name: FitName): CornerQuantity[] {
  return quantities<Working>('fit', 'geometry of the parts', [
    [`fit_${name}`, `fit_${name}`, `${LABELS[name]}: to spare`, 'length', (w) => fitOf(w, name)?.spare ?? null, SPARES[name], { better: 'more' }],
    [`need_${name}`, `need_${name}`, `${LABELS[name]}: needed`, 'length', (w) => fitOf(w, name)?.needed ?? null, NEEDS_NOTHING.includes(name) ? '0' : 'mg_pass'],
  ]);
}

function fitOf({ state }: Working, name: FitName) {
  return fitsOf(state.site, state.corner, state.geometry).find((fit) => fit.name === name);
}

function rodStack({ state }: Working): number | null {
  const { mount, rodEnd } = state.corner;
  if (rodEnd === null) return null;
  return mount.washers + mount.lowerBush + rodEnd.plateThickness + rodEnd.upperBush + rodEnd.upperWashers;
}

function rodStackExpression(): string {
  return 'h_wash + h_bush + h_plate + h_upper + h_uwash';
}
