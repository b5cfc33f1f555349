/** One set of springs for all setups against a set for each: what is bought, what it gains, what it costs. */
import type { Combination, CriterionScore, PlanPart, PlanRecord, PlansResult, Result } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { criterionLabel } from '../labels.ts';
import { fixed, PAGE, withUnits } from '../numbers.ts';
import { combinationOf, gainText, springsOf, type Value } from '../planParts.ts';
import { choiceOf } from '../read.ts';

export interface ComparisonView {
  readonly verdict: string;
  readonly money: string | null;
  /** What is bought and cut for one set, and for a set each; without those that do not exist. */
  readonly builds: readonly {
    readonly title: string;
    readonly springs: readonly OwnSprings[];
    readonly cuts: string;
  }[];
  readonly setups: readonly ComparedSetup[];
  readonly total: ComparedRow;
}

export interface OwnSprings {
  readonly setup: string;
  readonly springs: string;
}

export interface ComparedSetup {
  readonly setup: string;
  readonly rows: readonly ComparedRow[];
}

export interface ComparedRow {
  readonly label: string;
  readonly weight: string;
  readonly one: string;
  readonly own: string;
  readonly gain: string;
  readonly alone: string;
  readonly isScore: boolean;
}

export function comparisonView(result: Result, { setups, comparison }: PlansResult): ComparisonView {
  const { one_set: one, own_sets: own, alone } = comparison;
  return {
    verdict: verdictOf(one, own),
    money: moneyOf(one, own, result.scenario.currency),
    builds: [...(one ? [buildOf(result, 'One set', one)] : []), ...(own ? [buildOf(result, 'A set each', own)] : [])],
    setups: setups.map((setup, s) => {
      const [mine, others, best] = [one?.setups[s], own?.setups[s], alone[s]];
      const score = { label: 'score', weight: '', isScore: true };
      return {
        setup,
        rows: [
          ...criteriaRows(mine, others, best),
          { ...score, ...compared(mine?.score, others?.score, best?.score, 3) },
        ],
      };
    }),
    total: {
      label: 'plan',
      weight: '',
      isScore: true,
      ...compared(one?.score, own?.score, meanOf(alone.map((part) => part?.score ?? null)), 3),
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
function criteriaRows(
  one: PlanPart | undefined,
  own: PlanPart | undefined,
  alone: PlanPart | null | undefined,
): ComparedRow[] {
  const desirability = (part: PlanPart | null | undefined, { criterion, axle }: CriterionScore) =>
    part?.criteria.find((c) => c.criterion === criterion && c.axle === axle)?.desirability;
  return (
    (own ?? one ?? alone)?.criteria.map((c) => ({
      label: criterionLabel(c),
      weight: fixed(c.weight, 2, PAGE),
      isScore: false,
      ...compared(desirability(one, c), desirability(own, c), desirability(alone, c), 2),
    })) ?? []
  );
}

function compared(one: Value, own: Value, alone: Value, decimals: number) {
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
  return `${springs}, ${money(one.springs_price)} with one; all parts together ${signed(own.price - one.price)} ${currency}.`;
}

function signed(value: number): string {
  const text = fixed(value, 2, PAGE);
  return value > 0 ? `+${text}` : text;
}
