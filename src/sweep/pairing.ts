/**
 * Front and rear joined: the best purchases, each by its best pair, exactly, without forming all pairs.
 *
 * A purchase is what the springs on both axles are: front stack and rear stack. A pair scores the sum of its corners'
 * own scores and a part that depends on the two frequencies (and prices) and only takes away. Both sides are
 * sorted into narrow bands of frequency. Two bands can't give more than their best corners plus the best balance
 * between them, so band pairs are taken in the order of that bound until it falls behind the worst purchase kept.
 * Equal scores go to the better corners, then to the lower front index, then the lower rear index.
 */
import { balanceLimits } from '../domain/corner/pairBalance.ts';
import { type Candidate, isBalanced, pairLogScore, upperBalance } from '../domain/ranking/criteria.ts';
import type { PairTally } from '../domain/result.ts';
import type { Ranking, Setup } from '../domain/scenario.ts';

/** One side of the join. */
export interface Side {
  readonly candidates: readonly Candidate[];
  /** How many workable combinations have each frequency. */
  readonly frequencies: ReadonlyMap<number, number>;
  /** Stacks of the axle: a candidate's stack is its index modulo this. */
  readonly stacks: number;
}

export interface ScoredPair {
  readonly front: Candidate;
  readonly rear: Candidate;
  readonly logScore: number;
}

export interface PairOutcome {
  /** One pair a purchase, best first. */
  readonly best: readonly ScoredPair[];
  readonly tally: PairTally;
}

export function pairUp(front: Side, rear: Side, setup: Setup, ranking: Ranking): PairOutcome {
  const considered = total(front.frequencies) * total(rear.frequencies);
  const workable = countBalanced(front.frequencies, rear.frequencies, setup);
  return {
    best: bestPurchases(front, rear, setup, ranking),
    tally: { considered, workable, rejected_by_balance: considered - workable },
  };
}

/**
 * Best first; negative when `a` ranks before `b`. Pairs that score nothing because of balance or price go by what
 * their corners score; then the lower front index goes first, then the lower rear index.
 */
export function comparePairs(a: ScoredPair, b: ScoredPair): number {
  if (a.logScore !== b.logScore) return a.logScore > b.logScore ? -1 : 1;
  const [ofA, ofB] = [a.front.logScore + a.rear.logScore, b.front.logScore + b.rear.logScore];
  if (ofA !== ofB) return ofA > ofB ? -1 : 1;
  return a.front.index - b.front.index || a.rear.index - b.rear.index;
}

interface Band {
  readonly lowest: number;
  readonly highest: number;
  /** Best first. */
  readonly candidates: readonly Candidate[];
}

function bestPurchases(front: Side, rear: Side, setup: Setup, ranking: Ranking): ScoredPair[] {
  const list = new PurchaseList(ranking.keep, front.stacks, rear.stacks);
  const rearBands = bandsOf(rear.candidates);
  const bandPairs = bandsOf(front.candidates).flatMap((fronts) =>
    rearBands.map((rears) => ({ fronts, rears, bound: boundOf(fronts, rears, setup, ranking) })),
  );
  bandPairs.sort((a, b) => (a.bound === b.bound ? 0 : a.bound > b.bound ? -1 : 1));
  for (const { fronts, rears, bound } of bandPairs) {
    if (bound < list.worst()) break;
    joinBands(fronts, rears, setup, ranking, list);
  }
  return list.pairs;
}

/** At most this many bands a side: enough to separate frequencies, few enough to form all pairs of bands. */
const MOST_BANDS = 256;

function bandsOf(candidates: readonly Candidate[]): Band[] {
  const rising = [...candidates].sort((a, b) => a.frequency - b.frequency);
  const size = Math.max(1, Math.ceil(rising.length / MOST_BANDS));
  return Array.from({ length: Math.ceil(rising.length / size) }, (_, k) => {
    const members = rising.slice(k * size, (k + 1) * size);
    return {
      lowest: (members[0] as Candidate).frequency,
      highest: (members.at(-1) as Candidate).frequency,
      candidates: members.sort(bestFirst),
    };
  });
}

function bestFirst(a: Candidate, b: Candidate): number {
  return a.logScore === b.logScore ? a.index - b.index : a.logScore > b.logScore ? -1 : 1;
}

/** What no pair of two bands scores more than; -Infinity where none of them can be balanced, too. */
function boundOf(fronts: Band, rears: Band, setup: Setup, ranking: Ranking): number {
  const best = (fronts.candidates[0] as Candidate).logScore + (rears.candidates[0] as Candidate).logScore;
  return best + upperBalance(rears.lowest / fronts.highest, rears.highest / fronts.lowest, setup, ranking);
}

function joinBands(fronts: Band, rears: Band, setup: Setup, ranking: Ranking, list: PurchaseList): void {
  const top = (rears.candidates[0] as Candidate).logScore;
  for (const front of fronts.candidates) {
    if (front.logScore + top < list.worst()) break;
    for (const rear of rears.candidates) {
      if (front.logScore + rear.logScore < list.worst()) break;
      if (isBalanced(front, rear, setup)) {
        list.offer({ front, rear, logScore: pairLogScore(front, rear, setup, ranking) });
      }
    }
  }
}

/** The best purchases so far, each by its best pair. */
class PurchaseList {
  readonly pairs: ScoredPair[] = [];
  readonly #keep: number;
  readonly #fronts: number;
  readonly #rears: number;

  constructor(keep: number, fronts: number, rears: number) {
    this.#keep = keep;
    this.#fronts = fronts;
    this.#rears = rears;
  }

  /** Score that a pair must reach to matter; -Infinity while there is room. */
  worst(): number {
    return this.pairs.length < this.#keep ? Number.NEGATIVE_INFINITY : (this.pairs.at(-1) as ScoredPair).logScore;
  }

  offer(pair: ScoredPair): void {
    const last = this.pairs.at(-1);
    if (this.pairs.length >= this.#keep && last && comparePairs(last, pair) < 0) return;
    const same = this.pairs.findIndex((p) => this.#samePurchase(p, pair));
    if (same >= 0) {
      if (comparePairs(this.pairs[same] as ScoredPair, pair) <= 0) return;
      this.pairs.splice(same, 1);
    }
    const at = this.pairs.findIndex((p) => comparePairs(pair, p) < 0);
    this.pairs.splice(at < 0 ? this.pairs.length : at, 0, pair);
    if (this.pairs.length > this.#keep) this.pairs.pop();
  }

  #samePurchase(a: ScoredPair, b: ScoredPair): boolean {
    return (
      a.front.index % this.#fronts === b.front.index % this.#fronts &&
      a.rear.index % this.#rears === b.rear.index % this.#rears
    );
  }
}

/** How many pairs are balanced. The ratio falls as the front frequency rises, so each rear meets one run of fronts. */
export function countBalanced(
  fronts: ReadonlyMap<number, number>,
  rears: ReadonlyMap<number, number>,
  setup: Setup,
): number {
  const rising = [...fronts.keys()].sort((a, b) => a - b);
  const upTo = [0];
  for (const frequency of rising) upTo.push((upTo.at(-1) as number) + (fronts.get(frequency) as number));
  const { from, to } = balanceLimits(setup.balance);
  let count = 0;
  for (const [rear, times] of rears) {
    const first = firstWhere(rising, (front) => rear / front <= to);
    const end = firstWhere(rising, (front) => rear / front < from);
    count += times * Math.max(0, (upTo[end] as number) - (upTo[first] as number));
  }
  return count;
}

function total(counts: ReadonlyMap<number, number>): number {
  return [...counts.values()].reduce((sum, n) => sum + n, 0);
}

/** First position at which a condition holds that, once true, stays true. */
function firstWhere(sorted: readonly number[], holds: (value: number) => boolean): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(sorted[middle] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
}
