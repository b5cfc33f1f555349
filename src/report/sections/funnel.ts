/** Why the rest fail: how many combinations fell at each check, in the order in which the checks are made. */
import { CHECK_LABELS, CORNER_CHECKS } from '../../domain/checks.ts';
import type { SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { count, PAGE, percent } from '../numbers.ts';

export interface FunnelView {
  readonly setup: string;
  readonly rows: readonly { readonly check: string; readonly cells: readonly FunnelCell[] }[];
  /** Checks at which nothing fell on either axle. */
  readonly idle: readonly string[];
  readonly combinations: readonly string[];
  readonly passed: readonly FunnelCell[];
  readonly pairs: { readonly considered: string; readonly outOfBalance: string; readonly workable: string };
}

export interface FunnelCell {
  readonly count: string;
  readonly share: string;
  /** 0 to 100, for the width of the bar. */
  readonly width: string;
}

export function funnelView(setup: SetupResult): FunnelView {
  const tallies = AXLE_NAMES.map((axle) => setup.axles[axle]);
  const busy = CORNER_CHECKS.filter((check) => tallies.some((tally) => tally.rejected[check] > 0));
  return {
    setup: setup.name,
    rows: busy.map((check) => ({
      check: CHECK_LABELS[check],
      cells: tallies.map((tally) => cellOf(tally.rejected[check], tally.combinations)),
    })),
    idle: CORNER_CHECKS.filter((check) => !busy.includes(check)).map((check) => CHECK_LABELS[check]),
    combinations: tallies.map((tally) => count(tally.combinations, PAGE)),
    passed: tallies.map((tally) => cellOf(tally.passed, tally.combinations)),
    pairs: {
      considered: count(setup.pairs.considered, PAGE),
      outOfBalance: count(setup.pairs.rejected_by_balance, PAGE),
      workable: count(setup.pairs.workable, PAGE),
    },
  };
}

function cellOf(part: number, whole: number): FunnelCell {
  const width = whole > 0 ? ((100 * part) / whole).toFixed(1) : '0';
  return { count: count(part, PAGE), share: percent(part, whole, PAGE), width };
}
