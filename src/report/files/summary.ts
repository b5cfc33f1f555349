/** What a sweep found, for the terminal. */
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { Order, WhyNot } from '../../result/advice.ts';
import type { CornerKey } from '../../result/quantities/corner.ts';
import type {
  AxleTally,
  CornerReport,
  NothingWorks,
  PlanRecord,
  PlansResult,
  Result,
  SetupResult,
} from '../../result/result.ts';
import { perchText, thinnerSide } from '../sections/corner.ts';
import { mostRejecting } from '../sections/funnel.ts';
import {
  changesOf,
  changeText,
  fruitful,
  type Lack,
  lackAmount,
  lacksOf,
  RANKED_BY,
  relaxationText,
} from '../text/adviceText.ts';
import { type Answer, answerOf, answersOf, combinationOf, gainText, isUnbalanced, springsOf } from '../text/answers.ts';
import { mapStrings, visible } from '../text/escape.ts';
import { count, fixed, PLAIN, percent, withUnits } from '../text/numbers.ts';
import { choiceOf, messagesOf, nameOf, quantityOf, wordOf } from '../text/parts.ts';
import { firstMeasurements, nameOf as nameOfInput, restsText, shareText, takesText } from '../text/settling.ts';
import { hanging } from '../text/textWidth.ts';
import {
  consideredText,
  estimateText,
  expectedText,
  failsText,
  tightText,
  worstOver,
  worstText,
} from '../text/working.ts';

export function sweepSummary(result: Result): string {
  const shown = mapStrings(result, visible);
  const blocks = shown.setups.map((setup) => setupBlock(shown, setup));
  const plan = planBlock(shown);
  const notes = [...incompleteRows(shown), ...(shown.notes ?? []), ...(plan === null ? [] : [plan])];
  return `${[shown.scenario.name, ...notes, ...blocks].join('\n\n')}\n`;
}

function incompleteRows({ incomplete }: Result): string[] {
  if (!incomplete) return [];
  const [judged, of] = [count(incomplete.judged, PLAIN), count(incomplete.of, PLAIN)];
  return [`INCOMPLETE: stopped after ${judged} of ${of} combinations; better ones may exist.`];
}

function setupBlock(result: Result, setup: SetupResult): string {
  const answer = answerOf(result, setup);
  const counts = result.mode === 'build' ? [] : countRows(setup);
  const found = answer ? bestRows(result, answer) : [...nothingRows(setup), ...relaxationRows(setup)];
  const nearest = setup.nothing ? nearestRows(result.mode, setup.nothing) : [];
  return [`setup ${setup.name}`, ...counts, ...found, ...nearest].join('\n');
}

function countRows({ axles, pairs }: SetupResult): string[] {
  return [
    ...AXLE_NAMES.map((axle) => tallyRow(axle, axles[axle])),
    row(
      'pairs',
      `${count(pairs.workable, PLAIN)} of ${count(pairs.considered, PLAIN)} work, ${count(pairs.rejected_by_balance, PLAIN)} out of balance`,
    ),
  ];
}

function tallyRow(axle: AxleName, tally: AxleTally): string {
  const passing = `${count(tally.passed, PLAIN)} of ${count(tally.combinations, PLAIN)} pass`;
  const { check, rejected } = mostRejecting(tally);
  const most = rejected > 0 ? `; most fall at: ${CHECK[check].label}, ${count(rejected, PLAIN)}` : '';
  return row(axle, passing + most);
}

function nothingRows({ axles, pairs }: SetupResult): string[] {
  const empty = AXLE_NAMES.filter((axle) => axles[axle].passed === 0);
  if (empty.length === 0)
    return [row('NOTHING', `works: all ${count(pairs.considered, PLAIN)} pairs are out of balance.`)];
  return empty.map((axle) => {
    const { check, rejected } = mostRejecting(axles[axle]);
    const share = percent(rejected, axles[axle].combinations, PLAIN);
    return row('NOTHING', `works: no ${axle} combination passes; ${share} fall at: ${CHECK[check].label}.`);
  });
}

/** The nearest build, and the change that helps most; the rest stands in the report. */
function nearestRows(mode: Result['mode'], nothing: NothingWorks): string[] {
  const changes = changesOf(nothing).map(({ axle, change }) => `${axle}: ${changeText(change, PLAIN)}`);
  const helps =
    changes.length > 0 ? changes : ['neither one change of the parts nor another spring was found to do it'];
  const nearest = `${nothing.nearest.id}: ${lackTexts(nothing).join(', ')}`;
  return [...(mode === 'build' ? [] : say('nearest', nearest)), ...helps.flatMap((text) => say('helps', text))];
}

/** Lacks that a line or two hold. */
const MOST_LACKS = 4;

/** What the nearest build lacks, each check once, the worst of it. */
function lackTexts(nothing: NothingWorks): string[] {
  const worst = new Map<string, Lack>();
  for (const lack of lacksOf(nothing)) {
    const key = `${lack.axle ?? 'both'} ${CHECK[lack.check].label}`;
    const known = worst.get(key);
    if (known === undefined || (lack.shortfall ?? 0) > (known.shortfall ?? 0)) worst.set(key, lack);
  }
  const texts = [...worst].map(([name, lack]) => {
    const amount = lackAmount(lack, PLAIN);
    return amount === null ? name : `${name} by ${amount}`;
  });
  const rest = texts.length - MOST_LACKS;
  return rest > 0 ? [...texts.slice(0, MOST_LACKS), `and ${rest} more`] : texts;
}

function bestRows(result: Result, answer: Answer): string[] {
  const { setup, combination: best } = answer;
  const failures = [...AXLE_NAMES.flatMap((axle) => best.axles[axle].failures.map((f) => ({ axle, ...f })))];
  return [
    ...verdictRows(result.mode, answer),
    ...buildsRows(answer),
    ...expectedRows(answer),
    ...restsRows(answer),
    ...AXLE_NAMES.flatMap((axle) => cornerRows(setup, axle, best.axles[axle])),
    row('balance', `rear over front frequency ${fixed(quantityOf(best.values, 'frequency_ratio'), 2, PLAIN)}`),
    ...failures.flatMap((f) => hanging(row('FAILS', `${f.axle}, `), `${CHECK[f.check].label}: ${f.message}`)),
    ...best.failures.flatMap((f) => say('FAILS', `${CHECK[f.check].label}: ${f.message}`)),
    ...AXLE_NAMES.flatMap((axle) => tightRows(axle, best.axles[axle])),
    ...adviceRows(result, answer),
    ...messagesOf(best, 'estimate').flatMap((message) => say('estimate', message)),
    ...messagesOf(best, 'warning').flatMap((message) => say('warning', message)),
    ...aloneRows(answer),
  ];
}

/** What the setup would choose by itself, behind the plan that is bought. */
function aloneRows({ plan, setup: { name, shortlist } }: Answer): string[] {
  const [best] = shortlist;
  if (plan === null || !best) return [];
  const springs = `${best.id}, score ${fixed(best.score, 3, PLAIN)} of 1: ${springsOf(best)}`;
  return say('alone', `if the car had only ${name}: ${springs}`);
}

/** What becomes of random builds: the worst of it in words, how many work, and all of the others. */
function buildsRows({ setup, combination, builds: tried }: Answer): string[] {
  if (!setup.advice || !tried) return [];
  const drawn = `of ${setup.advice.draws.count} random builds within tolerance`;
  const [worst, works] = [worstText(tried, PLAIN), percent(tried.share, 1, PLAIN)];
  const said = worst === null ? `${works} ${drawn} work` : `${worst} ${drawn}; ${works} work`;
  const all = [said, failsText(tried, PLAIN), estimateText(combination) ?? ''];
  return say('builds', all.filter((text) => text !== '').join('; '));
}

/** What is expected of it, where it was ranked by that. */
function expectedRows({ setup: { advice }, builds: tried }: Answer): string[] {
  if (!advice || !tried?.expected) return [];
  return say('expected', expectedText(tried.expected, advice.draws.count, PLAIN));
}

/** How much rests on assumed values, and the measurement that settles it most. */
function restsRows({ combination: { settling } }: Answer): string[] {
  if (settling === undefined) return [];
  const first = firstMeasurements(settling).map((one) => `${nameOfInput(one)} ${shareText(one.share, PLAIN)}`);
  const [best] = settling.measurements;
  return [
    ...say('rests on', restsText(settling, PLAIN)),
    ...(best ? say('settle', `${first.join(', ')}. ${best.how} Takes: ${takesText(best)}.`) : []),
  ];
}

/** What it costs, and how many of the other springs have a cure. */
function adviceRows(result: Result, { setup: { advice }, plan }: Answer): string[] {
  const [purchase] = advice?.purchases ?? [];
  if (!advice || !purchase) return [];
  const among = advice.considered ? `, among ${consideredText(advice.considered)}` : '';
  const ranked = advice.ranked_by === 'nominal' ? [] : say('ranked by', `${RANKED_BY[advice.ranked_by]}${among}`);
  const orders = [...ranked, ...say('order', orderText(result, purchase.order))];
  return [
    ...(result.mode === 'build' || plan !== null ? [] : orders),
    ...AXLE_NAMES.flatMap((axle) => cureRows(axle, advice.why_not[axle])),
  ];
}

/** `32 parts, 868.00 EUR` */
function orderText({ scenario }: Result, order: Order): string {
  const pieces = order.lines.reduce((sum, line) => sum + line.count, 0);
  const isPriced = order.lines.some((line) => line.price !== null);
  const unpriced = order.unpriced.length > 0 ? `; no price for ${order.unpriced.join(', ')}` : '';
  const price = isPriced ? `${fixed(order.total, 2, PLAIN)} ${scenario.currency}${unpriced}` : 'no prices given';
  return `${count(pieces, PLAIN)} parts, ${price}`;
}

function cureRows(axle: AxleName, { springs, not_listed }: WhyNot): string[] {
  if (springs.length === 0) return [];
  const cured = springs.filter((spring) => spring.cures.length > 0).length;
  const [which, more] = not_listed === undefined ? ['', ''] : ['the nearest ', ` (there are ${not_listed} more)`];
  return say(
    'cures',
    `${cured} of ${which}${springs.length} ${axle} springs that never work${more} have a cure: see report or purchase.md`,
  );
}

/** The requirement that costs least to give in on. */
function relaxationRows({ advice }: SetupResult): string[] {
  if (!advice?.relaxations) return [];
  const [cheapest] = fruitful(advice.relaxations);
  const text = cheapest
    ? `${cheapest.axles.join(' and ')} ${cheapest.requirement} ${relaxationText(cheapest, PLAIN)} would give an answer, ${cheapest.winner ?? 'on thinned lists'}`
    : 'no requirement alone gives an answer';
  return [...say('give in', text), ...AXLE_NAMES.flatMap((axle) => cureRows(axle, advice.why_not[axle]))];
}

function verdictRows(mode: Result['mode'], { combination: best, plan }: Answer): string[] {
  const score = `score ${fixed(best.score, 3, PLAIN)} of 1`;
  if (plan !== null) return [row('plan', `${best.id}, ${score}`)];
  if (mode === 'sweep') return [row('best', `${best.id}, ${score}`)];
  return [row('build', best.workable ? `${best.id} works, ${score}` : `${best.id} does NOT work`)];
}

function cornerRows(setup: SetupResult, axle: AxleName, corner: CornerReport): string[] {
  const { values } = corner;
  const length = (key: CornerKey) => withUnits(quantityOf(values, key), 'length', PLAIN);
  const frequency = withUnits(quantityOf(values, `${setup.frequency_basis}_frequency_hz`), 'frequency', PLAIN);
  return [
    ...say(axle, purchase(corner)),
    ...say('', `perch ${perchText(corner)} above the lower eye; bump travel left ${length('bump_travel_mm')};`),
    ...say('', `${windowText(corner)}; ${setup.frequency_basis} frequency ${frequency};`),
    ...say(
      '',
      `tightest clearance ${length('thinnest_clearance_mm')}${closedText(values)}, ${wordOf(corner, 'thinnest_contact')}${thinnerText(corner)}`,
    ),
  ];
}

/** Where full bump is judged under a load, the same with the stop fully closed. */
function closedText(values: CornerReport['values']): string {
  const closed = values.thinnest_clearance_closed_mm ?? null;
  return closed === null ? '' : ` (${withUnits(closed, 'length', PLAIN)} with the stop fully closed)`;
}

/** Where the clearance is less at one side's own load. */
function thinnerText(corner: CornerReport): string {
  const side = thinnerSide(corner);
  if (side === null) return '';
  const clearance = withUnits(quantityOf(side.report.values, 'thinnest_clearance_mm'), 'length', PLAIN);
  return `; on the ${side.name} ${clearance}${closedText(side.report.values)}, ${side.report.words.thinnest_contact ?? ''}`;
}

/** Clearances that tolerances could use up, and a spring they could let out of its seat. */
function tightRows(axle: AxleName, { tight }: CornerReport): string[] {
  return tight.flatMap((one) => {
    return hanging(row('TIGHT', `${axle}, `), `${tightText(one, PLAIN)} Measure before you buy: ${one.measure}.`);
  });
}

function windowText(corner: CornerReport): string {
  if (wordOf(corner, 'window') !== 'usable') return 'no usable height';
  const low = withUnits(quantityOf(corner.values, 'lowest_height_mm'), 'length', PLAIN);
  const high = withUnits(quantityOf(corner.values, 'highest_height_mm'), 'length', PLAIN);
  return `heights ${low} [${wordOf(corner, 'lowest_height_limit')}] to ${high} [${wordOf(corner, 'highest_height_limit')}]`;
}

/** What is bought and cut, in words. */
function purchase({ parts }: CornerReport): string {
  const { spring, helper, sleeve, mount, bumpStop } = parts;
  const length = (part: typeof spring, key: string) => withUnits(choiceOf(part, key), 'length', PLAIN);
  const rate = withUnits(choiceOf(spring, 'rate_n_per_mm'), 'rate', PLAIN);
  const helperName = nameOf(helper);
  return [
    `${spring.name}, ${length(spring, 'free_length_mm')}, ${rate}`,
    ...(helperName === null ? [] : [`with ${helperName}`]),
    choiceOf(sleeve, 'trim_mm') > 0 ? `sleeve trimmed by ${length(sleeve, 'trim_mm')}` : 'sleeve untrimmed',
    ...(choiceOf(mount, 'spacer_mm') > 0 ? [`spacer ${length(mount, 'spacer_mm')}`] : []),
    `stop ${length(bumpStop, 'cut_length_mm')}`,
  ].join('; ');
}

function row(title: string, text: string): string {
  return `  ${title.padEnd(9)} ${text}`;
}

// The plan over several setups, for the terminal.

/** A block of lines; null where no plan was wanted. */
function planBlock(result: Result): string | null {
  const { plans } = result;
  if (!plans) return null;
  const [best] = plans.plans;
  return [
    `plan for ${plans.setups.join(', ')}`,
    ...(best ? planRows(result, best) : say('NOTHING', nothingText(plans))),
    ...(best?.order ? say('order', orderText(result, best.order)) : []),
    ...say('sets', setsText(result, plans)),
  ].join('\n');
}

function say(title: string, text: string): string[] {
  return hanging(row(title, ''), text);
}

function planRows(result: Result, plan: PlanRecord): string[] {
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
