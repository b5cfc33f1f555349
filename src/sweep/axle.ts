/** One axle of one setup, swept: the tally turned into what pairing and the result need. */
import { CHECKS, type CheckName } from '../domain/checks.ts';
import { cornerScore } from '../domain/ranking/criteria.ts';
import type { AxleTally, SpringCell } from '../domain/result.ts';
import type { AxleLayout } from './layout.ts';
import type { Side } from './pairing.ts';
import { bestLogScore, type CandidateClass, candidatesOf, PASS, type Tally, totals, VERDICTS } from './tally.ts';

export interface AxleOutcome extends Side {
  readonly tally: AxleTally;
}

export function axleOutcome(layout: AxleLayout, tally: Tally): AxleOutcome {
  const sums = totals(tally);
  const passed = sums[PASS] as number;
  const rejected = Object.fromEntries(CHECKS.map((name, k) => [name, sums[k]])) as Record<CheckName, number>;
  return {
    tally: {
      combinations: sums.reduce((a, b) => a + b, 0),
      passed,
      rejected,
      spring_cells: springCells(layout, tally),
    },
    candidates: candidatesOf(tally),
    frequencies: tally.frequencies,
    stacks: layout.stacks.count,
  };
}

/** Per spring: how many of its combinations work, the best score, and where the others fall. */
function springCells(layout: AxleLayout, tally: Tally): SpringCell[] {
  const { site, options, ranking } = layout;
  return options.spring.map((spring, k) => {
    const counts = tally.cells.subarray(k * VERDICTS, (k + 1) * VERDICTS);
    const workable = counts[PASS] as number;
    const rejected = CHECKS.flatMap((name, check) => (counts[check] ? [[name, counts[check]] as const] : []));
    const best = bestOfSpring(layout, tally, k);
    return {
      spring: spring.name,
      free_length_mm: spring.freeLength,
      rate_n_per_mm: spring.rate,
      workable,
      best_score: workable > 0 ? cornerScore(site, ranking, best) : null,
      rejected: Object.fromEntries(rejected),
    };
  });
}

/** Best log score over the stacks with this spring. */
function bestOfSpring({ options }: AxleLayout, { classes }: Tally, spring: number): number {
  return bestLogScore(options.helper.map((_, k) => classes[k * options.spring.length + spring] as CandidateClass[]));
}
