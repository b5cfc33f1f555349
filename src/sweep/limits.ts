/** How much one sweep takes on: beyond it a slip of the scenario is likelier than a purpose. */
import { ASSEMBLY_FAMILIES, combinationCount, STACK_FAMILIES } from '../model/corner/options.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Family, type Scenario } from '../model/scenario.ts';
import { sizesOf } from './outcome.ts';

/** Combinations over both axles and all setups that are swept unless more are asked for: about an hour on one machine. */
export const MOST_COMBINATIONS = 1e12;
/** Counts are whole numbers up to here; beyond, two combinations would share an id. */
const MOST_COUNTABLE = Number.MAX_SAFE_INTEGER;
/** Rows held in memory per axle: springs times helpers; and dampers, mounts, isolators, bump stops and rod ends. */
const MOST_STACKS = 1e6;
const MOST_ASSEMBLIES = 1e7;

/** Part families of an axle with how many options each has, the most first. */
export interface FamilyCount {
  readonly axle: AxleName;
  readonly family: Family;
  readonly count: number;
}

export type LimitFault =
  | {
      readonly kind: 'combinations';
      readonly count: number;
      readonly most: number;
      readonly families: readonly FamilyCount[];
    }
  | {
      readonly kind: 'product';
      readonly count: number;
      readonly most: number;
      readonly families: readonly FamilyCount[];
    };

/** Why a scenario holds too much to be swept; null when it does not. `most` can't lift what memory and counting set. */
export function limitFault(scenario: Scenario, most: number = MOST_COMBINATIONS): LimitFault | null {
  const counts = AXLE_NAMES.flatMap((axle) => {
    const { options } = scenario.axles[axle];
    return FAMILIES.map((family) => ({ axle, family, count: options[family].length }));
  });
  for (const axle of AXLE_NAMES) {
    const on = counts.filter((one) => one.axle === axle);
    const fault = tooMany(on, STACK_FAMILIES, MOST_STACKS) ?? tooMany(on, ASSEMBLY_FAMILIES, MOST_ASSEMBLIES);
    if (fault !== null) return fault;
    const count = combinationCount(scenario.axles[axle].options);
    if (count > MOST_COUNTABLE) return { kind: 'product', count, most: MOST_COUNTABLE, families: largest(on) };
  }
  const { judged } = sizesOf(scenario);
  return judged > most ? { kind: 'combinations', count: judged, most, families: largest(counts) } : null;
}

function tooMany(counts: readonly FamilyCount[], among: readonly Family[], most: number): LimitFault | null {
  const families = counts.filter(({ family }) => among.includes(family));
  const count = families.reduce((product, { count: options }) => product * options, 1);
  return count > most ? { kind: 'product', count, most, families: largest(families) } : null;
}

/** What to narrow first. */
function largest(counts: readonly FamilyCount[]): FamilyCount[] {
  return counts
    .filter(({ count }) => count > 1)
    .toSorted((one, other) => other.count - one.count)
    .slice(0, 4);
}
