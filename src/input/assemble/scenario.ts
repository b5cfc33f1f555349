/** The fields of a sound scenario file to the scenario the model works on. */
import { type Assumption, AXLE_NAMES, type AxleName, type Scenario } from '../../domain/scenario.ts';
import type { LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import * as words from '../messages/assumed.ts';
import { type ScenarioFields, scenario as schema } from '../schema/scenario.ts';
import { takenDefaults } from '../schema/takenDefaults.ts';
import { meanLoad, sideLoads } from '../values/wheelLoads.ts';
import { axleOf } from './axle.ts';
import { planOf } from './plan.ts';
import { marginsOf, rankingOf, setupOf, tolerancesOf } from './settings.ts';
import type { SpringProblem } from './springs.ts';

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
    car: {
      wheelbase: fields.car.wheelbase,
      pitchInertiaRatio: fields.car.pitch_inertia_ratio,
      sprungCentreHeight: fields.car.sprung_centre_height ?? null,
    },
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
