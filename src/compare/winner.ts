/** What is bought for one setup before and after: its parts, its numbers, how sure they are. */
import { FAILING_LABELS, FAILINGS } from '../model/corner/checkRecord.ts';
import { AXLE_NAMES, type AxleName, FAMILIES } from '../model/scenario.ts';
import { type Dimension, imperialUnit, innerUnit } from '../model/units.ts';
import type { Answer } from '../report/text/answers.ts';
import { doubtsOf } from '../report/text/cautions.ts';
import { AXLE_TITLES, FAMILY_LABELS } from '../report/text/labels.ts';
import { fixed, inImperial, inInner, PAGE, PLAIN, unitSymbol, withUnits } from '../report/text/numbers.ts';
import { nameOf } from '../report/text/parts.ts';
import type { Builds } from '../result/advice.ts';
import type { CornerKey } from '../result/quantities/corner.ts';
import type { PairKey } from '../result/quantities/pair.ts';
import type { Combination, CornerReport, PartChoice, SetupResult } from '../result/result.ts';

/** A setup of one of the reports, with what is bought for it. */
export interface WinnerSide {
  readonly setup: SetupResult;
  readonly answer: Answer | null;
}

export function winnerView(before: WinnerSide | null, after: WinnerSide | null) {
  const [was, is] = [bestOf(before), bestOf(after)];
  const sides = was && is ? { was, is, before: before?.setup ?? null, after: after?.setup ?? null } : null;
  const parts = sides ? partRows(sides) : [];
  return {
    setup: (before ?? after)?.setup.name ?? '',
    /** The plan it is part of; null where it is the setup's own best. */
    plans: { before: before?.answer?.plan?.id ?? null, after: after?.answer?.plan?.id ?? null },
    verdict: verdictOf(before, after, parts),
    ids: { before: was?.id ?? null, after: is?.id ?? null },
    flags: { before: was ? doubtsOf(was) : [], after: is ? doubtsOf(is) : [] },
    parts,
    axles: sides ? AXLE_NAMES.map((axle) => axleView(axle, sides)) : [],
    pair: sides
      ? [...pairRows(sides), ...buildsRows(before?.answer?.builds ?? null, after?.answer?.builds ?? null)]
      : [],
  };
}

const bestOf = (side: WinnerSide | null) => side?.answer?.combination ?? null;

function verdictOf(before: WinnerSide | null, after: WinnerSide | null, parts: ReturnType<typeof partRows>): string {
  if (before === null) return 'Only the second report has this setup.';
  if (after === null) return 'Only the first report has this setup.';
  const [was, is] = [bestOf(before), bestOf(after)];
  if (was === null && is === null) return 'Nothing works, before and after.';
  if (was === null) return 'Before, nothing worked; now something does.';
  if (is === null) return 'Before, something worked; now nothing does.';
  return `${workText(was, is)}${partText(parts.filter(({ changed }) => changed))}`;
}

function workText(was: Combination, is: Combination): string {
  if (was.workable && is.workable) return '';
  if (was.workable) return 'It worked, and does not any more. ';
  return is.workable ? 'It did not work, and does now. ' : 'It does not work, before and after. ';
}

function partText(changed: ReturnType<typeof partRows>): string {
  if (changed.length === 0) return 'The same parts and cuts win.';
  const names = changed.map(({ where, family }) => `${where.toLowerCase()} ${family}`);
  return `Other parts or cuts win: ${names.join(', ')}.`;
}

function partRows({ was, is }: Pick<Sides, 'was' | 'is'>) {
  return AXLE_NAMES.flatMap((axle) =>
    FAMILIES.map((family) => {
      const [before, after] = [was, is].map(({ axles }) => choiceOf(axles[axle].parts[family])) as [string, string];
      return { where: AXLE_TITLES[axle], family: FAMILY_LABELS[family], before, after, changed: before !== after };
    }),
  ).filter(({ before, after }) => before !== 'none' || after !== 'none');
}

/** `flat mount: raise 15.0 mm (0.59 in), spacer 3.0 mm (0.12 in)`; what is 0 is left out. */
function choiceOf(part: PartChoice): string {
  const name = nameOf(part);
  if (name === null) return 'none';
  const choices = Object.entries(part.choice).flatMap(([key, value]) => (value === 0 ? [] : [choiceText(key, value)]));
  return choices.length > 0 ? `${name}: ${choices.join(', ')}` : name;
}

/** Endings of keys, and the dimension each stands for. */
const ENDINGS: readonly (readonly [string, Dimension])[] = [
  ['_n_per_mm', 'rate'],
  ['_mm', 'length'],
];

function choiceText(key: string, value: number): string {
  const [ending, dimension] = ENDINGS.find(([end]) => key.endsWith(end)) ?? ['', 'ratio' as const];
  return `${key.slice(0, key.length - ending.length).replaceAll('_', ' ')} ${withUnits(value, dimension, PLAIN)}`;
}

const CORNER_NUMBERS: readonly (readonly [key: CornerKey, label: string, dimension: Dimension])[] = [
  ['perch_mm', 'perch seat above the lower eye', 'length'],
  ['perch_below_top_mm', 'perch seat below the sleeve top', 'length'],
  ['bump_travel_mm', 'bump travel left at the wheel', 'length'],
  ['droop_travel_mm', 'droop travel left at the wheel', 'length'],
  ['lowest_height_mm', 'lowest usable ride height', 'length'],
  ['highest_height_mm', 'highest usable ride height', 'length'],
  ['thinnest_clearance_mm', 'thinnest clearance at full bump', 'length'],
  ['thinnest_spare_mm', 'the same beyond its margin', 'length'],
  ['clearance_coil_bind_mm', 'clearance to coil bind', 'length'],
  ['slack_mm', 'looseness at full droop (negative: preload)', 'length'],
  ['body_frequency_hz', 'body frequency', 'frequency'],
  ['wheel_rate_n_per_mm', 'wheel rate', 'rate'],
  ['spring_force_n', 'spring force standing', 'force'],
];

interface Sides {
  readonly was: Combination;
  readonly is: Combination;
  readonly before: SetupResult | null;
  readonly after: SetupResult | null;
}

function axleView(axle: AxleName, { was, is, before, after }: Sides) {
  const [old, now] = [was.axles[axle], is.axles[axle]];
  const target = (setup: SetupResult | null) => setup?.targets[axle].target_height_mm ?? null;
  return {
    title: AXLE_TITLES[axle],
    rows: [
      amountView('target height', 'length', target(before), target(after)),
      ...CORNER_NUMBERS.map(([key, label, dimension]) =>
        amountView(label, dimension, old.values[key], now.values[key]),
      ),
      amountView('least clearance, every tolerance against it', 'length', worstClearance(old), worstClearance(now)),
    ],
  };
}

/** The least of all clearances with every tolerance against it. */
function worstClearance({ bands }: CornerReport): number | null {
  const lows = Object.entries(bands).flatMap(([key, band]) => (key.startsWith('clearance_') ? [band.worst_low] : []));
  return lows.length > 0 ? Math.min(...lows) : null;
}

/** Of the random builds the share that works, and by the worst they fail those that don't, where both reports tell them apart. */
function buildsRows(was: Builds | null, is: Builds | null) {
  if (was === null || is === null) return [];
  const row = (label: string, before: number, after: number) =>
    amountView(`random builds: ${label}`, 'share', 100 * before, 100 * after);
  const [before, after] = [was.fails, is.fails];
  const fails =
    before && after ? FAILINGS.map((f) => row(FAILING_LABELS[f], before[`${f}_share`], after[`${f}_share`])) : [];
  return [row('work', was.share, is.share), ...fails];
}

const PAIR_NUMBERS: readonly (readonly [key: PairKey, label: string, dimension: Dimension])[] = [
  ['frequency_ratio', 'rear over front frequency', 'ratio'],
  ['bounce_frequency_hz', 'bounce of the whole car', 'frequency'],
  ['pitch_frequency_hz', 'pitch of the whole car', 'frequency'],
  ['price_total', 'price of all parts, both sides', 'money'],
];

function pairRows({ was, is }: Sides) {
  return [
    amountView('score (0 to 1)', 'ratio', was.score, is.score),
    ...PAIR_NUMBERS.map(([key, label, dimension]) => amountView(label, dimension, was.values[key], is.values[key])),
  ];
}

// A number before and after, and its difference, in both worlds.

type Value = number | null | undefined;

export function amountView(label: string, dimension: Dimension, before: Value, after: Value) {
  const imperial = imperialUnit(dimension);
  const values = { before: valueView(before, dimension), after: valueView(after, dimension) };
  return {
    label,
    unit: unitSymbol(innerUnit(dimension), PAGE),
    imperialUnit: imperial === null ? null : unitSymbol(imperial, PAGE),
    ...values,
    difference: {
      metric: gain(values.before.metric, values.after.metric),
      imperial: values.before.imperial === null ? null : gain(values.before.imperial, values.after.imperial ?? ''),
    },
    /** The figures as shown differ. */
    changed: values.before.metric !== values.after.metric,
  };
}

function valueView(value: Value, dimension: Dimension) {
  return { metric: inInner(value, dimension, PAGE), imperial: inImperial(value, dimension, PAGE) };
}

/** The difference of two figures as shown, with its sign: the reader's own subtraction gives the same. */
export function gain(before: string, after: string): string {
  if (before === PAGE.none || after === PAGE.none) return before === after ? '' : PAGE.none;
  const [was, is] = [numberIn(before), numberIn(after)];
  const decimals = Math.max(...[before, after].map((shown) => shown.split('.')[1]?.length ?? 0));
  const text = fixed(is - was, decimals, PAGE);
  if (before === after) return '=';
  return is > was ? `+${text}` : text;
}

function numberIn(shown: string): number {
  return Number(shown.replaceAll(PAGE.group, '').replace(PAGE.minus, '-'));
}
