/** From a scenario and its shortlists to the inputs of the report's live bench. */
import { digitsOf } from '../../model/corner/options.ts';
import {
  type Axle,
  type AxleName,
  type AxleOptions,
  FAMILIES,
  type Family,
  type Scenario,
  type Setup,
} from '../../model/scenario.ts';
import type { LiveAxle, LiveRecord, LiveSetup } from '../live.ts';
import type { Combination } from '../result.ts';

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
