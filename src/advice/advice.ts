/**
 * From a ranking to a purchase: what to order, what freedom it leaves, what becomes of random builds, how the answer hangs on the
 * weights, why the other springs fail and what would cure them.
 *
 *   judged pairs --random builds--> order of the shortlist --> purchases, taste, rates, cures, and relaxations if empty
 */
import { cornerAt } from '../model/corner/options.ts';
import { judgedFrequency } from '../model/corner/rates.ts';
import { siteOf } from '../model/corner/site.ts';
import { askedOf } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import {
  type BenchBuilds,
  type Builds,
  type PurchaseAdvice,
  type RankBy,
  type RateNeeded,
  type Relaxations,
  rounded,
  type SetupAdvice,
  type WhyNot,
} from '../result/advice.ts';
import { combinationOf, type JudgedPair, withoutBands } from '../result/records/combination.ts';
import type { AxleTally, Combination } from '../result/result.ts';
import { DRAWS } from './cars.ts';
import { orderFor } from './order.ts';
import { buildsOfPair, worstScore } from './randomBuilds.ts';
import { workingRanges } from './ranges.ts';
import { rateNeeded } from './rateNeeded.ts';
import { type Resweep, relaxations } from './relax.ts';
import { type Reweigh, tryWeights } from './taste.ts';
import { thin } from './trials.ts';
import { helpersBeyond, whyNot } from './whyNot.ts';

export interface AdviceRequest {
  readonly scenario: Scenario;
  readonly setup: Setup;
  readonly fingerprint: string;
  readonly tallies: Readonly<Record<AxleName, AxleTally>>;
  /** The best pairs of the sweep, best first. */
  readonly judged: readonly JudgedPair[];
  readonly rankBy: RankBy;
  /** What is expected of each of them, where they are ranked by it. */
  readonly expected?: {
    readonly builds: readonly BenchBuilds[];
    readonly considered: NonNullable<SetupAdvice['considered']>;
  } | null;
  /** Combinations judged over all setups. */
  readonly combinations: number;
  readonly resweep: Resweep;
  readonly reweigh: Reweigh;
}

export interface Advised {
  readonly judged: readonly JudgedPair[];
  readonly shortlist: readonly Combination[];
  readonly advice: SetupAdvice;
}

/** Beyond this many combinations the weights are only re-tried within the shortlist. */
const MOST_TO_SWEEP_AGAIN = 2_000_000;
/** Beyond this many, relaxations are searched on thinned option lists: they take some hundred sweeps. */
const MOST_TO_RELAX = 50_000;

/** The best pairs reported in full, in the order of their scores: what is known before any advice. */
export function* reportPairs({
  judged,
  fingerprint,
}: Pick<AdviceRequest, 'judged' | 'fingerprint'>): Steps<readonly Combination[]> {
  const nominal: Combination[] = [];
  for (const [k, pair] of judged.entries()) {
    yield { what: 'how sure the best are', done: k, of: judged.length };
    nominal.push(combinationOf(pair, k + 1, fingerprint));
  }
  return nominal;
}

export function* advise(request: AdviceRequest, nominal: readonly Combination[]): Steps<Advised> {
  const { rankBy, fingerprint, scenario, setup } = request;
  const builds = yield* drawAll(request);
  const worst = nominal.map((combination) => (combination.workable ? worstScore(scenario, setup, combination) : 0));
  const places = orderBy(rankBy, builds, worst);
  const judged = places.map((place) => request.judged[place] as JudgedPair);
  const stays = places.every((place, k) => place === k);
  const shortlist = stays ? nominal : judged.map((pair, k) => combinationOf(pair, k + 1, fingerprint));
  const sureness = places.map((place) => ({
    builds: builds[place] as Builds,
    worst: worst[place] as number,
    expected: request.expected?.builds[place],
  }));
  const advice = yield* adviceOf({ ...request, judged }, shortlist, sureness);
  return { judged, shortlist: shortlist.map((one, k) => (k === 0 ? one : withoutBands(one))), advice };
}

interface Sureness {
  readonly builds: Builds;
  readonly worst: number;
  readonly expected?: BenchBuilds | undefined;
}

function* adviceOf(
  request: AdviceRequest,
  shortlist: readonly Combination[],
  sureness: readonly Sureness[],
): Steps<SetupAdvice> {
  const { scenario, rankBy, judged, combinations, reweigh } = request;
  const works = shortlist.some((combination) => combination.workable);
  const ranked = shortlist.map((combination, k) => {
    const { workings } = judged[k] as JudgedPair;
    const bought = AXLE_NAMES.map((axle) => workings[axle].state.corner).map(({ helper, spring }) => [helper, spring]);
    return { combination, purchase: JSON.stringify(bought) };
  });
  const again = combinations <= MOST_TO_SWEEP_AGAIN ? reweigh : null;
  const isBuild = combinations === 2 * scenario.setups.length;
  return {
    ranked_by: rankBy,
    ...(request.expected ? { considered: request.expected.considered } : {}),
    draws: DRAWS,
    purchases: purchasesOf(request, shortlist, sureness),
    taste: works && !isBuild ? yield* tryWeights(scenario, ranked, again) : null,
    rates: ratesOf(request),
    why_not: { front: yield* whyNotOf(request, 'front'), rear: yield* whyNotOf(request, 'rear') },
    relaxations: works ? null : yield* relaxationsOf(request),
  };
}

/** One pair as a purchase by itself, whether or not a shortlist holds it. */
export function* purchaseAdvice(
  request: Pick<AdviceRequest, 'scenario' | 'setup'>,
  pair: JudgedPair,
  combination: Combination,
): Steps<PurchaseAdvice> {
  const alone = { ...request, judged: [pair] };
  const [builds] = yield* drawAll(alone);
  const worst = worstScore(request.scenario, request.setup, combination);
  return purchasesOf(alone, [combination], [{ builds: builds as Builds, worst }])[0] as PurchaseAdvice;
}

type Purchasing = Pick<AdviceRequest, 'scenario' | 'setup' | 'judged'>;

function purchasesOf(request: Purchasing, shortlist: readonly Combination[], sureness: readonly Sureness[]) {
  const dominated = dominators(shortlist);
  return shortlist.map(({ id }, k): PurchaseAdvice => {
    const { workings } = request.judged[k] as JudgedPair;
    const ranges = (axle: AxleName) => {
      const { site, corner } = workings[axle].state;
      return workingRanges(site, corner, request.scenario.axles[axle].options);
    };
    const { builds, worst, expected } = sureness[k] as Sureness;
    return {
      id,
      dominated_by: dominated[k] ?? null,
      worst_score: rounded(worst, 3),
      ...builds,
      ...(expected ? { expected } : {}),
      ranges: { front: ranges('front'), rear: ranges('rear') },
      order: orderFor([{ front: workings.front.state.corner, rear: workings.rear.state.corner }]),
    };
  });
}

function* drawAll({ judged }: Purchasing): Steps<Builds[]> {
  const builds: Builds[] = [];
  for (const pair of judged) {
    yield { what: 'random builds of the best', done: builds.length, of: judged.length };
    builds.push(buildsOfPair(pair));
  }
  return builds;
}

/** Places of the shortlist in the order asked for; equal worst cases go by the share, equal shares by the score. */
function orderBy(rankBy: RankBy, builds: readonly Builds[], worst: readonly number[]): number[] {
  const places = builds.map((_, k) => k);
  if (rankBy === 'nominal' || rankBy === 'expected') return places;
  const share = (k: number) => (builds[k] as Builds).share;
  const worstOf = (k: number) => (rankBy === 'worst' ? worst[k] : 0) as number;
  return places.sort((a, b) => worstOf(b) - worstOf(a) || share(b) - share(a) || a - b);
}

/** The front by its wanted frequency, the rear by its own or else by the balance with the chosen front. */
function ratesOf({ scenario, setup, judged }: AdviceRequest): Record<AxleName, RateNeeded | null> {
  const front = judged[0]?.workings.front.state;
  const aimOf = (axle: AxleName) => {
    const { wantedFrequency, frequencyFrom, frequencyTo } = setup.axles[axle];
    if (wantedFrequency !== null) return { frequency: wantedFrequency, from: 'wanted' as const };
    const chosen = front ? judgedFrequency(front) : Number.NaN;
    if (axle === 'rear' && chosen > 0) return { frequency: chosen * setup.balance.target, from: 'balance' as const };
    return { frequency: (frequencyFrom + frequencyTo) / 2, from: 'middle of the window' as const };
  };
  const needed = (axle: AxleName) => {
    const { options } = scenario.axles[axle];
    const corner = judged[0]?.workings[axle].state.corner ?? cornerAt(options, 0);
    const site = siteOf(scenario, setup, axle);
    return rateNeeded(site, corner, options.spring, aimOf(axle), scenario.tolerances.rateShare);
  };
  return { front: needed('front'), rear: needed('rear') };
}

/** What is known of an axle's springs by what is asked of it and which of them never work: setups may share it. */
const reasons = new WeakMap<Scenario, Map<string, WhyNot>>();

function* whyNotOf({ scenario, setup, tallies }: AdviceRequest, axle: AxleName): Steps<WhyNot> {
  const { options } = scenario.axles[axle];
  const springs = tallies[axle].spring_cells.flatMap((cell, k) => (cell.workable === 0 ? [k] : []));
  const isEmpty = tallies[axle].passed === 0;
  const ofScenario = reasons.get(scenario) ?? new Map<string, WhyNot>();
  reasons.set(scenario, ofScenario);
  const key = `${askedOf(setup, axle)} ${isEmpty} ${springs}`;
  const otherHelpers = helpersBeyond(scenario, axle, isEmpty);
  const found =
    ofScenario.get(key) ?? (yield* whyNot({ site: siteOf(scenario, setup, axle), options, otherHelpers, springs }));
  ofScenario.set(key, found);
  return found;
}

/** The axles of which nothing passes must give in; where both have something, the pair's balance fails. */
function* relaxationsOf({ scenario, setup, tallies, combinations, resweep }: AdviceRequest): Steps<Relaxations> {
  const empty = AXLE_NAMES.filter((axle) => tallies[axle].passed === 0);
  const axles = empty.length > 0 ? empty : AXLE_NAMES;
  if (combinations <= MOST_TO_RELAX) return yield* relaxations(scenario, setup, axles, 'all', resweep);
  const small = thin(scenario, MOST_TO_RELAX);
  const found = yield* relaxations(small, setup, axles, 'thinned', resweep);
  // An id counts places in the whole lists, which the thinned ones are not.
  return { ...found, rows: found.rows.map((row) => ({ ...row, winner: null })) };
}

/** Far above rounding, far below a difference that shows. */
const EQUAL = 1e-9;

/** Per combination the id of the first that dominates it, or null: at least as good on every criterion, better on one. */
export function dominators(shortlist: readonly Combination[]): (string | null)[] {
  return shortlist.map((one) => shortlist.find((other) => dominates(other, one))?.id ?? null);
}

function dominates(a: Combination, b: Combination): boolean {
  if (a.criteria.length !== b.criteria.length) return false;
  const others = b.criteria.map((c) => c.desirability);
  const differences = a.criteria.map((c, k) => c.desirability - (others[k] as number));
  return differences.every((d) => d >= -EQUAL) && differences.some((d) => d > EQUAL);
}
