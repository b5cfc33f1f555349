/** Advice in words, shared by page, Markdown and terminal so that the three say the same. */

import { LIMITS, STEP } from '../../advice/changes.ts';
import { cureText } from '../../advice/messages.ts';
import { SCALES } from '../../advice/trials.ts';
import { CHECK } from '../../model/corner/checks.ts';
import { capital } from '../../model/corner/messages.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type {
  RankBy,
  RateNeeded,
  Relaxation,
  Relaxations,
  SetupAdvice,
  WhyNot,
  WhyNotSpring,
  WorkingRange,
} from '../../result/advice.ts';
import type { ChangeSpring, HelpfulChange } from '../../result/nothing.ts';
import type { AxleAlone, Failure, NothingWorks, SetupResult } from '../../result/result.ts';
import { FAMILY_LABELS } from './labels.ts';
import { count, fixed, type NumberStyle, withUnits } from './numbers.ts';

const DIMENSION_LABELS: Readonly<Record<string, string>> = {
  trim: 'sleeve trim',
  grooveDrop: 'groove lowered by',
  spacer: 'spacer',
  length: 'stop length',
  packer: 'packer',
  thickness: 'isolator thickness',
  height: 'perch height',
};

export function rangeLabel(range: WorkingRange): string {
  return range.kind === 'part' ? FAMILY_LABELS[range.family] : (DIMENSION_LABELS[range.dimension] ?? range.dimension);
}

/** `15.0 mm (0.59 in) to 40.0 mm (1.57 in), 6 of 9 listed` */
export function rangeText(range: WorkingRange, style: NumberStyle): string {
  if (range.kind === 'part') {
    const names = range.works.map((name) => (name === 'none' ? 'without one' : name));
    if (names.length === 0) return `none of ${range.options} listed`;
    return `${names.length > 1 ? names.join(' or ') : `only ${names[0]}`}, ${range.works.length} of ${range.options} listed`;
  }
  const { works_mm, gaps_mm, options } = range;
  const length = (value: number) => withUnits(value, 'length', style);
  const [from, to] = [works_mm[0], works_mm.at(-1)];
  if (from === undefined || to === undefined) return `none of ${options} listed`;
  const span = from === to ? `only ${length(from)}` : `${length(from)} to ${length(to)}`;
  const gaps = gaps_mm.length > 0 ? `, but not ${gaps_mm.map(length).join(', ')}` : '';
  return `${span}, ${works_mm.length} of ${options} listed${gaps}`;
}

/** A spring by name, length and rate: those of a grid share their name. */
export function springText({ spring, free_length_mm, rate_n_per_mm }: WhyNotSpring, style: NumberStyle): string {
  return `${spring}, ${withUnits(free_length_mm, 'length', style)}, ${withUnits(rate_n_per_mm, 'rate', style)}`;
}

/** `coil bind 4.3 mm, spring overstressed 20.1 MPa` */
export function lackText({ failures }: WhyNotSpring, style: NumberStyle): string {
  return failures
    .map(({ check, shortfall, unit }) => {
      const decimals = unit === 'Hz' ? 3 : unit === 'N' || unit === 'MPa' ? 0 : 1;
      const amount = shortfall === null ? '' : ` by ${fixed(shortfall, decimals, style)} ${unit}`.trimEnd();
      return `${CHECK[check].label}${amount}`;
    })
    .join(', ');
}

/** How far cures were looked for. */
export const CURE_LIMITS = [
  `Looked for in steps of ${STEP} mm: a sleeve trimmed by up to ${LIMITS.trim} mm, a spacer up to ${LIMITS.spacer} mm,`,
  `a stop from ${LIMITS.shortestStop} mm to uncut, a groove lowered by up to ${LIMITS.groove} mm, a helper of the other axle;`,
  'a groove comes last where nobody said what the damper’s body is, and never on a single tube;',
  'alone first, then two together on the closest combinations. Each cure was confirmed by judging it in full.',
  'What keeps a groove, a spacer or a sleeve from being made so is a question for the workshop.',
].join(' ');

export const CLOSENESS = `Closest: the least sum of shortfalls, each over ${SCALES.mm} mm, ${SCALES.N} N, ${SCALES.MPa} MPa or ${SCALES.Hz} Hz.`;

/** Springs that never work, those that are not listed with them. */
export function neverWorking({ springs, not_listed = 0 }: WhyNot): number {
  return springs.length + not_listed;
}

/** `The 50 nearest are listed here; the other 850 lack more.` Empty where all are listed. */
export function restText({ springs, not_listed }: WhyNot): string {
  if (not_listed === undefined) return '';
  return `The ${springs.length} nearest are listed, by what their closest combination lacks; the other ${not_listed} lack as much or more, and no cure was looked for.`;
}

/** `All 108 combinations with each spring were looked at.` */
export function lookedText(combinations: number, lookedAt: number): string {
  if (lookedAt === combinations) return `All ${combinations} combinations with each spring were looked at.`;
  return `Of the ${combinations} combinations with each spring, ${lookedAt} were looked at, on evenly thinned option lists: a closer one may exist.`;
}

export function rateText(rate: RateNeeded, style: NumberStyle): string {
  const { frequency_hz, from, rate_n_per_mm, least_n_per_mm, most_n_per_mm, listed, nearest } = rate;
  const aim = `${fixed(frequency_hz, 2, style)} Hz (${AIMS[from]})`;
  if (rate_n_per_mm === null) return `${aim}: no spring gives it; gas, bushes or tyre alone decide.`;
  const shown = (value: number | null) => withUnits(value, 'rate', style);
  const near = nearest.map((n) => `${shown(n.rate_n_per_mm)}, ${signed(n.off_pct, style)} % off`).join('; ');
  const has = listed ? 'a listed spring has it within its tolerance' : 'no listed spring has it within its tolerance';
  return `${aim} asks for ${shown(rate_n_per_mm)}; the frequency window allows ${shown(least_n_per_mm)} to ${shown(most_n_per_mm)}; ${has}. Nearest listed: ${near}.`;
}

const AIMS: Readonly<Record<RateNeeded['from'], string>> = {
  wanted: 'wanted',
  balance: 'the balance target with the chosen front',
  'middle of the window': 'the middle of its window, no other wish given',
};

function signed(value: number, style: NumberStyle): string {
  return value > 0 ? `+${fixed(value, 1, style)}` : fixed(value, 1, style);
}

export const RANKED_BY: Readonly<Record<RankBy, string>> = {
  nominal: 'score',
  worst: 'score with every criterion at the worst end of its tolerances; equal ones by the share of builds that work',
  share: 'share of random builds that work; equal ones by the plain score',
  expected: 'score expected of a build that is measured before it is cut, one that fails counted 0',
};

export function drawsText({ draws }: SetupAdvice): string {
  return `${draws.count} builds a purchase, each toleranced input drawn evenly within its tolerance, perch re-set to the target height (${draws.generator}, seed ${draws.seed})`;
}

/** A requirement that gives an answer when it gives in by so much. */
export interface FruitfulRelaxation extends Relaxation {
  readonly by: number;
}

export function fruitful({ rows }: Relaxations): FruitfulRelaxation[] {
  return rows.filter((row): row is FruitfulRelaxation => row.by !== null);
}

/** The others in one sentence, each with how far was looked; empty where there are none. */
export function fruitlessText({ rows }: Relaxations, style: NumberStyle): string {
  const none = rows.filter(({ by }) => by === null);
  if (none.length === 0) return '';
  const tried = none.map(({ requirement, most, unit }) => `${requirement} by ${amountText(most, unit, style)}`);
  const who = none.length === rows.length ? 'No requirement' : 'No other requirement';
  return `${who} gives an answer alone, not even relaxed so far: ${tried.join(', ')}.`;
}

/** `by 3.5 mm` */
export function relaxationText({ by, unit }: FruitfulRelaxation, style: NumberStyle): string {
  return `by ${amountText(by, unit, style)}`;
}

function amountText(value: number, unit: string, style: NumberStyle): string {
  return `${fixed(value, unit === 'mm' ? 1 : 2, style)} ${unit}`.trimEnd();
}

// What helps where nothing works, in words that page and terminal share.

/** One of all that the nearest build lacks. */
export interface Lack extends Failure {
  /** Null: what front and rear fail together. */
  readonly axle: AxleName | null;
}

export function lacksOf({ nearest: { axles, failures } }: NothingWorks): Lack[] {
  return [
    ...AXLE_NAMES.flatMap((axle) => axles[axle].failures.map((failure) => ({ axle, ...failure }))),
    ...failures.map((failure) => ({ axle: null, ...failure })),
  ];
}

/** `8.2 mm`; null where no amount exists. */
export function lackAmount({ shortfall, unit }: Failure, style: NumberStyle): string | null {
  if (shortfall === null) return null;
  return `${fixed(shortfall, unit === 'mm' ? 1 : unit === 'Hz' ? 2 : unit === '' ? 3 : 0, style)} ${unit}`.trim();
}

/** What is done. */
export function changeText({ changes, spring }: HelpfulChange, style: NumberStyle): string {
  const done = changes.length === 0 ? '' : cureText({ changes });
  if (spring.name !== null) return `${done}, with ${sizeText(spring, style)}`;
  const other = `another spring, ${sizeText(spring, style)}`;
  return `${capital(other)}${done === '' ? '' : `; and ${done.charAt(0).toLowerCase()}${done.slice(1)}`}`;
}

function sizeText({ name, free_length_mm, rate_n_per_mm, solid_height_mm }: ChangeSpring, style: NumberStyle): string {
  const length = (value: number) => withUnits(value, 'length', style);
  const size = `${length(free_length_mm)}, ${withUnits(rate_n_per_mm, 'rate', style)}`;
  if (name !== null) return `${name} (${size})`;
  return `${size}, solid by ${length(solid_height_mm)} (estimate)`;
}

/** What then works: as judged. */
export function thenText(
  axle: AxleName,
  { corner, springs, balanced_with }: HelpfulChange,
  style: NumberStyle,
): string {
  const length = (value: number | null) => withUnits(value, 'length', style);
  const { lowest_height_mm: low, highest_height_mm: high } = corner;
  const heights = low === null ? [] : [`usable heights ${length(low)} to ${length(high)}`];
  const figures = [
    `perch ${length(corner.perch_mm)}`,
    ...heights,
    `bump travel ${length(corner.bump_travel_mm)}`,
    `droop travel ${length(corner.droop_travel_mm)}`,
    withUnits(corner.frequency_hz, 'frequency', style),
  ];
  const passes = `Judged so, the ${axle} passes every check: ${figures.join(', ')}.`;
  const list =
    springs === null ? '' : ` ${springs.work} of ${springs.of} listed springs pass on these parts with that change.`;
  return `${passes}${list}${balanceText(axle, balanced_with, style)}`;
}

function balanceText(axle: AxleName, balanced: number | null, style: NumberStyle): string {
  const other = axle === 'front' ? 'rear' : 'front';
  if (balanced === null) return ` The ${other} has nothing that passes yet.`;
  if (balanced === 0) return ` It is in balance with no ${other} combination that passes.`;
  return ` The whole car works: ${count(balanced, style)} passing ${other} combinations are in balance with it.`;
}

/** The axles that are in need, by name, with their change. */
export function changesOf({ axles }: NothingWorks): { readonly axle: AxleName; readonly change: HelpfulChange }[] {
  return AXLE_NAMES.flatMap((axle) => {
    const { change } = axles[axle];
    return change === null ? [] : [{ axle, change }];
  });
}

/** The wish that costs least to give in on; empty where none gives an answer alone. */
export function giveInText({ advice }: SetupResult, style: NumberStyle): string {
  const [cheapest] = advice?.relaxations ? fruitful(advice.relaxations) : [];
  if (!cheapest) return '';
  return `${cheapest.axles.join(' and ')} ${cheapest.requirement} ${relaxationText(cheapest, style)}`;
}

/** What the nearest build is, in words. */
export function nearestText({ axles }: NothingWorks): string {
  const names = AXLE_NAMES.filter((axle) => isEmpty(axles[axle]));
  if (names.length === 0) return 'Front and rear each pass: this pair of them comes nearest to the limits of balance.';
  const closest = names.map((axle) => `the closest ${axle} combination`).join(' and ');
  const best = AXLE_NAMES.filter((axle) => !names.includes(axle)).map((axle) => ` with the best ${axle} one`);
  return `${capital(closest)}${best.join('')}: the least sum of shortfalls.`;
}

export function isEmpty({ passing }: AxleAlone): boolean {
  return passing.length === 0;
}
