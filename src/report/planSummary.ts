/** The plan over several setups, for the terminal. */
import type { PlanRecord, PlansResult, Result } from '../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../domain/scenario.ts';
import { hanging } from './explain.ts';
import { count, fixed, PLAIN, withUnits } from './numbers.ts';
import { combinationOf, gainText, springsOf } from './planParts.ts';
import { quantityOf } from './read.ts';
import { perchText } from './sections/sides.ts';

/** A block of lines; null where no plan was looked for. `row` puts a title before a text. */
export function planBlock(result: Result, row: (title: string, text: string) => string): string | null {
  const { plans } = result;
  if (!plans) return null;
  const say = (title: string, text: string) => hanging(row(title, ''), text);
  const [best] = plans.plans;
  return [
    `plan for ${plans.setups.join(', ')}`,
    ...(best ? bestRows(result, best, say) : say('NOTHING', nothingText(plans))),
    ...say('springs', setsText(result, plans)),
  ].join('\n');
}

type Say = (title: string, text: string) => string[];

function bestRows(result: Result, plan: PlanRecord, say: Say): string[] {
  const price = plan.price === null ? '' : `; ${fixed(plan.price, 2, PLAIN)} ${result.scenario.currency}`;
  const scores = plan.setups.map(({ setup, score }) => `${setup} ${fixed(score, 3, PLAIN)}`).join(', ');
  return [
    ...say('best', `${plan.id}, score ${fixed(plan.score, 3, PLAIN)} of 1 (${scores})${price}`),
    ...plan.setups.flatMap((part) => {
      const combination = combinationOf(result, part);
      const basis = result.setups.find(({ name }) => name === part.setup)?.frequency_basis ?? 'body';
      const corner = (axle: AxleName) => {
        const { values } = combination.axles[axle];
        const perch = perchText(combination.axles[axle]);
        const bump = withUnits(quantityOf(values, 'bump_travel_mm'), 'length', PLAIN);
        const frequency = withUnits(quantityOf(values, `${basis}_frequency_hz`), 'frequency', PLAIN);
        return `${axle} perch ${perch}, bump travel left ${bump}, ${frequency}`;
      };
      return say(part.setup, [`${part.id}: ${springsOf(combination)}`, ...AXLE_NAMES.map(corner)].join('; '));
    }),
  ];
}

function nothingText({ workable, swapped }: PlansResult): string {
  if (swapped.length > 0) return 'works in every setup, even with swapped parts.';
  const [front, rear] = [count(workable.front, PLAIN), count(workable.rear, PLAIN)];
  return `works in every setup: ${front} front and ${rear} rear combinations do, no pair of them is balanced in all.`;
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
