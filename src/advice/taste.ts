/**
 * How much the answer hangs on the weights: each weight doubled and halved, everything else left, and who wins then.
 * Swept again where that is quick, so that a purchase outside the shortlist can win too.
 */
import { scoreOf } from '../model/corner/score.ts';
import type { CriterionName } from '../model/criteria.ts';
import type { Ranking, Scenario } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import { rounded, type TasteRow, type TasteTable } from '../result/advice.ts';
import type { Combination } from '../result/result.ts';

/** The best pair of a setup; null where nothing works. */
export interface Winner {
  readonly id: string;
  /** Same for pairs with the same springs and helpers. */
  readonly purchase: string;
  readonly score: number;
}
/** @param weights others than the scenario's own, above 0 for the same criteria */
export type Reweigh = (weights: Ranking['weights']) => Winner | null;

export interface Ranked {
  readonly combination: Combination;
  readonly purchase: string;
}

const FACTORS = [2, 0.5];

/** @param reweigh null where there are too many combinations to sweep again */
export function* tryWeights(
  scenario: Scenario,
  shortlist: readonly Ranked[],
  reweigh: Reweigh | null,
): Steps<TasteTable | null> {
  const byScore = [...shortlist].sort((a, b) => b.combination.score - a.combination.score);
  const best = byScore[0];
  if (!best) return null;
  const criteria = [...new Set(best.combination.criteria.map((c) => c.criterion))];
  const tries = criteria.flatMap((criterion) => FACTORS.map((factor) => ({ criterion, factor })));
  const rows: TasteRow[] = [];
  for (const { criterion, factor } of tries) {
    yield { what: 'other weights', done: rows.length, of: tries.length };
    const { weights } = withWeight(scenario, criterion, factor).ranking;
    const winner = reweigh ? reweigh(weights) : rerank(byScore, criterion, factor);
    rows.push({
      criterion,
      weight: scenario.ranking.weights[criterion],
      tried: weights[criterion],
      winner: winner?.id ?? '',
      score: rounded(winner?.score ?? 0, 3),
      place: 1 + byScore.findIndex((r) => r.purchase === winner?.purchase),
      changes: winner?.purchase !== best.purchase,
    });
  }
  return { basis: reweigh ? 'sweep' : 'shortlist', rows };
}

/** The scenario with one weight multiplied. */
export function withWeight(scenario: Scenario, criterion: CriterionName, factor: number): Scenario {
  const { ranking } = scenario;
  const weights = { ...ranking.weights, [criterion]: ranking.weights[criterion] * factor };
  return { ...scenario, ranking: { ...ranking, weights } };
}

function rerank(shortlist: readonly Ranked[], criterion: CriterionName, factor: number): Winner | null {
  const scored = shortlist.map(({ combination, purchase }) => {
    const criteria = combination.criteria.map((c) =>
      c.criterion === criterion ? { ...c, weight: c.weight * factor } : c,
    );
    return { id: combination.id, purchase, score: scoreOf(criteria) };
  });
  return scored.reduce<Winner | null>((best, one) => (best === null || one.score > best.score ? one : best), null);
}
