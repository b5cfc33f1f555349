/** The result object, put together from what reading and sweeping found. */
import { fingerprintOf } from '../../model/ids.ts';
import { motionCurve } from '../../model/motion.ts';
import {
  type AxleName,
  type AxleTarget,
  type BumpPolicy,
  FAMILIES,
  type Family,
  type InputWarning,
  type Scenario,
  type Setup,
} from '../../model/scenario.ts';
import type { SetupAdvice } from '../advice.ts';
import {
  type AxleSummary,
  type AxleTally,
  type Combination,
  type InputFile,
  type NothingWorks,
  type PairTally,
  type PlansResult,
  RESULT_SCHEMA,
  RESULT_VERSION,
  type Result,
  type ScenarioSummary,
  type SetupResult,
  type TargetSummary,
} from '../result.ts';
import { type Indices, liveOf, type PlannedPart } from './live.ts';

/** What a sweep found for one setup, its best combinations already judged in full. */
export interface SetupFindings {
  readonly setup: Setup;
  readonly axles: Readonly<Record<AxleName, AxleTally>>;
  readonly pairs: PairTally;
  readonly shortlist: readonly Combination[];
  /** Where each of them stands in the products of options. */
  readonly chosen: readonly Indices[];
  readonly advice: SetupAdvice | null;
  readonly nothing?: NothingWorks;
}

export interface ResultParts {
  readonly toolVersion: string;
  readonly mode: Result['mode'];
  /** Combinations judged and to judge. */
  readonly judged: number;
  readonly of: number;
  readonly notes: readonly string[];
  readonly scenario: Scenario;
  readonly inputs: readonly InputFile[];
  readonly warnings?: readonly InputWarning[];
  readonly setups: readonly SetupFindings[];
  /** Null: no plan is wanted, or none was looked for. */
  readonly plans: PlansResult | null;
  /** The best plan, its part of each setup. */
  readonly planned?: readonly PlannedPart[];
}

export function resultOf({
  toolVersion,
  mode,
  judged,
  of,
  notes,
  warnings = [],
  scenario,
  inputs,
  setups,
  plans,
  planned = [],
}: ResultParts): Result {
  return {
    schema: RESULT_SCHEMA,
    version: RESULT_VERSION,
    tool: { name: 'springsift', version: toolVersion },
    mode,
    ...(judged < of ? { incomplete: { judged, of } } : {}),
    ...(notes.length > 0 ? { notes } : {}),
    ...(warnings.length > 0 ? { warnings } : {}),
    scenario: scenarioSummary(scenario),
    inputs,
    assumptions: scenario.assumptions,
    setups: setups.map(setupResult),
    ...(plans === null ? {} : { plans }),
    ...liveRecord(scenario, setups, planned),
  };
}

function liveRecord(
  scenario: Scenario,
  setups: readonly SetupFindings[],
  planned: readonly PlannedPart[],
): Pick<Result, 'live'> {
  const live = liveOf(scenario, setups, planned);
  return live === null ? {} : { live };
}

function scenarioSummary(scenario: Scenario): ScenarioSummary {
  return {
    name: scenario.name,
    description: scenario.description,
    currency: scenario.currency,
    fingerprint: fingerprintOf(scenario),
    wheelbase_mm: scenario.car.wheelbase,
    axles: { front: axleSummary(scenario, 'front'), rear: axleSummary(scenario, 'rear') },
  };
}

function axleSummary(scenario: Scenario, name: AxleName): AxleSummary {
  const axle = scenario.axles[name];
  const { heights } = motionCurve(axle.motion);
  const options = Object.fromEntries(FAMILIES.map((f) => [f, axle.options[f].length])) as Record<Family, number>;
  return {
    wheel_load_kg: axle.wheelLoad,
    ...(axle.wheelLoads ? { wheel_loads_kg: axle.wheelLoads } : {}),
    unsprung_mass_kg: axle.unsprungMass,
    sprung_mass_kg: axle.wheelLoad - axle.unsprungMass,
    tyre_rate_n_per_mm: axle.tyreRate,
    motion_pairs: heights.length,
    measured_from_mm: heights[0] as number,
    measured_to_mm: heights[heights.length - 1] as number,
    options,
    combinations: Object.values(options).reduce((product, n) => product * n, 1),
  };
}

function setupResult({ setup, axles, pairs, shortlist, advice, nothing }: SetupFindings): SetupResult {
  return {
    name: setup.name,
    targets: { front: targetSummary(setup.axles.front), rear: targetSummary(setup.axles.rear) },
    balance: setup.balance,
    frequency_basis: setup.frequencyBasis,
    bump_policy: policyText(setup.bump),
    ...(setup.loadCases.length > 0 ? { load_cases: setup.loadCases.map((loadCase) => loadCase.name) } : {}),
    axles,
    pairs,
    shortlist,
    ...(advice === null ? {} : { advice }),
    ...(nothing === undefined ? {} : { nothing }),
  };
}

function targetSummary(target: AxleTarget): TargetSummary {
  return {
    target_height_mm: target.targetHeight,
    wanted_from_mm: target.wantedFrom,
    wanted_to_mm: target.wantedTo,
    least_bump_travel_mm: target.leastBumpTravel,
    good_bump_travel_mm: target.goodBumpTravel,
    least_droop_travel_mm: target.leastDroopTravel,
    frequency_from_hz: target.frequencyFrom,
    frequency_to_hz: target.frequencyTo,
    wanted_frequency_hz: target.wantedFrequency,
  };
}

function policyText(bump: BumpPolicy): string {
  return bump.kind === 'closed' ? 'bump stop fully closed' : `balance under ${bump.multiple} times the sprung load`;
}
