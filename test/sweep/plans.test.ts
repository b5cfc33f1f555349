/** The best plans, against every plan formed from corners that the scalar model judged one by one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { firstFailure } from '../../src/domain/corner/findings.ts';
import { siteOf } from '../../src/domain/corner/site.ts';
import { cornerState } from '../../src/domain/corner/state.ts';
import { heightWindow } from '../../src/domain/corner/window.ts';
import type { Working } from '../../src/domain/quantities/quantity.ts';
import {
  type Candidate,
  candidateOf,
  cornerCriteria,
  isBalanced,
  logSum,
  pairCriteria,
  scoreOf,
} from '../../src/domain/ranking/criteria.ts';
import { type AxleName, FAMILIES, type Family, type Scenario, type Setup } from '../../src/domain/scenario.ts';
import { finish } from '../../src/domain/steps.ts';
import { sweepKernel } from '../../src/sweep/kernel.ts';
import { axleLayout } from '../../src/sweep/layout.ts';
import { combinationCount, cornerAt } from '../../src/sweep/options.ts';
import { pairUp } from '../../src/sweep/pairing.ts';
import { planScenario, type SetupBests } from '../../src/sweep/plans.ts';
import { candidatesOf } from '../../src/sweep/tally.ts';
import { smallScenario } from '../setup/planScenarios.ts';

interface Judged {
  readonly candidate: Candidate;
  readonly working: Working;
}
type Tuple = readonly Judged[];
interface BrutePlan {
  readonly choices: readonly { readonly front: number; readonly rear: number }[];
  readonly worth: number;
  readonly score: number;
}

/** Every workable combination of an axle in a setup, by index. */
function judgedOf(scenario: Scenario, setup: Setup, axle: AxleName): Map<number, Judged> {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, setup, axle);
  const found = new Map<number, Judged>();
  for (let index = 0; index < combinationCount(options); index++) {
    const state = cornerState(site, cornerAt(options, index));
    if (firstFailure(state) !== null) continue;
    const working = { state, window: heightWindow(state) };
    found.set(index, { working, candidate: candidateOf(index, working, scenario.ranking) });
  }
  return found;
}

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

function tuplesOf(scenario: Scenario, axle: AxleName, swapped: readonly Family[]): Tuple[] {
  const judged = scenario.setups.map((setup) => [...judgedOf(scenario, setup, axle).values()]);
  const key = ({ candidate }: Judged) => sharedDigits(scenario, axle, swapped, candidate.index);
  return judged.reduce<Tuple[]>(
    (tuples, list) =>
      tuples.flatMap((tuple) => {
        const [first] = tuple;
        return list.filter((one) => first === undefined || key(one) === key(first)).map((one) => [...tuple, one]);
      }),
    [[]],
  );
}

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
    const ofFront = cornerCriteria(front.working, ranking);
    const ofRear = cornerCriteria(rear.working, ranking);
    const all = [...ofFront, ...ofRear, ...ofPair];
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

function bruteForce(scenario: Scenario, swapped: readonly Family[], keep: number): BrutePlan[] {
  const stacks = (axle: AxleName) => {
    const { helper, spring } = scenario.axles[axle].options;
    return helper.length * spring.length;
  };
  const [fronts, rears] = [tuplesOf(scenario, 'front', swapped), tuplesOf(scenario, 'rear', swapped)];
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
      const { tally } = sweepKernel(layout, 0, layout.heads);
      return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.count };
    });
    if (!front || !rear) throw new Error('two axles');
    return { axles: { front, rear }, pairs: pairUp(front, rear, setup, scenario.ranking) };
  });
}

const swaps = fc.constantFrom<readonly Family[]>(['helper', 'spring'], ['spring'], ['bumpStop'], ['mount', 'spring']);

test('the best plans are those of all plans formed and sorted, whatever is shared, ties to the lower indices', () => {
  const seen = { plans: 0, ties: 0, zeros: 0, none: 0 };
  fc.assert(
    fc.property(smallScenario, swaps, fc.integer({ min: 1, max: 5 }), (scenario, swapped, keep) => {
      const tuples = tuplesOf(scenario, 'front', swapped).length * tuplesOf(scenario, 'rear', swapped).length;
      fc.pre(tuples < 100_000);
      const names = scenario.setups.map((setup) => setup.name);
      const { searches } = finish(
        planScenario(scenario, names, bestsOf(scenario), [
          { swapped: [], keep },
          { swapped, keep },
        ]),
      );
      for (const { swapped: wish, plans } of searches) {
        const expected = bruteForce(scenario, wish, keep);
        expect(plans.map((plan) => plan.choices)).toEqual(expected.map((plan) => plan.choices));
        for (const [k, { score }] of plans.entries()) expect(score).toBeCloseTo(expected[k]?.score ?? Number.NaN, 9);
        seen.plans += plans.length;
        if (plans.length === 0) seen.none++;
        seen.ties += expected.filter((plan, k) => plan.worth === expected[k + 1]?.worth).length;
        seen.zeros += expected.filter((plan) => plan.score === 0).length;
      }
    }),
    { numRuns: 300 },
  );
  expect(seen.plans).toBeGreaterThan(120);
  expect(Math.min(seen.ties, seen.zeros, seen.none)).toBeGreaterThan(8);
}, 300_000);
