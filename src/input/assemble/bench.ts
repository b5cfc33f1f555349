/** The fields of a sound scenario of the bench to the parts and corners that the model judges. */

import { numbersOf } from '../../model/keys.ts';
import {
  AXLE_NAMES,
  type AxleName,
  type BenchAxle,
  type BenchScenario,
  type BenchWheel,
} from '../../model/scenario.ts';
import type { LoadedCatalogues } from '../catalogue/catalogue.ts';
import { valueAt } from '../schema/issues.ts';
import {
  BENCH_PARTS,
  BENCH_SPRING_PARTS,
  type BenchAxleFields,
  type BenchScenarioFields,
  benchAxle,
  benchScenario as schema,
} from '../schema/scenario.ts';
import { takenDefaults } from '../schema/takenDefaults.ts';
import { meanLoad, sideLoads } from '../values/swept.ts';
import { assumedIn } from './assumed.ts';
import { distinct, motionOf, optionsOf } from './scenario.ts';
import { marginsOf, tolerancesOf } from './settings.ts';
import { type SpringProblem, springsOf } from './springs.ts';

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
    return own === undefined ? [] : [{ axle, ...axleOf(own, valueAt(data, ['axles', axle]), catalogues) }];
  });
  const scenario: BenchScenario = {
    name: fields.name,
    description: fields.description,
    currency: fields.currency ?? '',
    axles: Object.fromEntries(read.map(({ axle, bench }) => [axle, bench])),
    margins: marginsOf(fields.margins),
    tolerances: tolerancesOf(fields.tolerances),
    assumptions: distinct([...takenDefaults(schema, data), ...read.flatMap(({ springs }) => springs.assumptions)]),
  };
  return { scenario, problems: read.flatMap(({ axle, springs }) => springs.problems.map((p) => ({ ...p, axle }))) };
}

function axleOf(fields: BenchAxleFields, written: unknown, catalogues: LoadedCatalogues) {
  const springs = springsOf(fields.springs, catalogues);
  const options = optionsOf(fields, springs, written, { ...BENCH_PARTS, ...BENCH_SPRING_PARTS });
  const bench: BenchAxle = { wheel: wheelOf(fields, written), options };
  return { bench, springs };
}

/** Null where load or motion is missing: neither says anything without the other. */
function wheelOf(fields: BenchAxleFields, written: unknown): BenchWheel | null {
  const { wheel_load, motion, bushes, unsprung_mass, tyre_on_arch, lowest_wheel } = fields;
  if (wheel_load === undefined || motion === undefined) return null;
  return {
    wheelLoad: meanLoad(wheel_load),
    wheelLoads: sideLoads(wheel_load),
    unsprungMass: unsprung_mass,
    tyreRate: fields.tyre_rate ?? Number.NaN,
    motion: motionOf(motion),
    tyreOnArchHeight: tyre_on_arch ?? Number.NEGATIVE_INFINITY,
    lowestWheelHeight: lowest_wheel ?? null,
    bushes: bushes === undefined ? null : numbersOf(bushes),
    ...assumedIn(benchAxle, written),
  };
}
