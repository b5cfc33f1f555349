/**
 * One axle of a plan: a combination per setup, alike in every shared part. Axle plans that are bought and paired alike
 * (same stacks, frequencies and, where price is ranked, prices in every setup) are a class. Of one class only the best
 * can stand in a plan that scores at all, and only the first in a plan that scores 0; everything else is dropped.
 */
import type { Candidate } from '../../domain/ranking/criteria.ts';

export interface AxlePlan {
  /** One a setup, in the plan's order of setups. */
  readonly corners: readonly Candidate[];
  /** Sum of the corners' worths over the setups. */
  readonly worth: number;
}

export interface AxleClass {
  /** What is bought: the stacks over the setups. */
  readonly purchase: string;
  /** Highest worth, equal worths to the lower indices. */
  best: AxlePlan;
  /** Lowest indices. */
  first: AxlePlan;
}

/** Indices compared setup by setup; negative when `a` comes first. */
export function compareIndices(a: AxlePlan, b: AxlePlan): number {
  for (const [k, { index }] of a.corners.entries()) {
    const other = (b.corners[k] as Candidate).index;
    if (index !== other) return index - other;
  }
  return 0;
}

/** Negative when `a` is better: more worth, or as much and lower indices. */
export function compareAxlePlans(a: AxlePlan, b: AxlePlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  return compareIndices(a, b);
}

/** Enters an axle plan into its class. */
export function enterClass(classes: Map<string, AxleClass>, stacks: number, plan: AxlePlan, isPriced: boolean): void {
  const purchase = plan.corners.map(({ index }) => index % stacks).join(' ');
  const paired = plan.corners.map(({ frequency, price }) => (isPriced ? `${frequency} ${price}` : `${frequency}`));
  const key = `${purchase}|${paired.join('|')}`;
  const known = classes.get(key);
  if (known === undefined) {
    classes.set(key, { purchase, best: plan, first: plan });
    return;
  }
  if (compareAxlePlans(plan, known.best) < 0) known.best = plan;
  if (compareIndices(plan, known.first) < 0) known.first = plan;
}
