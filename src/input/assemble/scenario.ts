/** The fields of a sound scenario file to the scenario the model works on. */

import * as z from 'zod';
import { camelKey, numbersOf } from '../../model/keys.ts';
import type { Part } from '../../model/parts.ts';
import {
  type Assumption,
  AXLE_NAMES,
  type Axle,
  type AxleName,
  type AxleOptions,
  type BenchAxle,
  type BenchScenario,
  type MotionData,
  type PlanSettings,
  type Scenario,
  type Wheel,
} from '../../model/scenario.ts';
import type { LoadedCatalogues } from '../catalogue/catalogue.ts';
import * as words from '../problems/value.ts';
import { assumedBeside } from '../schema/assumedValues.ts';
import { defaultOf, isMapping, unknownOf, valueAt } from '../schema/issues.ts';
import { PARTS, type partsAt } from '../schema/parts.ts';
import {
  type AxleFields,
  axle as axleSchema,
  BENCH_PARTS,
  BENCH_SPRING_PARTS,
  type BenchAxleFields,
  type BenchScenarioFields,
  benchAxle,
  benchScenario as benchSchema,
  car as carSchema,
  type ScenarioFields,
  scenario as schema,
} from '../schema/scenario.ts';
import { DEFAULT_SHORTLIST, FAMILY_OF_LIST, type PlanFields } from '../schema/settings.ts';
import { SPRING_PARTS, type springPartsAt } from '../schema/springs.ts';
import { takenDefaults } from '../schema/takenDefaults.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { meanLoad, sideLoads } from '../values/swept.ts';
import { bumpStopsOf, dampersOf, helpersOf, isolatorsOf, mountsOf, perchesOf, rodEndsOf, sleevesOf } from './parts.ts';
import { marginsOf, rankingOf, setupOf, tolerancesOf } from './settings.ts';
import { ownNames, type SpringProblem, type Springs, springsOf } from './springs.ts';

export interface Assembled {
  readonly scenario: Scenario;
  readonly problems: readonly (SpringProblem & { readonly axle: AxleName })[];
}

/** `data` is what the fields were read from: it tells which defaults were taken. */
export function assembleScenario(fields: ScenarioFields, data: unknown, catalogues: LoadedCatalogues): Assembled {
  const [front, rear] = AXLE_NAMES.map((axle) =>
    axleOf(fields.axles[axle], catalogues, valueAt(data, ['axles', axle]), axle),
  ) as [ReadAxle, ReadAxle];
  const springs = { front: front.springs, rear: rear.springs };
  const scenario: Scenario = {
    name: fields.name,
    description: fields.description,
    currency: fields.currency ?? '',
    car: { sprungCentreHeight: null, ...numbersOf(fields.car), ...assumedIn(carSchema, valueAt(data, ['car'])) },
    axles: { front: front.axle, rear: rear.axle },
    setups: fields.setups.map(setupOf),
    margins: marginsOf(fields.margins),
    ranking: rankingOf(fields.ranking),
    tolerances: tolerancesOf(fields.tolerances),
    measuredBeforeCutting: fields.measured_before_cutting,
    plan: planOf(
      fields.plan,
      fields.setups.map((setup) => setup.name),
    ),
    assumptions: distinct([
      ...takenDefaults(schema, data),
      ...AXLE_NAMES.flatMap((axle) => meanLoads(axle, fields)),
      ...AXLE_NAMES.flatMap((axle) => springs[axle].assumptions),
    ]),
  };
  const problems = AXLE_NAMES.flatMap((axle) => springs[axle].problems.map((problem) => ({ ...problem, axle })));
  return { scenario, problems };
}

/** Where the sides differ, the sweep judges a load that neither wheel carries. */
function meanLoads(axle: AxleName, { axles }: ScenarioFields): readonly Assumption[] {
  const sides = sideLoads(axles[axle].wheel_load);
  if (sides === null) return [];
  const text = words.meanOfSides(sides.left, sides.right, meanLoad(sides));
  return [{ field: `axles.${axle}.wheel_load`, value: text, source: words.MEAN_SOURCE }];
}

/** Both axles may use one catalogue: what is silent in it is said once. */
export function distinct(assumptions: readonly Assumption[]): readonly Assumption[] {
  const seen = new Set<string>();
  return assumptions.filter((assumption) => {
    const key = JSON.stringify(assumption);
    return seen.has(key) ? false : seen.add(key);
  });
}

// One axle: loads, motion, and every part family written out.

interface ReadAxle {
  readonly axle: Axle;
  readonly springs: Springs;
}

/** @param written what the fields were read from */
function axleOf(fields: AxleFields, catalogues: LoadedCatalogues, written: unknown, name: AxleName): ReadAxle {
  const springs = springsOf(fields.springs, catalogues);
  const { roll } = fields;
  const { motion, ...load } = wheelOf(fields);
  const { unsprungMass, tyreRate, ...own } = ownOf(fields, axleSchema, written, name);
  const axle = {
    // In the order of `Axle`, which the written record has.
    ...load,
    ...{ unsprungMass, tyreRate, motion },
    ...own,
    roll: roll === undefined ? null : numbersOf(roll),
    options: optionsOf(fields, springs, written, OF_CAR),
  };
  return { axle: axle satisfies Whole<typeof axle>, springs };
}

type WheelFields = Pick<AxleFields, 'wheel_load' | 'motion'>;

export function wheelOf({ wheel_load, motion }: WheelFields): Wheel {
  return { wheelLoad: meanLoad(wheel_load), wheelLoads: sideLoads(wheel_load), motion: motionOf(motion) };
}

type OwnFields = Omit<AxleFields, keyof typeof FAMILY_OF_LIST | keyof WheelFields | 'roll'>;

/** What an axle is, whatever stands on it. @param schema that `written` was read by */
export function ownOf(
  {
    wheel_load,
    driven,
    tyre_width,
    bushes,
    tyre_on_arch,
    lowest_wheel,
    ...others
  }: OwnFields & { readonly wheel_load?: unknown },
  schema: typeof axleSchema | typeof benchAxle,
  written: unknown,
  name: AxleName,
) {
  return {
    ...numbersOf(others),
    tyreOnArchHeight: tyre_on_arch,
    lowestWheelHeight: lowest_wheel ?? null,
    bushes: bushes === undefined ? null : numbersOf(bushes),
    ...assumedIn(schema, written, name),
  };
}

/** Nothing where a field of the model is missing, even one that may be left out: no file could set it. */
type Whole<A> = keyof Axle extends keyof A ? A : never;

type PartSchemas = ReturnType<typeof partsAt> & ReturnType<typeof springPartsAt>;
const OF_CAR: PartSchemas = { ...PARTS, ...SPRING_PARTS };

/** @param schemas of the parts at the level that was read */
export function optionsOf(
  fields: AxleFields | BenchAxleFields,
  { springs }: Springs,
  written: unknown,
  schemas: PartSchemas,
): AxleOptions {
  /** Every choice of every entry; `none` stands among them as null. */
  function expand<L extends PartList, P extends Part>(list: L, of: (entry: EntryOf<L>) => readonly P[]) {
    const schema = schemas[FAMILY_OF_LIST[list]];
    const raw = listAt(written, list);
    const names = ownNames(fields[list]);
    return (fields[list] as readonly (EntryOf<L> | 'none')[]).flatMap((entry, i): readonly (P | null)[] => {
      if (entry === 'none') return [null];
      const own = { name: names[i] as string, ...summed(assumedIn(schema, raw[i]), raw[i]) };
      return of(entry).map((part) => ({ ...part, ...own }));
    });
  }
  const all = <L extends PartList, P extends Part>(list: L, of: (entry: EntryOf<L>) => readonly P[]) =>
    expand(list, of) as readonly P[];
  return {
    damper: all('dampers', dampersOf),
    mount: all('mounts', mountsOf),
    isolator: expand('isolators', isolatorsOf),
    bumpStop: all('bump_stops', bumpStopsOf),
    rodEnd: expand('rod_ends', rodEndsOf),
    sleeve: all('sleeves', sleevesOf),
    perch: all('perches', perchesOf),
    helper: expand('helpers', helpersOf),
    spring: springs,
  };
}

type PartList = Exclude<keyof typeof FAMILY_OF_LIST, 'springs'>;
type EntryOf<L extends PartList> = Parameters<
  {
    dampers: typeof dampersOf;
    mounts: typeof mountsOf;
    isolators: typeof isolatorsOf;
    bump_stops: typeof bumpStopsOf;
    rod_ends: typeof rodEndsOf;
    sleeves: typeof sleevesOf;
    perches: typeof perchesOf;
    helpers: typeof helpersOf;
  }[L]
>[0];

/** A mount's raise that is worked out from its plate is as sure as bush and washers together. */
function summed({ assumed }: ReturnType<typeof assumedIn>, raw: unknown): ReturnType<typeof assumedIn> {
  if (assumed === undefined || valueAt(raw, ['plate_height']) === undefined) return assumed ? { assumed } : {};
  return { assumed: { ...assumed, raise: (assumed.lowerBush ?? 0) + (assumed.washers ?? 0) } };
}

function listAt(written: unknown, list: string): readonly unknown[] {
  const value = valueAt(written, [list]);
  return Array.isArray(value) ? value : [];
}

function motionOf({ pairs, mount_raise, ratio }: AxleFields['motion']): MotionData {
  const read = pairs.map((pair) => ({
    hubToArch: pair.hub_to_arch,
    damperLength: pair.damper_length,
    raise: pair.mount_raise ?? mount_raise ?? Number.NaN,
  }));
  return { pairs: read.sort((a, b) => a.hubToArch - b.hubToArch), ratio: ratio ?? null };
}

// The plan over several setups under the names the model uses.

/** Null where none is wanted, or where a single setup leaves nothing to share. */
function planOf(fields: PlanFields | undefined, setups: readonly string[]): PlanSettings | null {
  if (fields === 'none' || setups.length < 2) return null;
  return {
    setups: fields?.setups ?? setups,
    swapped: (fields?.swapped ?? []).map((list) => FAMILY_OF_LIST[list]),
    keep: fields?.keep ?? DEFAULT_SHORTLIST,
  };
}

// Which usual values were taken for what nobody knows, and how far off each may be.

type Assumed = Readonly<Record<string, number>>;

/**
 * Half-widths by the model's name of the field, as `assumed` of a part or an axle; nothing where nothing was taken.
 * @param at the axle's name, where it is one
 */
export function assumedIn(schema: z.core.$ZodType, written: unknown, at = ''): { readonly assumed?: Assumed } {
  if (!(schema instanceof z.ZodObject) || !isMapping(written)) return {};
  const found = Object.entries(schema.shape as Readonly<Record<string, z.core.$ZodType>>).flatMap(([key, field]) => {
    const unknown = unknownOf(field);
    const value = written[key] ?? defaultOf(field);
    if (unknown === undefined || unknown === null || value !== UNKNOWN) return [];
    return [[camelKey(key), assumedBeside(unknown, written, at).give] as const];
  });
  return found.length === 0 ? {} : { assumed: Object.fromEntries(found) };
}

// The fields of a sound scenario of the bench to the parts and corners that the model judges.

export interface AssembledBench {
  readonly scenario: BenchScenario;
  readonly problems: readonly (SpringProblem & { readonly axle: AxleName })[];
}

/** `data` is what the fields were read from: it tells which values were taken. */
export function assembleBench(
  fields: BenchScenarioFields,
  data: unknown,
  catalogues: LoadedCatalogues,
): AssembledBench {
  const read = AXLE_NAMES.flatMap((axle) => {
    const own = fields.axles[axle];
    return own === undefined ? [] : [{ axle, ...benchAxleOf(own, valueAt(data, ['axles', axle]), catalogues, axle) }];
  });
  const scenario: BenchScenario = {
    name: fields.name,
    description: fields.description,
    currency: fields.currency ?? '',
    axles: Object.fromEntries(read.map(({ axle, bench }) => [axle, bench])),
    margins: marginsOf(fields.margins),
    tolerances: tolerancesOf(fields.tolerances),
    assumptions: distinct([...takenDefaults(benchSchema, data), ...read.flatMap(({ springs }) => springs.assumptions)]),
  };
  return { scenario, problems: read.flatMap(({ axle, springs }) => springs.problems.map((p) => ({ ...p, axle }))) };
}

function benchAxleOf(fields: BenchAxleFields, written: unknown, catalogues: LoadedCatalogues, axle: AxleName) {
  const springs = springsOf(fields.springs, catalogues);
  const options = optionsOf(fields, springs, written, { ...BENCH_PARTS, ...BENCH_SPRING_PARTS });
  const { tyre_rate = Number.NaN, tyre_on_arch = Number.NEGATIVE_INFINITY } = fields;
  const own = ownOf({ ...fields, tyre_rate, tyre_on_arch }, benchAxle, written, axle);
  return { bench: { own, ...knownWheel(fields), options } satisfies BenchAxle, springs };
}

function knownWheel({ wheel_load, motion }: BenchAxleFields): Pick<BenchAxle, 'wheel' | 'lacks'> {
  if (wheel_load !== undefined && motion !== undefined) return { wheel: wheelOf({ wheel_load, motion }) };
  if (wheel_load === undefined && motion === undefined) return { wheel: null };
  return { wheel: null, lacks: motion === undefined ? 'motion' : 'load' };
}
