/**
 * What workable combinations are ranked by. How a criterion is judged stands in `ranking/criteria.ts`; the fields of the
 * scenario, the scores, their names on the page and the worst case all follow from the two tables.
 */

export interface Criterion {
  readonly label: string;
  /** What its weight's field asks for. */
  readonly asks: string;
  /** Who is judged: each corner, for half the weight; the front corner alone; the pair. */
  readonly scope: 'corner' | 'front' | 'pair';
  /** Where the scenario names none: common practice, no source. */
  readonly weight: number;
}

/** In the order of the scenario's fields; scores tell those of both corners first, then the front's, then the pair's. */
export const CRITERIA = {
  bump_travel: {
    label: 'bump travel',
    asks: 'remaining bump travel, from least to good',
    scope: 'corner',
    weight: 1,
  },
  height_coverage: {
    label: 'wanted heights covered',
    asks: 'share of the wanted height range that can be reached',
    scope: 'corner',
    weight: 1,
  },
  balance: {
    label: 'front-rear balance',
    asks: 'rear over front frequency against its target',
    scope: 'pair',
    weight: 1,
  },
  front_frequency: {
    label: 'wanted frequency',
    asks: 'front frequency against the wanted one',
    scope: 'front',
    weight: 0,
  },
  price: {
    label: 'price',
    asks: 'price of all parts of the car',
    scope: 'pair',
    weight: 0,
  },
  clearance: {
    label: 'tightest clearance',
    asks: 'thinnest clearance beyond its margin',
    scope: 'corner',
    weight: 0.5,
  },
} as const satisfies Readonly<Record<string, Criterion>>;

export type CriterionName = keyof typeof CRITERIA;
export const CRITERION_NAMES = Object.keys(CRITERIA) as readonly CriterionName[];

type Within<S extends Criterion['scope']> = {
  [N in CriterionName]: (typeof CRITERIA)[N]['scope'] extends S ? N : never;
}[CriterionName];
export type PairCriterion = Within<'pair'>;
export type CornerCriterion = Exclude<CriterionName, PairCriterion>;

const within = (scope: Criterion['scope']) => CRITERION_NAMES.filter((name) => CRITERIA[name].scope === scope);
export const CORNER_CRITERIA = [...within('corner'), ...within('front')] as readonly CornerCriterion[];
export const PAIR_CRITERIA = within('pair') as readonly PairCriterion[];
