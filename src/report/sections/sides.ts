/** Left and right of a corner at their own loads, where the wheels of an axle carry different ones. */
import { CHECK_LABELS } from '../../domain/checks.ts';
import type { CornerReport, SetupResult, SideReport } from '../../domain/result.ts';
import { SIDE_NAMES, type SideName } from '../../domain/scenario.ts';
import { PLAIN, withUnits } from '../numbers.ts';
import { closedClearance, type Measure, measure, quantityOf, type Thinnest } from '../read.ts';

export interface SidesView {
  readonly left: SideView;
  readonly right: SideView;
}

export interface SideView {
  readonly name: SideName;
  readonly load: Measure;
  readonly perch: Measure;
  readonly perchBelowTop: Measure;
  readonly bump: Measure;
  readonly droop: Measure;
  readonly low: Measure;
  readonly high: Measure;
  readonly frequency: Measure;
  readonly thinnest: Thinnest;
  /** The clearance nearest its margin is less here than at the mean load. */
  readonly isThinner: boolean;
  /** Labels of the checks it fails; empty when it passes. */
  readonly fails: string;
}

/** Null where one load stands for both sides. */
export function sidesView(setup: SetupResult, corner: CornerReport): SidesView | null {
  const { sides } = corner;
  if (!sides) return null;
  return { left: sideView(setup, corner, 'left', sides.left), right: sideView(setup, corner, 'right', sides.right) };
}

/** The side whose clearance is nearest its margin, where that is nearer than at the mean load. */
export function thinnerSide({ values, sides }: CornerReport): { name: SideName; report: SideReport } | null {
  if (!sides) return null;
  const spare = (report: SideReport) => quantityOf(report.values, 'thinnest_spare_mm') ?? Number.POSITIVE_INFINITY;
  const named = SIDE_NAMES.map((name) => ({ name, report: sides[name] }));
  const [thin] = named.sort((a, b) => spare(a.report) - spare(b.report));
  const mean = quantityOf(values, 'thinnest_spare_mm') ?? Number.POSITIVE_INFINITY;
  return thin && spare(thin.report) < mean ? thin : null;
}

/** Where the perch goes, on either side where their loads differ. */
export function perchText({ values, sides }: CornerReport): string {
  const perch = (of: CornerReport['values']) => withUnits(quantityOf(of, 'perch_mm'), 'length', PLAIN);
  return sides ? `${perch(sides.left.values)} left, ${perch(sides.right.values)} right` : perch(values);
}

function sideView(setup: SetupResult, corner: CornerReport, name: SideName, report: SideReport): SideView {
  const { values, words, failures } = report;
  const length = (key: string) => measure(quantityOf(values, key), 'length');
  return {
    name,
    load: measure(quantityOf(values, 'wheel_load_kg'), 'mass'),
    perch: length('perch_mm'),
    perchBelowTop: length('perch_below_top_mm'),
    bump: length('bump_travel_mm'),
    droop: length('droop_travel_mm'),
    low: length('lowest_height_mm'),
    high: length('highest_height_mm'),
    frequency: measure(quantityOf(values, `${setup.frequency_basis}_frequency_hz`), 'frequency'),
    thinnest: {
      name: words.thinnest_contact ?? '',
      clearance: length('thinnest_clearance_mm'),
      spare: length('thinnest_spare_mm'),
      closed: closedClearance(values, 'thinnest_clearance'),
    },
    isThinner: thinnerSide(corner)?.name === name,
    fails: [...new Set(failures.map(({ check }) => CHECK_LABELS[check]))].join(', '),
  };
}
