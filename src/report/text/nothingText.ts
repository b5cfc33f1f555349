/** What helps where nothing works, in words that page and terminal share. */
import { cureText } from '../../advice/messages.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { ChangeSpring, HelpfulChange } from '../../result/nothing.ts';
import type { AxleAlone, Failure, NothingWorks, SetupResult } from '../../result/result.ts';
import { fruitful, relaxationText } from './adviceText.ts';
import { count, fixed, type NumberStyle, withUnits } from './numbers.ts';
import { capital } from './working.ts';

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
