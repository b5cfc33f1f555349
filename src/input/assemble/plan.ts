/** The plan over several setups under the names the model uses. */
import type { PlanWish } from '../../domain/scenario.ts';
import { DEFAULT_KEEP, FAMILY_OF_LIST, type PlanFields } from '../schema/plan.ts';

/** Null where none is wanted, or where a single setup leaves nothing to share. */
export function planOf(fields: PlanFields | undefined, setups: readonly string[]): PlanWish | null {
  if (fields === 'none' || setups.length < 2) return null;
  return {
    setups: fields?.setups ?? setups,
    swapped: (fields?.swapped ?? []).map((list) => FAMILY_OF_LIST[list]),
    keep: fields?.keep ?? DEFAULT_KEEP,
  };
}
