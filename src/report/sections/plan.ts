/** The plan over several setups: what to buy once, where each setup sets it, and what a second set of springs gains. */
import type { Combination, PlanRecord, PlansResult, Result } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../labels.ts';
import { count, fixed, PAGE, withUnits } from '../numbers.ts';
import { combinationOf, springsOf } from '../planParts.ts';
import { messagesOf } from './answer.ts';
import { type CornerView, cornerView } from './corner.ts';
import { type ComparisonView, comparisonView } from './planComparison.ts';

export interface PlanView {
  readonly setups: readonly string[];
  readonly swapped: string | null;
  readonly currency: string;
  /** Null where no plan works in every setup. */
  readonly best: BestPlanView | null;
  /** Combinations that work in every setup, where everything is shared. */
  readonly workable: { readonly front: string; readonly rear: string };
  /** The others, best first. */
  readonly others: readonly OtherPlanView[];
  readonly comparison: ComparisonView;
}

export interface BestPlanView {
  readonly id: string;
  readonly score: string;
  readonly price: string | null;
  /** What is bought and cut for all setups alike, or axle by axle what each setup has. */
  readonly axles: readonly PlanAxleView[];
  readonly rows: readonly PlanRow[];
  /** What to measure before buying, and what to look at twice, each said once. */
  readonly measureFirst: readonly { readonly tag: string; readonly text: string }[];
}

export interface PlanAxleView {
  readonly axle: string;
  /** Null where the setups differ: then `own` tells them apart. */
  readonly shared: CornerView | null;
  readonly own: readonly { readonly setup: string; readonly corner: CornerView }[];
}

export interface PlanRow {
  readonly setup: string;
  readonly id: string;
  readonly score: string;
  readonly ratio: string;
  readonly basis: string;
  readonly front: CornerView;
  readonly rear: CornerView;
}

export interface OtherPlanView {
  readonly rank: string;
  readonly id: string;
  readonly score: string;
  readonly price: string;
  readonly setups: readonly { readonly setup: string; readonly springs: string; readonly score: string }[];
}

export function planView(result: Result): PlanView | null {
  const { plans } = result;
  if (!plans) return null;
  const [best, ...others] = plans.plans;
  return {
    setups: plans.setups,
    swapped: plans.swapped.length > 0 ? plans.swapped.map((family) => FAMILY_LABELS[family]).join(', ') : null,
    currency: result.scenario.currency,
    best: best ? bestView(result, plans, best) : null,
    workable: { front: count(plans.workable.front, PAGE), rear: count(plans.workable.rear, PAGE) },
    others: others.map((plan, k) => otherView(result, plan, k + 2)),
    comparison: comparisonView(result, plans),
  };
}

function cornersOf(result: Result, plan: PlanRecord, axle: AxleName) {
  return plan.setups.map((part) => {
    const setup = result.setups.find(({ name }) => name === part.setup);
    if (setup === undefined) throw new Error(`The result has no setup “${part.setup}”.`);
    return { setup: part.setup, corner: cornerView(setup, axle, combinationOf(result, part).axles[axle]) };
  });
}

function bestView(result: Result, plans: PlansResult, plan: PlanRecord): BestPlanView {
  const [fronts, rears] = AXLE_NAMES.map((axle) => cornersOf(result, plan, axle));
  return {
    id: plan.id,
    score: fixed(plan.score, 3, PAGE),
    price: plan.price === null ? null : fixed(plan.price, 2, PAGE),
    axles: AXLE_NAMES.map((axle) => axleView(axle, plan, cornersOf(result, plan, axle))),
    rows: plan.setups.map((part, s) => ({
      setup: part.setup,
      id: part.id,
      score: fixed(part.score, 3, PAGE),
      ratio: fixed(combinationOf(result, part).values.frequency_ratio, 2, PAGE),
      basis: result.setups.find(({ name }) => name === plans.setups[s])?.frequency_basis ?? '',
      front: fronts?.[s]?.corner as CornerView,
      rear: rears?.[s]?.corner as CornerView,
    })),
    measureFirst: measureFirst(plan.setups.map((part) => [part.setup, combinationOf(result, part)])),
  };
}

/** Estimates and warnings of the parts are the same in every setup; clearances that tolerances use up are not. */
function measureFirst(judged: readonly (readonly [setup: string, Combination])[]) {
  const said = (kind: 'estimate' | 'warning') => {
    const texts = judged.flatMap(([, combination]) => messagesOf(combination, kind));
    return [...new Set(texts)].map((text) => ({ tag: kind, text }));
  };
  const tight = judged.flatMap(([setup, { axles }]) =>
    AXLE_NAMES.flatMap((axle) =>
      axles[axle].tight.map(({ contact, clearance_mm, worst_mm, measure }) => {
        const [now, worst] = [clearance_mm, worst_mm].map((value) => withUnits(value, 'length', PAGE));
        const text = `${setup}, ${axle}, ${contact}: clearance ${now} could be ${worst} at worst. Measure: ${measure}.`;
        return { tag: 'tight', text };
      }),
    ),
  );
  return [...said('estimate'), ...tight, ...said('warning')];
}

/** One corner stands for all setups where all chose the same combination. */
function axleView(axle: AxleName, { setups }: PlanRecord, own: PlanAxleView['own']): PlanAxleView {
  const isSame = setups.every((part) => part[axle] === setups[0]?.[axle]);
  return { axle: AXLE_TITLES[axle], shared: isSame ? (own[0]?.corner ?? null) : null, own: isSame ? [] : own };
}

function otherView(result: Result, plan: PlanRecord, rank: number): OtherPlanView {
  return {
    rank: String(rank),
    id: plan.id,
    score: fixed(plan.score, 3, PAGE),
    price: fixed(plan.price, 2, PAGE),
    setups: plan.setups.map((part) => ({
      setup: part.setup,
      springs: springsOf(combinationOf(result, part)),
      score: fixed(part.score, 3, PAGE),
    })),
  };
}
