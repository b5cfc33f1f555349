/** Reading plans: the combinations they are made of, their springs, and the gain of one figure over another. */
import type { Combination, PlanPart, PlansResult, Result } from '../domain/result.ts';
import { AXLE_NAMES } from '../domain/scenario.ts';
import { fixed, PAGE } from './numbers.ts';

/** The record of a pair: from its setup's shortlist, or from what the plans brought. */
export function combinationOf(result: Result, { setup, id }: PlanPart): Combination {
  const listed = result.setups.find(({ name }) => name === setup)?.shortlist ?? [];
  const brought = result.plans?.combinations.map(({ combination }) => combination) ?? [];
  // What the plans brought may be in full where the shortlist is not.
  const found = [...brought, ...listed].find((one) => one.id === id);
  if (found === undefined) throw new Error(`The result has no combination “${id}”.`);
  return found;
}

/** `HS280-34 / HS220-58 with helper 50`: front, then rear. */
export function springsOf({ axles }: Combination): string {
  return AXLE_NAMES.map((axle) => {
    const { spring, helper } = axles[axle].parts;
    return helper.name === 'none' ? spring.name : `${spring.name} with ${helper.name}`;
  }).join(' / ');
}

export type Value = number | null | undefined;

/** The difference of the two figures as shown, with its sign. */
export function gainText(one: Value, own: Value, decimals: number): string {
  if (typeof one !== 'number' || typeof own !== 'number') return PAGE.none;
  const gain = Number(own.toFixed(decimals)) - Number(one.toFixed(decimals));
  const text = fixed(gain, decimals, PAGE);
  return Number(gain.toFixed(decimals)) > 0 ? `+${text}` : text;
}

/** Both axles have combinations that work in every setup: what is missing is a pair of them. */
export function isUnbalanced({ front, rear }: PlansResult['workable']): boolean {
  return front > 0 && rear > 0;
}
