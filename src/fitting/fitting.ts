/**
 * Parts on the bench, every combination judged and ranked by what can be known without wishes: how far the perch seat can
 * safely move, and how thin the thinnest clearance is.
 *
 *   parts --each combination--> verdict, safe range, clearances --rank--> the best, and why the others fail
 *   with load and motion of the wheel --> heights, travel and frequency of the best
 */
import {
  type BenchJudgement,
  type BenchState,
  type BenchVerdict,
  benchFaultLabel,
  benchSite,
  judgeOnBench,
  thinnestOnBench,
} from '../model/corner/bench.ts';
import { combinationCount, cornerAt } from '../model/corner/options.ts';
import { largerIsBetter } from '../model/formula/desirability.ts';
import { AXLE_NAMES, type AxleName, type BenchAxle, type BenchScenario } from '../model/scenario.ts';
import { type Settling, settlingsOf } from './settle.ts';
import { type WheelAnswer, wheelAnswerOf } from './wheel.ts';
import { type WouldFit, wouldFitOf } from './wouldFit.ts';

export interface AxleFitting {
  readonly axle: AxleName;
  /** With load and motion of the wheel there are heights and frequencies, too. */
  readonly level: 'parts' | 'corner';
  readonly combinations: number;
  readonly counts: Readonly<Record<BenchVerdict, number>>;
  /** How many fail at what, most first, counted at what each lacks first. */
  readonly failing: readonly { readonly label: string; readonly count: number }[];
  readonly bench: BenchAxle;
  /** The best, best first; of combinations that all fail those that lack least. */
  readonly best: readonly Fitted[];
  /** Heights and frequencies of everything that fits, the best first, as far as they are drawn; empty without a wheel. */
  readonly possible: readonly WheelAnswer[];
  /** Of the first: which measurement would settle its numbers most. */
  readonly settlings: readonly Settling[];
  /** Where nothing fits: what would. */
  readonly would: WouldFit | null;
}

/** One combination with what is shown of it. */
export interface Fitted extends Ranked {
  readonly judgement: BenchJudgement;
  /** What is shown: with what was not measured at its best, where that decides. */
  readonly state: BenchState;
  readonly wheel: WheelAnswer | null;
}

interface Ranked {
  readonly index: number;
  readonly verdict: BenchVerdict;
  /** 0 to 1; of what fails the length it lacks, below 0. */
  readonly score: number;
}

/** How many combinations are shown, and how many drawn. */
export const SHOWN = 20;
export const DRAWN = 300;
/** Combinations of an axle that are judged; more want ranges narrowed. */
export const MOST_COMBINATIONS = 500_000;

/** Safe range of the perch seat, and clearance beyond its margin, from which more counts for nothing, mm: own choice. */
export const GOOD_RANGE = 40;
export const GOOD_SPARE = 10;

/** The axles that hold more combinations than are judged. */
export function tooManyOn(scenario: BenchScenario): readonly { readonly axle: AxleName; readonly count: number }[] {
  return AXLE_NAMES.flatMap((axle) => {
    const bench = scenario.axles[axle];
    const count = bench === undefined ? 0 : combinationCount(bench.options);
    return count > MOST_COMBINATIONS ? [{ axle, count }] : [];
  });
}

export function fittingsOf(scenario: BenchScenario): readonly AxleFitting[] {
  return AXLE_NAMES.flatMap((axle) => {
    const bench = scenario.axles[axle];
    return bench === undefined ? [] : [fitAxle(scenario, axle, bench)];
  });
}

function fitAxle(scenario: BenchScenario, axle: AxleName, bench: BenchAxle): AxleFitting {
  const site = benchSite(axle, bench.own, scenario.margins);
  const combinations = combinationCount(bench.options);
  const counts = { works: 0, depends: 0, fails: 0 };
  const failing = new Map<string, number>();
  const ranked: Ranked[] = [];
  for (let index = 0; index < combinations; index++) {
    const judgement = judgeOnBench(site, cornerAt(bench.options, index));
    counts[judgement.verdict]++;
    const [first] = judgement.sure;
    if (first) failing.set(benchFaultLabel(first), (failing.get(benchFaultLabel(first)) ?? 0) + 1);
    keepBest(ranked, { index, verdict: judgement.verdict, score: scoreOf(judgement) });
  }
  const fitted = ranked.slice(0, bench.wheel === null ? SHOWN : DRAWN).map((one): Fitted => {
    const judgement = judgeOnBench(site, cornerAt(bench.options, one.index));
    const state = judgement.hoped;
    return { ...one, judgement, state, wheel: wheelAnswerOf(scenario, axle, bench, state) };
  });
  if (bench.wheel !== null) fitted.sort(byHeights);
  const best = fitted.slice(0, SHOWN);
  return {
    axle,
    level: bench.wheel === null ? 'parts' : 'corner',
    combinations,
    counts,
    failing: [...failing].map(([label, count]) => ({ label, count })).sort((a, b) => b.count - a.count),
    bench,
    best,
    possible: fitted.flatMap(({ verdict, wheel }) => (verdict === 'fails' || wheel === null ? [] : [wheel])),
    settlings: best[0] === undefined ? [] : settlingsOf(scenario, axle, bench, best[0].state),
    would:
      counts.works + counts.depends > 0
        ? null
        : wouldFitOf(
            site,
            best.map(({ state }) => state.corner),
          ),
  };
}

/**
 * Of what works the geometric mean of range and thinnest clearance, each as good as asked for from `GOOD_RANGE` and
 * `GOOD_SPARE` on; of what fails minus what it lacks in all.
 */
function scoreOf(judgement: BenchJudgement): number {
  if (judgement.verdict === 'fails') return -judgement.sure.reduce((sum, { short }) => sum + short, 0);
  return joinedScore(judgement.hoped.range, judgement.hoped);
}

function joinedScore(range: number, state: BenchState): number {
  const { clearance, margin } = thinnestOnBench(state);
  return Math.sqrt(largerIsBetter(range, 0, GOOD_RANGE) * largerIsBetter(clearance - margin, 0, GOOD_SPARE));
}

/** Of a corner the range of ride heights counts in place of that of the perch: much of the latter may lie on the stop. */
function byHeights(one: Fitted, other: Fitted): number {
  if (one.verdict !== other.verdict || one.verdict === 'fails') return isBefore(one, other) ? -1 : 1;
  return heightScore(other) - heightScore(one) || one.index - other.index;
}

function heightScore({ state, wheel }: Fitted): number {
  const range = wheel === null ? 0 : wheel.high.height - wheel.low.height;
  return joinedScore(range, state);
}

const ORDER: readonly BenchVerdict[] = ['works', 'depends', 'fails'];

/** Whether the first is shown before the second; of equals the one that stands first in the file. */
function isBefore(a: Ranked, b: Ranked): boolean {
  if (a.verdict !== b.verdict) return ORDER.indexOf(a.verdict) < ORDER.indexOf(b.verdict);
  return a.score === b.score ? a.index < b.index : a.score > b.score;
}

function keepBest(kept: Ranked[], one: Ranked): void {
  const last = kept[DRAWN - 1];
  if (last !== undefined && !isBefore(one, last)) return;
  const at = kept.findIndex((other) => isBefore(one, other));
  kept.splice(at === -1 ? kept.length : at, 0, one);
  kept.length = Math.min(kept.length, DRAWN);
}
