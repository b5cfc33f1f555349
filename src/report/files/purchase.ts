/** The purchase list as Markdown, to print, send or keep: what to order and cut, what becomes of random builds, and the cures. */
import { cureText } from '../../advice/messages.ts';
import { CHECK } from '../../model/corner/checks.ts';
import { CRITERIA } from '../../model/criteria.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, SIDE_NAMES } from '../../model/scenario.ts';
import type { Builds, Order, PlanPurchase, PurchaseAdvice, SetupAdvice, WhyNotSpring } from '../../result/advice.ts';
import type { Combination, CornerReport, Result, SetupResult } from '../../result/result.ts';
import { perchText } from '../sections/corner.ts';
import { measureFirst } from '../sections/plan.ts';
import { hasPrices, hasWorst, NO_WORST, noteColumns, noteIn } from '../sections/purchase.ts';
import { BASES, changesText, changingRows, winnerText } from '../sections/taste.ts';
import { leastAmount, RELAXATION_BASES } from '../sections/whyNot.ts';
import {
  CLOSENESS,
  CURE_LIMITS,
  drawsText,
  fruitful,
  fruitlessText,
  lackText,
  lookedText,
  neverWorking,
  RANKED_BY,
  rangeLabel,
  rangeText,
  rateText,
  relaxationText,
  restText,
  springText,
} from '../text/adviceText.ts';
import { answerOf, answersOf } from '../text/answers.ts';
import { mapStrings, visible } from '../text/escape.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../text/labels.ts';
import { count, fixed, PLAIN, percent, withUnits } from '../text/numbers.ts';
import { choiceText } from '../text/parts.ts';
import { buildsText, consideredText, estimateText, expectedText, failsText } from '../text/working.ts';

const CAUTION =
  'Numbers for choosing parts. They do not replace measuring your own parts, going through the whole travel with the spring out, a proper spring compressor, a licensed workshop, or your local road rules.';

export function purchaseMarkdown(result: Result): string {
  const shown = mapStrings(result, (text) => markdownSafe(visible(text)));
  const blocks = [
    `# ${shown.scenario.name}: what to order`,
    CAUTION,
    ...incompleteBlocks(shown),
    ...(shown.notes ?? []),
    ...planBlocks(shown),
    ...shown.setups.flatMap((setup) => setupBlocks(shown, setup)),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function incompleteBlocks({ incomplete }: Result): string[] {
  if (!incomplete) return [];
  const [judged, of] = [count(incomplete.judged, PLAIN), count(incomplete.of, PLAIN)];
  return [`**Incomplete.** The sweep was stopped after ${judged} of ${of} combinations: better ones may exist.`];
}

/**
 * Signs that would end a cell, open markup, a tag or an entity, or make a link of an address. Letters, digits and `_`
 * inside words stay. Readers look for mail addresses after undoing what is escaped: a comment keeps the two sides apart.
 */
function markdownSafe(text: string): string {
  return text
    .replace(/[\\`*[\]<>|#]|&(?=[#\w])|:(?=\/\/)|(?<=\bwww)\./gi, (sign) => `\\${sign}`)
    .replace(/@(?=\w)/g, '@<!-- -->')
    .replace(/[\r\n]+/g, ' ');
}

/** The best plan over several setups: what is bought for all of them. */
function planBlocks(result: Result): string[] {
  const { plans, scenario } = result;
  if (!plans) return [];
  const best = plans.plans[0];
  if (!best) return [`**No plan works in every setup** (${plans.setups.join(', ')}): each needs a build of its own.`];
  const answers = answersOf(result).filter(({ plan }) => plan === best);
  return [
    `## One build for ${plans.setups.join(' and ')}`,
    `The plan: **${best.id}**, score ${fixed(best.score, 3, PLAIN)} of 1; combinations ${best.setups.map((part) => part.id).join(', ')}.`,
    ...answers.flatMap(({ setup, combination, builds }) => {
      if (!builds) return [];
      return [`Random builds for ${setup.name}: ${buildsText(builds, combination, PLAIN)}.${failsSentence(builds)}`];
    }),
    ...(best.order ? ['### Parts to order', orderTable(best.order, scenario.currency)] : []),
    '### Cuts and settings',
    ...answers.flatMap(({ setup, combination }) => [
      `In setup ${setup.name}:`,
      ...AXLE_NAMES.map((axle) => cornerList(axle, combination.axles[axle])),
    ]),
    ...measureFirst(answers).map(({ tag, text }) => `- **${tag}:** ${text}`),
    ...(plans.purchase ? planPurchaseBlocks(plans.purchase) : []),
  ];
}

function planPurchaseBlocks({ ranges }: PlanPurchase): string[] {
  return [
    '### How free the plan’s cuts are',
    'Listed values of what is shared that still pass every check of the corner in every setup, everything else as chosen.',
    rangeTable(ranges),
  ];
}

function setupBlocks(result: Result, setup: SetupResult): string[] {
  const { advice, shortlist } = setup;
  const isBehind = Boolean(answerOf(result, setup)?.plan);
  const title = isBehind ? `## If the car had only setup ${setup.name}` : `## Setup ${setup.name}`;
  if (!advice) return [title, 'The sweep was stopped: no advice.'];
  const best = shortlist[0];
  const found = best?.workable ? bestBlocks(result, setup, advice, best) : [relaxationBlock(advice)];
  return [title, ...found, ...AXLE_NAMES.flatMap((axle) => whyNotBlocks(advice, axle))];
}

function bestBlocks(result: Result, setup: SetupResult, advice: SetupAdvice, best: Combination): string[] {
  const [purchase] = advice.purchases;
  if (!purchase) return [];
  return [
    `${result.mode === 'build' ? 'The build' : `Best, ordered by ${RANKED_BY[advice.ranked_by]}`}: **${best.id}**, score ${fixed(best.score, 3, PLAIN)} of 1.`,
    `### Parts to order`,
    orderTable(purchase.order, result.scenario.currency),
    `### Cuts and settings`,
    ...AXLE_NAMES.map((axle) => cornerList(axle, best.axles[axle])),
    ...(result.mode === 'build' ? [] : choiceBlocks(result, setup, advice, purchase)),
    `Random builds: ${buildsText(purchase, best, PLAIN)}.${failsSentence(purchase)} Drawn: ${drawsText(advice)}.`,
    ...expectedBlock(purchase, advice),
    ...tasteBlocks(advice),
    `### Which rate the car asks for`,
    rateList(advice),
  ];
}

function expectedBlock({ expected }: PurchaseAdvice, { draws, considered }: SetupAdvice): string[] {
  if (!expected) return [];
  const among = considered ? ` Sought among ${consideredText(considered)}.` : '';
  return [`Expected: ${expectedText(expected, draws.count, PLAIN)}.${among}`];
}

/** What only a choice among several has: freedom of the cuts, and the others. */
function choiceBlocks({ scenario }: Result, setup: SetupResult, advice: SetupAdvice, best: PurchaseAdvice): string[] {
  return [
    '### How free the cuts are',
    'Listed values that still pass every check of the corner, everything else as chosen.',
    rangeTable(best.ranges),
    '### The shortlist',
    purchaseTable(setup, advice, scenario.currency),
    `◆ stands: no other is at least as good on every criterion and better on one. ${hasWorst(advice) ? 'Worst-case score: every criterion at the worst end of its tolerances.' : NO_WORST}`,
  ];
}

function orderTable(order: Order, currency: string): string {
  const { lines, total, unpriced } = order;
  const isPriced = hasPrices(order);
  const noted = noteColumns(order);
  const rows = lines.map((line) => {
    const spring =
      line.free_length_mm === null
        ? ''
        : `, ${withUnits(line.free_length_mm, 'length', PLAIN)}, ${withUnits(line.rate_n_per_mm, 'rate', PLAIN)}`;
    const price = line.price === null ? 'no price' : fixed(line.price, 2, PLAIN);
    const sum = line.total === null ? '' : fixed(line.total, 2, PLAIN);
    const part = [`${line.part}${spring}`, FAMILY_LABELS[line.family], line.axles.join(', '), String(line.count)];
    return [...part, ...(isPriced ? [price, sum] : []), ...noted.map((column) => noteIn(line, column))];
  });
  const what = ['part', 'what', 'axle', 'pieces'];
  if (!isPriced) return `${table([...what, ...noted], rows)}\n\nNo part has a price.`;
  const sum = ['**together**', '', '', '', '', `**${fixed(total, 2, PLAIN)}**`, ...noted.map(() => '')];
  const header = [...what, `price each, ${currency}`, `together, ${currency}`, ...noted];
  const named = unpriced.length > 0 ? `\n\nNo price given, and not in the total: ${unpriced.join(', ')}.` : '';
  return table(header, [...rows, sum]) + named;
}

function cornerList(axle: AxleName, corner: CornerReport): string {
  const parts = FAMILIES.map((family) => `- ${FAMILY_LABELS[family]}: ${choiceText(corner.parts[family], PLAIN)}`);
  const perch = perchText(corner);
  return [
    `${AXLE_TITLES[axle]}:`,
    '',
    ...parts,
    `- perch seat at ${perch} above the lower eye`,
    ...sideFailures(corner).map((text) => `- **warning:** ${text}`),
  ].join('\n');
}

/** What either side fails at its own load. */
function sideFailures({ sides }: CornerReport): string[] {
  return SIDE_NAMES.flatMap((side) =>
    (sides?.[side].failures ?? []).map(({ check, message }) => {
      return `the ${side} side fails at its own load, ${CHECK[check].label}: ${message}`;
    }),
  );
}

function rangeTable(ranges: PurchaseAdvice['ranges']): string {
  const rows = AXLE_NAMES.flatMap((axle) =>
    ranges[axle].map((range) => [axle, rangeLabel(range), rangeText(range, PLAIN)]),
  );
  return table(['axle', 'what', 'works'], rows);
}

function purchaseTable({ shortlist }: SetupResult, advice: SetupAdvice, currency: string): string {
  const { purchases } = advice;
  const isExpected = purchases.some(({ expected }) => expected);
  const columns: readonly (readonly [
    header: string,
    tells: boolean,
    cell: (one: PurchaseAdvice, k: number) => string,
  ])[] = [
    ['rank', true, (_, k) => String(k + 1)],
    ['id', true, ({ id }) => id],
    ['score', true, (_, k) => fixed(shortlist[k]?.score, 3, PLAIN)],
    ['mark', true, ({ dominated_by: by }) => (by === null ? '◆ stands' : `○ beaten by ${by}`)],
    ['builds that work', true, (one, k) => shareText(one, shortlist[k])],
    ['the others, each by its worst', purchases.some(({ fails }) => fails), (one) => failsText(one, PLAIN)],
    [
      'works, measured first',
      isExpected,
      ({ expected }) => (expected ? percent(expected.measured_first.share, 1, PLAIN) : ''),
    ],
    ['expected score', isExpected, ({ expected }) => fixed(expected?.measured_first.expected_score, 3, PLAIN)],
    ['worst-case score', hasWorst(advice), ({ worst_score }) => fixed(worst_score, 3, PLAIN)],
    [
      `parts, ${currency}`,
      purchases.some(({ order }) => hasPrices(order)),
      ({ order }) => fixed(order.total, 2, PLAIN),
    ],
  ];
  const shown = columns.filter(([, tells]) => tells);
  return table(
    shown.map(([header]) => header),
    purchases.map((one, k) => shown.map(([, , cell]) => cell(one, k))),
  );
}

function failsSentence(builds: Builds): string {
  const text = failsText(builds, PLAIN);
  return text === '' ? '' : ` Those that fail, each by its worst: ${text}.`;
}

function shareText({ share }: Builds, combination: Combination | undefined): string {
  const estimate = combination ? estimateText(combination) : null;
  return `${percent(share, 1, PLAIN)}${estimate === null ? '' : `, ${estimate}`}`;
}

function tasteBlocks({ taste }: SetupAdvice): string[] {
  if (!taste) return [];
  const rows = changingRows(taste).map((row) => [
    CRITERIA[row.criterion].label,
    `${fixed(row.weight, 2, PLAIN)} -> ${fixed(row.tried, 2, PLAIN)}`,
    row.winner,
    fixed(row.score, 3, PLAIN),
    winnerText(row),
  ]);
  return [
    '### If your weights were other',
    `${changesText(taste)} ${BASES[taste.basis]}`,
    ...(rows.length > 0 ? [table(['criterion', 'weight', 'best then', 'score', 'springs'], rows)] : []),
  ];
}

function rateList({ rates }: SetupAdvice): string {
  return AXLE_NAMES.flatMap((axle) => {
    const rate = rates[axle];
    return rate ? [`- ${AXLE_TITLES[axle]}: ${rateText(rate, PLAIN)}`] : [];
  }).join('\n');
}

function relaxationBlock({ relaxations }: SetupAdvice): string {
  if (!relaxations) return 'Nothing works.';
  const none = fruitlessText(relaxations, PLAIN);
  const found = fruitful(relaxations);
  if (found.length === 0) return `**Nothing works.** ${none}`;
  const hasWinners = relaxations.basis === 'all';
  const rows = found.map((row) => [
    row.requirement,
    row.axles.join(' and '),
    relaxationText(row, PLAIN),
    ...(hasWinners ? [row.winner ?? ''] : []),
  ]);
  const headers = ['requirement', 'axle', 'relaxed', ...(hasWinners ? ['best then'] : [])];
  const text = `**Nothing works.** ${RELAXATION_BASES[relaxations.basis]}\n\n${table(headers, rows)}`;
  return none === '' ? text : `${text}\n\n${none}`;
}

function whyNotBlocks({ why_not }: SetupAdvice, axle: AxleName): string[] {
  const found = why_not[axle];
  const { springs, combinations, looked_at } = found;
  if (springs.length === 0) return [];
  const cured = springs.filter((spring) => spring.cures.length > 0).sort((a, b) => leastAmount(a) - leastAmount(b));
  const none = springs.length - cured.length;
  const rest = restText(found);
  const [those, also] = rest === '' ? ['them', ''] : ['those listed', `${rest} `];
  const intro = `${neverWorking(found)} ${axle} springs never work; ${cured.length} of ${those} have a cure, ${none} have none within the limits. ${also}${lookedText(combinations, looked_at)}`;
  const cures = cured.length > 0 ? [cureTable(cured)] : [];
  return [`### ${AXLE_TITLES[axle]} springs that never work`, intro, ...cures, `${CLOSENESS} ${CURE_LIMITS}`];
}

function cureTable(cured: readonly WhyNotSpring[]): string {
  const rows = cured.map((spring) => [
    springText(spring, PLAIN),
    lackText(spring, PLAIN),
    spring.cures.map((cure) => `${cureText(cure)}, on ${cure.parts}`).join('. Or: '),
  ]);
  return table(['spring', 'closest combination lacks', 'cure, smallest first'], rows);
}

function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(header), line(header.map(() => '---')), ...rows.map(line)].join('\n');
}
