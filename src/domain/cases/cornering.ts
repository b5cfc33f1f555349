/**
 * Cornering: how far the body rolls, where all four dampers then are, and how each axle rises or falls (jacking).
 *
 * The lateral force acts at the sprung centre of gravity, an arm above the roll axis; springs and bars hold against
 * it. Springs, gas and stops act through their real force laws at each wheel, so the axle's mean height moves
 * too. Of the lateral load transfer only the spring's share moves a damper: the bar's and the roll centre's shares
 * never reach it. Steady state, tyres stiff, link jacking left out.
 */
import { STANDARD_GRAVITY } from '../constants.ts';
import { forcesAt } from '../corner/balance.ts';
import type { CornerState } from '../corner/state.ts';
import { AXLE_NAMES, type Axle, type AxleName } from '../scenario.ts';
import { rootBetween } from '../solve.ts';
import { positionAt, type WheelPosition } from './multiple.ts';

export type RollData = NonNullable<Axle['roll']>;

export interface CorneringAxle {
  readonly state: CornerState;
  readonly roll: RollData;
}

export interface CorneringResult {
  /** Roll of the body, degrees. */
  readonly rollAngle: number;
  /** The same by small-angle arithmetic from the standing rates, degrees: a cross-check. */
  readonly smallAngleRoll: number;
  readonly axles: Readonly<Record<AxleName, CorneringAxleResult>>;
}

export interface CorneringAxleResult {
  readonly outer: WheelPosition;
  readonly inner: WheelPosition;
  /** Rise of the axle's mean ride height, mm. */
  readonly jacking: number;
  /** Load moved from the inner to the outer wheel, N: through springs, bar and roll centre. */
  readonly springShare: number;
  readonly barShare: number;
  readonly rollCentreShare: number;
}

export type CorneringAxles = Readonly<Record<AxleName, CorneringAxle>>;

/** Steepest roll looked at, radians: 20 degrees, far beyond any car on its wheels. */
const STEEPEST = (20 * Math.PI) / 180;

/**
 * @param lateral lateral acceleration in multiples of g_n, above 0
 * @param centreHeight height of the sprung centre of gravity above ground, mm
 * @returns null when the car would roll past 20 degrees
 */
export function cornering(axles: CorneringAxles, centreHeight: number, lateral: number): CorneringResult | null {
  const moment = overturning(axles, centreHeight, lateral);
  const excess = (angle: number) => {
    return moment(angle) - AXLE_NAMES.reduce((sum, name) => sum + holding(axles[name], angle), 0);
  };
  if (excess(STEEPEST) >= 0) return null;
  const angle = rootBetween(excess, 0, STEEPEST, 1e-13);
  const degrees = (radians: number) => (radians * 180) / Math.PI;
  return {
    rollAngle: degrees(angle),
    smallAngleRoll: degrees(smallAngle(axles, centreHeight, lateral)),
    axles: { front: axleAt(axles.front, angle, lateral), rear: axleAt(axles.rear, angle, lateral) },
  };
}

/** phi = m_s a h / (sum K - m_s g h), K = k_w t^2 / 2 + k_bar t^2 per axle (virtual work; bar rate with one wheel held). */
export function smallAngle(axles: CorneringAxles, centreHeight: number, lateral: number): number {
  const stiffness = AXLE_NAMES.reduce((sum, name) => {
    const { state, roll } = axles[name];
    return sum + (state.rates.wheel * roll.track ** 2) / 2 + roll.barRate * roll.track ** 2;
  }, 0);
  const weightArm = sprungWeight(axles) * armOf(axles, centreHeight);
  return (lateral * weightArm) / (stiffness - weightArm);
}

/** Moment about the roll axis at a roll angle, N mm: the lateral force's, and the weight's once it is off centre. */
function overturning(axles: CorneringAxles, centreHeight: number, lateral: number): (angle: number) => number {
  const weightArm = sprungWeight(axles) * armOf(axles, centreHeight);
  return (angle) => weightArm * (lateral + angle);
}

function sprungWeight(axles: CorneringAxles): number {
  return AXLE_NAMES.reduce((sum, name) => sum + 2 * axles[name].state.site.sprungLoad, 0);
}

/** Sprung centre of gravity above the roll axis, mm, the axis straight between the two roll centres. */
function armOf(axles: CorneringAxles, centreHeight: number): number {
  const front = axles.front.state.site.sprungLoad;
  const rear = axles.rear.state.site.sprungLoad;
  const axis = (front * axles.front.roll.rollCentreHeight + rear * axles.rear.roll.rollCentreHeight) / (front + rear);
  return centreHeight - axis;
}

/** Moment with which an axle holds against a roll angle, N mm. */
function holding({ state, roll }: CorneringAxle, angle: number): number {
  const { outerLoad, innerLoad } = axleBalance(state, roll.track, angle);
  return ((outerLoad - innerLoad) * roll.track) / 2 + roll.barRate * roll.track ** 2 * angle;
}

interface AxleBalance {
  readonly outerHeight: number;
  readonly innerHeight: number;
  readonly outerLoad: number;
  readonly innerLoad: number;
}

/**
 * Both wheels of an axle rolled by an angle: the mean height at which together they carry the axle's load. A wheel
 * at full droop or on its closed stop stays there and takes what the other leaves.
 */
function axleBalance(state: CornerState, track: number, angle: number): AxleBalance {
  const { closedHeight, droopHeight } = state.geometry;
  const both = 2 * state.site.sprungLoad;
  const apart = track * angle;
  const load = (height: number) =>
    forcesAt(state.site, state.corner, state.geometry, height, state.standing.perch).load;
  const surplus = (outer: number) => load(outer) + load(outer + apart) - both;
  const lowest = closedHeight;
  const highest = droopHeight - apart;
  if (highest <= lowest || surplus(lowest) <= 0) {
    const innerLoad = load(Math.min(droopHeight, lowest + apart));
    return { outerHeight: lowest, innerHeight: lowest + apart, outerLoad: both - innerLoad, innerLoad };
  }
  if (surplus(highest) >= 0) {
    const outerLoad = load(highest);
    return { outerHeight: highest, innerHeight: droopHeight, outerLoad, innerLoad: both - outerLoad };
  }
  const outerHeight = rootBetween(surplus, lowest, highest);
  const innerHeight = outerHeight + apart;
  return { outerHeight, innerHeight, outerLoad: load(outerHeight), innerLoad: load(innerHeight) };
}

function axleAt({ state, roll }: CorneringAxle, angle: number, lateral: number): CorneringAxleResult {
  const balance = axleBalance(state, roll.track, angle);
  const axleMass = (2 * state.site.sprungLoad) / STANDARD_GRAVITY;
  return {
    outer: positionAt(state, balance.outerHeight),
    inner: positionAt(state, balance.innerHeight),
    jacking: (balance.outerHeight + balance.innerHeight) / 2 - state.standing.height,
    springShare: (balance.outerLoad - balance.innerLoad) / 2,
    barShare: roll.barRate * roll.track * angle,
    rollCentreShare: (axleMass * lateral * STANDARD_GRAVITY * roll.rollCentreHeight) / roll.track,
  };
}
