/** The plans over several setups as records of the result, each combination judged in full. */
import { scoreOf } from '../model/corner/score.ts';
import { cornerId, fnv1a, pairId, toBase32 } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Family, type PlanSettings, type Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import type { PlanPurchase, PurchaseAdvice } from '../result/advice.ts';
import { allCriteria, combinationOf, type JudgedPair, withoutBands } from '../result/records/combination.ts';
import { buildSheetOf } from '../result/records/sheet.ts';
import type { Combination, PlanPart, PlanRecord, PlansResult } from '../result/result.ts';
import { purchaseAdvice } from './advice.ts';
import { orderFor } from './order.ts';
import { buildsOfPair } from './randomBuilds.ts';
import { sharedRanges } from './ranges.ts';

/** The families of which a second set is compared with one set for all. */
export const SPRING_FAMILIES: readonly Family[] = ['helper', 'spring'];

export type PlanChoice = readonly Readonly<Record<AxleName, number>>[];

/** Plans as a search finds them: indices of front and rear combinations per setup, in the order asked for. */
export interface PlanFindings {
  readonly wish: PlanSettings;
  readonly setups: readonly Setup[];
  readonly workable: Readonly<Record<AxleName, number>>;
  /** Best first. */
  readonly plans: readonly PlanChoice[];
  readonly oneSet: PlanChoice | null;
  readonly ownSets: PlanChoice | null;
  /** The setups' own best pairs; null where a setup has none. */
  readonly alone: readonly (PlanChoice[number] | null)[];
}

/**
 * @param judge judges a pair of combinations in a setup
 * @param known combinations that stand in a shortlist already
 */
export function* plansResultOf(
  findings: PlanFindings,
  judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair,
  known: readonly Combination[],
  fingerprint: string,
): Steps<PlansResult> {
  const { wish, setups, workable } = findings;
  const [best] = findings.plans;
  const book = new Book(setups, judge, known, fingerprint);
  const record = (choice: PlanChoice | null) => (choice === null ? null : book.record(choice));
  const shared = FAMILIES.filter((family) => !wish.swapped.includes(family));
  // Before any other record, so that what is bought stands in the book in full.
  const bought = best
    ? { sheets: book.pairsOf(best).map(buildSheetOf), purchase: yield* book.purchase(best, shared) }
    : {};
  return {
    setups: setups.map((setup) => setup.name),
    swapped: wish.swapped,
    shared,
    workable,
    plans: findings.plans.map((choice) => book.record(choice)),
    ...bought,
    comparison: {
      one_set: record(findings.oneSet),
      own_sets: record(findings.ownSets),
      alone: findings.alone.map((choice, s) =>
        choice === null ? null : book.partOf(judge(setups[s] as Setup, choice)),
      ),
    },
    combinations: book.added,
  };
}

/** Collects the combinations of the plan that is bought in full, of others those that no shortlist holds. */
class Book {
  readonly added: { readonly setup: string; readonly combination: Combination }[] = [];
  readonly #setups: readonly Setup[];
  readonly #judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair;
  readonly #known: readonly Combination[];
  readonly #fingerprint: string;

  constructor(
    setups: readonly Setup[],
    judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair,
    known: readonly Combination[],
    fingerprint: string,
  ) {
    this.#setups = setups;
    this.#judge = judge;
    this.#known = known;
    this.#fingerprint = fingerprint;
  }

  /** Puts the plan's combinations into the book in full. */
  *purchase(choice: PlanChoice, shared: readonly Family[]): Steps<PlanPurchase> {
    const found: PurchaseAdvice[] = [];
    for (const pair of this.pairsOf(choice)) {
      const combination = combinationOf(pair, 0, this.#fingerprint, true);
      // A setup's own best stands in full already.
      if (!this.#known.some(({ id, rank }) => id === combination.id && rank === 1)) this.#add(pair.setup, combination);
      found.push(yield* purchaseAdvice(pair, pair, combination));
    }
    const ranges = (axle: AxleName) =>
      sharedRanges(
        found.map(({ ranges: own }) => own[axle]),
        shared,
      );
    return {
      setups: found.map(({ dominated_by: _, order: __, ranges: ___, ...share }) => share),
      ranges: { front: ranges('front'), rear: ranges('rear') },
    };
  }

  #add(setup: Setup, combination: Combination): void {
    this.added.push({ setup: setup.name, combination });
  }

  record(choice: PlanChoice): PlanRecord {
    const pairs = this.pairsOf(choice);
    const parts = pairs.map((pair) => this.partOf(pair));
    const product = parts.reduce((sum, { score }) => sum * score, 1);
    const digest = toBase32(fnv1a(parts.map(({ id }) => id).join(' '))).padStart(7, '0');
    return {
      id: `plan-${digest}`,
      score: product ** (1 / parts.length),
      price: priceOf(pairs, FAMILIES),
      springs_price: priceOf(pairs, SPRING_FAMILIES),
      order: orderFor(
        pairs.map(({ workings: { front, rear } }) => ({ front: front.state.corner, rear: rear.state.corner })),
      ),
      setups: parts,
    };
  }

  pairsOf(choice: PlanChoice): JudgedPair[] {
    return choice.map((one, s) => this.#judge(this.#setups[s] as Setup, one));
  }

  partOf(pair: JudgedPair): PlanPart {
    const { setup, indices } = pair;
    const id = pairId({ setup: setup.name, ...indices }, this.#fingerprint);
    if (![...this.#known, ...this.added.map(({ combination }) => combination)].some((one) => one.id === id)) {
      this.#add(setup, withoutBands(combinationOf(pair, 0, this.#fingerprint)));
    }
    const criteria = allCriteria(pair);
    const [front, rear] = AXLE_NAMES.map((axle) => cornerId(axle, indices[axle])) as [string, string];
    return { setup: setup.name, id, front, rear, score: scoreOf(criteria), criteria, builds: buildsOfPair(pair) };
  }
}

/** Every part that some setup needs, once, for both sides of the car; null as soon as one has no price. */
function priceOf(pairs: readonly JudgedPair[], families: readonly Family[]): number | null {
  let total = 0;
  for (const axle of AXLE_NAMES) {
    for (const family of families) {
      // Options are single objects: a setup that makes the same choice needs nothing more.
      for (const part of new Set(pairs.map((pair) => pair.workings[axle].state.corner[family]))) {
        if (part === null) continue;
        if (part.price === null) return null;
        total += 2 * part.price;
      }
    }
  }
  return total;
}
