/** Spring stacks of an axle as columns: one row a helper and spring, springs fastest, as in a combination's index. */

import { coilBindMargin } from '../domain/corner/coilGaps.ts';
import { forceAllowed } from '../domain/corner/stress.ts';
import type { Helper, Spring } from '../domain/parts.ts';
import type { AxleOptions, Margins } from '../domain/scenario.ts';
import { deflectionUnder, kneeForce, type SpringStack, springStack } from '../domain/stack.ts';

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
  /** Margin to coil bind, mm. */
  readonly bindMargin: Float64Array;
  /** Seat to seat, mm: shorter at full bump the spring is overstressed; -Infinity where stress does not reject. */
  readonly leastGap: Float64Array;
}

export function stackTable(options: AxleOptions, margins: Margins): StackTable {
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
    bindMargin: Float64Array.from(pairs, ({ spring }) => coilBindMargin(margins.coilBind, spring).value),
    leastGap: Float64Array.from(pairs, ({ spring }, k) => stressedGap(spring, parts[k] as SpringStack)),
  };
}

function stressedGap(spring: Spring, stack: SpringStack): number {
  const force = forceAllowed(spring);
  return force === Number.POSITIVE_INFINITY
    ? Number.NEGATIVE_INFINITY
    : stack.freeLength - deflectionUnder(stack, force);
}
