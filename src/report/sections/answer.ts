/** Section 1: what to buy per setup, in a sentence and a line of numbers, or why nothing works; and its own best alone. */
import type { Combination, CornerReport, Flag, Result, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { answerOf, triedOf } from '../answers.ts';
import { anchorOf } from '../escape.ts';
import { AXLE_TITLES } from '../labels.ts';
import { count, fixed, PAGE } from '../numbers.ts';
import { closedClearance, measure, quantityOf, wordOf } from '../read.ts';
import { type BuildsView, buildsView } from '../working.ts';
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
  /** The setup's part of the best plan: what is bought stands with the plan. */
  readonly isPlanned: boolean;
  /** Its own best, which is not bought: no other section is about it. */
  readonly isAlone: boolean;
  /** Its notes stand with it; with those of the other setups where a plan serves several. */
  readonly showsNotes: boolean;
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
  /** Null where nobody drew random builds. */
  readonly builds: BuildsView | null;
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
  /** With the stop fully closed, where full bump is judged under a load. */
  readonly closed: string | null;
  readonly spare: string;
}

export function answerView(result: Result, setup: SetupResult): AnswerView {
  const answer = answerOf(result, setup);
  return {
    ...setupView(result, setup, answer?.combination ?? null),
    anchor: `setup-${anchorOf(setup.name)}`,
    isPlanned: answer !== null && answer.plan !== null,
    isAlone: false,
    showsNotes: !result.plans?.plans[0],
  };
}

/** A setup’s own best behind the plan that is bought: what it would choose by itself. Null where there is no plan for it. */
export function aloneView(result: Result, setup: SetupResult): AnswerView | null {
  const [best] = setup.shortlist;
  if (!best || !answerOf(result, setup)?.plan) return null;
  return {
    ...setupView(result, setup, best),
    anchor: `alone-${anchorOf(setup.name)}`,
    isPlanned: false,
    isAlone: true,
    showsNotes: true,
  };
}

function setupView(result: Result, setup: SetupResult, best: Combination | null) {
  return {
    setup: setup.name,
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
    builds: buildsOfBest(result, setup, best),
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

function buildsOfBest(result: Result, setup: SetupResult, best: Combination): BuildsView | null {
  const tried = triedOf(result, setup, best.id);
  return setup.advice && tried ? buildsView(tried, best, setup.advice.draws.count) : null;
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

/** Each sentence once, in the order front, rear, pair; what is true of both axles stands once for both. */
export function messagesOf(
  { axles, flags }: Combination,
  kind: Flag['kind'],
  wanted: (flag: Flag) => boolean = () => true,
): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags];
  const messages = new Set(all.filter((flag) => flag.kind === kind && wanted(flag)).map((flag) => flag.message));
  return [...messages].flatMap((message) => {
    const [axle, text] = partsOf(message);
    if (!messages.has(`${axle === 'Front' ? 'Rear' : 'Front'}: ${text}`)) return [message];
    return axle === 'Front' ? [`Front and rear: ${text}`] : [];
  });
}

/** `Front: the stop ...` is told of an axle; other sentences are of none. */
function partsOf(message: string): readonly [axle: string | null, text: string] {
  const [, axle = null, text = message] = /^(Front|Rear): (.*)$/s.exec(message) ?? [];
  return [axle, text];
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
    closed: closedClearance(side.report.values, 'thinnest_clearance')?.metric ?? null,
    spare: measure(spare, 'length').metric,
  };
}

export function thinViews(best: Combination): ThinView[] {
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
        closed: closedClearance(corner.values, 'thinnest_clearance')?.metric ?? null,
        spare: measure(spare, 'length').metric,
      },
    ];
  });
}
