/**
 * How well a purchase stands up to its tolerances: the score with every criterion at the worst end of its band, and what
 * becomes of random builds, each toleranced input drawn evenly within its width and the perch re-set to the target height
 * every time.
 */
import { FAILINGS, type Failing, worstFailing } from '../checks.ts';
import { findingsOf, judgedFrequency } from '../corner/findings.ts';
import { balanceDesirability, balanceFindingsOf } from '../corner/pairBalance.ts';
import { coveredShare } from '../corner/window.ts';
import { largerIsBetter, targetIsBest } from '../formula/desirability.ts';
import { scoreOf } from '../ranking/criteria.ts';
import type { BandReport, Combination, CornerReport, CriterionScore } from '../result.ts';
import type { AxleName, Scenario, Setup, Tolerances } from '../scenario.ts';
import { draftOf, type Model, offBy, TOLERANCE_INPUTS } from '../tolerance/inputs.ts';
import { GENERATOR, symmetricDraws } from './generator.ts';
import type { Builds, Draws } from './types.ts';
import { lightState } from './verdict.ts';

export const DRAWS: Draws = { count: 500, seed: 20011, generator: GENERATOR };
/** The rear axle's draws do not repeat the front's. */
const SEEDS: Readonly<Record<AxleName, number>> = { front: DRAWS.seed, rear: DRAWS.seed + 7 };

/** One corner as it was built: its judged frequency, and the worst it fails; null: nothing. */
export interface Drawn {
  readonly frequency: number;
  readonly failing: Failing | null;
}

/** One corner built `DRAWS.count` times. */
export function drawnBuilds(model: Model, tolerances: Tolerances): Drawn[] {
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

/**
 * Shares of the draws by the worst that either corner or the balance fails; draw k of the front goes with draw k of the
 * rear. Together with those that work they are all.
 */
export function buildsOf(front: readonly Drawn[], rear: readonly Drawn[], { balance }: Setup): Builds {
  const counts = { works: 0, metal: 0, seat: 0, margin: 0, wish: 0 };
  for (const [k, one] of front.entries()) {
    const other = rear[k] as Drawn;
    counts[worseOf(one.failing, other.failing) ?? balanceFailing(one, other, balance) ?? 'works']++;
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

function worseOf(one: Failing | null, other: Failing | null): Failing | null {
  return FAILINGS.find((failing) => failing === one || failing === other) ?? null;
}

function balanceFailing(front: Drawn, rear: Drawn, balance: Setup['balance']): Failing | null {
  return worstFailing(balanceFindingsOf(front.frequency, rear.frequency, balance));
}

/** The score with each criterion at the worst end of its worst-case band; 0 where it can leave nothing. */
export function worstScore(scenario: Scenario, setup: Setup, combination: Combination): number {
  return scoreOf(combination.criteria.map((c) => ({ ...c, desirability: worstOf(scenario, setup, combination, c) })));
}

function worstOf(scenario: Scenario, setup: Setup, { axles }: Combination, c: CriterionScore): number {
  const key = `${setup.frequencyBasis}_frequency_hz`;
  if (c.criterion === 'price') return c.desirability;
  if (c.criterion === 'balance') return worstBalance(setup, bandIn(axles.front, key), bandIn(axles.rear, key));
  const axle = c.axle as AxleName;
  const target = setup.axles[axle];
  const band = (quantity: string) => bandIn(axles[axle], quantity);
  switch (c.criterion) {
    case 'bump_travel':
      return largerIsBetter((band('bump_travel_mm') as Worst).worst_low, target.leastBumpTravel, target.goodBumpTravel);
    case 'height_coverage':
      return worstCoverage(band('lowest_height_mm'), band('highest_height_mm'), target.wantedFrom, target.wantedTo);
    case 'clearance':
      return largerIsBetter(
        (band('thinnest_spare_mm') as Worst).worst_low,
        0,
        scenario.ranking.goodClearance as number,
      );
    case 'front_frequency': {
      const frequency = band(key);
      if (!frequency || target.wantedFrequency === null) return 0;
      const { frequencyFrom, wantedFrequency, frequencyTo } = target;
      const at = (hertz: number) => targetIsBest(hertz, frequencyFrom, wantedFrequency, frequencyTo);
      return Math.min(at(frequency.worst_low), at(frequency.worst_high));
    }
  }
}

type Worst = Pick<BandReport, 'worst_low' | 'worst_high'>;

/** A quantity no toleranced input moves has no band: it is what it is. Null where it does not exist. */
function bandIn({ bands, values }: CornerReport, key: string): Worst | null {
  const value = values[key] ?? null;
  return bands[key] ?? (value === null ? null : { worst_low: value, worst_high: value });
}

function worstCoverage(low: Worst | null, high: Worst | null, from: number, to: number): number {
  if (!low || !high) return 0;
  const end = (height: number) => ({ height, perch: Number.NaN, limit: '' });
  const usable = high.worst_low >= low.worst_high;
  return coveredShare({ low: end(low.worst_high), high: end(high.worst_low), usable }, from, to);
}

function worstBalance({ balance }: Setup, front: Worst | null, rear: Worst | null): number {
  if (!front || !rear) return 0;
  const at = (ratio: number) => balanceDesirability(ratio, balance);
  return Math.min(at(rear.worst_low / front.worst_high), at(rear.worst_high / front.worst_low));
}
