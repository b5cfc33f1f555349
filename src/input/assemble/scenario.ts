/** The fields of a sound scenario file to the scenario the model works on. */

import { numbersOf } from '../../model/keys.ts';
import {
  type Assumption,
  AXLE_NAMES,
  type Axle,
  type AxleName,
  type AxleOptions,
  type MotionData,
  type PlanSettings,
  type Scenario,
} from '../../model/scenario.ts';
import type { LoadedCatalogues } from '../catalogue/catalogue.ts';
import * as words from '../problems/value.ts';
import { type AxleFields, type ScenarioFields, scenario as schema } from '../schema/scenario.ts';
import { DEFAULT_SHORTLIST, FAMILY_OF_LIST, type PlanFields } from '../schema/settings.ts';
import { takenDefaults } from '../schema/takenDefaults.ts';
import { meanLoad, sideLoads } from '../values/swept.ts';
import { bumpStopsOf, dampersOf, helpersOf, isolatorsOf, mountsOf, perchesOf, rodEndsOf, sleevesOf } from './parts.ts';
import { marginsOf, rankingOf, setupOf, tolerancesOf } from './settings.ts';
import { type SpringProblem, type Springs, springsOf } from './springs.ts';

export interface Assembled {
  readonly scenario: Scenario;
  readonly problems: readonly (SpringProblem & { readonly axle: AxleName })[];
}

/** `data` is what the fields were read from: it tells which defaults were taken. */
export function assembleScenario(fields: ScenarioFields, data: unknown, catalogues: LoadedCatalogues): Assembled {
  const [front, rear] = [axleOf(fields.axles.front, catalogues), axleOf(fields.axles.rear, catalogues)];
  const springs = { front: front.springs, rear: rear.springs };
  const scenario: Scenario = {
    name: fields.name,
    description: fields.description,
    currency: fields.currency ?? '',
    car: { sprungCentreHeight: null, ...numbersOf(fields.car) },
    axles: { front: front.axle, rear: rear.axle },
    setups: fields.setups.map(setupOf),
    margins: marginsOf(fields.margins),
    ranking: rankingOf(fields.ranking),
    tolerances: tolerancesOf(fields.tolerances),
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
function distinct(assumptions: readonly Assumption[]): readonly Assumption[] {
  const seen = new Set<string>();
  return assumptions.filter((assumption) => {
    const key = JSON.stringify(assumption);
    return seen.has(key) ? false : seen.add(key);
  });
}

// One axle: loads, motion, and every part family written out.

function axleOf(fields: AxleFields, catalogues: LoadedCatalogues): { readonly axle: Axle; readonly springs: Springs } {
  const springs = springsOf(fields.springs, catalogues);
  const { wheel_load, bushes, roll, tyre_on_arch, lowest_wheel, ...others } = fields;
  const axle = {
    wheelLoad: meanLoad(wheel_load),
    wheelLoads: sideLoads(wheel_load),
    ...numbersOf(others),
    motion: motionOf(fields.motion),
    tyreOnArchHeight: tyre_on_arch,
    lowestWheelHeight: lowest_wheel ?? null,
    bushes: bushes === undefined ? null : numbersOf(bushes),
    roll: roll === undefined ? null : numbersOf(roll),
    options: optionsOf(fields, springs),
  };
  return { axle: axle satisfies Whole<typeof axle>, springs };
}

/** Nothing where a field of the model is missing, even one that may be left out: no file could set it. */
type Whole<A> = keyof Axle extends keyof A ? A : never;

function optionsOf(fields: AxleFields, { springs }: Springs): AxleOptions {
  return {
    damper: fields.dampers.flatMap(dampersOf),
    mount: fields.mounts.flatMap(mountsOf),
    isolator: orNone(fields.isolators, isolatorsOf),
    bumpStop: fields.bump_stops.flatMap(bumpStopsOf),
    rodEnd: orNone(fields.rod_ends, rodEndsOf),
    sleeve: fields.sleeves.flatMap(sleevesOf),
    perch: fields.perches.flatMap(perchesOf),
    helper: orNone(fields.helpers, helpersOf),
    spring: springs,
  };
}

/** `none` stands among the alternatives as null. */
function orNone<E, P>(entries: readonly (E | 'none')[], expand: (entry: E) => readonly P[]): readonly (P | null)[] {
  return entries.flatMap((entry): readonly (P | null)[] => (entry === 'none' ? [null] : expand(entry)));
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
