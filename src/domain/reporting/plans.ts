/** The plans over several setups as records of the result, each combination judged in full. */
import { orderOver } from '../advice/order.ts';
import { cornerId, fnv1a, pairId, toBase32 } from '../ids.ts';
import { scoreOf } from '../ranking/criteria.ts';
import type { BuildSheet, Combination, PlanPart, PlanRecord, PlansResult } from '../result.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Family, type PlanWish, type Setup } from '../scenario.ts';
import { allCriteria, combinationOf, type JudgedPair, withoutBands } from './combination.ts';
import { buildSheetOf } from './sheet.ts';

/** The families of which a second set is compared with one set for all. */
export const SPRING_FAMILIES: readonly Family[] = ['helper', 'spring'];

export type PlanChoice = readonly Readonly<Record<AxleName, number>>[];

/** Plans as a search finds them: indices of front and rear combinations per setup, in the order of the wish. */
export interface PlanFindings {
  readonly wish: PlanWish;
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
export function plansResultOf(
  findings: PlanFindings,
  judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair,
  known: readonly Combination[],
  fingerprint: string,
): PlansResult {
  const { wish, setups, workable } = findings;
  const [best] = findings.plans;
  const book = new Book(setups, judge, known, fingerprint);
  const record = (choice: PlanChoice | null) => (choice === null ? null : book.record(choice));
  return {
    setups: setups.map((setup) => setup.name),
    swapped: wish.swapped,
    shared: FAMILIES.filter((family) => !wish.swapped.includes(family)),
    workable,
    plans: findings.plans.map((choice) => book.record(choice)),
    ...(best ? { sheets: book.sheets(best) } : {}),
    comparison: {
      one_set: record(findings.oneSet),
      own_sets: record(findings.ownSets),
      alone: findings.alone.map((choice, s) => (choice === null ? null : book.part(setups[s] as Setup, choice))),
    },
    combinations: book.added,
  };
}

/** Judges each combination once and keeps those that no shortlist holds. */
class Book {
  readonly added: { readonly setup: string; readonly combination: Combination }[] = [];
  readonly #setups: readonly Setup[];
  readonly #judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair;
  readonly #known: Set<string>;
  readonly #fingerprint: string;

  constructor(
    setups: readonly Setup[],
    judge: (setup: Setup, choice: PlanChoice[number]) => JudgedPair,
    known: readonly Combination[],
    fingerprint: string,
  ) {
    this.#setups = setups;
    this.#judge = judge;
    this.#known = new Set(known.map(({ id }) => id));
    this.#fingerprint = fingerprint;
  }

  sheets(choice: PlanChoice): BuildSheet[] {
    return this.#pairsOf(choice).map(buildSheetOf);
  }

  record(choice: PlanChoice): PlanRecord {
    const pairs = this.#pairsOf(choice);
    const parts = pairs.map((pair) => this.#partOf(pair));
    const product = parts.reduce((sum, { score }) => sum * score, 1);
    const digest = toBase32(fnv1a(parts.map(({ id }) => id).join(' '))).padStart(7, '0');
    return {
      id: `plan-${digest}`,
      score: product ** (1 / parts.length),
      price: priceOf(pairs, FAMILIES),
      springs_price: priceOf(pairs, SPRING_FAMILIES),
      order: orderOver(
        pairs.map(({ workings: { front, rear } }) => ({ front: front.state.corner, rear: rear.state.corner })),
      ),
      setups: parts,
    };
  }

  #pairsOf(choice: PlanChoice): JudgedPair[] {
    return choice.map((one, s) => this.#judge(this.#setups[s] as Setup, one));
  }

  part(setup: Setup, choice: PlanChoice[number]): PlanPart {
    return this.#partOf(this.#judge(setup, choice));
  }

  #partOf(pair: JudgedPair): PlanPart {
    const { setup, indices } = pair;
    const id = pairId({ setup: setup.name, ...indices }, this.#fingerprint);
    if (!this.#known.has(id)) {
      this.#known.add(id);
      this.added.push({ setup: setup.name, combination: withoutBands(combinationOf(pair, 0, this.#fingerprint)) });
    }
    const criteria = allCriteria(pair);
    const [front, rear] = AXLE_NAMES.map((axle) => cornerId(axle, indices[axle])) as [string, string];
    return { setup: setup.name, id, front, rear, score: scoreOf(criteria), criteria };
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
