/** How many combinations passed and fell, before and after. */
import { CHECK_LABELS, CORNER_CHECKS } from '../../domain/checks.ts';
import type { AxleTally, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { count, PAGE } from '../numbers.ts';
import { gain } from './amount.ts';

export interface TalliesView {
  readonly setup: string;
  readonly rows: readonly TallyRow[];
  readonly pairs: readonly { readonly label: string; readonly cells: readonly string[] }[];
}

export interface TallyRow {
  readonly label: string;
  readonly isSum: boolean;
  /** Before, after and difference, front and then rear. */
  readonly cells: readonly string[];
}

export function talliesView(before: SetupResult, after: SetupResult): TalliesView {
  const of = (read: (tally: AxleTally) => number) =>
    AXLE_NAMES.flatMap((axle) => counts(read(before.axles[axle]), read(after.axles[axle])));
  const busy = CORNER_CHECKS.filter((check) =>
    [before, after].some(({ axles }) => AXLE_NAMES.some((axle) => (axles[axle].rejected[check] ?? 0) > 0)),
  );
  return {
    setup: before.name,
    rows: [
      { label: 'combinations looked at', isSum: true, cells: of(({ combinations }) => combinations) },
      ...busy.map((check) => ({
        label: `fell at: ${CHECK_LABELS[check]}`,
        isSum: false,
        cells: of(({ rejected }) => rejected[check] ?? 0),
      })),
      { label: 'pass every check of their axle', isSum: true, cells: of(({ passed }) => passed) },
    ],
    pairs: [
      ['passing front times passing rear', before.pairs.considered, after.pairs.considered],
      ['out of balance', before.pairs.rejected_by_balance, after.pairs.rejected_by_balance],
      ['workable', before.pairs.workable, after.pairs.workable],
    ].map(([label, was, is]) => ({ label: String(label), cells: counts(Number(was), Number(is)) })),
  };
}

function counts(before: number, after: number): string[] {
  const [was, is] = [count(before, PAGE), count(after, PAGE)];
  return [was, is, gain(was, is)];
}
