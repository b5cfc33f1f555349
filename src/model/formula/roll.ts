/** Steady cornering of one car at small angles: roll stiffness, roll angle, and who carries the load transfer. */

/**
 * Roll stiffness of an axle's springs.
 *
 * Equation: K = k_w t^2 / 2: each wheel moves t/2 per radian, and its force has the arm t/2
 * Units: `wheelRate` k_w N/mm, `track` t mm; result N mm/rad.
 * Valid: independent suspension, small angles, springs that stay in contact; the tyres' own roll is not in it.
 * Example: springRollStiffness(20, 1400) = 19600000
 * Source: derived; the example derived.
 */
export function springRollStiffness(wheelRate: number, track: number): number {
  return (wheelRate * track ** 2) / 2;
}

/**
 * Roll stiffness of an anti-roll bar.
 *
 * Equation: K = k_1 t^2. The bar pushes with k_1 (z_1 - z_2) at one wheel and its opposite at the other; in roll
 * z_1 - z_2 = t per radian, and the couple k_1 t has the arm t
 * Units: `barRate` k_1 at one wheel with the other held N/mm, `track` t mm; result N mm/rad.
 * Valid: small angles. A rate measured with both wheels moved opposite ways, each by z, is 2 k_1: halve it first.
 * Example: barRollStiffness(8, 1400) = 15680000
 * Source: derived; the example derived.
 */
export function barRollStiffness(barRate: number, track: number): number {
  return barRate * track ** 2;
}

/**
 * Roll angle in a steady corner.
 *
 * Equation: phi = m_s a h / (sum K - m_s g h)
 * Units: `sprungMass` m_s kg, `acceleration` a and `gravity` g m/s^2, `arm` h from the roll axis up to the sprung centre
 * of gravity mm, `stiffness` sum K over both axles N mm/rad; result rad.
 * Valid: small angles, up to about 0.1 rad; a start for solving both wheels. NaN where sum K <= m_s g h: the car
 * would fall over its roll axis.
 * Example: rollAngle(1000, 9.80665, 9.80665, 450, 60000000) = 0.0794
 * Source: derived from moments about the roll axis; the example derived.
 */
export function rollAngle(
  sprungMass: number,
  acceleration: number,
  gravity: number,
  arm: number,
  stiffness: number,
): number {
  const righting = stiffness - sprungMass * gravity * arm;
  return righting > 0 ? (sprungMass * acceleration * arm) / righting : Number.NaN;
}

/** What one axle's outer wheel gains in a corner, N, by who carries it. */
interface LoadTransfer {
  /** The only share that moves the damper. */
  readonly spring: number;
  readonly bar: number;
  /** Through the links at the roll centre, as a force that never reaches the spring. */
  readonly rollCentre: number;
}

/**
 * Lateral load transfer of an axle's sprung mass, by who carries it.
 *
 * Equation: spring K_s phi / t, bar K_bar phi / t, roll centre m a z_rc / t
 * Units: `springStiffness` and `barStiffness` of the axle N mm/rad, `roll` phi rad, `axleSprungMass` m carried by the axle
 * kg, `acceleration` a m/s^2, `rollCentreHeight` z_rc mm, `track` t mm; result N per wheel, each share.
 * Valid: small angles, steady state; the transfer of the unsprung mass is not in it, it passes through the tyres only.
 * Example: lateralLoadTransfer(19600000, 15680000, 0.05, 500, 9.80665, 80, 1400).spring = 700
 * Source: derived from moments about the axle's centre line; the example derived.
 */
export function lateralLoadTransfer(
  springStiffness: number,
  barStiffness: number,
  roll: number,
  axleSprungMass: number,
  acceleration: number,
  rollCentreHeight: number,
  track: number,
): LoadTransfer {
  return {
    spring: (springStiffness * roll) / track,
    bar: (barStiffness * roll) / track,
    rollCentre: (axleSprungMass * acceleration * rollCentreHeight) / track,
  };
}

/**
 * A roll stiffness as it is quoted: torque per degree.
 *
 * Equation: K_deg = K pi / (180 x 1000)
 * Units: `stiffness` K N mm/rad; result N m/deg.
 * Valid: any.
 * Example: rollRatePerDegree(19600000) = 342.1
 * Source: derived; the example derived.
 */
export function rollRatePerDegree(stiffness: number): number {
  return (stiffness * Math.PI) / 180_000;
}
