/** The plan over several setups, for the terminal. */
import type { Order } from '../domain/advice/types.ts';
import type { PlanRecord, PlansResult, Result } from '../domain/result.ts';
import { answersOf } from './answers.ts';
import { hanging } from './explain.ts';
import { count, fixed, PLAIN } from './numbers.ts';
import { combinationOf, gainText, isUnbalanced, springsOf } from './planParts.ts';
import { worstOver } from './working.ts';

/** A block of lines; null where no plan was looked for. `row` puts a title before a text. */
export function planBlock(
  result: Result,
  row: (title: string, text: string) => string,
  orderText: (result: Result, order: Order) => string,
): string | null {
  const { plans } = result;
  if (!plans) return null;
  const say = (title: string, text: string) => hanging(row(title, ''), text);
  const [best] = plans.plans;
  return [
    `plan for ${plans.setups.join(', ')}`,
    ...(best ? bestRows(result, best, say) : say('NOTHING', nothingText(plans))),
    ...(best?.order ? say('order', orderText(result, best.order)) : []),
    ...say('sets', setsText(result, plans)),
  ].join('\n');
}

type Say = (title: string, text: string) => string[];

function bestRows(result: Result, plan: PlanRecord, say: Say): string[] {
  const price = plan.price === null ? '' : `; ${fixed(plan.price, 2, PLAIN)} ${result.scenario.currency}`;
  const scores = plan.setups.map(({ setup, score }) => `${setup} ${fixed(score, 3, PLAIN)}`).join(', ');
  const worst = worstOver(
    answersOf(result).filter((answer) => answer.plan === plan),
    PLAIN,
  );
  return [
    ...(worst === null ? [] : say('builds', worst)),
    ...say('bought', `${plan.id}, score ${fixed(plan.score, 3, PLAIN)} of 1 (${scores})${price}`),
    ...say('springs', plan.setups.map((part) => `${part.setup} ${springsOf(combinationOf(result, part))}`).join('; ')),
  ];
}

function nothingText({ workable, swapped }: PlansResult): string {
  if (swapped.length > 0) return 'works in every setup, even with swapped parts: each needs a build of its own.';
  const [front, rear] = [count(workable.front, PLAIN), count(workable.rear, PLAIN)];
  const unbalanced = isUnbalanced(workable) ? ', no pair of them is balanced in all' : '';
  return `works in every setup: ${front} front and ${rear} rear combinations do${unbalanced}.`;
}

/** One set of springs against a set each, in a sentence. */
function setsText({ scenario }: Result, { comparison }: PlansResult): string {
  const { one_set: one, own_sets: own } = comparison;
  if (own === null) return 'a set for each setup was not found to work either';
  const score = fixed(own.score, 3, PLAIN);
  if (one === null) return `no single set works in every setup; with a set for each the plan scores ${score} of 1`;
  if (own.setups.every(({ id }, s) => id === one.setups[s]?.id)) return 'a set for each setup would gain nothing';
  const cost = own.price === null || one.price === null ? null : own.price - one.price;
  const money = cost === null ? '' : `, for ${fixed(cost, 2, PLAIN)} ${scenario.currency} more`;
  return `a set for each setup lifts the score from ${fixed(one.score, 3, PLAIN)} to ${score} (${gainText(one.score, own.score, 3)})${money}`;
}
