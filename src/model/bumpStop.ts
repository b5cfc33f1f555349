/** The bump stop's force: a measured curve, scaled by strain to the length as cut. */
import type { BumpStop, StopCurve } from './parts.ts';

/**
 * Closed length of the stop.
 *
 * Equation: b_c = closed fraction x b
 * Units: `stop` lengths in mm, its fraction dimensionless; result mm.
 * Valid: a closed fraction between 0 and 1, measured or asked for; it differs a good deal between foams.
 * Example: closedLength({"closedFraction":0.36,"length":38}) = 13.68
 * Source: definition of the closed fraction.
 */
export function closedLength(stop: BumpStop): number {
  return stop.closedFraction * stop.length;
}

/**
 * Force of the stop under a squeeze.
 *
 * Equation: F(c) = F0(c b0 / b), F0 the curve measured on length b0: equal strain gives equal force
 * Units: `stop` as cut, lengths in mm and forces in N; `squeeze` mm; result N.
 * Valid: a stop of one foam throughout. 0 below 0 and without a curve; beyond the curve's last point it goes on straight.
 * Example: stopForce({"length":38,"curve":{"measuredLength":60,"points":[{"squeeze":0,"force":0},{"squeeze":10,"force":250}]}}, 3.8) = 150
 * Source: scaling by strain, derived.
 */
export function stopForce(stop: BumpStop, squeeze: number): number {
  if (squeeze <= 0 || stop.curve === null) return 0;
  const scaled = (squeeze * stop.curve.measuredLength) / stop.length;
  const k = segmentAt(stop.curve, scaled);
  return pointForce(stop.curve, k) + segmentRate(stop.curve, k) * (scaled - pointSqueeze(stop.curve, k));
}

/**
 * Rate of the stop under a squeeze: the curve's local slope, scaled like its force.
 *
 * Equation: k(c) = (b0 / b) dF0/dc at c b0 / b
 * Units: `stop` as cut, lengths in mm and forces in N; `squeeze` mm; result N/mm.
 * Valid: as `stopForce`; at a corner of the curve the segment above it counts.
 * Example: stopRate({"length":38,"curve":{"measuredLength":60,"points":[{"squeeze":0,"force":0},{"squeeze":10,"force":250}]}}, 3.8) = 39.47
 * Source: derivative of `stopForce`.
 */
export function stopRate(stop: BumpStop, squeeze: number): number {
  if (squeeze <= 0 || stop.curve === null) return 0;
  const scale = stop.curve.measuredLength / stop.length;
  return segmentRate(stop.curve, segmentAt(stop.curve, squeeze * scale)) * scale;
}

/**
 * Force at which the stop counts as closed: as stated, else what its curve gives at the closed length; null where neither is
 * known. Closed is geometry: a harder hit squeezes foam further.
 *
 * Equation: F_closed = F(b - b_c)
 * Units: `stop` lengths in mm and forces in N; result N.
 * Valid: as `stopForce`.
 * Example: closedAtForce({"length":30,"closedFraction":0.5,"closedAtForce":null,"curve":{"measuredLength":60,"points":[{"squeeze":0,"force":0},{"squeeze":40,"force":1000}]}}) = 750
 * Source: scaling by strain, derived.
 */
export function closedAtForce(stop: BumpStop): number | null {
  if (stop.closedAtForce !== null || stop.curve === null) return stop.closedAtForce;
  return stopForce(stop, stop.length - closedLength(stop));
}

/** The segment that holds a squeeze; the last one beyond the curve's end. */
function segmentAt(curve: StopCurve, squeeze: number): number {
  const { points } = curve;
  let k = 0;
  while (k < points.length - 2 && pointSqueeze(curve, k + 1) <= squeeze) k++;
  return k;
}

function segmentRate(curve: StopCurve, k: number): number {
  return (pointForce(curve, k + 1) - pointForce(curve, k)) / (pointSqueeze(curve, k + 1) - pointSqueeze(curve, k));
}

function pointSqueeze(curve: StopCurve, k: number): number {
  return (curve.points[k] as StopCurve['points'][number]).squeeze;
}

function pointForce(curve: StopCurve, k: number): number {
  return (curve.points[k] as StopCurve['points'][number]).force;
}
