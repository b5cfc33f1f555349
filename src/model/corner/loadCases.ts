/** A passing load as a multiple of the sprung load: where the wheel goes, what stops it, and how far into the stop. */
import { barRollStiffness, lateralLoadTransfer, rollAngle, springRollStiffness } from '../formula/roll.ts';
import { AXLE_NAMES, type Axle, type AxleName } from '../scenario.ts';
import { rootBetween } from '../solve.ts';
import { STANDARD_GRAVITY } from '../units.ts';
import { forcesAt, heightOn } from './balance.ts';
import { travelEnd, type WheelStop } from './contacts.ts';
import { damperLengthAt } from './site.ts';
import type { CornerState } from './state.ts';

export interface WheelPosition {
  /** Hub to arch, mm. */
  readonly height: number;
  readonly damperLength: number;
  /** Wheel travel left to the stop just met, mm; negative inside the stop. */
  readonly travelToStop: number;
  /** Wheel travel left to full droop, mm. */
  readonly travelToDroop: number;
  /** Squeeze of the stop along the damper, mm; 0 when it isn't met. */
  readonly intoStop: number;
  /** What holds the wheel there; null: nothing but spring, gas and stop. */
  readonly at: WheelStop | null;
}

/**
 * Where the corner stands under a multiple of its sprung load, the perch left where standing put it.
 *
 * Units: `state` of the standing corner, `factor` dimensionless; result heights and lengths in mm.
 * Valid: a load that lasts (braking, a long dip): no inertia, no damping. Ends at the closed stop, at metal
 * or at full droop where the balance lies beyond.
 * Source: balance of forces, see `heightOn`.
 */
export function underMultiple(state: CornerState, factor: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  const lowest = travelEnd(site, corner, geometry, standing.perch).height;
  const balance = heightOn(site, corner, geometry, factor * site.sprungLoad, standing.perch);
  return positionAt(state, Math.max(lowest, balance));
}

/**
 * A wheel at a ride height: damper length, travel left to stop and droop, squeeze of the stop, and what holds it there.
 *
 * Units: `state` of the corner, `height` hub to arch mm; result mm, travels at the wheel, squeeze along the damper.
 * Valid: any height; outside the measured motion its curve goes on straight.
 */
function positionAt(state: CornerState, height: number): WheelPosition {
  const { site, corner, geometry, standing } = state;
  const damperLength = damperLengthAt(site, corner.mount, height);
  return {
    height,
    damperLength,
    travelToStop: height - geometry.stopHeight,
    travelToDroop: geometry.droopHeight - height,
    intoStop: Math.max(0, geometry.squeezeLength - damperLength),
    at: stoppedBy(height, travelEnd(site, corner, geometry, standing.perch), geometry.droopHeight),
  };
}

/** Rounding of a solved height, mm: nearer to an end of the travel, the wheel is there. */
const ROUNDING = 1e-6;

function stoppedBy(height: number, end: ReturnType<typeof travelEnd>, droopHeight: number): WheelStop | null {
  if (height <= end.height + ROUNDING) return end.at;
  return height >= droopHeight - ROUNDING ? 'droop' : null;
}

// Cornering: how far the body rolls, where all four dampers then are, and how each axle rises or falls (jacking).
//
// The lateral force acts at the sprung centre of gravity, an arm above the roll axis; springs and bars hold against
// it. Springs, gas and stops act through their real force laws at each wheel, so the axle's mean height moves
// too. Of the lateral load transfer only the spring's share moves a damper: the bar's and the roll centre's shares
// never reach it. Steady state, tyres stiff, link jacking left out.

type RollData = NonNullable<Axle['roll']>;

export interface CorneringAxle {
  readonly state: CornerState;
  readonly roll: RollData;
}

export interface CorneringResult {
  /** Roll of the body, degrees; negative: into the bend, where the sprung centre of gravity lies below the roll axis. */
  readonly rollAngle: number;
  /** The same by small-angle arithmetic from the standing rates (gas settled), degrees: a cross-check. */
  readonly smallAngleRoll: number;
  readonly axles: Readonly<Record<AxleName, CorneringAxleResult>>;
}

interface CorneringAxleResult {
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
 * Steady cornering, solved with the real force laws of all four corners.
 *
 * Equation: m_s g h (lateral + phi) = sum over the axles of (F_outer - F_inner) t / 2 + k_bar t^2 phi, the mean height of
 * each axle such that F_outer + F_inner = 2 W, no wheel beyond metal, its closed stop or full droop
 * Units: `axles` standing corners with their roll data, `centreHeight` of the sprung centre of gravity above ground mm,
 * `lateral` acceleration in multiples of g_n; result angles in degrees, heights in mm, forces in N.
 * Valid: `lateral` above 0, steady state, stiff tyres, both axles rolling by one angle (a stiff body), links that do not
 * jack; null when the car would roll past 20 degrees, or where an axle does not rest on its springs, see `heldAtRest`.
 * Source: moments about the roll axis and virtual work, derived; held against integrated motion by test.
 */
export function cornering(axles: CorneringAxles, centreHeight: number, lateral: number): CorneringResult | null {
  if (AXLE_NAMES.some((name) => heldAtRest(axles[name].state) !== null)) return null;
  // Above the roll axis the body leans out of the bend, below it into the bend: solved as a lean, signed afterwards.
  const sign = armOf(axles, centreHeight) < 0 ? -1 : 1;
  const moment = overturning(axles, centreHeight, lateral);
  const excess = (lean: number) => {
    return sign * moment(sign * lean) - AXLE_NAMES.reduce((sum, name) => sum + holding(axles[name], lean), 0);
  };
  if (excess(STEEPEST) >= 0) return null;
  const angle = sign * rootBetween(excess, 0, STEEPEST, 1e-13);
  const degrees = (radians: number) => (radians * 180) / Math.PI;
  return {
    rollAngle: degrees(angle),
    smallAngleRoll: degrees(smallAngle(axles, centreHeight, lateral)),
    axles: { front: axleAt(axles.front, angle, lateral), rear: axleAt(axles.rear, angle, lateral) },
  };
}

/**
 * Roll by small-angle arithmetic from the standing wheel rates, the gas settled.
 *
 * Equation: phi = m_s a h / (sum K - m_s g h), see `rollAngle`, K of springs and bar of both axles
 * Units: `axles` standing corners with their roll data, `centreHeight` of the sprung centre of gravity above ground mm,
 * `lateral` acceleration in multiples of g_n; result rad.
 * Valid: small angles, both wheels clear of stop, droop and helper knee; NaN where the car would fall over its roll axis.
 * Source: moments about the roll axis, derived; a cross-check of `cornering`.
 */
export function smallAngle(axles: CorneringAxles, centreHeight: number, lateral: number): number {
  const stiffness = AXLE_NAMES.reduce((sum, name) => {
    const { spring, bar } = stiffnessOf(axles[name]);
    return sum + spring + bar;
  }, 0);
  const mass = sprungWeight(axles) / STANDARD_GRAVITY;
  const arm = armOf(axles, centreHeight);
  return rollAngle(mass, lateral * STANDARD_GRAVITY, STANDARD_GRAVITY, arm, stiffness);
}

/** Roll stiffness of an axle's springs at rest, and of its bar, N mm/rad. */
function stiffnessOf({ state, roll }: CorneringAxle) {
  return {
    spring: springRollStiffness(state.rates.settledWheel, roll.track),
    bar: barRollStiffness(roll.barRate, roll.track),
  };
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

/**
 * What holds the wheels of an axle at rest instead of their springs, so that nothing can be said of how it rolls: metal or the
 * closed stop, where the springs do not carry the load; full droop, where gas or springs would lift it further.
 *
 * Units: `state` of the standing corner in mm and N; result a stop's name, null where the axle rests on its springs.
 * Valid: any corner, also one whose target height is out of reach.
 * Source: balance of forces at both ends of the travel, see `forcesAt`.
 */
export function heldAtRest(state: CornerState): WheelStop | null {
  const { site, corner, geometry, standing } = state;
  const end = travelEnd(site, corner, geometry, standing.perch);
  const surplus = (height: number) => loadAt(state, height) - site.sprungLoad;
  if (end.height >= geometry.droopHeight || surplus(end.height) <= 0) return end.at;
  return surplus(geometry.droopHeight) >= 0 ? 'droop' : null;
}

function loadAt({ site, corner, geometry, standing }: CornerState, height: number): number {
  return forcesAt(site, corner, geometry, height, standing.perch).load;
}

/** Moment with which an axle holds against a lean, N mm. */
function holding({ state, roll }: CorneringAxle, lean: number): number {
  const { low, high } = axleBalance(state, roll.track, lean);
  return ((low.load - high.load) * roll.track) / 2 + barRollStiffness(roll.barRate, roll.track) * lean;
}

interface WheelBalance {
  readonly height: number;
  readonly load: number;
}

/** The wheel that the body leans on, and the other. */
interface AxleBalance {
  readonly low: WheelBalance;
  readonly high: WheelBalance;
}

/**
 * Both wheels of an axle under a lean of 0 or more: the mean height at which together they carry the axle's load. A wheel at
 * full droop, on its closed stop or on metal stays there and takes what the other leaves; one that is drawn beyond full droop
 * hangs there, off the ground.
 */
function axleBalance(state: CornerState, track: number, lean: number): AxleBalance {
  const { site, corner, geometry, standing } = state;
  const both = 2 * site.sprungLoad;
  const apart = track * lean;
  const load = (height: number) => loadAt(state, height);
  const surplus = (low: number) => load(low) + load(low + apart) - both;
  const lowest = travelEnd(site, corner, geometry, standing.perch).height;
  const highest = geometry.droopHeight - apart;
  if (highest <= lowest) {
    return { low: { height: lowest, load: both }, high: { height: geometry.droopHeight, load: 0 } };
  }
  if (surplus(lowest) <= 0) {
    const high = { height: lowest + apart, load: load(lowest + apart) };
    return { low: { height: lowest, load: both - high.load }, high };
  }
  if (surplus(highest) >= 0) {
    const low = { height: highest, load: load(highest) };
    return { low, high: { height: geometry.droopHeight, load: both - low.load } };
  }
  const low = rootBetween(surplus, lowest, highest);
  return { low: { height: low, load: load(low) }, high: { height: low + apart, load: load(low + apart) } };
}

function axleAt(axle: CorneringAxle, angle: number, lateral: number): CorneringAxleResult {
  const { state, roll } = axle;
  const { low, high } = axleBalance(state, roll.track, Math.abs(angle));
  const [outer, inner] = angle < 0 ? [high, low] : [low, high];
  const { spring, bar } = stiffnessOf(axle);
  const axleMass = (2 * state.site.sprungLoad) / STANDARD_GRAVITY;
  const { track, rollCentreHeight } = roll;
  const shares = lateralLoadTransfer(spring, bar, angle, axleMass, lateral * STANDARD_GRAVITY, rollCentreHeight, track);
  return {
    outer: positionAt(state, outer.height),
    inner: positionAt(state, inner.height),
    jacking: (outer.height + inner.height) / 2 - state.standing.height,
    // From the solved forces: the standing rates that the formula's own spring share needs no longer hold.
    springShare: (outer.load - inner.load) / 2,
    barShare: shares.bar,
    rollCentreShare: shares.rollCentre,
  };
}
