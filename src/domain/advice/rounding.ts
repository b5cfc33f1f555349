/** Advice is rounded to what a person can measure, so that the result stays small. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const result = Math.round(value * scale) / scale;
  return result === 0 ? 0 : result;
}

/** Up to the next multiple of a step; what lies on one (to within rounding) stays. */
export function upToStep(value: number, step: number): number {
  return rounded(Math.ceil(value / step - 1e-9) * step, 6);
}
