/** The best plans, against every plan formed from corners that the scalar model judged one by one. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { firstFailure } from '../../../src/model/corner/findings.ts';
import { combinationCount, cornerAt } from '../../../src/model/corner/options.ts';
import {
  type Candidate,
  type CriterionScore,
  candidateOf,
  cornerCriteria,
  isBalanced,
  logSum,
  pairCriteria,
  scoreOf,
} from '../../../src/model/corner/score.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { heightWindow } from '../../../src/model/corner/window.ts';
import { CRITERION_NAMES, type CriterionName } from '../../../src/model/criteria.ts';
import {
  type AxleName,
  type AxleTarget,
  FAMILIES,
  type Family,
  type Scenario,
  type Setup,
} from '../../../src/model/scenario.ts';
import { finish } from '../../../src/model/steps.ts';
import { pairUp } from '../../../src/sweep/join.ts';
import { sweepKernel } from '../../../src/sweep/kernel.ts';
import { axleLayout } from '../../../src/sweep/layout.ts';
import { sweepScenario } from '../../../src/sweep/outcome.ts';
import { findPlans, planScenario } from '../../../src/sweep/plans/plans.ts';
import type { SetupBests } from '../../../src/sweep/plans/starts.ts';
import { type Progress, QUIET_RUN, sweepAll } from '../../../src/sweep/sweep.ts';
import { candidatesOf } from '../../../src/sweep/tally.ts';
import { smallScenario } from '../../setup/planScenarios.ts';
import { forAny } from '../../setup/random.ts';
import { realScenario } from '../../setup/scenarios.ts';

interface Judged {
  readonly candidate: Candidate;
  readonly criteria: readonly CriterionScore[];
}
/** What works on an axle, setup by setup. */
type Works = readonly (readonly Judged[])[];
type Tuple = readonly Judged[];
interface BrutePlan {
  readonly choices: readonly { readonly front: number; readonly rear: number }[];
  readonly worth: number;
  readonly score: number;
}

/** Every workable combination of an axle in a setup, by rising index. */
function judgedOf(scenario: Scenario, setup: Setup, axle: AxleName): readonly Judged[] {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, setup, axle);
  const found: Judged[] = [];
  for (let index = 0; index < combinationCount(options); index++) {
    const state = cornerState(site, cornerAt(options, index));
    if (firstFailure(state) !== null) continue;
    const working = { state, window: heightWindow(state) };
    found.push({
      candidate: candidateOf(index, working, scenario.ranking),
      criteria: cornerCriteria(working, scenario.ranking),
    });
  }
  return found;
}

const worksOf = (scenario: Scenario, axle: AxleName): Works =>
  scenario.setups.map((setup) => judgedOf(scenario, setup, axle));

/** Digits of the shared families, read by dividing. */
function sharedDigits(scenario: Scenario, axle: AxleName, swapped: readonly Family[], index: number): string {
  const digits: string[] = [];
  let rest = index;
  for (const family of FAMILIES.toReversed()) {
    const size = scenario.axles[axle].options[family].length;
    if (!swapped.includes(family)) digits.push(`${family} ${rest % size}`);
    rest = Math.floor(rest / size);
  }
  return digits.join(', ');
}

/** Everything that can be built: one workable combination a setup, all with the same shared parts. */
function tuplesOf(scenario: Scenario, works: Works, axle: AxleName, swapped: readonly Family[]): Tuple[] {
  const keys = new Map<Judged, string>();
  for (const one of works.flat()) keys.set(one, sharedDigits(scenario, axle, swapped, one.candidate.index));
  return works.reduce<Tuple[]>(
    (tuples, list) =>
      tuples.flatMap((tuple) => {
        const [first] = tuple;
        const key = first && keys.get(first);
        return list.filter((one) => key === undefined || keys.get(one) === key).map((one) => [...tuple, one]);
      }),
    [[]],
  );
}

/** The criteria that took something away. */
const told = new Set<CriterionName>();
const GRID = 2 ** 40;
const grid = (value: number) => Math.round(value * GRID) / GRID;

function planOf(scenario: Scenario, fronts: Tuple, rears: Tuple): BrutePlan | null {
  const { ranking, setups } = scenario;
  let worth = 0;
  let product = 1;
  for (const [s, setup] of setups.entries()) {
    const [front, rear] = [fronts[s] as Judged, rears[s] as Judged];
    if (!isBalanced(front.candidate, rear.candidate, setup)) return null;
    const ofPair = pairCriteria(front.candidate, rear.candidate, setup, ranking);
    const [ofFront, ofRear] = [front.criteria, rear.criteria];
    const all = [...ofFront, ...ofRear, ...ofPair];
    for (const { criterion, desirability } of all) if (desirability > 0 && desirability < 1) told.add(criterion);
    const weight = all.reduce((sum, c) => sum + c.weight, 0);
    for (const part of [ofFront, ofRear, ofPair]) worth += grid(logSum(part) / weight);
    product *= scoreOf(all);
  }
  const choices = setups.map((_, s) => ({
    front: (fronts[s] as Judged).candidate.index,
    rear: (rears[s] as Judged).candidate.index,
  }));
  return { choices, worth, score: product ** (1 / setups.length) };
}

function compare(a: BrutePlan, b: BrutePlan): number {
  if (a.worth !== b.worth) return a.worth > b.worth ? -1 : 1;
  const indices = ({ choices }: BrutePlan) => [...choices.map((c) => c.front), ...choices.map((c) => c.rear)];
  const [mine, other] = [indices(a), indices(b)];
  const at = mine.findIndex((index, k) => index !== other[k]);
  return at < 0 ? 0 : (mine[at] as number) - (other[at] as number);
}

function bruteForce(scenario: Scenario, [fronts, rears]: readonly [Tuple[], Tuple[]], keep: number): BrutePlan[] {
  const stacks = (axle: AxleName) => {
    const { helper, spring } = scenario.axles[axle].options;
    return helper.length * spring.length;
  };
  const all = fronts.flatMap((front) => rears.flatMap((rear) => planOf(scenario, front, rear) ?? []));
  const seen = new Set<string>();
  return all.sort(compare).filter(({ choices }) => {
    const purchase = choices.map((c) => `${c.front % stacks('front')} ${c.rear % stacks('rear')}`).join(', ');
    return seen.size < keep && !seen.has(purchase) && seen.add(purchase) !== undefined;
  });
}

/** What each setup's own sweep finds. */
function bestsOf(scenario: Scenario): SetupBests[] {
  return scenario.setups.map((setup) => {
    const [front, rear] = (['front', 'rear'] as const).map((axle) => {
      const layout = axleLayout(siteOf(scenario, setup, axle), scenario.axles[axle].options, scenario.ranking);
      const { tally } = sweepKernel(layout, 0, layout.assemblies);
      return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.count };
    });
    if (!front || !rear) throw new Error('two axles');
    return { axles: { front, rear }, pairs: pairUp(front, rear, setup, scenario.ranking) };
  });
}

const swaps = fc.constantFrom<readonly Family[]>(['helper', 'spring'], ['spring'], ['bumpStop'], ['mount', 'spring']);

test('the best plans are those of all plans formed and sorted, whatever is shared, ties to the lower indices', () => {
  const seen = { plans: 0, ties: 0, zeros: 0, none: 0 };
  forAny([smallScenario, swaps, fc.integer({ min: 1, max: 5 })], 300, (scenario, swapped, keep) => {
    const [front, rear] = [worksOf(scenario, 'front'), worksOf(scenario, 'rear')];
    const tuples = (wish: readonly Family[]) =>
      [tuplesOf(scenario, front, 'front', wish), tuplesOf(scenario, rear, 'rear', wish)] as const;
    const [fronts, rears] = tuples(swapped);
    fc.pre(fronts.length * rears.length < 100_000);
    const names = scenario.setups.map((setup) => setup.name);
    const { searches } = finish(
      planScenario(scenario, names, bestsOf(scenario), [
        { swapped: [], count: keep },
        { swapped, count: keep },
      ]),
    );
    for (const { swapped: wish, plans } of searches) {
      const expected = bruteForce(scenario, tuples(wish), keep);
      expect(plans.map((plan) => plan.choices)).toEqual(expected.map((plan) => plan.choices));
      for (const [k, { score }] of plans.entries()) expect(score).toBeCloseTo(expected[k]?.score ?? Number.NaN, 9);
      seen.plans += plans.length;
      if (plans.length === 0) seen.none++;
      seen.ties += expected.filter((plan, k) => plan.worth === expected[k + 1]?.worth).length;
      seen.zeros += expected.filter((plan) => plan.score === 0).length;
    }
  });
  expect(seen.plans).toBeGreaterThan(120);
  expect([...told].sort()).toEqual([...CRITERION_NAMES].sort());
  expect(Math.min(seen.ties, seen.zeros, seen.none)).toBeGreaterThan(8);
}, 300_000);

const scenario = await realScenario('hill-hatch');
const wish = { setups: scenario.setups.map(({ name }) => name), swapped: ['spring' as const], keep: 2 };

/** The same car with more bump travel asked for than its dampers have. */
function asking(leastBumpTravel: number): Scenario {
  const target = (old: AxleTarget) => ({ ...old, leastBumpTravel });
  const setups = scenario.setups.map((setup) => ({
    ...setup,
    axles: { front: target(setup.axles.front), rear: target(setup.axles.rear) },
  }));
  return { ...scenario, setups };
}

test('where no setup has anything that works there is no plan, and nothing to hold against one', () => {
  const hopeless = asking(500);
  const found = finish(findPlans(hopeless, wish, sweepScenario(hopeless)));
  expect(found).toMatchObject({ workable: { front: 0, rear: 0 }, plans: [], oneSet: null, ownSets: null });
  expect(found.alone).toEqual(wish.setups.map(() => null));
});

test('a sweep that finds nothing reports no best score on its way', async () => {
  const seen: Progress[] = [];
  await sweepAll(asking(500), { ...QUIET_RUN, onProgress: (progress) => seen.push(progress) });
  expect(seen.at(-1)).toMatchObject({ workable: 0, best: null });
});
