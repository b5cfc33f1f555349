/**
 * How the kernel cuts the product of options: damper assemblies (damper, mount, isolator, bump stop, rod end), then
 * sleeves, perches and stacks (helper, spring).
 * index = ((assembly * sleeves + sleeve) * perches + perch) * stacks + stack.
 */
import { coilBindMargin } from '../model/corner/coilGaps.ts';
import { ASSEMBLY_FAMILIES, combinationCount, cornerAt } from '../model/corner/options.ts';
import { type Corner, type Site, siteAtSide, siteOf } from '../model/corner/site.ts';
import { forceAllowed } from '../model/corner/stress.ts';
import type { Working } from '../model/corner/window.ts';
import type { Helper, Perch, Sleeve, Spring } from '../model/parts.ts';
import type { AxleName, AxleOptions, Margins, Ranking, Scenario, Setup } from '../model/scenario.ts';
import { deflectionUnder, kneeForce, type SpringStack, springStack } from '../model/stack.ts';
import { type Floor, NO_FLOOR } from './tally.ts';

export interface AxleLayout {
  readonly site: Site;
  readonly options: AxleOptions;
  readonly ranking: Ranking;
  readonly stacks: StackTable;
  readonly sleeves: readonly Sleeve[];
  readonly perches: readonly Perch[];
  readonly assemblies: number;
  /** The site at the load of either side; empty where one load stands for both. */
  readonly sides: readonly Site[];
  /** True when a stack costs the same on every sleeve and perch of an assembly, or price isn't ranked. */
  readonly onePrice: boolean;
  /** Combinations of one assembly. */
  readonly assemblySize: number;
  /** Corners judged in full by index, to be asked and added to; null where nobody sweeps again. */
  readonly judged: Map<number, Working> | null;
  /** Below it nothing is kept, and what stays below as a whole is not even counted. */
  readonly floor: Floor;
}

/** Spring stacks of an axle as columns: one row a helper and spring, springs fastest. */
export interface StackTable {
  readonly count: number;
  /** Place of each among all helpers and springs of the options, and how many these are. */
  readonly place: Int32Array;
  readonly of: number;
  readonly springs: readonly Spring[];
  /** The spring's place in the options. */
  readonly springNumber: Int32Array;
  readonly helpers: readonly (Helper | null)[];
  readonly parts: readonly SpringStack[];
  /** mm, N/mm and N; see `SpringStack`. */
  readonly freeLength: Float64Array;
  readonly solidLength: Float64Array;
  readonly mainRate: Float64Array;
  readonly mainTravel: Float64Array;
  readonly helperRate: Float64Array;
  readonly helperTravel: Float64Array;
  readonly knee: Float64Array;
  /** Margin to coil bind, mm. */
  readonly bindMargin: Float64Array;
  /** Seat to seat, mm: shorter at full bump the spring is overstressed; -Infinity where stress does not reject. */
  readonly leastGap: Float64Array;
}

export function layoutOf(scenario: Scenario, setup: Setup, axle: AxleName): AxleLayout {
  return axleLayout(siteOf(scenario, setup, axle), scenario.axles[axle].options, scenario.ranking);
}

export function axleLayout(site: Site, options: AxleOptions, ranking: Ranking): AxleLayout {
  const stacks = stacksOf(options, site.margins);
  return {
    site,
    options,
    ranking,
    stacks,
    sleeves: options.sleeve,
    perches: options.perch,
    assemblies: combinationCount(options, ASSEMBLY_FAMILIES),
    sides: site.sides.map((side) => siteAtSide(site, side)),
    onePrice: ranking.price === null || (haveOnePrice(options.sleeve) && haveOnePrice(options.perch)),
    assemblySize: options.sleeve.length * options.perch.length * stacks.count,
    judged: null,
    floor: NO_FLOOR,
  };
}

function haveOnePrice(parts: readonly { readonly price: number | null }[]): boolean {
  return parts.every((part) => part.price === parts[0]?.price);
}

/** Tables made before, by the lists they were made of: setups, weights and heights share them. */
const MADE = new WeakMap<AxleOptions, { readonly coilBind: Margins['coilBind']; readonly table: StackTable }>();

function stacksOf(options: AxleOptions, { coilBind }: Margins): StackTable {
  const made = MADE.get(options);
  if (made?.coilBind === coilBind) return made.table;
  const table = stackTable(options, coilBind);
  MADE.set(options, { coilBind, table });
  return table;
}

/** The layout with some of its stacks alone, in the order given; what the others are is not asked. */
export function withStacks(layout: AxleLayout, places: readonly number[]): AxleLayout {
  const { options, site } = layout;
  return { ...layout, stacks: stackTable(options, site.margins.coilBind, places) };
}

function stackTable(
  options: AxleOptions,
  coilBind: Margins['coilBind'],
  places: readonly number[] = Array.from({ length: options.helper.length * options.spring.length }, (_, k) => k),
): StackTable {
  const { length } = options.spring;
  const pairs = places.map((place) => ({
    helper: options.helper[Math.floor(place / length)] as Helper | null,
    spring: options.spring[place % length] as Spring,
  }));
  const parts = pairs.map(({ helper, spring }) => springStack(spring, helper));
  const column = (read: (stack: SpringStack, k: number) => number) => {
    const values = new Float64Array(parts.length);
    for (const [k, stack] of parts.entries()) values[k] = read(stack, k);
    return values;
  };
  const springs = pairs.map(({ spring }) => spring);
  return {
    count: parts.length,
    place: Int32Array.from(places),
    of: options.helper.length * length,
    springs,
    springNumber: Int32Array.from(places, (place) => place % length),
    helpers: pairs.map(({ helper }) => helper),
    parts,
    freeLength: column((s) => s.freeLength),
    solidLength: column((s) => s.solidLength),
    mainRate: column((s) => s.mainRate),
    mainTravel: column((s) => s.mainTravel),
    helperRate: column((s) => s.helperRate),
    helperTravel: column((s) => s.helperTravel),
    knee: column(kneeForce),
    bindMargin: column((_, k) => coilBindMargin(coilBind, springs[k] as Spring).value),
    leastGap: column((stack, k) => stressedGap(springs[k] as Spring, stack)),
  };
}

function stressedGap(spring: Spring, stack: SpringStack): number {
  const force = forceAllowed(spring);
  return force === Number.POSITIVE_INFINITY
    ? Number.NEGATIVE_INFINITY
    : stack.freeLength - deflectionUnder(stack, force);
}

/**
 * Where the perch stands with a stack on it, mm: `heightOn` and `perchFor` of the model, on columns.
 * @param gap damper length less seat depth, mm
 * @param force what the spring carries, N
 */
export function perchUnder(stacks: StackTable, stack: number, gap: number, force: number): number {
  const travel = stacks.helperTravel[stack] as number;
  const main = Math.min(force / (stacks.mainRate[stack] as number), stacks.mainTravel[stack] as number);
  const helper = travel > 0 ? Math.min(force / (stacks.helperRate[stack] as number), travel) : 0;
  const deflection = force > 0 ? main + helper : 0;
  return gap - (stacks.freeLength[stack] as number) + deflection;
}

/** The corner of an assembly with the first sleeve, perch and stack; the others take their places as they are tried. */
export function assemblyCorner(layout: AxleLayout, assembly: number): Corner {
  return cornerAt(layout.options, assembly * layout.assemblySize);
}

export function indexIn(layout: AxleLayout, assembly: number, sleeve: number, perch: number, stack: number): number {
  const { sleeves, perches, stacks } = layout;
  const place = stacks.place[stack] as number;
  return ((assembly * sleeves.length + sleeve) * perches.length + perch) * stacks.of + place;
}
