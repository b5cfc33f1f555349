/**
 * The smallest single change that makes a spring work, searched on every listed combination with it: the value
 * nearest to the listed one, on the workshop's steps of 0.5 mm, at which every check passes.
 *
 * The steps are walked outwards from the listed value. What a failing combination lacks tells how far it is at least
 * to the next value that could pass, and that far is skipped; so nothing on the steps is missed and little is tried.
 */
import type { Finding } from '../model/corner/findings.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { findingsAt } from '../model/corner/verdict.ts';
import type { CureKind } from '../result/advice.ts';
import {
  type Advisability,
  advisabilityOf,
  CHANGES,
  type ContinuousChange,
  isOfSleeve,
  leastChange,
  leastStep,
  STEP,
  stopCanMeetSleeve,
} from './changes.ts';
import type { Alike, Listed, Trial, Tried } from './trials.ts';

/** A trial changed so that it works: confirmed by judging `corner`. */
export interface CureFound {
  readonly trial: Tried;
  readonly corner: Corner;
  readonly changes: readonly ChangeFound[];
  /** Sum of the changes, mm; a swapped-in helper counts nothing. */
  readonly amount: number;
  /** A last resort, however small it is. */
  readonly isLast: boolean;
}

export interface ChangeFound {
  readonly kind: CureKind;
  readonly part: string;
  readonly from: number;
  readonly to: number;
}

/** A trial, and the least change that could make up all it lacks, mm. */
interface Hopeful {
  readonly trial: Trial;
  readonly least: number;
}

/** The smallest single cure of each kind that has one, least amount first; those of last resort behind them. */
export function singleCures(listed: Listed, trials: readonly Trial[]): CureFound[] {
  const hopeful = trials
    .map((trial) => ({ trial, least: leastChange(trial.findings, listed.site) }))
    .sort((a, b) => a.least - b.least || a.trial.index - b.trial.index);
  const found = CHANGES.flatMap((change) => {
    const on = (advised: Advisability) =>
      hopeful.filter(({ trial }) => advisabilityOf(change, trial.corner) === advised);
    return smallestOf(listed, on('freely'), change) ?? smallestOf(listed, on('last'), change) ?? [];
  });
  return found.sort((a, b) => Number(a.isLast) - Number(b.isLast) || a.amount - b.amount);
}

function smallestOf(listed: Listed, hopeful: readonly Hopeful[], change: ContinuousChange): CureFound | null {
  const { site } = listed;
  const memory = memoryOf(listed, change);
  let best: CureFound | null = null;
  for (const { trial, least } of hopeful) {
    const limit: number = best === null ? Number.POSITIVE_INFINITY : best.amount;
    if (least >= limit) break;
    const touched = trial.findings.every((f) => change.touches(f, trial.corner, site));
    if (!touched || !memory.mayWork(trial)) continue;
    const found = smallestOn(site, trial, change, limit);
    // Searched without a limit and not found: no other listed value of the same dimension can work.
    if (found === null && best === null) memory.forget(trial);
    best = found ?? best;
  }
  return best;
}

/** The smallest change of one trial below `limit` mm. */
function smallestOn(site: Site, trial: Tried, change: ContinuousChange, limit: number): CureFound | null {
  const from = change.get(trial.corner);
  const up = findFirstWorking(site, trial, change, 1, limit);
  const down = findFirstWorking(site, trial, change, -1, up === null ? limit : Math.abs(up - from));
  const to = down ?? up;
  if (to === null) return null;
  const changes = [{ kind: change.kind, part: change.part(trial.corner), from, to }];
  const isLast = advisabilityOf(change, trial.corner) === 'last';
  return { trial, corner: change.set(trial.corner, to), changes, amount: Math.abs(to - from), isLast };
}

/** The first step outwards at which everything passes, less than `limit` away; null: none within the limits. */
export function findFirstWorking(
  site: Site,
  { corner, findings }: Pick<Tried, 'corner' | 'findings'>,
  change: ContinuousChange,
  way: 1 | -1,
  limit: number,
  counts: (finding: Finding) => boolean = () => true,
): number | null {
  const from = change.get(corner);
  const [least, most] = change.limits(corner);
  let [value, changed, lacking] = [from, corner, findings.filter(counts)];
  while (lacking.every((f) => change.touches(f, changed, site))) {
    value = stepBeyond(value, way, leastStep(change, lacking, changed, site));
    if (value < least || value > most || Math.abs(value - from) >= limit) return null;
    changed = change.set(corner, value);
    lacking = findingsAt(site, changed).filter(counts);
    if (lacking.length === 0) return value;
  }
  return null;
}

/** Rounding of lengths that are equal, in steps. */
const HAIR = 1e-6;

/** The next value on the workshop's steps that is at least `by` away. */
function stepBeyond(value: number, way: 1 | -1, by: number): number {
  const steps = Math.max((way * value) / STEP + HAIR, (way * value + by) / STEP - HAIR);
  return way * Math.ceil(steps) * STEP;
}

/**
 * What is known already of corners that differ only in the dimension to be changed: where no value of it works, and
 * where none clears what neither sleeve nor perch decides, which is the same for all of them and is found once for
 * each damper set and spring stack. Where the stop can meet the sleeve the latter need not hold.
 */
function memoryOf({ site, alike, allHelpers }: Listed, change: ContinuousChange) {
  const { places, sets } = alike.get(change) as Alike;
  const clearing = new Map<number, boolean>();
  const hopeless = new Set<number>();
  /** The same for trials whose parts differ in nothing but the changed dimension. */
  const keyIn = (numbers: readonly number[], { place, helper }: Trial) =>
    (numbers[place.number] as number) * allHelpers.length + helper;
  const clears = (trial: Trial) => {
    const apart = (finding: Finding) => !isOfSleeve(finding);
    const found = (way: 1 | -1) => findFirstWorking(site, trial, change, way, Number.POSITIVE_INFINITY, apart) !== null;
    return trial.findings.every(isOfSleeve) || found(1) || found(-1);
  };
  return {
    mayWork(trial: Trial): boolean {
      if (hopeless.has(keyIn(places, trial))) return false;
      if (stopCanMeetSleeve(site, trial.corner)) return true;
      const key = keyIn(sets, trial);
      const known = clearing.get(key) ?? clears(trial);
      clearing.set(key, known);
      return known;
    },
    forget: (trial: Trial) => void hopeless.add(keyIn(places, trial)),
  };
}
