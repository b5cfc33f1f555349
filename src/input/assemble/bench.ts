/** The fields of a sound scenario of the bench to the parts and corners that the model judges. */

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
import { assumedIn } from './assumed.ts';
import { distinct, optionsOf, wheelOf } from './scenario.ts';
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
  const bench: BenchAxle = { wheel: knownWheel(fields, written), ...halfWheel(fields), options };
  return { bench, springs };
}

function halfWheel({ wheel_load, motion }: BenchAxleFields): Pick<BenchAxle, 'lacks'> {
  if ((wheel_load === undefined) === (motion === undefined)) return {};
  return { lacks: motion === undefined ? 'motion' : 'load' };
}

/** Null where load or motion is missing: neither says anything without the other. */
function knownWheel(fields: BenchAxleFields, written: unknown): BenchWheel | null {
  const { wheel_load, motion, tyre_rate = Number.NaN, tyre_on_arch = Number.NEGATIVE_INFINITY } = fields;
  if (wheel_load === undefined || motion === undefined) return null;
  return { ...wheelOf({ ...fields, wheel_load, motion, tyre_rate, tyre_on_arch }), ...assumedIn(benchAxle, written) };
}
