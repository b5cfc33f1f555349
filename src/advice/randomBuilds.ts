/**
 * How well a purchase stands up to its tolerances: the score with every criterion at the worst end of its band, and what
 * becomes of random builds, each toleranced input drawn evenly within its width and the perch re-set to the target height
 * every time.
 */
import { FAILINGS, type Failing } from '../model/corner/checkRecord.ts';
import { worstFailing } from '../model/corner/checks.ts';
import { findingsOf, pairFindingsOf } from '../model/corner/findings.ts';
import { judgedFrequency } from '../model/corner/rates.ts';
import { type CriterionScore, leastDesirability, scoreOf } from '../model/corner/score.ts';
import { lightState } from '../model/corner/verdict.ts';
import type { Working } from '../model/corner/window.ts';
import type { AxleName, Scenario, Setup, Tolerances } from '../model/scenario.ts';
import type { Builds, Draws } from '../result/advice.ts';
import type { CornerKey } from '../result/quantities/corner.ts';
import type { JudgedPair } from '../result/records/combination.ts';
import type { Combination, CornerReport } from '../result/result.ts';
import { draftOf, type Model, offBy, TOLERANCE_INPUTS } from '../result/tolerance/inputs.ts';

/**
 * The minimal standard generator: x' = 16807 x mod (2^31 - 1).
 * Source: Park & Miller (1988), "Random number generators: good ones are hard to find", Communications of the ACM
 * 31(10), pp. 1192-1201. Its test: from x = 1 the 10,000th value after it is 1043618065.
 * Valid: seeds from 1 to 2^31 - 2. Every product stays below 2^46, so doubles carry it exactly.
 */
const GENERATOR = 'Park & Miller 1988, minimal standard';
const MULTIPLIER = 16807;
const MODULUS = 2 ** 31 - 1;

export function nextState(state: number): number {
  return (MULTIPLIER * state) % MODULUS;
}

/** Numbers spread evenly over -1 to 1, the same for the same seed. */
export function symmetricDraws(seed: number): () => number {
  let state = seed;
  return () => {
    state = nextState(state);
    return (2 * state) / MODULUS - 1;
  };
}

export const DRAWS: Draws = { count: 500, seed: 20011, generator: GENERATOR };
/** The rear axle's draws do not repeat the front's. */
const SEEDS: Readonly<Record<AxleName, number>> = { front: DRAWS.seed, rear: DRAWS.seed + 7 };

/** One corner as it was built: its judged frequency, and the worst it fails; null: nothing. */
export interface Drawn {
  readonly frequency: number;
  readonly failing: Failing | null;
}

/** One corner built `DRAWS.count` times. */
export function drawBuilds(model: Model, tolerances: Tolerances): Drawn[] {
  const draw = symmetricDraws(SEEDS[model.site.axle]);
  const inputs = TOLERANCE_INPUTS.flatMap((input) => {
    const width = input.width(model, tolerances);
    return width === null ? [] : [{ input, width }];
  });
  return Array.from({ length: DRAWS.count }, () => {
    const built = draftOf(model);
    for (const { input, width } of inputs) input.move(built, offBy(width, draw()));
    const state = lightState(built.site, built.corner);
    return { frequency: judgedFrequency(state), failing: worstFailing(findingsOf(state)) };
  });
}

/** Corners as they could come out: pairs and plans share many. */
const draws = new WeakMap<Working, readonly Drawn[]>();

/** What becomes of the draws of a pair. */
export function buildsOfPair({ scenario, setup, workings: { front, rear } }: JudgedPair): Builds {
  const drawnOf = (working: Working) => {
    const drawn = draws.get(working) ?? drawBuilds(working.state, scenario.tolerances);
    draws.set(working, drawn);
    return drawn;
  };
  return buildsOf(drawnOf(front), drawnOf(rear), setup);
}

/**
 * Shares of the draws by the worst that either corner or the balance fails; draw k of the front goes with draw k of the
 * rear. Together with those that work they are all.
 */
export function buildsOf(front: readonly Drawn[], rear: readonly Drawn[], { balance }: Setup): Builds {
  const counts = { works: 0, metal: 0, seat: 0, margin: 0, wish: 0 };
  for (const [k, one] of front.entries()) {
    const other = rear[k] as Drawn;
    const worse = FAILINGS.find((failing) => failing === one.failing || failing === other.failing);
    counts[worse ?? worstFailing(pairFindingsOf(one.frequency, other.frequency, balance)) ?? 'works']++;
  }
  const share = (count: number) => count / front.length;
  const fails = {
    metal_share: share(counts.metal),
    seat_share: share(counts.seat),
    margin_share: share(counts.margin),
    wish_share: share(counts.wish),
  };
  return { share: share(counts.works), fails };
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
