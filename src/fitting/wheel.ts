/** What the parts mean at the wheel, where its load and motion are known: heights, travel, frequency. */
import { type BenchState, NO_WISHES } from '../model/corner/bench.ts';
import type { LimitName } from '../model/corner/checks.ts';
import { geometryOf } from '../model/corner/geometry.ts';
import { judgedFrequency } from '../model/corner/rates.ts';
import { type Corner, type Site, siteOf } from '../model/corner/site.ts';
import { cornerState } from '../model/corner/state.ts';
import { heightWindow } from '../model/corner/window.ts';
import type { AxleName, AxleOwn, BenchAxle, BenchScenario, Margins, Wheel } from '../model/scenario.ts';

/** The corner standing at one height. */
export interface WheelPlace {
  /** Hub to arch, and perch seat above the lower eye, mm. */
  readonly height: number;
  readonly perch: number;
  /** Hz, without the tyre. */
  readonly frequency: number;
  /** At the wheel, mm. */
  readonly bumpTravel: number;
  readonly droopTravel: number;
}

export interface WheelAnswer {
  readonly low: WheelPlace;
  readonly middle: WheelPlace;
  readonly high: WheelPlace;
  readonly lowLimit: LimitName;
  readonly highLimit: LimitName;
  /** Whether it is known where the tyre meets the arch. */
  readonly isTyreJudged: boolean;
}

/** Null where the wheel or the spring's rate is not known, or no height is safe. */
export function wheelAnswerOf(
  { margins }: Pick<BenchScenario, 'margins'>,
  axle: AxleName,
  { own, wheel }: BenchAxle,
  { corner }: BenchState,
): WheelAnswer | null {
  const { spring, helper } = corner;
  if (wheel === null || Number.isNaN(spring.rate) || Number.isNaN(helper?.rate ?? 0)) return null;
  return answerAt(wheelSite(margins, axle, { ...own, ...wheel }), corner);
}

export function wheelSite(margins: Margins, axle: AxleName, wheel: AxleOwn & Wheel): Site {
  const setup = {
    axles: { front: NO_WISHES, rear: NO_WISHES },
    bump: { kind: 'closed' },
    standingOnStop: false,
    frequencyBasis: 'body',
    loadStates: [],
  } as const;
  return siteOf({ margins, axles: { front: wheel, rear: wheel } }, setup, axle);
}

/** @param site without wishes */
export function answerAt(site: Site, corner: Corner): WheelAnswer | null {
  const { stopHeight, droopHeight } = geometryOf(site, corner);
  const between = { ...site, target: { ...site.target, targetHeight: (stopHeight + droopHeight) / 2 } };
  const window = heightWindow(cornerState(between, corner));
  if (window === null || !window.usable) return null;
  const { low, high } = window;
  return {
    low: placeAt(site, corner, low.height),
    middle: placeAt(site, corner, (low.height + high.height) / 2),
    high: placeAt(site, corner, high.height),
    lowLimit: low.limit,
    highLimit: high.limit,
    isTyreJudged: Number.isFinite(site.tyreOnArchHeight),
  };
}

function placeAt(site: Site, corner: Corner, height: number): WheelPlace {
  const state = cornerState(site, corner, height);
  return {
    height,
    perch: state.standing.perch,
    frequency: judgedFrequency(state),
    bumpTravel: state.bumpTravel,
    droopTravel: state.droopTravel,
  };
}
