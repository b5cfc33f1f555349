/** The bump stop's force: a measured curve, scaled by strain to the length as cut. */
import type { BumpStop, StopCurve } from './parts.ts';

/** Closed length of the stop, mm. */
export function closedLength(stop: BumpStop): number {
  return stop.closedFraction * stop.length;
}

/**
 * Force of the stop under a squeeze.
 * Equation: F(c) = F0(c b0 / b), F0 the curve measured on length b0 (equal strain gives equal force).
 * Units: squeeze mm, result N. 0 below 0 and without a curve; beyond the curve's last point it goes on straight.
 */
export function stopForce(stop: BumpStop, squeeze: number): number {
  if (squeeze <= 0 || stop.curve === null) return 0;
  const scaled = (squeeze * stop.curve.measuredLength) / stop.length;
  const k = segmentAt(stop.curve, scaled);
  return pointForce(stop.curve, k) + segmentRate(stop.curve, k) * (scaled - pointSqueeze(stop.curve, k));
}

/** Rate of the stop under a squeeze, N/mm: the curve's local slope, scaled like its force. */
export function stopRate(stop: BumpStop, squeeze: number): number {
  if (squeeze <= 0 || stop.curve === null) return 0;
  const scale = stop.curve.measuredLength / stop.length;
  return segmentRate(stop.curve, segmentAt(stop.curve, squeeze * scale)) * scale;
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
