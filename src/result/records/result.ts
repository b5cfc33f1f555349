/** The result object, put together from what reading and sweeping found. */

import { digitsOf } from '../../model/corner/options.ts';
import { fingerprintOf } from '../../model/ids.ts';
import { motionCurve } from '../../model/motion.ts';
import {
  type Axle,
  type AxleName,
  type AxleOptions,
  type AxleTarget,
  type BumpPolicy,
  FAMILIES,
  type Family,
  type InputWarning,
  type Scenario,
  type Setup,
} from '../../model/scenario.ts';
import type { SetupAdvice } from '../advice.ts';
import type { LiveAxle, LiveRecord, LiveSetup } from '../live.ts';
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

// From a scenario and its shortlists to the inputs of the report's live bench.

/** Where a combination stands in the products of options. */
export type Indices = Readonly<Record<AxleName, number>>;

interface Shortlisted {
  readonly setup: Setup;
  readonly shortlist: readonly Pick<Combination, 'id' | 'rank'>[];
  /** Of each combination on the shortlist. */
  readonly chosen: readonly Indices[];
}

/** A setup's part of the best plan. */
export interface PlannedPart {
  readonly setup: string;
  readonly id: string;
  readonly indices: Indices;
}

interface Start {
  readonly id: string;
  readonly rank: number;
  readonly indices: Indices;
  readonly isPlan?: true;
}

interface Startable {
  readonly setup: Setup;
  readonly starts: readonly Start[];
}

/** Null where no setup has a combination to start from. */
export function liveOf(
  scenario: Scenario,
  found: readonly Shortlisted[],
  plan: readonly PlannedPart[] = [],
): LiveRecord | null {
  if (found.every(({ shortlist }) => shortlist.length === 0)) return null;
  const setups = found.map((one) => startableOf(one, plan));
  const tables = { front: tableOf(scenario, 'front', setups), rear: tableOf(scenario, 'rear', setups) };
  return {
    margins: scenario.margins,
    axles: { front: axleOf(scenario.axles.front, tables.front), rear: axleOf(scenario.axles.rear, tables.rear) },
    setups: setups.map((one) => setupOf(one, tables)),
  };
}

/** With the setup's part of the best plan in front; on the shortlist it has its rank. */
function startableOf({ setup, shortlist, chosen }: Shortlisted, plan: readonly PlannedPart[]): Startable {
  const listed = shortlist.map(({ id, rank }, k) => ({ id, rank, indices: chosen[k] as Indices }));
  const part = plan.find((one) => one.setup === setup.name);
  if (!part) return { setup, starts: listed };
  const { id, indices } = part;
  const { rank } = listed.find((one) => one.id === id) ?? { rank: 0 };
  return { setup, starts: [{ id, rank, indices, isPlan: true }, ...listed.filter((one) => one.id !== id)] };
}

/** Which options of the scenario an axle's tables hold: rising, and each combination's digits before they are moved. */
interface Table {
  readonly options: AxleOptions;
  readonly used: Readonly<Record<Family, readonly number[]>>;
}

function tableOf(scenario: Scenario, axle: AxleName, setups: readonly Startable[]): Table {
  const { options } = scenario.axles[axle];
  const all = setups.flatMap(({ starts }) => starts.map(({ indices }) => digitsOf(options, indices[axle])));
  const used = FAMILIES.map((family) => {
    const digits = family === 'helper' ? options.helper.keys() : all.map((one) => one[family]);
    return [family, [...new Set(digits)].sort((a, b) => a - b)] as const;
  });
  return { options, used: Object.fromEntries(used) as unknown as Record<Family, readonly number[]> };
}

function axleOf(axle: Axle, { options, used }: Table): LiveAxle {
  const { wheelLoads, roll, options: all, ...fixed } = axle;
  const kept = FAMILIES.map((family) => [family, used[family].map((k) => options[family][k])] as const);
  return {
    ...fixed,
    ...(wheelLoads ? { wheelLoads } : {}),
    options: Object.fromEntries(kept) as unknown as AxleOptions,
  };
}

function setupOf({ setup, starts: all }: Startable, tables: Readonly<Record<AxleName, Table>>): LiveSetup {
  const { name, axles, balance, bump, standingOnStop, frequencyBasis, loadStates } = setup;
  const placesOf = (indices: Indices, axle: AxleName) => {
    const { options, used } = tables[axle];
    const digits = digitsOf(options, indices[axle]);
    return FAMILIES.map((family) => used[family].indexOf(digits[family]));
  };
  const starts = all.map(({ indices, ...start }) => {
    return { ...start, front: placesOf(indices, 'front'), rear: placesOf(indices, 'rear') };
  });
  return { name, axles, balance, bump, standingOnStop, frequencyBasis, loadStates, starts };
}
