/** From the shortlist to a purchase: what to order, how free its cuts are, what becomes of random builds, which rates are asked for. */
import type { Order, OrderLine, PurchaseAdvice, SetupAdvice, WorkingRange } from '../../domain/advice/types.ts';
import type { Combination, Result, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { drawsText, RANKED_BY, rangeLabel, rangeText, rateText } from '../adviceText.ts';
import { answerOf } from '../answers.ts';
import { anchorOf } from '../escape.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../labels.ts';
import { fixed, PAGE, percent } from '../numbers.ts';
import { type Measure, measure } from '../read.ts';
import { estimateText, type FailView, failViews } from '../working.ts';

export interface PurchaseView {
  readonly setup: string;
  /** Behind a plan that is bought: what the setup would order by itself. */
  readonly isBehind: boolean;
  readonly id: string;
  readonly anchor: string;
  readonly rankedBy: string;
  readonly noWorst: string;
  readonly draws: string;
  readonly currency: string;
  readonly orderCaption: string;
  readonly order: OrderView;
  readonly freedom: readonly FreedomView[];
  readonly rows: readonly PurchaseRow[];
  /** Some purchase has a worst case that comes to something; else the column says nothing. */
  readonly hasWorst: boolean;
  readonly hasPrices: boolean;
  /** None is beaten by another: then no column says so. */
  readonly allStand: boolean;
  readonly rates: readonly { readonly axle: string; readonly text: string }[];
}

export interface OrderView {
  readonly rows: readonly OrderRow[];
  /** Parts at no price: there already. */
  readonly owned: string;
  readonly total: string;
  readonly unpriced: string;
  /** Nothing has a price: then nothing is said of money. */
  readonly hasPrices: boolean;
}

export interface FreedomView {
  readonly axle: string;
  readonly rows: readonly FreedomRow[];
}

/** What the best plan over several setups buys. */
export interface PlanOrderView {
  readonly setups: string;
  readonly id: string;
  readonly currency: string;
  readonly order: OrderView;
  /** Empty where the plan was judged by an older version. */
  readonly freedom: readonly FreedomView[];
}

export interface OrderRow {
  readonly family: string;
  readonly part: string;
  readonly spring: { readonly freeLength: Measure; readonly rate: Measure } | null;
  readonly axles: string;
  readonly count: string;
  readonly price: string;
  readonly total: string;
}

export interface FreedomRow {
  readonly label: string;
  readonly text: string;
}

export interface PurchaseRow {
  readonly rank: string;
  readonly id: string;
  readonly anchor: string;
  /** Null: nothing on the shortlist is better in everything. */
  readonly beatenBy: { readonly id: string; readonly anchor: string } | null;
  readonly share: string;
  readonly width: string;
  /** Shares of the builds that fail, the worst first. */
  readonly fails: readonly FailView[];
  readonly isEstimated: boolean;
  readonly worst: string;
  readonly total: string;
  readonly freedom: readonly string[];
}

export function purchaseView(result: Result, setup: SetupResult): PurchaseView | null {
  const { advice, shortlist } = setup;
  const best = advice?.purchases[0];
  if (!advice || !best || !shortlist[0]?.workable) return null;
  return {
    setup: setup.name,
    isBehind: Boolean(answerOf(result, setup)?.plan),
    id: best.id,
    anchor: anchorOf(best.id),
    rankedBy: RANKED_BY[advice.ranked_by],
    noWorst: NO_WORST,
    draws: drawsText(advice),
    currency: result.scenario.currency,
    orderCaption: `Parts to order for the best purchase of setup ${setup.name}`,
    order: orderView(best.order),
    freedom: freedomViews(best),
    hasWorst: hasWorst(advice),
    hasPrices: hasPrices(best.order),
    allStand: advice.purchases.every(({ dominated_by }) => dominated_by === null),
    rows: advice.purchases.map((purchase, k) => purchaseRow(purchase, shortlist[k], k + 1)),
    rates: AXLE_NAMES.flatMap((axle) => {
      const rate = advice.rates[axle];
      return rate ? [{ axle: AXLE_TITLES[axle], text: rateText(rate, PAGE) }] : [];
    }),
  };
}

export function planOrderView({ plans, scenario }: Result): PlanOrderView | null {
  const best = plans?.plans[0];
  if (!plans || !best?.order) return null;
  return {
    setups: plans.setups.join(' and '),
    id: best.id,
    currency: scenario.currency,
    order: orderView(best.order),
    freedom: plans.purchase ? freedomViews(plans.purchase) : [],
  };
}

function freedomViews({ ranges }: Pick<PurchaseAdvice, 'ranges'>): FreedomView[] {
  return AXLE_NAMES.map((axle) => ({ axle: AXLE_TITLES[axle], rows: ranges[axle].map(freedomRow) }));
}

/** A column of nothing but 0 is left out. */
export function hasWorst({ purchases }: SetupAdvice): boolean {
  return purchases.some(({ worst_score }) => fixed(worst_score, 3, PAGE) !== fixed(0, 3, PAGE));
}

export function hasPrices({ lines }: Order): boolean {
  return lines.some(({ price }) => price !== null);
}

/** Instead of the column of worst-case scores. */
export const NO_WORST =
  'With every tolerance against it, each of these purchases comes to nothing by one criterion or another, so that their worst-case scores, all 0, do not tell them apart.';

function orderView(order: Order): OrderView {
  const isOwned = ({ price }: OrderLine) => price === 0;
  return {
    rows: order.lines.filter((line) => !isOwned(line)).map(orderRow),
    owned: order.lines
      .filter(isOwned)
      .map(({ part, count }) => `${count} ${part}`)
      .join(', '),
    total: totalText(order),
    unpriced: order.unpriced.join(', '),
    hasPrices: hasPrices(order),
  };
}

function orderRow({ family, part, free_length_mm, rate_n_per_mm, axles, count, price, total }: OrderLine): OrderRow {
  const sprung = free_length_mm !== null && rate_n_per_mm !== null;
  return {
    family: FAMILY_LABELS[family],
    part,
    spring: sprung ? { freeLength: measure(free_length_mm, 'length'), rate: measure(rate_n_per_mm, 'rate') } : null,
    axles: axles.join(', '),
    count: String(count),
    price: fixed(price, 2, PAGE),
    total: fixed(total, 2, PAGE),
  };
}

function freedomRow(range: WorkingRange): FreedomRow {
  return { label: rangeLabel(range), text: rangeText(range, PAGE) };
}

function purchaseRow(purchase: PurchaseAdvice, combination: Combination | undefined, rank: number): PurchaseRow {
  const { id, dominated_by, share, worst_score, ranges } = purchase;
  return {
    rank: String(rank),
    id,
    anchor: anchorOf(id),
    beatenBy: dominated_by === null ? null : { id: dominated_by, anchor: anchorOf(dominated_by) },
    share: percent(share, 1, PAGE),
    width: fixed(100 * share, 1, PAGE),
    fails: failViews(purchase, PAGE),
    isEstimated: combination !== undefined && estimateText(combination) !== null,
    worst: fixed(worst_score, 3, PAGE),
    total: totalText(purchase.order),
    freedom: AXLE_NAMES.map((axle) => cutsText(ranges[axle])),
  };
}

/** Cuts and spacers only: the dimensions that are made, not bought. */
function cutsText(ranges: readonly WorkingRange[]): string {
  const cuts = ranges.filter((range) => range.kind === 'dimension');
  return cuts.map((range) => `${rangeLabel(range)} ${shortRange(range)}`).join('; ');
}

function shortRange({ works_mm, gaps_mm }: Extract<WorkingRange, { kind: 'dimension' }>): string {
  const [from, to] = [works_mm[0], works_mm.at(-1)];
  const text = from === to ? fixed(from, 1, PAGE) : `${fixed(from, 1, PAGE)} to ${fixed(to, 1, PAGE)}`;
  return `${text}\u00a0mm${gaps_mm.length > 0 ? ' with gaps' : ''}`;
}

/** Nothing priced: a dash; a part sum says so. */
export function totalText(order: Order): string {
  if (!hasPrices(order)) return PAGE.none;
  return `${fixed(order.total, 2, PAGE)}${order.unpriced.length > 0 ? ' and what has no price' : ''}`;
}
