/** From the shortlist to a purchase: what to order, how free its cuts are, what becomes of random builds, which rates are asked for. */
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Order, OrderLine, PurchaseAdvice, SetupAdvice, WorkingRange } from '../../result/advice.ts';
import type { Combination, Result, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { drawsText, RANKED_BY, rangeLabel, rangeText, rateText } from '../text/adviceText.ts';
import { answerOf } from '../text/answers.ts';
import { anchorOf } from '../text/escape.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../text/labels.ts';
import { fixed, PAGE, percent } from '../text/numbers.ts';
import { measure } from '../text/parts.ts';
import { consideredText, estimateText, expectedText, failViews } from '../text/working.ts';

export const purchase = section({
  id: 'purchase',
  link: 'Purchase',
  title: 'From the ranking to a purchase',
  view: ({ result, found, isBuild }) => {
    const purchases = isBuild ? null : ofSetups(found.map((setup) => purchaseView(result, setup)));
    return purchases && { planOrder: planOrderView(result), ...purchases };
  },
  prints: false,
  leaves: 'the purchases compared',
});

export function purchaseView(result: Result, setup: SetupResult) {
  const { advice, shortlist } = setup;
  const best = advice?.purchases[0];
  if (!advice || !best || !shortlist[0]?.workable) return null;
  return {
    setup: setup.name,
    /** Behind a plan that is bought: what the setup would order by itself. */
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
    /** Some purchase has a worst case that comes to something; else the column says nothing. */
    hasWorst: hasWorst(advice),
    /** Where it was ranked by what is expected: in one sentence for the best, and among which. */
    expected: best.expected ? expectedText(best.expected, advice.draws.count, PAGE) : null,
    considered: advice.considered ? consideredText(advice.considered) : null,
    hasPrices: hasPrices(best.order),
    /** None is beaten by another: then no column says so. */
    allStand: advice.purchases.every(({ dominated_by }) => dominated_by === null),
    rows: advice.purchases.map((purchase, k) => purchaseRow(purchase, shortlist[k], k + 1)),
    rates: AXLE_NAMES.flatMap((axle) => {
      const rate = advice.rates[axle];
      return rate ? [{ axle: AXLE_TITLES[axle], text: rateText(rate, PAGE) }] : [];
    }),
  };
}

/** What the best plan over several setups buys. */
export function planOrderView({ plans, scenario }: Result) {
  const best = plans?.plans[0];
  if (!plans || !best?.order) return null;
  return {
    setups: plans.setups.join(' and '),
    id: best.id,
    currency: scenario.currency,
    order: orderView(best.order),
    /** Empty where the plan was judged by an older version. */
    freedom: plans.purchase ? freedomViews(plans.purchase) : [],
  };
}

function freedomViews({ ranges }: Pick<PurchaseAdvice, 'ranges'>) {
  return AXLE_NAMES.map((axle) => ({
    axle: AXLE_TITLES[axle],
    rows: ranges[axle].map((range) => ({ label: rangeLabel(range), text: rangeText(range, PAGE) })),
  }));
}

/** A column of nothing but 0 is left out. */
export function hasWorst({ purchases }: SetupAdvice): boolean {
  return purchases.some(({ worst_score }) => fixed(worst_score, 3, PAGE) !== fixed(0, 3, PAGE));
}

export function hasPrices({ lines }: Order): boolean {
  return lines.some(({ price }) => price !== null);
}

/** The columns of text that the catalogues of the ordered parts have, the first seen first. */
export function noteColumns({ lines }: Order): readonly string[] {
  return [...new Set(lines.flatMap(({ notes = [] }) => notes.map(({ column }) => column)))];
}

export function noteIn({ notes = [] }: OrderLine, column: string): string {
  return notes.find((note) => note.column === column)?.text ?? '';
}

/** Instead of the column of worst-case scores. */
export const NO_WORST =
  'With every tolerance against it, each of these purchases comes to nothing by one criterion or another, so that their worst-case scores, all 0, do not tell them apart.';

function orderView(order: Order) {
  const isOwned = ({ price }: OrderLine) => price === 0;
  const noted = noteColumns(order);
  return {
    rows: order.lines
      .filter((line) => !isOwned(line))
      .map((line) => ({ ...orderRow(line), notes: noted.map((column) => noteIn(line, column)) })),
    noted,
    /** Parts at no price: there already. */
    owned: order.lines
      .filter(isOwned)
      .map(({ part, count }) => `${count} ${part}`)
      .join(', '),
    total: totalText(order),
    unpriced: order.unpriced.join(', '),
    /** Nothing has a price: then nothing is said of money. */
    hasPrices: hasPrices(order),
  };
}

function orderRow({ family, part, free_length_mm, rate_n_per_mm, axles, count, price, total }: OrderLine) {
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

function purchaseRow(purchase: PurchaseAdvice, combination: Combination | undefined, rank: number) {
  const { id, dominated_by, share, worst_score, ranges, expected } = purchase;
  return {
    rank: String(rank),
    id,
    anchor: anchorOf(id),
    /** Null: nothing on the shortlist is better in everything. */
    beatenBy: dominated_by === null ? null : { id: dominated_by, anchor: anchorOf(dominated_by) },
    share: percent(share, 1, PAGE),
    width: fixed(100 * share, 1, PAGE),
    /** Shares of the builds that fail, the worst first. */
    fails: failViews(purchase, PAGE),
    isEstimated: combination !== undefined && estimateText(combination) !== null,
    worst: fixed(worst_score, 3, PAGE),
    measuredFirst: expected ? percent(expected.measured_first.share, 1, PAGE) : PAGE.none,
    expectedScore: fixed(expected?.measured_first.expected_score, 3, PAGE),
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
