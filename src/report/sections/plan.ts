/** The plan over several setups: what to buy once, where each setup sets it, and one set of springs against a set for each. */

import { capital } from '../../model/corner/messages.ts';
import type { CriterionScore } from '../../model/corner/score.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { Combination, PlanPart, PlanRecord, PlansResult, Result } from '../../result/result.ts';
import { section } from '../frame/section.ts';
import {
  type Answer,
  answersOf,
  combinationOf,
  gainText,
  isUnbalanced,
  springsOf,
  type Value,
} from '../text/answers.ts';
import { AXLE_TITLES, criterionLabel, FAMILY_LABELS } from '../text/labels.ts';
import { count, fixed, PAGE, withUnits } from '../text/numbers.ts';
import { choiceOf, messagesOf } from '../text/parts.ts';
import { mostResting, restsView } from '../text/settling.ts';
import { buildsText, tightText, worstOver } from '../text/working.ts';
import { cornerView, thinViews } from './corner.ts';

export const plan = section({
  id: 'plan',
  link: 'One set or more',
  title: 'One set of springs, or a set for each setup?',
  view: ({ result }) => planView(result),
  prints: false,
  leaves: 'further plans and what a set of springs for each setup would gain',
});

export function planView(result: Result) {
  const { plans } = result;
  if (!plans) return null;
  const [best, ...others] = plans.plans;
  return {
    setups: plans.setups,
    swapped: plans.swapped.length > 0 ? plans.swapped.map((family) => FAMILY_LABELS[family]).join(', ') : null,
    currency: result.scenario.currency,
    /** Null where no plan works in every setup. */
    best: best ? bestView(result, best) : null,
    /** Combinations that work in every setup, where everything is shared. */
    workable: { front: count(plans.workable.front, PAGE), rear: count(plans.workable.rear, PAGE) },
    isUnbalanced: isUnbalanced(plans.workable),
    /** The others, best first. */
    others: others.map((plan, k) => otherView(result, plan, k + 2)),
    comparison: comparisonView(result, plans),
  };
}

function bestView(result: Result, plan: PlanRecord) {
  const answers = answersOf(result).filter((answer) => answer.plan === plan);
  const worst = worstOver(answers, PAGE);
  const resting = mostResting(answers);
  return {
    id: plan.id,
    /** A sentence: the worst that any random build does in any setup; null where none fails or nobody drew any. */
    worst: worst === null ? null : `${capital(worst)}.`,
    rests: resting && restsView(resting.combination, answers.length > 1 ? resting.setup.name : null),
    score: fixed(plan.score, 3, PAGE),
    price: plan.price === null ? null : fixed(plan.price, 2, PAGE),
    /** What is bought and cut for all setups alike, or axle by axle what each setup has. */
    axles: AXLE_NAMES.map((axle) => axleView(axle, plan, answers)),
    /** What to measure before buying, and what to check twice, each once. */
    measureFirst: measureFirst(answers),
  };
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
function axleView(axle: AxleName, { setups }: PlanRecord, answers: readonly Answer[]) {
  const own = answers.map(({ setup, combination }) => ({
    setup: setup.name,
    corner: cornerView(setup, axle, combination.axles[axle]),
  }));
  const isSame = setups.every((part) => part[axle] === setups[0]?.[axle]);
  return { axle: AXLE_TITLES[axle], shared: isSame ? (own[0]?.corner ?? null) : null, own: isSame ? [] : own };
}

function otherView(result: Result, plan: PlanRecord, rank: number) {
  return {
    rank: String(rank),
    id: plan.id,
    score: fixed(plan.score, 3, PAGE),
    price: fixed(plan.price, 2, PAGE),
    setups: plan.setups.map((part) => ({
      setup: part.setup,
      springs: springsOf(combinationOf(result, part)),
      score: fixed(part.score, 3, PAGE),
      builds: part.builds ? buildsText(part.builds, combinationOf(result, part), PAGE) : '',
    })),
  };
}

export function comparisonView(result: Result, { setups, comparison }: PlansResult) {
  const { one_set: one, own_sets: own, alone } = comparison;
  return {
    verdict: verdictOf(one, own),
    money: moneyOf(one, own, result.scenario.currency),
    /** What is bought and cut for one set, and for a set each; without those that do not exist. */
    builds: [...(one ? [buildOf(result, 'One set', one)] : []), ...(own ? [buildOf(result, 'A set each', own)] : [])],
    setups: setups.map((setup, s) => {
      const [mine, others, best] = [one?.setups[s], own?.setups[s], alone[s]];
      const score = { label: 'score', weight: '', isScore: true };
      return {
        setup,
        rows: [
          ...criteriaRows(mine, others, best),
          { ...score, ...compare(mine?.score, others?.score, best?.score, 3) },
        ],
      };
    }),
    total: {
      label: 'plan',
      weight: '',
      isScore: true,
      ...compare(one?.score, own?.score, meanOf(alone.map((part) => part?.score ?? null)), 3),
    },
  };
}

function buildOf(result: Result, title: string, plan: PlanRecord) {
  const own = plan.setups.map((part) => ({ setup: part.setup, combination: combinationOf(result, part) }));
  const cuts = own.map(({ setup, combination }) => ({ setup, cuts: cutsOf(combination) }));
  const isSame = cuts.every((one) => one.cuts === cuts[0]?.cuts);
  const text = isSame ? (cuts[0]?.cuts ?? '') : cuts.map((one) => `${one.setup}: ${one.cuts}`).join('; ');
  const each = own.map(({ setup, combination }) => ({ setup, springs: springsOf(combination) }));
  const isOne = each.every((one) => one.springs === each[0]?.springs);
  const springs = isOne ? each.slice(0, 1).map((one) => ({ ...one, setup: 'in all setups' })) : each;
  return { title, springs, cuts: text };
}

/** `front sleeve trim 20.0 mm (0.79 in), spacer none, stop 48.0 mm (1.89 in); rear ...` */
function cutsOf({ axles }: Combination): string {
  return AXLE_NAMES.map((axle) => {
    const { sleeve, mount, bumpStop } = axles[axle].parts;
    const length = (value: number) => (value > 0 ? withUnits(value, 'length', PAGE) : 'none');
    const cut = length(choiceOf(sleeve, 'trim_mm'));
    const spacer = length(choiceOf(mount, 'spacer_mm'));
    const stop = length(choiceOf(bumpStop, 'cut_length_mm'));
    return `${axle} sleeve trim ${cut}, ${mount.name} with spacer ${spacer}, stop ${stop}`;
  }).join('; ');
}

/** The criteria that any of the three is judged by, in their fixed order. */
function criteriaRows(one: PlanPart | undefined, own: PlanPart | undefined, alone: PlanPart | null | undefined) {
  const desirability = (part: PlanPart | null | undefined, { criterion, axle }: CriterionScore) =>
    part?.criteria.find((c) => c.criterion === criterion && c.axle === axle)?.desirability;
  return (
    (own ?? one ?? alone)?.criteria.map((c) => ({
      label: criterionLabel(c),
      weight: fixed(c.weight, 2, PAGE),
      isScore: false,
      ...compare(desirability(one, c), desirability(own, c), desirability(alone, c), 2),
    })) ?? []
  );
}

function compare(one: Value, own: Value, alone: Value, decimals: number) {
  const show = (value: Value) => fixed(value, decimals, PAGE);
  return { one: show(one), own: show(own), gain: gainText(one, own, decimals), alone: show(alone) };
}

/** Geometric mean, as a plan's score is made; null where a setup has none. */
function meanOf(scores: readonly Value[]): number | null {
  if (scores.some((score) => typeof score !== 'number')) return null;
  return scores.reduce<number>((product, score) => product * (score as number), 1) ** (1 / scores.length);
}

function verdictOf(one: PlanRecord | null, own: PlanRecord | null): string {
  if (one === null && own === null)
    return 'Neither one set of springs nor a set for each setup works with everything else shared.';
  if (own === null) return 'A set for each setup was not found to work.';
  if (one === null) {
    return `No single set of springs works in every setup; with a set for each the plan scores ${fixed(own.score, 3, PAGE)} of 1.`;
  }
  const gain = gainText(one.score, own.score, 3);
  if (own.setups.every((part, s) => part.id === one.setups[s]?.id)) {
    return `A set of springs for each setup gains nothing: the same set is best for all, ${fixed(one.score, 3, PAGE)} of 1.`;
  }
  return `A set of springs for each setup lifts the plan from ${fixed(one.score, 3, PAGE)} to ${fixed(own.score, 3, PAGE)} of 1 (${gain}).`;
}

function moneyOf(one: PlanRecord | null, own: PlanRecord | null, currency: string): string | null {
  if (!own || own.price === null || own.springs_price === null) return null;
  const money = (value: number) => `${fixed(value, 2, PAGE)} ${currency}`;
  const springs = `Springs and helpers cost ${money(own.springs_price)} with a set each`;
  if (!one || one.price === null || one.springs_price === null) return `${springs}.`;
  const more = own.price - one.price;
  return `${springs}, ${money(one.springs_price)} with one; all parts together ${more > 0 ? '+' : ''}${money(more)}.`;
}
