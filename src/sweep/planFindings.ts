/** What plans are looked for: as wished, and one set of springs against a set for each setup. */
import { type PlanChoice, type PlanFindings, SPRING_FAMILIES } from '../domain/reporting/plans.ts';
import { FAMILIES, type Family, type PlanWish, type Scenario, type Setup } from '../domain/scenario.ts';
import type { Steps } from '../domain/steps.ts';
import { type PlanSearch, planScenario, type SetupBests } from './plans.ts';

interface NamedBests extends SetupBests {
  readonly setup: Setup;
}

/** @param outcomes what the setups' own sweeps found, those of the plan among them */
export function* planFindings(
  scenario: Scenario,
  wish: PlanWish,
  outcomes: readonly NamedBests[],
): Steps<PlanFindings> {
  const bests = wish.setups.flatMap((name) => outcomes.filter(({ setup }) => setup.name === name));
  const oneSet = wish.swapped.filter((family) => !SPRING_FAMILIES.includes(family));
  const ownSets = FAMILIES.filter((family) => wish.swapped.includes(family) || SPRING_FAMILIES.includes(family));
  const wishes = distinct([
    { swapped: wish.swapped, keep: wish.keep },
    { swapped: oneSet, keep: 1 },
    { swapped: ownSets, keep: 1 },
  ]);
  const { workable, searches } = yield* planScenario(scenario, wish.setups, bests, wishes);
  const best = (swapped: readonly Family[]) => found(searches, swapped)[0] ?? null;
  return {
    wish,
    setups: bests.map(({ setup }) => setup),
    workable,
    plans: found(searches, wish.swapped),
    oneSet: best(oneSet),
    ownSets: best(ownSets),
    alone: bests.map(({ pairs }) => {
      const [first] = pairs.best;
      return first ? { front: first.front.index, rear: first.rear.index } : null;
    }),
  };
}

function found(searches: readonly PlanSearch[], swapped: readonly Family[]): PlanChoice[] {
  const search = searches.find((one) => isSame(one.swapped, swapped));
  return (search as PlanSearch).plans.map((plan) => plan.choices);
}

/** The first wish for the same families stands for the others: it is the plan's own, which keeps most. */
function distinct<T extends { readonly swapped: readonly Family[] }>(wishes: readonly T[]): T[] {
  return wishes.filter((one, k) => wishes.findIndex((other) => isSame(one.swapped, other.swapped)) === k);
}

function isSame(one: readonly Family[], other: readonly Family[]): boolean {
  return one.length === other.length && one.every((family) => other.includes(family));
}
