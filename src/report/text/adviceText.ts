/** Advice in words, shared by page, Markdown and terminal so that the three say the same. */
import { LIMITS, STEP } from '../../advice/changes.ts';
import { SCALES } from '../../advice/trials.ts';
import { CHECK } from '../../model/corner/checks.ts';
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
import { FAMILY_LABELS } from './labels.ts';
import { fixed, type NumberStyle, withUnits } from './numbers.ts';

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
