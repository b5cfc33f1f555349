/** Fit: diameters that must pass through or over each other, and the stack on the rod's thread. */
import type { Geometry } from './geometry.ts';
import type { Corner, Site } from './site.ts';

type StackParts = Pick<Corner, 'sleeve' | 'perch' | 'helper' | 'spring'>;

/** What a fit finds: to spare, and needed, mm. */
interface Short {
  readonly found: number;
  readonly needed: number;
}

export type FitAt = 'sleeve foot' | 'sleeve top' | 'flange' | 'nuts';

interface FitWords {
  /** Beside a figure. */
  readonly short: string;
  /** Where on it. */
  readonly at: FitAt;
  readonly say: (short: Short) => string;
  /** What slides needs the passing clearance; what sits, or a thread, needs none. */
  readonly slides: boolean;
}

interface FitRecord extends FitWords {
  readonly of: 'stack' | 'body' | 'stop' | 'thread';
  /** To spare on diameter, or of thread, mm; null where the parts that have to fit are not there. */
  readonly spare: (corner: Corner, geometry: Geometry) => number | null;
}

const tooTight = (what: string) => (f: Short) =>
  `Does not fit: ${what} has ${f.found.toFixed(1)} mm on diameter, ${f.needed.toFixed(1)} mm is needed.`;

export const FIT = {
  spring_over_sleeve: {
    ...{ short: 'spring on sleeve', at: 'sleeve top', of: 'stack', slides: true },
    say: tooTight('the spring’s bore over the sleeve'),
    spare: ({ spring, sleeve }: StackParts) => spring.bore - sleeve.outerDiameter,
  },
  spring_over_spigot: {
    ...{ short: 'spring on spigot', at: 'sleeve top' },
    ...{ of: 'stack', slides: false },
    say: tooTight('the spring’s bore over the perch’s spigot'),
    spare: (corner: StackParts) => {
      const { spigotDiameter } = corner.perch;
      return spigotDiameter === null ? null : lowestBore(corner) - spigotDiameter;
    },
  },
  sleeve_over_body: {
    ...{ short: 'sleeve on body', at: 'sleeve foot', of: 'body', slides: false },
    say: tooTight('the sleeve’s bore over the damper body'),
    spare: ({ sleeve, damper }) => bodySlop(sleeve, damper),
  },
  helper_over_sleeve: {
    ...{ short: 'helper on sleeve', at: 'sleeve top', of: 'stack', slides: true },
    say: tooTight('the helper’s bore over the sleeve'),
    spare: ({ helper, sleeve }: StackParts) => (helper ? helper.bore - sleeve.outerDiameter : null),
  },
  coupler_over_sleeve: {
    ...{ short: 'coupler on sleeve', at: 'sleeve top', of: 'stack', slides: true },
    say: tooTight('the coupler’s bore over the sleeve'),
    spare: ({ helper, sleeve }: StackParts) =>
      helper && helper.coupler > 0 ? helper.couplerBore - sleeve.outerDiameter : null,
  },
  stop_in_mount: {
    ...{ short: 'stop in mount', at: 'flange', of: 'stop', slides: true },
    say: tooTight('the bump stop inside the mount’s bore'),
    // A stop that reaches up past the flange must pass its bore.
    spare: ({ bumpStop, mount }, geometry) =>
      bumpStop.packer < geometry.flangeBelowShoulder + mount.spigot ? mount.bore - bumpStop.diameter : null,
  },
  stop_in_isolator: {
    ...{ short: 'stop in isolator', at: 'flange' },
    ...{ of: 'stop', slides: true },
    say: tooTight('the bump stop inside the isolator’s bore'),
    spare: ({ bumpStop, isolator }, geometry) => {
      if (isolator === null) return null;
      const reachesIt = bumpStop.packer < geometry.seatBelowShoulder + isolator.spigot;
      const passesIt = bumpStop.packer + bumpStop.length > geometry.flangeBelowShoulder;
      return reachesIt && passesIt ? isolator.bore - bumpStop.diameter : null;
    },
  },
  thread_start: {
    ...{ short: 'nut on shank', at: 'nuts' },
    ...{ of: 'thread', slides: false },
    say: ({ found }) =>
      `The nut would bottom on the plain shank: ${(-found).toFixed(1)} mm more stack is needed below it.`,
    spare: (corner) => (corner.rodEnd ? (rodStack(corner) as number) - corner.rodEnd.threadStart : null),
  },
  thread_end: {
    ...{ short: 'nuts off thread', at: 'nuts', of: 'thread', slides: false },
    say: ({ found }) =>
      `Nut and jam nut would not be on full thread: the thread ends ${(-found).toFixed(1)} mm too early.`,
    spare: (corner) => {
      const { rodEnd } = corner;
      return rodEnd && rodEnd.threadEnd - (rodStack(corner) as number) - rodEnd.nut - rodEnd.jamNut;
    },
  },
} as const satisfies Record<string, FitRecord>;

export type FitName = keyof typeof FIT;
export const FITS = Object.keys(FIT) as FitName[];

/** What is to spare, as a quantity: its name and symbols; apart, so that no page carries it. */
export const FIT_QUANTITIES: Readonly<
  Record<FitName, readonly [label: string, expression: string | ((corner: Corner) => string)]>
> = {
  spring_over_sleeve: ['main spring over sleeve', 'D_bore - d_slv'],
  spring_over_spigot: [
    'lowest spring over the perch’s spigot',
    ({ helper }) => (helper ? 'min(D_h, D_bore) - d_spigot' : 'D_bore - d_spigot'),
  ],
  sleeve_over_body: ['sleeve over damper body', 'D_slv - d_body'],
  helper_over_sleeve: ['helper over sleeve', 'D_h - d_slv'],
  coupler_over_sleeve: ['coupler over sleeve', 'D_c - d_slv'],
  stop_in_mount: ['bump stop inside the mount’s bore', 'D_mount - d_stop'],
  stop_in_isolator: ['bump stop inside the isolator’s bore', 'D_iso - d_stop'],
  thread_start: ['stack above the start of the rod’s thread', 'h_stack - z_thread'],
  thread_end: ['thread beyond nut and jam nut', 'z_end - h_stack - h_nut - h_jam'],
};

export interface Fit {
  readonly name: FitName;
  /** What must be at least `needed`, mm: a diametral clearance, or a length of thread to spare. */
  readonly spare: number;
  readonly needed: number;
}

type StackFitName = { [N in FitName]: (typeof FIT)[N]['of'] extends 'stack' ? N : never }[FitName];
const STACK_FITS = /* @__PURE__ */ FITS.filter((name): name is StackFitName => FIT[name].of === 'stack');
const DAMPER_SET_FITS = /* @__PURE__ */ FITS.filter((name) => FIT[name].of === 'stop' || FIT[name].of === 'thread');

/**
 * Every fit that exists for this corner.
 *
 * Units: `site`, `corner`, `geometry` in mm; result mm to spare and needed: on diameter, or of thread.
 * Valid: round parts on one axis.
 * Source: geometry of the parts, derived.
 */
export function fitsOf(site: Site, corner: Corner, geometry: Geometry): Fit[] {
  return among(FITS, site, (name) => FIT[name].spare(corner, geometry));
}

/**
 * The sleeve over the body: a shim takes up what is loose, so it only has to go over.
 * Equation: slop = sleeve bore - body diameter
 * Units: bore of `sleeve` and body of `damper` mm; result mm on diameter, at least 0 where the sleeve goes over.
 * Valid: any sleeve and damper; negative where the sleeve does not go over.
 * Source: geometry of the parts.
 */
export function bodySlop(sleeve: Corner['sleeve'], damper: Corner['damper']): number {
  return sleeve.bore - damper.bodyDiameter;
}

/**
 * Spring, helper and coupler over sleeve and perch.
 *
 * Units: `site` margins and `corner` parts in mm; result mm on diameter.
 * Valid: what slides along the sleeve needs the passing clearance, what sits on the spigot only has to go over.
 */
export function stackFits(site: Site, corner: StackParts): Fit[] {
  return among(STACK_FITS, site, (name) => FIT[name].spare(corner));
}

/**
 * What doesn't depend on sleeve, perch or spring: the stop in mount and isolator, nuts on the rod's thread.
 *
 * Units: `site`, `corner`, `geometry` in mm; result mm on diameter, or of thread.
 * Valid: a rod end that is given; without one its thread is not checked.
 */
export function damperSetFits(site: Site, corner: Corner, geometry: Geometry): Fit[] {
  return among(DAMPER_SET_FITS, site, (name) => FIT[name].spare(corner, geometry));
}

/**
 * The stack on the rod end, from the shoulder to the nut.
 *
 * Units: `corner` parts in mm; result mm; null where no rod end is given.
 * Valid: any mount.
 */
export function rodStack({ mount, rodEnd }: Pick<Corner, 'mount' | 'rodEnd'>): number | null {
  if (rodEnd === null) return null;
  return mount.washers + mount.lowerBush + rodEnd.plateThickness + rodEnd.upperBush + rodEnd.upperWashers;
}

function among<N extends FitName>(names: readonly N[], site: Site, spareOf: (name: N) => number | null): Fit[] {
  const fits: Fit[] = [];
  for (const name of names) {
    const spare = spareOf(name);
    if (spare !== null) fits.push({ name, spare, needed: FIT[name].slides ? site.margins.passing : 0 });
  }
  return fits;
}

/** The spring that stands on the perch: the main spring, or the helper where one is fitted below it. */
function lowestBore(corner: StackParts): number {
  return corner.helper ? Math.min(corner.helper.bore, corner.spring.bore) : corner.spring.bore;
}
