/** The plan over several setups: what to buy once, where each setup sets it, and what a second set of springs gains. */
import type { PlanPart, PlanRecord, Result } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { type Answer, answersOf } from '../answers.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../labels.ts';
import { count, fixed, PAGE } from '../numbers.ts';
import { combinationOf, isUnbalanced, springsOf } from '../planParts.ts';
import { tightText } from '../tight.ts';
import { buildsText, capital, worstOver } from '../working.ts';
import { messagesOf, thinViews } from './answer.ts';
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
  readonly isUnbalanced: boolean;
  /** The others, best first. */
  readonly others: readonly OtherPlanView[];
  readonly comparison: ComparisonView;
}

export interface BestPlanView {
  readonly id: string;
  /** A sentence: the worst that any random build does in any setup; null where none fails or nobody drew any. */
  readonly worst: string | null;
  readonly score: string;
  readonly price: string | null;
  /** What is bought and cut for all setups alike, or axle by axle what each setup has. */
  readonly axles: readonly PlanAxleView[];
  /** What to measure before buying, and what to look at twice, each said once. */
  readonly measureFirst: readonly { readonly tag: string; readonly text: string }[];
}

export interface PlanAxleView {
  readonly axle: string;
  /** Null where the setups differ: then `own` tells them apart. */
  readonly shared: CornerView | null;
  readonly own: readonly { readonly setup: string; readonly corner: CornerView }[];
}

export interface OtherPlanView {
  readonly rank: string;
  readonly id: string;
  readonly score: string;
  readonly price: string;
  readonly setups: readonly {
    readonly setup: string;
    readonly springs: string;
    readonly score: string;
    readonly builds: string;
  }[];
}

export function planView(result: Result): PlanView | null {
  const { plans } = result;
  if (!plans) return null;
  const [best, ...others] = plans.plans;
  return {
    setups: plans.setups,
    swapped: plans.swapped.length > 0 ? plans.swapped.map((family) => FAMILY_LABELS[family]).join(', ') : null,
    currency: result.scenario.currency,
    best: best ? bestView(result, best) : null,
    workable: { front: count(plans.workable.front, PAGE), rear: count(plans.workable.rear, PAGE) },
    isUnbalanced: isUnbalanced(plans.workable),
    others: others.map((plan, k) => otherView(result, plan, k + 2)),
    comparison: comparisonView(result, plans),
  };
}

function bestView(result: Result, plan: PlanRecord): BestPlanView {
  const answers = answersOf(result).filter((answer) => answer.plan === plan);
  const worst = worstOver(answers, PAGE);
  return {
    id: plan.id,
    worst: worst === null ? null : `${capital(worst)}.`,
    score: fixed(plan.score, 3, PAGE),
    price: plan.price === null ? null : fixed(plan.price, 2, PAGE),
    axles: AXLE_NAMES.map((axle) => axleView(axle, plan, answers)),
    measureFirst: measureFirst(answers),
  };
}

function buildsLine(result: Result, part: PlanPart): string {
  return part.builds ? buildsText(part.builds, combinationOf(result, part), PAGE) : '';
}

/** Estimates and warnings of the parts are the same in every setup; clearances that are thin or used up are not. */
export function measureFirst(answers: readonly Answer[]) {
  const said = (kind: 'estimate' | 'warning') => {
    const texts = answers.flatMap(({ combination }) => messagesOf(combination, kind));
    return [...new Set(texts)].map((text) => ({ tag: kind, text: `${saidOf(answers, kind, text)}${text}` }));
  };
  const clearances = answers.flatMap(({ setup: { name }, combination }) => [
    ...AXLE_NAMES.flatMap((axle) =>
      combination.axles[axle].tight.map((one) => {
        return { tag: 'tight', text: `${name}, ${axle}, ${tightText(one, PAGE)} Measure: ${one.measure}.` };
      }),
    ),
    ...thinViews(combination).map(({ axle, name: contact, clearance, spare }) => {
      const text = `clearance ${clearance}\u00a0mm is ${spare}\u00a0mm beyond its margin. Measure the lengths it hangs on.`;
      return { tag: 'thin', text: `${name}, ${axle.toLowerCase()}, ${contact}: ${text}` };
    }),
  ]);
  return [...said('estimate'), ...clearances, ...said('warning')];
}

/** `low: ` where not every setup says it; empty where all do. */
function saidOf(answers: readonly Answer[], kind: 'estimate' | 'warning', text: string): string {
  const names = answers.flatMap(({ setup, combination }) =>
    messagesOf(combination, kind).includes(text) ? [setup.name] : [],
  );
  return names.length === answers.length ? '' : `${names.join(', ')}: `;
}

/** One corner stands for all setups where all chose the same combination. */
function axleView(axle: AxleName, { setups }: PlanRecord, answers: readonly Answer[]): PlanAxleView {
  const own = answers.map(({ setup, combination }) => ({
    setup: setup.name,
    corner: cornerView(setup, axle, combination.axles[axle]),
  }));
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
      builds: buildsLine(result, part),
    })),
  };
}
