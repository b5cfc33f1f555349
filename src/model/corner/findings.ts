/**
 * The verdict on one corner or pair: which checks it fails, by how much, and what it has to spare. A finding is numbers
 * only; its sentence is made where it is read, so that judging millions of corners makes no text.
 */
import type { Balance } from '../scenario.ts';
import type { Demands, Seated } from './checkRecord.ts';
import { CHECK, CHECKS, type CheckName, CORNER_CHECKS, PAIR_CHECKS, recordOf, type SeatCheckName } from './checks.ts';
import type { CornerState } from './state.ts';

export interface Finding {
  readonly check: CheckName;
  /** What exactly: a fit, a contact, with `:left` or `:right` behind it at that side's load, a load state, an end of a window. */
  readonly detail: string;
  /** What was found and what it had to reach, in the check's unit. */
  readonly found: number;
  readonly needed: number;
  /** How much is missing, always positive; +Infinity where no amount would do. */
  readonly shortfall: number;
}

/** What a check has to spare in one place, or lacks (negative), in its own unit. */
export interface Margin {
  readonly check: CheckName;
  readonly detail: string;
  readonly value: number;
}

/** Keeps the demands that are not met: most corners of a sweep miss none, and then nothing is made. */
class Missed implements Demands {
  readonly findings: Finding[] = [];
  check = CHECKS[0] as CheckName;
  readonly atLeast = (detail: string, found: number, needed: number) => {
    if (!(found >= needed)) this.#add(detail, found, needed, needed - found);
  };
  readonly atMost = (detail: string, found: number, needed: number) => {
    if (!(found <= needed)) this.#add(detail, found, needed, found - needed);
  };
  readonly above = (detail: string, found: number, needed: number) => {
    if (!(found > needed)) this.#add(detail, found, needed, needed - found);
  };
  #add(detail: string, found: number, needed: number, shortfall: number): void {
    this.findings.push({ check: this.check, detail, found, needed, shortfall });
  }
}

/**
 * The first check the corner fails, in the fixed order, or null when it works.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result a check's name.
 * Valid: a corner judged at its target height.
 */
export function firstFailure(state: CornerState): CheckName | null {
  const missed = new Missed();
  for (const name of CORNER_CHECKS) {
    CHECK[name].find(state, missed);
    if (missed.findings.length > 0) return name;
  }
  return null;
}

/**
 * Everything the corner fails, in the fixed order.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result found and needed in the check's own unit, shortfalls above 0.
 * Valid: a corner judged at its target height.
 */
export function findingsOf(state: CornerState): Finding[] {
  const missed = new Missed();
  for (const name of CORNER_CHECKS) {
    missed.check = name;
    CHECK[name].find(state, missed);
  }
  return missed.findings;
}

/**
 * Everything the corner fails on another sleeve and perch: they carry no force and end no travel, so what all other checks
 * found stays.
 *
 * Units: `seated` the corner there, its contacts those of the sleeve, in mm; `before` what `findingsOf` found; result as that.
 * Valid: a bump stop that meets the body, before and there.
 */
export function findingsOnSeat(seated: Seated, before: readonly Finding[]): Finding[] {
  const missed = new Missed();
  let next = 0;
  for (const name of CORNER_CHECKS) {
    const onSeat = isOnSeat(name);
    missed.check = name;
    if (onSeat) CHECK[name].find(seated, missed);
    for (; before[next]?.check === name; next++) if (!onSeat) missed.findings.push(before[next] as Finding);
  }
  return missed.findings;
}

/**
 * What front and rear fail together.
 *
 * Units: `front` and `rear` judged frequencies in Hz, `balance` dimensionless; result as `findingsOf`.
 * Valid: frequencies above 0; NaN fails nothing here, since its corner fails already.
 */
export function pairFindingsOf(front: number, rear: number, balance: Balance): Finding[] {
  const missed = new Missed();
  for (const name of PAIR_CHECKS) {
    missed.check = name;
    CHECK[name].findPair(front, rear, balance, missed);
  }
  return missed.findings;
}

/**
 * Every demand of every check with what the corner has to spare: the smooth face of the findings.
 *
 * Units: `state` of the judged corner in mm, N, Hz and MPa; result in each check's own unit.
 * Valid: which fits and contacts exist depends on the parts.
 */
export function marginsOf(state: CornerState): Margin[] {
  const margins: Margin[] = [];
  for (const check of CORNER_CHECKS) {
    const atLeast = (detail: string, found: number, needed: number) => {
      margins.push({ check, detail, value: found - needed });
    };
    const atMost = (detail: string, found: number, needed: number) => {
      margins.push({ check, detail, value: needed - found });
    };
    CHECK[check].find(state, { atLeast, atMost, above: atLeast });
  }
  return margins;
}

function isOnSeat(name: CheckName): name is SeatCheckName {
  return recordOf(name).isOnSeat === true;
}
