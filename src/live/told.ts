/** What the bench tells of a corner: figures with their swept values beside them, and whether it works. */
import { type Finding, judgedFrequency } from '../domain/corner/findings.ts';
import { balanceLimits } from '../domain/corner/pairBalance.ts';
import { clearanceClosed, thinnestContact } from '../domain/corner/state.ts';
import type { HeightWindow } from '../domain/corner/window.ts';
import { limitLabel } from '../domain/messages.ts';
import type { AxleName } from '../domain/scenario.ts';
import type { Dimension } from '../domain/units.ts';
import { type Bench, type Judged, judge, windowOf } from './bench.ts';
import { balanceOf } from './controls.ts';
import { TOLD } from './words.ts';

/** Both axles judged, and what follows from the two. */
export interface Told {
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

export function tell(bench: Bench, axle: AxleName, otherJudged: Judged = judge(bench, other(axle))): Told {
  const own = judge(bench, axle);
  const judged = axle === 'front' ? { front: own, rear: otherJudged } : { front: otherJudged, rear: own };
  const [f, o] = [judgedFrequency(own.state), judgedFrequency(otherJudged.state)];
  return {
    judged,
    window: windowOf(own),
    findings: [...own.findings, ...balanceOf(bench, axle, f, o)],
    otherFails: otherJudged.findings.length,
    balance: judgedFrequency(judged.rear.state) / judgedFrequency(judged.front.state),
  };
}

export function other(axle: AxleName): AxleName {
  return axle === 'front' ? 'rear' : 'front';
}

export interface Figure {
  readonly id: string;
  readonly label: string;
  readonly dimension: Dimension;
  /** NaN: does not exist. */
  readonly value: number;
  /** More about it, in words. */
  readonly aside: string;
}

/** In the order in which they are shown. */
export function figuresOf(bench: Bench, axle: AxleName, { judged, window, balance }: Told): Figure[] {
  const { state, geometry, site } = judged[axle];
  const { standing, rates } = state;
  const one = (id: string, label: string, value: number, dimension: Dimension = 'length', aside = ''): Figure => {
    return { id, label, dimension, value, aside };
  };
  const thin = thinnestContact(state);
  const closed = site.bump.kind === 'closed' ? null : clearanceClosed(state, thin.clearance);
  const end = (which: 'low' | 'high') => (window?.usable ? window[which].height : Number.NaN);
  const limit = (which: 'low' | 'high') => (window?.usable ? TOLD.endsAt(limitLabel(window[which].limit)) : TOLD.none);
  return [
    one('bump_travel', TOLD.bump, state.bumpTravel, 'length', TOLD.atLeast(site.target.leastBumpTravel)),
    one('droop_travel', TOLD.droop, state.droopTravel, 'length', TOLD.atLeast(site.target.leastDroopTravel)),
    one('thinnest_spare', TOLD.thinnest, thin.clearance - thin.margin, 'length', TOLD.contact(thin.name, closed)),
    one('slack', TOLD.slack, state.slack, 'length', TOLD.slackMeans(state.slack)),
    one('lowest_height', TOLD.lowest, end('low'), 'length', limit('low')),
    one('highest_height', TOLD.highest, end('high'), 'length', limit('high')),
    one('perch_below_top', TOLD.belowTop, geometry.sleeveTop - standing.perch),
    one('spring_force', TOLD.springForce, standing.springForce, 'force'),
    one('wheel_rate', TOLD.wheelRate, rates.wheel, 'rate'),
    one(
      'frequency',
      TOLD.frequency(site.frequencyBasis),
      judgedFrequency(state),
      'frequency',
      TOLD.window(site.target),
    ),
    one('balance', TOLD.balance, balance, 'ratio', TOLD.balanceWindow(balanceLimits(bench.setup.balance))),
    ...state.loads.flatMap(({ load, height, bumpTravel }, k) => [
      one(`load_${k}_bump_travel`, TOLD.loadBump(load.name), bumpTravel, 'length', TOLD.standsAt(height)),
    ]),
  ];
}
