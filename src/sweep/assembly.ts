/**
 * One damper assembly with all its stacks: everything that neither sleeve nor perch changes, as columns. The arithmetic
 * is that of the scalar model, operation by operation, so that verdicts agree to the last bit.
 */
import { type Standing, standingAt } from '../model/corner/balance.ts';
import { fullBumpOf, giveFor } from '../model/corner/contacts.ts';
import type { Geometry } from '../model/corner/geometry.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { type AxleLayout, perchUnder } from './layout.ts';

/** Columns over the stacks of one assembly; one set of buffers serves all assemblies of a range. */
export interface Columns {
  readonly perch: Float64Array;
  readonly fullLength: Float64Array;
  /** The shortest full bump of mean load and sides: where metal meets, but for the coils. The same column without sides. */
  readonly leastFull: Float64Array;
  /** The perch on the side worked out last, and whether the coils bind on any side (1). */
  readonly sidePerch: Float64Array;
  readonly sideBinds: Uint8Array;
  readonly frequency: Float64Array;
  /** Verdict of the checks between fit and perch that the sleeve doesn't change (`PASS`: none failed). */
  readonly early: Uint8Array;
  /** Verdict of the checks after the perch's. */
  readonly late: Uint8Array;
  /** Stacks by rising perch; stays nearly sorted from assembly to assembly. */
  readonly order: Int32Array;
}

/** What an assembly is, besides its columns. */
export interface Assembly {
  readonly corner: Corner;
  readonly geometry: Geometry;
  readonly standing: Standing;
  /** True when every stack has the same full bump and the same early verdict. */
  readonly uniform: boolean;
}

export function newColumns(stacks: number, sides = 0): Columns {
  const fullLength = new Float64Array(stacks);
  return {
    perch: new Float64Array(stacks),
    fullLength,
    leastFull: sides > 0 ? new Float64Array(stacks) : fullLength,
    sidePerch: new Float64Array(sides > 0 ? stacks : 0),
    sideBinds: new Uint8Array(stacks),
    frequency: new Float64Array(stacks),
    early: new Uint8Array(stacks),
    late: new Uint8Array(stacks),
    order: Int32Array.from({ length: stacks }, (_, k) => k),
  };
}

/** Fills the columns that come before the verdicts: place of the perch, full bump, sides, order. */
export function measureAssembly(layout: AxleLayout, columns: Columns, corner: Corner, geometry: Geometry): Assembly {
  const { site } = layout;
  const standing = standingAt(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
  const uniform = site.bump.kind === 'closed' && site.loads.length === 0;
  const assembly = { corner, geometry, standing, uniform };
  fillPerches(layout, columns.perch, assembly);
  fillFull(layout, columns.fullLength, assembly, site, columns.perch);
  fillSides(layout, columns, assembly);
  sortByPerch(columns);
  return assembly;
}

function fillPerches(
  { stacks }: AxleLayout,
  perch: Float64Array,
  { standing, geometry }: Pick<Assembly, 'standing' | 'geometry'>,
): void {
  const gap = standing.length - geometry.seatBelowShoulder;
  for (let k = 0; k < stacks.count; k++) perch[k] = perchUnder(stacks, k, gap, standing.springForce);
}

/** Full bump of every stack; the closed stop for all where the policy or an unloaded spring leaves nothing to solve. */
function fillFull(layout: AxleLayout, full: Float64Array, assembly: Assembly, site: Site, perch: Float64Array): void {
  if (site.bump.kind === 'closed' || assembly.standing.springForce <= 0) {
    full.fill(assembly.geometry.closedLength);
    return;
  }
  for (let k = 0; k < layout.stacks.count; k++) {
    const geometry = geometryWith(layout, assembly, k);
    full[k] = fullBumpOf(site, assembly.corner, geometry, perch[k] as number).length;
  }
}

/** On either side: its perch under its own load, its full bump, and whether its coils bind. */
function fillSides(layout: AxleLayout, columns: Columns, assembly: Assembly): void {
  const { sides, stacks } = layout;
  if (sides.length === 0) return;
  const { corner, geometry } = assembly;
  const give = giveFor(corner, 'coil_bind');
  columns.leastFull.set(columns.fullLength);
  columns.sideBinds.fill(0);
  const sideFull = new Float64Array(stacks.count);
  for (const site of sides) {
    const standing = standingAt(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
    fillPerches(layout, columns.sidePerch, { standing, geometry });
    fillFull(layout, sideFull, assembly, site, columns.sidePerch);
    for (let k = 0; k < stacks.count; k++) {
      const full = sideFull[k] as number;
      if (binds(layout, geometry, k, columns.sidePerch[k] as number, full, give)) columns.sideBinds[k] = 1;
      columns.leastFull[k] = Math.min(columns.leastFull[k] as number, full);
    }
  }
}

export function binds(
  { stacks }: AxleLayout,
  { seatBelowShoulder }: Geometry,
  k: number,
  perch: number,
  full: number,
  give: number,
): boolean {
  const solidAt = perch + seatBelowShoulder + (stacks.solidLength[k] as number);
  return !(full - solidAt - give >= (stacks.bindMargin[k] as number));
}

export function geometryWith({ stacks }: AxleLayout, { geometry }: Assembly, k: number): Geometry {
  return { ...geometry, stack: stacks.parts[k] as Geometry['stack'] };
}

/** Insertion sort, quick because the order hardly changes between assemblies; the library's sort where it does. */
function sortByPerch({ order, perch }: Columns): void {
  let moves = 8 * order.length;
  for (let k = 1; k < order.length && moves > 0; k++) {
    const stack = order[k] as number;
    const place = perch[stack] as number;
    let at = k;
    for (; at > 0 && (perch[order[at - 1] as number] as number) > place; at--, moves--)
      order[at] = order[at - 1] as number;
    order[at] = stack;
  }
  if (moves <= 0) order.sort((a, b) => (perch[a] as number) - (perch[b] as number));
}
