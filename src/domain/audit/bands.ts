/** One measurement against its prediction: the likely band, the worst case, and which of them holds it. */
import type { Expectation } from './expectation.ts';
import type { Observation } from './observations.ts';

export type Verdict = 'likely' | 'worst' | 'beyond';

export interface Compared {
  readonly observation: Observation;
  readonly predicted: number;
  readonly rssLow: number;
  readonly rssHigh: number;
  readonly worstLow: number;
  readonly worstHigh: number;
  readonly verdict: Verdict;
  /** What moves the prediction most. */
  readonly contributor: string;
}

/**
 * Every measurement with its band.
 *
 * Equation: worst = sum of the moves to either side; rss = root of the sum of their squares
 * Units: as the measurements; `expectation` of the same measurements in the same order.
 * Valid: as `expectationOf`.
 * Source: root sum of squares of independent deviations, standard.
 */
export function comparedOf(expectation: Expectation, observations: readonly Observation[]): readonly Compared[] {
  return observations.map((observation, i) => compare(expectation, observation, i));
}

function compare({ predicted, moves }: Expectation, observation: Observation, i: number): Compared {
  const value = predicted[i] as number;
  const sides = moves.map(({ label, down, up }) => {
    const ends = [down[i] as number, up[i] as number];
    return { label, low: Math.max(0, ...ends.map((e) => -e)), high: Math.max(0, ...ends) };
  });
  const sum = (read: (side: (typeof sides)[number]) => number) => sides.reduce((total, side) => total + read(side), 0);
  const most = sides.reduce((a, b) => (Math.max(b.low, b.high) > Math.max(a.low, a.high) ? b : a));
  const band = {
    rssLow: value - Math.sqrt(sum((s) => s.low ** 2)),
    rssHigh: value + Math.sqrt(sum((s) => s.high ** 2)),
    worstLow: value - sum((s) => s.low),
    worstHigh: value + sum((s) => s.high),
  };
  return {
    observation,
    predicted: value,
    ...band,
    verdict: verdictOf(observation.measured, band),
    contributor: most.label,
  };
}

/** Rounding of units may not turn a band's own end into a disagreement. */
const HAIR = 1e-9;

function verdictOf(
  measured: number,
  band: Omit<Compared, 'observation' | 'predicted' | 'verdict' | 'contributor'>,
): Verdict {
  if (measured >= band.rssLow - HAIR && measured <= band.rssHigh + HAIR) return 'likely';
  return measured >= band.worstLow - HAIR && measured <= band.worstHigh + HAIR ? 'worst' : 'beyond';
}
