/**
 * How well a purchase stands up to its tolerances: the score with every criterion at the worst end of its band, and what
 * becomes of it on the cars that its numbers may stand for.
 */
import { FAILINGS, type Failing } from '../model/corner/checkRecord.ts';
import { worstFailing } from '../model/corner/checks.ts';
import { findingsOf, pairFindingsOf } from '../model/corner/findings.ts';
import { judgedFrequency } from '../model/corner/rates.ts';
import { type CriterionScore, candidateOf, leastDesirability, pairScorer, scoreOf } from '../model/corner/score.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { lightState } from '../model/corner/verdict.ts';
import type { Working } from '../model/corner/window.ts';
import type { Ranking, Scenario, Setup, Tolerances } from '../model/scenario.ts';
import type { Builds } from '../result/advice.ts';
import type { CornerKey } from '../result/quantities/corner.ts';
import { type JudgedPair, workingOf } from '../result/records/combination.ts';
import type { Combination, CornerReport } from '../result/result.ts';
import { draftOf, type Model, offBy } from '../result/tolerance/inputs.ts';
import { DRAWS, drawsOf, offsOf } from './cars.ts';

/** One corner of one car as it came out: its judged frequency, and the worst it fails; null: nothing. */
export interface Drawn {
  readonly frequency: number;
  readonly failing: Failing | null;
}

/** The same with its log score, -Infinity where it fails. */
export interface Built extends Drawn {
  readonly logScore: number;
}

/** The perch set for the target height, as on the car. */
function drawn(site: Site, corner: Corner): Drawn {
  const state = lightState(site, corner);
  return { frequency: judgedFrequency(state), failing: worstFailing(findingsOf(state)) };
}

export function builtOn(site: Site, corner: Corner, ranking: Ranking): Built {
  const found = drawn(site, corner);
  const works = found.failing === null;
  const logScore = works ? candidateOf(0, workingOf(site, corner), ranking).logScore : Number.NEGATIVE_INFINITY;
  return { ...found, logScore };
}

/** One corner on every car. */
export function drawBuilds(model: Model, tolerances: Tolerances, count = DRAWS.count): Drawn[] {
  const offs = offsOf(() => true, model, tolerances);
  return drawsOf(model.site.axle, count).map(({ errors }) => {
    const built = draftOf(model);
    for (const { place, input, width } of offs) input.move(built, offBy(width, errors[place] as number));
    return drawn(built.site, built.corner);
  });
}

/** Corners as they could come out: pairs and plans share many. */
const draws = new WeakMap<Working, readonly Drawn[]>();

/** What becomes of a pair on every car, cut as planned. */
export function buildsOfPair({ scenario, setup, workings: { front, rear } }: JudgedPair): Builds {
  const drawnOf = (working: Working) => {
    const known = draws.get(working) ?? drawBuilds(working.state, scenario.tolerances);
    draws.set(working, known);
    return known;
  };
  return buildsOf(drawnOf(front), drawnOf(rear), setup);
}

/**
 * Shares of the cars by the worst that either corner or the balance fails; the front of car k goes with the rear of
 * car k. Together with those that work they are all.
 */
export function buildsOf(front: readonly Drawn[], rear: readonly Drawn[], setup: Setup): Required<Builds> {
  const counts = { works: 0, metal: 0, seat: 0, margin: 0, wish: 0 };
  for (const [k, one] of front.entries()) counts[failingOf(one, rear[k] as Drawn, setup) ?? 'works']++;
  const share = (count: number) => count / front.length;
  const fails = {
    metal_share: share(counts.metal),
    seat_share: share(counts.seat),
    margin_share: share(counts.margin),
    wish_share: share(counts.wish),
  };
  return { share: share(counts.works), fails };
}

function failingOf(one: Drawn, other: Drawn, { balance }: Setup): Failing | null {
  const worse = FAILINGS.find((failing) => failing === one.failing || failing === other.failing);
  return worse ?? worstFailing(pairFindingsOf(one.frequency, other.frequency, balance));
}

/** One corner on every car, and what it costs; null where a part has no price. */
export interface PricedBuilds {
  readonly builds: readonly Built[];
  readonly price: number | null;
}

/** Mean scores over the cars of pairs of a setup, a build that fails counted 0. */
export function expectedScorer(setup: Setup, ranking: Ranking): (front: PricedBuilds, rear: PricedBuilds) => number {
  const scoreOfPair = pairScorer(setup, ranking);
  return (front, rear) => {
    const candidate = ({ price }: PricedBuilds, built: Built) => ({ ...built, index: 0, price });
    const scores = front.builds.map((one, k) => {
      const other = rear.builds[k] as Built;
      return failingOf(one, other, setup) === null ? scoreOfPair(candidate(front, one), candidate(rear, other)) : 0;
    });
    return scores.reduce((sum, score) => sum + score, 0) / scores.length;
  };
}

/** The score with each criterion at the worst end of its worst-case band; 0 where it can leave nothing. */
export function worstScore(scenario: Scenario, setup: Setup, combination: Combination): number {
  const { axles, criteria } = combination;
  const least = (c: CriterionScore) =>
    leastDesirability(c, setup, scenario.ranking, (axle, key) => bandIn(axles[axle], key));
  return scoreOf(criteria.map((c) => ({ ...c, desirability: least(c) })));
}

/** A quantity no toleranced input moves has no band: it is what it is. Null where it does not exist. */
function bandIn({ bands, values }: CornerReport, key: CornerKey): readonly [low: number, high: number] | null {
  const band = bands[key];
  if (band) return [band.worst_low, band.worst_high];
  const value = values[key] ?? null;
  return value === null ? null : [value, value];
}
