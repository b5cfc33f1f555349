/** Undamped vibration of body and wheels: one mass, the quarter car, the half car; damping as a share of critical. */

/** N/mm to N/m. */
const PER_METRE = 1000;
const TWO_PI = 2 * Math.PI;

/**
 * Natural frequency of a mass on a spring.
 *
 * Equation: f = sqrt(1000 k / m) / (2 pi)
 * Units: `rate` k N/mm, `mass` m kg; result Hz.
 * Valid: k > 0, m > 0; NaN for k <= 0, where nothing swings back.
 * Example: naturalFrequency(294, 600) = 3.52304
 * Source: Grover, Mechanical Vibrations, Example 3.3.3 (omega_n 22.135944 rad/s, period 0.2838454 s).
 */
export function naturalFrequency(rate: number, mass: number): number {
  return rate > 0 ? Math.sqrt((PER_METRE * rate) / mass) / TWO_PI : Number.NaN;
}

/**
 * Frequency of a mass from how far it settles on its spring.
 *
 * Equation: f = sqrt(1000 g_n / delta) / (2 pi)
 * Units: `deflection` delta mm, `gravity` g m/s^2; result Hz.
 * Valid: a linear spring, or the deflection W / k with the rate k at the standing position; NaN for delta <= 0.
 * Example: staticDeflectionFrequency(248.41, 9.80665) = 1.0000
 * Source: B. K. Sarkar, Theory of Machines, p. 290 (f = 0.4985/sqrt(delta in m)); the example derived.
 */
export function staticDeflectionFrequency(deflection: number, gravity: number): number {
  return deflection > 0 ? Math.sqrt((PER_METRE * gravity) / deflection) / TWO_PI : Number.NaN;
}

/**
 * Rate of two springs in series.
 *
 * Equation: k = k_1 k_2 / (k_1 + k_2)
 * Units: `first` and `second` N/mm; result N/mm.
 * Valid: both above 0. With the wheel rate and the tyre's it is the ride rate.
 * Example: seriesRate(22, 192) = 19.738
 * Source: Grover, Mechanical Vibrations, Example 2.5.1 for springs in series; the example derived from Barton &
 * Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.13, p. 209.
 */
export function seriesRate(first: number, second: number): number {
  return (first * second) / (first + second);
}

/**
 * Damping coefficient above which a mass on a spring no longer swings.
 *
 * Equation: c_c = 2 sqrt(1000 k m)
 * Units: `rate` k N/mm, `mass` m kg; result N s/m.
 * Valid: k > 0, m > 0; NaN for k <= 0.
 * Example: criticalDamping(294, 600) = 26563.132
 * Source: Grover, Mechanical Vibrations, Example 3.3.3.
 */
export function criticalDamping(rate: number, mass: number): number {
  return rate > 0 ? 2 * Math.sqrt(PER_METRE * rate * mass) : Number.NaN;
}

/**
 * Damping ratio of the body on one wheel.
 *
 * Equation: zeta = c MR^2 / (2 sqrt(1000 k_w m_s))
 * Units: `coefficient` c along the damper N s/m, `motionRatio` MR damper travel per wheel travel dimensionless,
 * `wheelRate` k_w N/mm, `sprungMass` m_s kg; result dimensionless.
 * Valid: small motions about the standing height, the damper's curve replaced by one coefficient; NaN for k_w <= 0.
 * Example: dampingRatio(1351.1, 1, 50, 750) = 0.1103
 * Source: NCERT Physics XI, Exercise 14.21, for the coefficient; c MR^2 by virtual work, derived; the example derived.
 */
export function dampingRatio(coefficient: number, motionRatio: number, wheelRate: number, sprungMass: number): number {
  return (coefficient * motionRatio ** 2) / criticalDamping(wheelRate, sprungMass);
}

/** One mode of the quarter car. */
interface QuarterCarMode {
  /** Hz */
  readonly frequency: number;
  /** Amplitude of the unsprung mass over that of the body, signed: negative where they move against each other. */
  readonly ratio: number;
}

/**
 * The two exact modes of a quarter car without damping: body on spring on wheel on tyre.
 *
 * Equation: omega^4 - omega^2 (k_w/m_s + (k_w + k_t)/m_u) + k_w k_t/(m_s m_u) = 0;
 * ratio x_u/x_s = k_w/(k_w + k_t - m_u omega^2) = 1 - m_s omega^2/k_w
 * Units: `sprungMass` m_s and `unsprungMass` m_u kg, `wheelRate` k_w and `tyreRate` k_t N/mm; result frequencies Hz, slower
 * mode first, ratios dimensionless.
 * Valid: all four above 0, the tyre in contact with the road.
 * Example: quarterCarModes(317.5, 45.4, 22, 192).first.frequency = 1.254
 * Example: quarterCarModes(317.5, 45.4, 22, 192).first.ratio = 0.104
 * Example: quarterCarModes(317.5, 45.4, 22, 192).second.frequency = 10.9
 * Source: Barton & Fieldhouse, Automotive Chassis Engineering (Springer 2018), sec. 3.13, Eq. 3.82-3.84, p. 209.
 */
export function quarterCarModes(
  sprungMass: number,
  unsprungMass: number,
  wheelRate: number,
  tyreRate: number,
): { readonly first: QuarterCarMode; readonly second: QuarterCarMode } {
  const body = (PER_METRE * wheelRate) / sprungMass;
  const wheel = (PER_METRE * (wheelRate + tyreRate)) / unsprungMass;
  const product = (body * PER_METRE * tyreRate) / unsprungMass;
  const half = (body + wheel) / 2;
  const fast = half + Math.sqrt(half * half - product);
  // The slow root from the product of both: half minus the square root would lose digits.
  const slow = product / fast;
  const springShare = (PER_METRE * wheelRate) / unsprungMass;
  return {
    first: { frequency: Math.sqrt(slow) / TWO_PI, ratio: springShare / (wheel - slow) },
    second: { frequency: Math.sqrt(fast) / TWO_PI, ratio: 1 - fast / body },
  };
}

/** One mode of the half car. */
interface HalfCarMode {
  /** Hz */
  readonly frequency: number;
  /** Where the body does not move, mm ahead of the centre of gravity (negative: behind); Infinity: it moves evenly. */
  readonly centre: number;
}

/**
 * Bounce and pitch of a body on two axles, wheels and damping left out.
 *
 * Equation: with A = (k_f + k_r)/m, B = (k_f a - k_r b)/m, C = (k_f a^2 + k_r b^2)/(m k^2):
 * omega^2 = (A + C)/2 -+ sqrt(((A - C)/2)^2 + B^2/k^2), centre s = B/(A - omega^2)
 * Units: `mass` m kg, `radius` of gyration in pitch k mm, `front` a and `rear` b distances of the axles from the centre of
 * gravity mm, `frontRate` k_f and `rearRate` k_r of both wheels of an axle N/mm; result frequencies Hz, centres mm.
 * Valid: all above 0. The two centres obey s_1 s_2 = -k^2 and k_f (a - s_1)(a - s_2) = -k_r (b + s_1)(b + s_2), so
 * exactly one lies between the axles: that mode is pitch. At k^2 = a b both sit on the axles, and bounce is the one
 * farther from the centre of gravity (of two equally far, the slower). With k_f a = k_r b the two are uncoupled: the
 * centre of bounce is Infinity, that of pitch 0.
 * Example: halfCarModes(1000, 900, 1000, 1500, 18, 22).bounce.centre = -2646.1
 * Example: halfCarModes(1000, 900, 1000, 1500, 18, 22).bounce.frequency = 0.93254
 * Example: halfCarModes(1000, 900, 1000, 1500, 18, 22).pitch.centre = 306.1
 * Source: Rao, Mechanical Vibrations, Example 5.7, from memory (5.8593 and 9.4341 rad/s, nodes 2.6461 m and 0.3061 m from
 * the centre of gravity).
 */
export function halfCarModes(
  mass: number,
  radius: number,
  front: number,
  rear: number,
  frontRate: number,
  rearRate: number,
): { readonly bounce: HalfCarMode; readonly pitch: HalfCarMode } {
  const heave = (PER_METRE * (frontRate + rearRate)) / mass;
  const coupling = (PER_METRE * (frontRate * front - rearRate * rear)) / mass;
  const turning = (PER_METRE * (frontRate * front ** 2 + rearRate * rear ** 2)) / (mass * radius ** 2);
  if (coupling === 0) {
    return { bounce: mode(heave, Number.POSITIVE_INFINITY), pitch: mode(turning, 0) };
  }
  const difference = (heave - turning) / 2;
  const spread = Math.hypot(difference, coupling / radius);
  // A - omega^2 is difference + spread for the slow mode and difference - spread for the fast one; whichever of the
  // two would cancel follows from s_1 s_2 = -k^2.
  const sum = Math.abs(difference) + spread;
  const near = difference >= 0 ? coupling / sum : -coupling / sum;
  const far = -(radius ** 2) / near;
  const fast = (heave + turning) / 2 + spread;
  // Product of both roots, A C - B^2/k^2 written out, so that nothing cancels.
  const product = (PER_METRE ** 2 * frontRate * rearRate * (front + rear) ** 2) / (mass * radius) ** 2;
  const slow = product / fast;
  const [slowCentre, fastCentre] = difference >= 0 ? [near, far] : [far, near];
  return sorted(mode(slow, slowCentre), mode(fast, fastCentre), front, rear);
}

function mode(omegaSquared: number, centre: number): HalfCarMode {
  return { frequency: Math.sqrt(omegaSquared) / TWO_PI, centre };
}

/** Which of two modes is bounce and which pitch. */
function sorted(slow: HalfCarMode, fast: HalfCarMode, front: number, rear: number) {
  const slowIsBounce = onAxle(slow, front, rear)
    ? Math.abs(slow.centre) >= Math.abs(fast.centre) * (1 - ON_AXLE)
    : slow.centre > front || slow.centre < -rear;
  return slowIsBounce ? { bounce: slow, pitch: fast } : { bounce: fast, pitch: slow };
}

/** Rounding must not decide which name a mode with its centre on an axle gets. */
const ON_AXLE = 1e-9;

function onAxle(mode: HalfCarMode, front: number, rear: number): boolean {
  const axle = mode.centre > 0 ? front : -rear;
  return Math.abs(mode.centre / axle - 1) < ON_AXLE;
}

/** After so many cycles of the front the rear, which met the bump later, has caught up with it. */
const CYCLES_TO_FALL_IN_STEP = 1.5;
const HIGHEST_ROAD_SPEED = 200;

/**
 * Road speed at which the rear, which meets every bump a wheelbase later but swings faster, falls in step with the front
 * after one and a half cycles, so that pitching dies into bounce.
 *
 * Equation: v = L / (1.5 (1/f_f - 1/f_r))
 * Units: `wheelbase` L mm, `frontFrequency` f_f and `rearFrequency` f_r Hz; result km/h.
 * Valid: f_r > f_f > 0; null where the rear is not faster, or the speed is above 200 km/h. Not Olley's criterion.
 * Example: inStepSpeed(2500, 1.3, 1.5) = 58.5
 * Source: derived from the delay L/v = 1.5/f_f - 1.5/f_r; the example derived.
 */
export function inStepSpeed(wheelbase: number, frontFrequency: number, rearFrequency: number): number | null {
  if (!(rearFrequency > frontFrequency)) return null;
  const delay = CYCLES_TO_FALL_IN_STEP * (1 / frontFrequency - 1 / rearFrequency);
  const kilometresPerHour = (wheelbase / delay) * 0.0036;
  return kilometresPerHour <= HIGHEST_ROAD_SPEED ? kilometresPerHour : null;
}

/** Damper force against velocity, reduced to one number. */

interface ForceVelocityPoint {
  /** m/s */
  readonly velocity: number;
  /** Force in bump and in rebound, both positive, N. */
  readonly bump: number;
  readonly rebound: number;
}

/** Body motion, not wheel hop, is what a first look at damping judges; common practice, no source. */
const REFERENCE_VELOCITY = 0.1;

/**
 * Damping coefficient at 0.1 m/s: secant slopes in bump and rebound, averaged.
 *
 * Equation: c = (F_bump(0.1) + F_rebound(0.1)) / (2 x 0.1), linear between points
 * Units: `table` velocities m/s and forces N, sorted by velocity; result N s/m, along the damper.
 * Valid: a table with points on both sides of 0.1 m/s, or one there; null otherwise: a damper's curve must not be guessed
 * onward, nor straight down to rest, where valves that open early make it steepest.
 * Example: secantDamping([{"velocity":0.05,"bump":200,"rebound":400},{"velocity":0.15,"bump":400,"rebound":800}]) = 4500
 * Source: common practice, no source; the example derived (300 N and 600 N at 0.1 m/s).
 */
export function secantDamping(table: readonly ForceVelocityPoint[]): number | null {
  const forces = forcesAtReference(table);
  return forces === null ? null : (forces.bump + forces.rebound) / (2 * REFERENCE_VELOCITY);
}

/**
 * Damping coefficient in rebound alone at 0.1 m/s: a stiffer spring asks most of the rebound.
 *
 * Equation: c_reb = F_rebound(0.1) / 0.1, linear between points
 * Units: `table` velocities m/s and forces N, sorted by velocity; result N s/m, along the damper.
 * Valid: as `secantDamping`; null otherwise.
 * Example: reboundDamping([{"velocity":0.05,"bump":200,"rebound":400},{"velocity":0.15,"bump":400,"rebound":800}]) = 6000
 * Source: common practice, no source; the example derived (600 N at 0.1 m/s).
 */
export function reboundDamping(table: readonly ForceVelocityPoint[]): number | null {
  const forces = forcesAtReference(table);
  return forces === null ? null : forces.rebound / REFERENCE_VELOCITY;
}

function forcesAtReference(table: readonly ForceVelocityPoint[]): Omit<ForceVelocityPoint, 'velocity'> | null {
  const upper = table.findIndex((p) => p.velocity >= REFERENCE_VELOCITY);
  const above = table[upper];
  if (above === undefined) return null;
  if (above.velocity === REFERENCE_VELOCITY) return above;
  const below = table[upper - 1];
  if (below === undefined) return null;
  const share = (REFERENCE_VELOCITY - below.velocity) / (above.velocity - below.velocity);
  const between = (key: 'bump' | 'rebound') => below[key] + share * (above[key] - below[key]);
  return { bump: between('bump'), rebound: between('rebound') };
}
