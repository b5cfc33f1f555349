/**
 * The smallest single change that makes a spring work, looked for on every listed combination with it: the value
 * nearest to the listed one, on the workshop's steps of 0.5 mm, at which every check passes.
 *
 * The steps are walked outwards from the listed value. What a failing combination lacks tells how far it is at least
 * to the next value that could pass, and that far is skipped; so nothing on the steps is missed and little is tried.
 */
import type { Finding } from '../corner/findings.ts';
import type { Corner, Site } from '../corner/site.ts';
import { FAMILIES, type Family } from '../scenario.ts';
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
  const memory = new Memory(site, change);
  let best = null as CureFound | null;
  for (const { trial, least } of hopeful) {
    if (best !== null && least >= best.amount) break;
    if (!memory.mayWork(trial.corner)) continue;
    const found = smallestOn(site, trial, change, best === null ? Number.POSITIVE_INFINITY : best.amount);
    // Looked for without a limit and not found: no other listed value of the same dimension needs looking at.
    if (found === null && best === null) memory.forget(trial.corner);
    best = found ?? best;
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
 * What is known already of corners that differ only in the dimension to be changed: where no value of it works, and
 * where none clears what neither sleeve nor perch decides, which is the same for all of them and is found once for
 * each head and spring stack. Where the stop can meet the sleeve the latter is not taken for granted.
 */
class Memory {
  readonly #site: Site;
  readonly #change: ContinuousChange;
  readonly #numbers = new Map<object | string | null, number>();
  readonly #texts = new Map<object, string>();
  readonly #clearing = new Map<string, boolean>();
  readonly #hopeless = new Set<string>();

  constructor(site: Site, change: ContinuousChange) {
    this.#site = site;
    this.#change = change;
  }

  mayWork(corner: Corner): boolean {
    if (this.#hopeless.has(this.#keyOf(corner, FAMILIES))) return false;
    if (stopCanMeetSleeve(this.#site, corner)) return true;
    const key = this.#keyOf(corner, HEAD);
    const clears = this.#clearing.get(key) ?? this.#clears(corner);
    this.#clearing.set(key, clears);
    return clears;
  }

  forget(corner: Corner): void {
    this.#hopeless.add(this.#keyOf(corner, FAMILIES));
  }

  #clears(corner: Corner): boolean {
    const apart = (finding: Finding) => !isOfSleeve(finding);
    const found = (way: 1 | -1) =>
      firstWorking(this.#site, corner, this.#change, way, Number.POSITIVE_INFINITY, apart) !== null;
    return findingsAt(this.#site, corner).every(isOfSleeve) || found(1) || found(-1);
  }

  /** The same for corners whose parts of these families differ in nothing but the changed dimension. */
  #keyOf(corner: Corner, families: readonly Family[]): string {
    return families.map((family) => this.#numberOf(this.#identityOf(corner, family))).join();
  }

  #identityOf(corner: Corner, family: Family): object | string | null {
    const part = corner[family];
    if (part === null || family !== this.#change.family) return part;
    const known = this.#texts.get(part) ?? JSON.stringify(this.#change.set(corner, 0)[family]);
    this.#texts.set(part, known);
    return known;
  }

  #numberOf(identity: object | string | null): number {
    const known = this.#numbers.get(identity) ?? this.#numbers.size;
    this.#numbers.set(identity, known);
    return known;
  }
}

const HEAD = FAMILIES.filter((family) => family !== 'sleeve' && family !== 'perch');
