/** The fields of a sound scenario of the bench to the parts and corners that the model judges. */

import { AXLE_NAMES, type AxleName, type BenchAxle, type BenchScenario } from '../../model/scenario.ts';
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
import { distinct, optionsOf, ownOf, wheelOf } from './scenario.ts';
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
    return own === undefined ? [] : [{ axle, ...axleOf(own, valueAt(data, ['axles', axle]), catalogues, axle) }];
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

function axleOf(fields: BenchAxleFields, written: unknown, catalogues: LoadedCatalogues, axle: AxleName) {
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
