/** Spring stacks of an axle as columns: one row a helper and spring, springs fastest, as in a combination's index. */
import type { Helper, Spring } from '../domain/parts.ts';
import type { AxleOptions } from '../domain/scenario.ts';
import { kneeForce, type SpringStack, springStack } from '../domain/stack.ts';

export interface StackTable {
  readonly count: number;
  readonly springs: readonly Spring[];
  readonly helpers: readonly (Helper | null)[];
  readonly parts: readonly SpringStack[];
  /** mm, N/mm and N; see `SpringStack`. */
  readonly freeLength: Float64Array;
  readonly solidLength: Float64Array;
  readonly mainRate: Float64Array;
  readonly mainTravel: Float64Array;
  readonly helperRate: Float64Array;
  readonly helperTravel: Float64Array;
  readonly knee: Float64Array;
}

export function stackTable(options: AxleOptions): StackTable {
  const pairs = options.helper.flatMap((helper) => options.spring.map((spring) => ({ helper, spring })));
  const parts = pairs.map(({ helper, spring }) => springStack(spring, helper));
  const column = (read: (stack: SpringStack) => number) => Float64Array.from(parts, read);
  return {
    count: parts.length,
    springs: pairs.map((p) => p.spring),
    helpers: pairs.map((p) => p.helper),
    parts,
    freeLength: column((s) => s.freeLength),
    solidLength: column((s) => s.solidLength),
    mainRate: column((s) => s.mainRate),
    mainTravel: column((s) => s.mainTravel),
    helperRate: column((s) => s.helperRate),
    helperTravel: column((s) => s.helperTravel),
    knee: column(kneeForce),
  };
}
