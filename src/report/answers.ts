/** What is bought for each setup: its part of the best plan where one works, else its own best. */
import type { Builds, PlannedShare } from '../domain/advice/types.ts';
import type { Combination, PlanRecord, Result, SetupResult } from '../domain/result.ts';
import { combinationOf } from './planParts.ts';

export interface Answer {
  readonly setup: SetupResult;
  readonly combination: Combination;
  /** The plan that it is part of; null where it is the setup's own best. */
  readonly plan: PlanRecord | null;
  /** How it stood up to random builds; null where nobody drew any. */
  readonly builds: Builds | null;
}

/** Those of the setups that have one; a given build stands there whether or not it works. */
export function answersOf(result: Result): Answer[] {
  return result.setups.flatMap((setup) => answerOf(result, setup) ?? []);
}

export function answerOf(result: Result, setup: SetupResult): Answer | null {
  const plan = result.plans?.plans[0];
  const part = plan?.setups.find((one) => one.setup === setup.name);
  if (plan && part) return answered(result, setup, combinationOf(result, part), plan);
  const [combination] = setup.shortlist;
  return combination ? answered(result, setup, combination, null) : null;
}

function answered(result: Result, setup: SetupResult, combination: Combination, plan: PlanRecord | null): Answer {
  return { setup, combination, plan, builds: triedOf(result, setup, combination.id) };
}

/** Whether it carries its tolerance bands; those of plans did not in older reports. */
export function isInFull({ plan, combination: { axles } }: Answer): boolean {
  return plan === null || axles.front.force_curve !== undefined;
}

/** How a pair stood up to random builds, of the plan as of the shortlist; null where nobody drew any. */
export function triedOf({ plans }: Result, { advice }: SetupResult, id: string): PlannedShare | null {
  const tried: readonly PlannedShare[] = [...(plans?.purchase?.setups ?? []), ...(advice?.purchases ?? [])];
  return tried.find((one) => one.id === id) ?? null;
}
