/** What to buy per setup, in a sentence and a line of numbers, or why nothing works; and its own best alone. */
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Combination, Result, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { type Answer, answerOf, triedOf } from '../text/answers.ts';
import { anchorOf } from '../text/escape.ts';
import { count, fixed, PAGE } from '../text/numbers.ts';
import { messagesOf, quantityOf } from '../text/parts.ts';
import { restsView } from '../text/settling.ts';
import { buildsView } from '../text/working.ts';
import { cornerView, THIN_SPARE, thinViews } from './corner.ts';
import { nothingView } from './funnel.ts';
import { failureViews } from './numbers.ts';
import { planView } from './plan.ts';
import { tightViews } from './sureness.ts';

export const answer = section({
  id: 'answer',
  link: 'Answer',
  title: ({ isBuild }) => (isBuild ? 'Does this build work?' : 'What to buy'),
  view: ({ result, answers, isPlanned }) => ({
    isPlanned,
    plan: planView(result),
    answers: result.setups.map((setup) => answerView(result, setup)),
    paperNotes: paperNotes(answers),
  }),
  prints: true,
  leaves: null,
});

export const alone = section({
  id: 'alone',
  link: 'Each setup alone',
  title: 'If the car had only one of the setups',
  view: ({ result }) => ofSetups(result.setups.map((setup) => aloneView(result, setup))),
  prints: false,
  leaves: 'what each setup would choose by itself',
});

export function answerView(result: Result, setup: SetupResult) {
  const answer = answerOf(result, setup);
  return {
    ...setupView(result, setup, answer?.combination ?? null),
    anchor: `setup-${anchorOf(setup.name)}`,
    /** The setup's part of the best plan: what is bought stands with the plan. */
    isPlanned: answer !== null && answer.plan !== null,
    /** Its own best, which is not bought: no other section is about it. */
    isAlone: false,
    /** Its notes stand with it; with those of the other setups where a plan serves several. */
    showsNotes: !result.plans?.plans[0],
  };
}

/** A setup’s own best behind the plan that is bought: what it would choose by itself. Null where there is no plan for it. */
export function aloneView(result: Result, setup: SetupResult): ReturnType<typeof answerView> | null {
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
    /** Why nothing works; null where something does. */
    nothing: best ? null : nothingView(setup),
  };
}

function bestView(result: Result, setup: SetupResult, best: Combination) {
  const { target, from, to } = setup.balance;
  const ratio = (value: number | null) => fixed(value, 2, PAGE);
  const estimates = messagesOf(best, 'estimate');
  const tight = tightViews(best);
  const thin = thinViews(best);
  const price = quantityOf(best.values, 'price_total');
  const tried = triedOf(result, setup, best.id);
  return {
    id: best.id,
    anchor: anchorOf(best.id),
    works: best.workable,
    rests: restsView(best),
    /** How many checks fail, in words for a headline; empty when none does. */
    failing: failureCount(best),
    failures: failureViews(best),
    corners: AXLE_NAMES.map((axle) => cornerView(setup, axle, best.axles[axle])),
    basis: setup.frequency_basis,
    ratio: ratio(quantityOf(best.values, 'frequency_ratio')),
    ratioTarget: ratio(target),
    ratioFrom: ratio(from),
    ratioTo: ratio(to),
    score: fixed(best.score, 3, PAGE),
    price: price === null ? null : fixed(price, 2, PAGE),
    /** Null where nobody drew random builds. */
    builds: setup.advice && tried ? buildsView(tried, best, setup.advice.draws.count, tried.expected) : null,
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

function failureCount({ failures, axles }: Combination): string {
  const n = failures.length + axles.front.failures.length + axles.rear.failures.length;
  return n === 0 ? '' : `${n} ${n === 1 ? 'check fails' : 'checks fail'}`;
}

/** Each note on what is bought once, in the order in which the setups bring them. */
export function paperNotes(answers: readonly Answer[]) {
  const owners = new Map<string, Set<string>>();
  for (const { setup, combination } of answers) {
    // Those on the range of a formula stand on the pages for the workshop.
    for (const note of messagesOf(combination, 'note', ({ topic }) => topic !== 'range'))
      owners.set(note, (owners.get(note) ?? new Set()).add(setup.name));
  }
  return [...owners].map(([text, names]) => ({
    text,
    /** The setups it belongs to, or empty where it belongs to all of them. */
    setups: names.size === answers.length ? '' : [...names].join(', '),
  }));
}
