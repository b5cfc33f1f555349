/**
 * Who wins a swept setup with other weights, without sweeping all of it again. The setup's best pairs, judged with these
 * weights, say what a better pair is worth at least, and what the other axle adds to a corner at most says which corners
 * could stand in one.
 */
import type { Reweigh } from '../advice/taste.ts';
import { stackOf } from '../model/corner/options.ts';
import { type Candidate, candidateOf, cornerWeights } from '../model/corner/score.ts';
import type { AxleName, Ranking, Scenario, Setup } from '../model/scenario.ts';
import { pointOf, type Span, spanOver } from './boxes.ts';
import { judgedCorner, judgedCorners, sideOf, winnerOf } from './choice.ts';
import { mostBetween, pairUp, type ScoredPair, type Side } from './join.ts';
import { layoutOf, withStacks } from './layout.ts';
import type { SetupOutcome } from './outcome.ts';
import type { Floor } from './tally.ts';

/** @param fingerprint of the scenario */
export function reweighOf(scenario: Scenario, swept: SetupOutcome, fingerprint: string): Reweigh {
  const { setup } = swept;
  return (weights) => {
    const ranking = { ...scenario.ranking, weights, keep: 1 };
    const axle = (name: AxleName) => reweighed(scenario, swept, name, ranking);
    const [front, rear] = [axle('front'), axle('rear')];
    const [known] = pairUp(front.known, rear.known, setup, ranking).best;
    if (!known) return null;
    const best = bestFrom(known) ?? known;
    return winnerOf(scenario, setup, ranking, fingerprint, best);

    function bestFrom(start: ScoredPair): ScoredPair | undefined {
      const goal = goalOf(start, setup, ranking);
      if (goal.least === Number.NEGATIVE_INFINITY) return undefined;
      const ofRear = rear.above(floorBeside(rear, front.atMost, goal, (one, other) => [other, one]));
      const ofFront = front.above(floorBeside(front, ofRear.candidates, goal, (one, other) => [one, other]));
      return pairUp(ofFront, ofRear, setup, ranking).best[0];
    }
  };
}

/** What a better pair must reach. */
interface Goal {
  readonly least: number;
  /** What only the pair decides, at most, as far as it counts for that; -Infinity where it is out of balance. */
  readonly paired: (front: Span, rear: Span) => number;
}

/**
 * Weights above 0 change nothing in which pairs score 0: all of them, where the best does, and then the corners decide;
 * where those score 0 too, nothing that a weight changes (-Infinity).
 */
function goalOf({ front, rear, logScore }: ScoredPair, setup: Setup, ranking: Ranking): Goal {
  const isZero = logScore === Number.NEGATIVE_INFINITY;
  const weights = isZero ? { ...ranking.weights, balance: 0, price: 0 } : ranking.weights;
  const at = { setup, ranking: { ...ranking, weights }, weight: 1 };
  return {
    least: isZero ? front.logScore + rear.logScore : logScore,
    paired: (ofFront, ofRear) => mostBetween(ofFront, ofRear, at) ?? Number.NEGATIVE_INFINITY,
  };
}

/** Frequencies of one band, a five hundredth of their size wide, share a floor. */
const BANDS = 500;

/** What a corner must reach to make a pair with one of the other axle's candidates that reaches the goal. */
function floorBeside(
  { atMost }: Reweighed,
  others: readonly Candidate[],
  { least, paired }: Goal,
  inOrder: (one: Span, other: Span) => [front: Span, rear: Span],
): Floor {
  const needed = least - mostOf(atMost);
  const useful = others.filter((other) => other.logScore >= needed).map((other) => ({ other, point: pointOf(other) }));
  const own = spanOver(atMost);
  const known = new Map<number, number>();
  return {
    anywhere: least - mostOf(others),
    at(frequency) {
      const band = Math.floor(BANDS * Math.log(frequency));
      const floor = known.get(band) ?? floorOf(band);
      known.set(band, floor);
      return floor;
    },
  };

  function floorOf(band: number): number {
    const span = { ...own, lowest: Math.exp(band / BANDS), highest: Math.exp((band + 1) / BANDS) };
    const most = useful.map(({ other, point }) => other.logScore + paired(...inOrder(span, point)));
    return least - Math.max(...most);
  }
}

/** Stacks with a class that could reach the floor, in rising order. */
function stacksAbove({ anywhere, at }: Floor, atMost: readonly Candidate[], { stacks }: Side): number[] {
  const able = atMost.filter(({ logScore, frequency }) => logScore >= anywhere && logScore >= at(frequency));
  return [...new Set(able.map(({ index }) => stackOf(index, stacks)))].sort((a, b) => a - b);
}

function mostOf(candidates: readonly Candidate[]): number {
  return candidates.reduce((most, { logScore }) => Math.max(most, logScore), Number.NEGATIVE_INFINITY);
}

/** An axle of a swept setup with other weights. */
interface Reweighed {
  /** The corners of the setup's best pairs. */
  readonly known: Side;
  /** Every class, its log score not below that of its best candidate. */
  readonly atMost: readonly Candidate[];
  /** The candidates that reach a floor, and perhaps others. */
  readonly above: (floor: Floor) => Side;
}

/** Rounding to the grid of the log scores, made good. */
const HAIR = 2 ** -36;

function reweighed(
  scenario: Scenario,
  { setup, axles, pairs }: SetupOutcome,
  axle: AxleName,
  ranking: Ranking,
): Reweighed {
  const judged = judgedCorners(scenario, setup)[axle];
  const layout = { ...layoutOf(scenario, setup, axle), ranking, judged };
  const swept = axles[axle];
  const before = cornerWeights(layout.site, scenario.ranking);
  // No criterion takes away less than this share of what it took before.
  const shares = cornerWeights(layout.site, ranking).map((weight, k) => (before[k] ? weight / before[k] : 1));
  const least = Math.min(...shares);
  const isSame = shares.every((share) => share === 1);
  const chosen = [...new Set(pairs.best.map((pair) => pair[axle].index))];
  const atMost = swept.candidates.map((one) => ({ ...one, logScore: one.logScore * least + HAIR }));
  return {
    known: {
      ...swept,
      candidates: chosen.map((index) => candidateOf(index, judgedCorner(scenario, setup, axle, index), ranking)),
    },
    atMost,
    above: (floor) => (isSame ? swept : sideOf(withStacks({ ...layout, floor }, stacksAbove(floor, atMost, swept)))),
  };
}
