/** What the bench tells of a corner: figures with their swept values beside them, and whether it works. */
import { findingMessage, limitLabel } from '../../model/corner/checks.ts';
import type { Finding } from '../../model/corner/findings.ts';
import { balanceLimits } from '../../model/corner/pairBalance.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import { clearanceClosed, thinnestContact } from '../../model/corner/state.ts';
import { type HeightWindow, heightWindow } from '../../model/corner/window.ts';
import type { AxleName } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { type Bench, type Judged, judge } from './bench.ts';
import { balanceOf } from './controls.ts';
import { QUANTITY, VERDICT } from './words.ts';

/** Both axles judged, and what follows from the two. */
export interface JudgedBench {
  readonly judged: Readonly<Record<AxleName, Judged>>;
  /** Of the axle on the bench. */
  readonly window: HeightWindow | null;
  /** Everything it fails, the balance last. */
  readonly findings: readonly Finding[];
  /** How many checks the other axle fails. */
  readonly otherFails: number;
  /** Rear over front, NaN where one has no frequency. */
  readonly balance: number;
}

export function judgeBench(bench: Bench, axle: AxleName, otherJudged: Judged = judge(bench, other(axle))): JudgedBench {
  const own = judge(bench, axle);
  const judged = axle === 'front' ? { front: own, rear: otherJudged } : { front: otherJudged, rear: own };
  const [f, o] = [judgedFrequency(own.state), judgedFrequency(otherJudged.state)];
  return {
    judged,
    window: heightWindow(own.state),
    findings: [...own.findings, ...balanceOf(bench, axle, f, o)],
    otherFails: otherJudged.findings.length,
    balance: judgedFrequency(judged.rear.state) / judgedFrequency(judged.front.state),
  };
}

export function other(axle: AxleName): AxleName {
  return axle === 'front' ? 'rear' : 'front';
}

export interface BenchQuantity {
  readonly id: string;
  readonly label: string;
  readonly dimension: Dimension;
  /** NaN: does not exist. */
  readonly value: number;
  /** More about it, in words. */
  readonly aside: string;
}

/** In the order in which they are shown. */
export function quantitiesOf(bench: Bench, axle: AxleName, { judged, window, balance }: JudgedBench): BenchQuantity[] {
  const { state, geometry, site } = judged[axle];
  const { standing, rates } = state;
  const one = (
    id: string,
    label: string,
    value: number,
    dimension: Dimension = 'length',
    aside = '',
  ): BenchQuantity => {
    return { id, label, dimension, value, aside };
  };
  const thin = thinnestContact(state);
  const closed = site.bump.kind === 'closed' ? null : clearanceClosed(state, thin.clearance);
  const end = (which: 'low' | 'high') => (window?.usable ? window[which].height : Number.NaN);
  const limit = (which: 'low' | 'high') =>
    window?.usable ? QUANTITY.endsAt(limitLabel(window[which].limit)) : QUANTITY.none;
  return [
    one('bump_travel', QUANTITY.bump, state.bumpTravel, 'length', QUANTITY.atLeast(site.target.leastBumpTravel)),
    one('droop_travel', QUANTITY.droop, state.droopTravel, 'length', QUANTITY.atLeast(site.target.leastDroopTravel)),
    one(
      'thinnest_spare',
      QUANTITY.thinnest,
      thin.clearance - thin.margin,
      'length',
      QUANTITY.contact(thin.name, closed),
    ),
    one('slack', QUANTITY.slack, state.slack, 'length', QUANTITY.slackMeans(state.slack)),
    one('lowest_height', QUANTITY.lowest, end('low'), 'length', limit('low')),
    one('highest_height', QUANTITY.highest, end('high'), 'length', limit('high')),
    one('perch_below_top', QUANTITY.belowTop, geometry.sleeveTop - standing.perch),
    one('spring_force', QUANTITY.springForce, standing.springForce, 'force'),
    one('wheel_rate', QUANTITY.wheelRate, rates.wheel, 'rate'),
    one(
      'frequency',
      QUANTITY.frequency(site.frequencyBasis),
      judgedFrequency(state),
      'frequency',
      QUANTITY.window(site.target),
    ),
    one('balance', QUANTITY.balance, balance, 'ratio', QUANTITY.balanceWindow(balanceLimits(bench.setup.balance))),
    ...state.loads.flatMap(({ load, height, bumpTravel }, k) => [
      one(`load_${k}_bump_travel`, QUANTITY.loadBump(load.name), bumpTravel, 'length', QUANTITY.standsAt(height)),
    ]),
  ];
}

// Whether the axle on the bench works, in sentences.

export interface Verdict {
  readonly works: boolean;
  readonly summary: string;
  /** One sentence a failing check. */
  readonly lines: readonly string[];
  /** About the other axle; empty where it works. */
  readonly aside: string;
}

export function verdictOf(axle: AxleName, { judged, findings, otherFails }: JudgedBench): Verdict {
  const thin = thinnestContact(judged[axle].state);
  const works = findings.length === 0;
  return {
    works,
    summary: works ? VERDICT.works(thin.clearance - thin.margin, thin.name) : VERDICT.fails(findings.length),
    lines: findings.map(findingMessage),
    aside: otherFails > 0 ? VERDICT.otherFails(other(axle), otherFails) : '',
  };
}
