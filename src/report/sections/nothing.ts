/** Why a setup has no workable combination: the check that rejects most, axle by axle, or the balance of the pairs. */
import { CHECK_LABELS, CORNER_CHECKS } from '../../domain/checks.ts';
import type { AxleTally, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { count, PAGE, percent } from '../numbers.ts';

export interface NothingView {
  /** Axles of which no combination passes. */
  readonly axles: readonly NothingAxle[];
  /** Set where both axles have passing combinations, but no two of them go together. */
  readonly pairs: string | null;
}

export interface NothingAxle {
  readonly axle: AxleName;
  readonly combinations: string;
  readonly check: string;
  readonly rejected: string;
  readonly share: string;
}

export function nothingView(setup: SetupResult): NothingView {
  const axles = AXLE_NAMES.filter((axle) => setup.axles[axle].passed === 0).map((axle) =>
    nothingAxle(axle, setup.axles[axle]),
  );
  return { axles, pairs: axles.length > 0 ? null : count(setup.pairs.considered, PAGE) };
}

function nothingAxle(axle: AxleName, tally: AxleTally): NothingAxle {
  const { check, rejected } = mostRejecting(tally);
  return {
    axle,
    combinations: count(tally.combinations, PAGE),
    check: CHECK_LABELS[check],
    rejected: count(rejected, PAGE),
    share: percent(rejected, tally.combinations, PAGE),
  };
}

/** The check that rejects most; of equals the one judged first. */
export function mostRejecting(tally: AxleTally) {
  return CORNER_CHECKS.map((check) => ({ check, rejected: tally.rejected[check] })).reduce((most, next) =>
    next.rejected > most.rejected ? next : most,
  );
}
