/** Section 1: what to buy per setup, in a sentence and a line of numbers, or why nothing works. */
import type { Combination, CornerReport, Flag, Result, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { anchorOf } from '../escape.ts';
import { AXLE_TITLES } from '../labels.ts';
import { count, fixed, PAGE, percent } from '../numbers.ts';
import { measure, quantityOf, wordOf } from '../read.ts';
import { type FailureView, failureViews } from './build.ts';
import { type CornerView, cornerView } from './corner.ts';
import { type NothingView, nothingView } from './nothing.ts';
import { thinnerSide } from './sides.ts';
import { type TightView, tightViews } from './sureness.ts';

/**
 * A clearance with less than this beyond its margin is named among what to measure first, mm: free length,
 * cut sleeve and cut stop are each good to about 1 mm, and they add up. Common practice, no source.
 */
export const THIN_SPARE = 3;

export interface AnswerView {
  readonly setup: string;
  readonly anchor: string;
  readonly isBuild: boolean;
  readonly workable: string;
  readonly best: BestView | null;
  /** Why nothing works; null where something does. */
  readonly nothing: NothingView | null;
}

export interface BestView {
  readonly id: string;
  readonly anchor: string;
  readonly works: boolean;
  /** How many checks fail, in words for a headline; empty when none does. */
  readonly failing: string;
  readonly failures: readonly FailureView[];
  readonly corners: readonly CornerView[];
  readonly basis: string;
  readonly ratio: string;
  readonly ratioTarget: string;
  readonly ratioFrom: string;
  readonly ratioTo: string;
  readonly score: string;
  readonly price: string | null;
  /** Share of builds within tolerance that work; null where nobody drew any. */
  readonly share: string | null;
  readonly currency: string;
  readonly estimates: readonly string[];
  readonly tight: readonly TightView[];
  readonly thin: readonly ThinView[];
  readonly thinSpare: string;
  readonly warnings: readonly string[];
  readonly notes: readonly string[];
  readonly measureFirst: boolean;
}

export interface ThinView {
  readonly axle: string;
  readonly name: string;
  readonly clearance: string;
  readonly spare: string;
}

export function answerView(result: Result, setup: SetupResult): AnswerView {
  const best = setup.shortlist[0];
  return {
    setup: setup.name,
    anchor: `setup-${anchorOf(setup.name)}`,
    isBuild: result.mode === 'build',
    workable: count(setup.pairs.workable, PAGE),
    best: best ? bestView(result, setup, best) : null,
    nothing: best ? null : nothingView(setup),
  };
}

function bestView(result: Result, setup: SetupResult, best: Combination): BestView {
  const estimates = messagesOf(best, 'estimate');
  const tight = tightViews(best);
  const thin = thinViews(best);
  const price = quantityOf(best.values, 'price_total');
  return {
    id: best.id,
    anchor: anchorOf(best.id),
    works: best.workable,
    failing: failing(best),
    failures: failureViews(best),
    corners: AXLE_NAMES.map((axle) => cornerView(setup, axle, best.axles[axle])),
    basis: setup.frequency_basis,
    ...balance(setup, best),
    score: fixed(best.score, 3, PAGE),
    price: price === null ? null : fixed(price, 2, PAGE),
    share: shareText(setup, best),
    currency: result.scenario.currency,
    estimates,
    tight,
    thin,
    thinSpare: fixed(THIN_SPARE, 0, PAGE),
    warnings: messagesOf(best, 'warning'),
    notes: messagesOf(best, 'note'),
    measureFirst: estimates.length + tight.length + thin.length > 0,
  };
}

function shareText({ advice }: SetupResult, { id }: Combination): string | null {
  const purchase = advice?.purchases.find((one) => one.id === id);
  return purchase ? percent(purchase.share, 1, PAGE) : null;
}

function balance({ balance: { target, from, to } }: SetupResult, best: Combination) {
  const show = (value: number | null) => fixed(value, 2, PAGE);
  return {
    ratio: show(quantityOf(best.values, 'frequency_ratio')),
    ratioTarget: show(target),
    ratioFrom: show(from),
    ratioTo: show(to),
  };
}

function failing({ failures, axles }: Combination): string {
  const n = failures.length + axles.front.failures.length + axles.rear.failures.length;
  return n === 0 ? '' : `${n} ${n === 1 ? 'check fails' : 'checks fail'}`;
}

/** Each sentence once, in the order front, rear, pair. */
export function messagesOf({ axles, flags }: Combination, kind: Flag['kind']): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags];
  return [...new Set(all.filter((flag) => flag.kind === kind).map((flag) => flag.message))];
}

/** Where a side's clearance is nearer its margin than at the mean load, the side is what to look at. */
function thinSide(axle: AxleName, corner: CornerReport): ThinView | null {
  const side = thinnerSide(corner);
  const spare = side ? quantityOf(side.report.values, 'thinnest_spare_mm') : null;
  if (side === null || spare === null || spare >= THIN_SPARE) return null;
  const contact = side.report.words.thinnest_contact ?? '';
  if (corner.tight.some((tight) => tight.contact === contact)) return null;
  const clearance = measure(quantityOf(side.report.values, 'thinnest_clearance_mm'), 'length');
  return {
    axle: `${AXLE_TITLES[axle]} ${side.name}`,
    name: contact,
    clearance: clearance.metric,
    spare: measure(spare, 'length').metric,
  };
}

function thinViews(best: Combination): ThinView[] {
  return AXLE_NAMES.flatMap((axle) => {
    const corner = best.axles[axle];
    const side = thinSide(axle, corner);
    if (side) return [side];
    const spare = quantityOf(corner.values, 'thinnest_spare_mm');
    if (spare === null || spare >= THIN_SPARE) return [];
    // What is tight is named already, with more to say.
    if (corner.tight.some(({ contact }) => contact === wordOf(corner, 'thinnest_contact'))) return [];
    const clearance = measure(quantityOf(corner.values, 'thinnest_clearance_mm'), 'length');
    return [
      {
        axle: AXLE_TITLES[axle],
        name: wordOf(corner, 'thinnest_contact'),
        clearance: clearance.metric,
        spare: measure(spare, 'length').metric,
      },
    ];
  });
}
