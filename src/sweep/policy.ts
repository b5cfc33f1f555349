/**
 * What becomes of a purchase on the cars that its numbers may stand for, if the parts are measured before they are cut.
 *
 *   car k: what the bench shows of it --sweep--> for each stack the cuts, stop and spacer that score best there
 *          the truth of it            --judge--> that build, and the one that was planned
 *
 * Everything that is bought stays as planned: only what is cut or chosen with the parts in hand is chosen anew, for each
 * corner by its own score. Where nothing works by what the bench shows, it is built as planned.
 */
import { type Cars, carsOf, DRAWS } from '../advice/cars.ts';
import { type Built, buildsOf, builtOn, expectedScorer, type PricedBuilds } from '../advice/randomBuilds.ts';
import { cornerAt, type Digits, digitsOf, indexOf, STACK_FAMILIES, stackOf } from '../model/corner/options.ts';
import { cornerPrice } from '../model/corner/score.ts';
import { siteOf } from '../model/corner/site.ts';
import { MADE } from '../model/parts.ts';
import {
  type AxleName,
  type AxleOptions,
  FAMILIES,
  type Family,
  type Scenario,
  type Setup,
} from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import type { BenchBuilds } from '../result/advice.ts';
import { sweepKernel } from './kernel.ts';
import { type AxleLayout, axleLayout } from './layout.ts';
import type { Tally } from './tally.ts';

/** One corner on every car: cut as planned, and as the bench asks. */
export interface CornerBuilds {
  readonly planned: PricedBuilds;
  readonly measured: PricedBuilds;
}

/** Sweeps a whole layout; the kernel, or its judge. */
export type SweepWhole = (layout: AxleLayout) => Tally;

const byKernel: SweepWhole = (layout) => sweepKernel(layout, 0, layout.assemblies).tally;

/** What becomes of a setup's pairs on every car. */
export function pairBuilder(
  { ranking }: Scenario,
  setup: Setup,
): (front: CornerBuilds, rear: CornerBuilds) => BenchBuilds {
  const expected = expectedScorer(setup, ranking);
  return (front, rear) => {
    const builds = (k: keyof CornerBuilds) => ({
      ...buildsOf(front[k].builds, rear[k].builds, setup),
      expected_score: expected(front[k], rear[k]),
    });
    return { as_planned: builds('planned'), measured_first: builds('measured') };
  };
}

/** How many cars are built between two words on how far it is. */
const BATCH = 32;

/** Planned combinations of an axle on every car. @param wanted their indices, each once @param count of cars */
export function* buildCorners(
  scenario: Scenario,
  setup: Setup,
  axle: AxleName,
  wanted: readonly number[],
  count = DRAWS.count,
  sweep = byKernel,
): Steps<Map<number, CornerBuilds>> {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, setup, axle);
  const found = new Map<number, CornerBuilds>();
  for (const purchases of boughtAlike(options, wanted)) {
    const cars = carsOf({ site, options: purchases.options }, scenario, count);
    const builds = purchases.planned.map((plan) => ({ plan, planned: [] as Built[], measured: [] as Built[] }));
    for (let k = 0; k < cars.count; k++) {
      if (k % BATCH === 0) yield { what: `builds on ${cars.count} cars, ${axle}`, done: k, of: cars.count };
      buildCar(scenario, purchases, cars, k, builds, sweep);
    }
    for (const { plan, planned, measured } of builds) {
      const price = cornerPrice(cornerAt(purchases.options, plan.index));
      found.set(plan.number, { planned: { builds: planned, price }, measured: { builds: measured, price } });
    }
  }
  return found;
}

interface Building {
  readonly plan: Plan;
  readonly planned: Built[];
  readonly measured: Built[];
}

/** Car k built with each purchase, twice: as planned, and with what scores best by what the bench shows. */
function buildCar(
  { ranking }: Scenario,
  { options }: Purchases,
  cars: Cars,
  k: number,
  builds: readonly Building[],
  sweep: SweepWhole,
): void {
  const shown = cars.shown(k);
  const truth = cars.truth(k);
  const { classes } = sweep(axleLayout(shown.site, shown.options, ranking));
  const built = new Map<number, Built>();
  const builtAs = (index: number) => {
    const known = built.get(index) ?? builtOn(truth.site, cornerAt(truth.options, index), ranking);
    built.set(index, known);
    return known;
  };
  const stacks = options.helper.length * options.spring.length;
  for (const { plan, planned, measured } of builds) {
    planned.push(builtAs(plan.index));
    measured.push(builtAs(bestOf(classes[stackOf(plan.index, stacks)] as Tally['classes'][number]) ?? plan.index));
  }
}

/** The combination that scores best, of equals the first; null where none works. */
function bestOf(classes: Tally['classes'][number]): number | null {
  let best: Tally['classes'][number][number]['best'] = null;
  for (const { best: one } of classes) {
    if (one === null) continue;
    const isBetter =
      best === null || one.logScore > best.logScore || (one.logScore === best.logScore && one.index < best.index);
    if (isBetter) best = one;
  }
  return best?.index ?? null;
}

/** A planned combination: its number among all of its axle, and its index among those that are bought alike. */
interface Plan {
  readonly number: number;
  readonly index: number;
}

/** Combinations that differ by what is made, and by the stacks of those planned. */
export interface Purchases {
  readonly options: AxleOptions;
  readonly planned: readonly Plan[];
}

/** Planned combinations by what is bought besides the stack, each group with every choice that is left to the bench. */
export function boughtAlike(options: AxleOptions, planned: readonly number[]): Purchases[] {
  const groups = new Map<string, { readonly number: number; readonly digits: Digits }[]>();
  for (const number of planned) {
    const digits = digitsOf(options, number);
    const key = JSON.stringify(BOUGHT.map((family) => asBought(family, options[family][digits[family]] ?? null)));
    groups.set(key, [...(groups.get(key) ?? []), { number, digits }]);
  }
  return [...groups.values()].map((members) => {
    const [{ digits: first }] = members as [(typeof members)[number]];
    const places = Object.fromEntries(
      FAMILIES.map((family) => [
        family,
        STACK_FAMILIES.includes(family)
          ? [...new Set(members.map(({ digits }) => digits[family]))].sort((a, b) => a - b)
          : madeOf(options, family, first[family]),
      ]),
    ) as Record<Family, number[]>;
    const own = Object.fromEntries(
      FAMILIES.map((family) => [family, places[family].map((place) => options[family][place])]),
    ) as unknown as AxleOptions;
    const indexOfDigits = (digits: Digits) =>
      indexOf(
        own,
        Object.fromEntries(
          FAMILIES.map((family) => [family, places[family].indexOf(digits[family])]),
        ) as unknown as Digits,
      );
    return { options: own, planned: members.map(({ number, digits }) => ({ number, index: indexOfDigits(digits) })) };
  });
}

const BOUGHT = FAMILIES.filter((family) => !STACK_FAMILIES.includes(family));

/** Every option of a family that is bought as this one. */
function madeOf(options: AxleOptions, family: Family, place: number): number[] {
  const bought = (k: number) => asBought(family, options[family][k] ?? null);
  return options[family].flatMap((_, k) => (bought(k) === bought(place) ? [k] : []));
}

/** A part without what is made of it. */
function asBought(family: Family, part: AxleOptions[Family][number] | null): string {
  const made = MADE[family] ?? [];
  return JSON.stringify(part, (key, value) => (made.includes(key) ? undefined : value));
}
