/** Which purchases of a shortlist nobody has a reason to take: another one is at least as good on everything. */
import type { Combination } from '../result.ts';

/** Far above rounding, far below a difference that shows. */
const EQUAL = 1e-9;

/** Per combination the id of the first that dominates it, or null: at least as good on every criterion, better on one. */
export function dominators(shortlist: readonly Combination[]): (string | null)[] {
  return shortlist.map((one) => shortlist.find((other) => dominates(other, one))?.id ?? null);
}

function dominates(a: Combination, b: Combination): boolean {
  if (a.criteria.length !== b.criteria.length) return false;
  const others = b.criteria.map((c) => c.desirability);
  const differences = a.criteria.map((c, k) => c.desirability - (others[k] as number));
  return differences.every((d) => d >= -EQUAL) && differences.some((d) => d > EQUAL);
}
