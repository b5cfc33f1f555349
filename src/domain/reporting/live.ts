/** From a scenario and its shortlists to the inputs of the report's live bench. */
import { fromBase32 } from '../ids.ts';
import type { LiveAxle, LiveRecord, LiveSetup } from '../live.ts';
import type { Combination, PlansResult } from '../result.ts';
import {
  AXLE_NAMES,
  type Axle,
  type AxleName,
  type AxleOptions,
  FAMILIES,
  type Family,
  type Scenario,
  type Setup,
} from '../scenario.ts';

interface Shortlisted {
  readonly setup: Setup;
  readonly shortlist: readonly Combination[];
}

interface Startable extends Shortlisted {
  /** Id of the setup's part of the best plan. */
  readonly planned: string | null;
}

/** Null where no setup has a combination to start from. */
export function liveOf(
  scenario: Scenario,
  found: readonly Shortlisted[],
  plans: PlansResult | null = null,
): LiveRecord | null {
  if (found.every(({ shortlist }) => shortlist.length === 0)) return null;
  const setups = found.map((one) => startableOf(one, plans));
  const tables = { front: tableOf(scenario, 'front', setups), rear: tableOf(scenario, 'rear', setups) };
  return {
    margins: scenario.margins,
    axles: { front: axleOf(scenario.axles.front, tables.front), rear: axleOf(scenario.axles.rear, tables.rear) },
    setups: setups.map((one) => setupOf(one, tables)),
  };
}

/** With the setup's part of the best plan in front. */
function startableOf({ setup, shortlist }: Shortlisted, plans: PlansResult | null): Startable {
  const part = plans?.plans[0]?.setups.find((one) => one.setup === setup.name);
  if (!plans || !part) return { setup, shortlist, planned: null };
  const brought = plans.combinations.map(({ combination }) => combination);
  const isPart = ({ id }: Combination) => id === part.id;
  // On the shortlist it has its rank.
  const [bought] = [...shortlist, ...brought].filter(isPart);
  const others = shortlist.filter((one) => !isPart(one));
  return { setup, shortlist: [bought as Combination, ...others], planned: part.id };
}

/** Which options of the scenario an axle's tables hold: rising, and each combination's digits before they are moved. */
interface Table {
  readonly options: AxleOptions;
  readonly used: Readonly<Record<Family, readonly number[]>>;
}

function tableOf(scenario: Scenario, axle: AxleName, setups: readonly Startable[]): Table {
  const { options } = scenario.axles[axle];
  const all = setups.flatMap(({ shortlist }) => shortlist.map((one) => digitsOf(options, indexOf(one, axle))));
  const used = FAMILIES.map((family, k) => {
    const digits = family === 'helper' ? options.helper.keys() : all.map((one) => one[k] as number);
    return [family, [...new Set(digits)].sort((a, b) => a - b)] as const;
  });
  return { options, used: Object.fromEntries(used) as unknown as Record<Family, readonly number[]> };
}

function axleOf(axle: Axle, { options, used }: Table): LiveAxle {
  const { wheelLoad, wheelLoads, unsprungMass, tyreRate, motion, tyreOnArchHeight, lowestWheelHeight, bushes } = axle;
  const kept = FAMILIES.map((family) => [family, used[family].map((k) => options[family][k])] as const);
  return {
    ...{ wheelLoad, unsprungMass, tyreRate, motion, tyreOnArchHeight, lowestWheelHeight, bushes },
    ...(wheelLoads ? { wheelLoads } : {}),
    options: Object.fromEntries(kept) as unknown as AxleOptions,
  };
}

function setupOf({ setup, shortlist, planned }: Startable, tables: Readonly<Record<AxleName, Table>>): LiveSetup {
  const { name, axles, balance, bump, standingOnStop, frequencyBasis, loadStates } = setup;
  const placesOf = (one: Combination, axle: AxleName) => {
    const { options, used } = tables[axle];
    return digitsOf(options, indexOf(one, axle)).map((digit, k) => used[FAMILIES[k] as Family].indexOf(digit));
  };
  const starts = shortlist.map((one) => {
    const [front = [], rear = []] = AXLE_NAMES.map((axle) => placesOf(one, axle));
    return { id: one.id, rank: one.rank, ...(one.id === planned ? { isPlan: true as const } : {}), front, rear };
  });
  return { name, axles, balance, bump, standingOnStop, frequencyBasis, loadStates, starts };
}

/** A corner's id is a letter and its index. */
function indexOf(combination: Combination, axle: AxleName): number {
  return fromBase32(combination.axles[axle].id.slice(1));
}

/**
 * The digits of a combination's index in the mixed radix of the option tables, in the order of `FAMILIES`, the last
 * one fastest.
 */
export function digitsOf(options: AxleOptions, index: number): number[] {
  let rest = index;
  const digits = FAMILIES.toReversed().map((family) => {
    const size = options[family].length;
    const digit = rest % size;
    rest = Math.floor(rest / size);
    return digit;
  });
  return digits.reverse();
}
