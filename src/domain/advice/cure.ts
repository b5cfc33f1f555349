/**
 * The smallest single change that makes a spring work, looked for on every listed combination with it: the value
 * nearest to the listed one, on the workshop's steps of 0.5 mm, at which every check passes.
 *
 * The steps are walked outwards from the listed value. What a failing combination lacks tells how far it is at least
 * to the next value that could pass, and that far is skipped; so nothing on the steps is missed and little is tried.
 */
import type { Finding } from '../corner/findings.ts';
import type { Corner, Site } from '../corner/site.ts';
import { CHANGES, type ContinuousChange, isOfSleeve, leastChange, STEP, stopCanMeetSleeve } from './changes.ts';
import type { CureKind } from './types.ts';
import { findingsAt } from './verdict.ts';

/** A listed combination that fails, and what it fails. */
export interface Trial {
  /** Position in the product of options. */
  readonly index: number;
  readonly corner: Corner;
  readonly findings: readonly Finding[];
}

/** A trial changed so that it works: confirmed by judging `corner`. */
export interface CureFound {
  readonly trial: Trial;
  readonly corner: Corner;
  readonly changes: readonly ChangeFound[];
  /** Sum of the changes, mm; a swapped-in helper counts nothing. */
  readonly amount: number;
}

export interface ChangeFound {
  readonly kind: CureKind;
  readonly part: string;
  readonly from: number;
  readonly to: number;
}

/** The smallest single cure of each kind that has one, least amount first. */
export function singleCures(site: Site, trials: readonly Trial[]): CureFound[] {
  const found = CHANGES.flatMap((change) => smallestOf(site, trials, change) ?? []);
  return found.sort((a, b) => a.amount - b.amount);
}

function smallestOf(site: Site, trials: readonly Trial[], change: ContinuousChange): CureFound | null {
  const hopeful = trials
    .filter(({ findings, corner }) => findings.every((f) => change.touches(f, corner, site)))
    .map((trial) => ({ trial, least: leastChange(trial.findings, site) }))
    .sort((a, b) => a.least - b.least || a.trial.index - b.trial.index);
  const mayClear = headMemory(site, change);
  let best = null as CureFound | null;
  for (const { trial, least } of hopeful) {
    if (best !== null && least >= best.amount) break;
    if (!mayClear(trial.corner)) continue;
    const limit: number = best === null ? Number.POSITIVE_INFINITY : best.amount;
    best = smallestOn(site, trial, change, limit) ?? best;
  }
  return best;
}

/** The smallest change of one trial below `limit` mm. */
function smallestOn(site: Site, trial: Trial, change: ContinuousChange, limit: number): CureFound | null {
  const from = change.get(trial.corner);
  const up = firstWorking(site, trial.corner, change, 1, limit);
  const down = firstWorking(site, trial.corner, change, -1, up === null ? limit : Math.abs(up - from));
  const to = down ?? up;
  if (to === null) return null;
  const changes = [{ kind: change.kind, part: change.part(trial.corner), from, to }];
  return { trial, corner: change.set(trial.corner, to), changes, amount: Math.abs(to - from) };
}

/** The first step outwards at which everything passes, less than `limit` away; null: none within the limits. */
export function firstWorking(
  site: Site,
  corner: Corner,
  change: ContinuousChange,
  way: 1 | -1,
  limit: number,
  counts: (finding: Finding) => boolean = () => true,
): number | null {
  const from = change.get(corner);
  const [least, most] = change.limits(corner);
  const round = way > 0 ? Math.ceil : Math.floor;
  let step = round(from / STEP + way * 1e-6);
  for (;;) {
    const value = step * STEP;
    if (value < least || value > most || Math.abs(value - from) >= limit) return null;
    const changed = change.set(corner, value);
    const findings = findingsAt(site, changed).filter(counts);
    if (findings.length === 0) return value;
    if (!findings.every((f) => change.touches(f, changed, site))) return null;
    step += way * Math.max(1, Math.floor(leastChange(findings, site) / STEP));
  }
}

/**
 * Whether a change can clear what neither sleeve nor perch decides: the same for all of them, so it is found once for
 * each head and spring stack. Where the stop can meet the sleeve nothing is taken for granted.
 */
function headMemory(site: Site, change: ContinuousChange): (corner: Corner) => boolean {
  const numbers = new Map<object | null, number>();
  const known = new Map<string, boolean>();
  const numberOf = (part: object | null) => {
    if (!numbers.has(part)) numbers.set(part, numbers.size);
    return numbers.get(part) as number;
  };
  return (corner) => {
    if (stopCanMeetSleeve(site, corner)) return true;
    const { damper, mount, isolator, bumpStop, rodEnd, helper } = corner;
    const key = [damper, mount, isolator, bumpStop, rodEnd, helper].map(numberOf).join();
    const clears = known.get(key) ?? ways(site, corner, change);
    known.set(key, clears);
    return clears;
  };
}

function ways(site: Site, corner: Corner, change: ContinuousChange): boolean {
  const apart = (finding: Finding) => !isOfSleeve(finding);
  const clears = (way: 1 | -1) => firstWorking(site, corner, change, way, Number.POSITIVE_INFINITY, apart) !== null;
  return findingsAt(site, corner).every(isOfSleeve) || clears(1) || clears(-1);
}
