/** One corner of a combination as answer and shortlist show it, and its left and right where they carry different loads. */
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES, type AxleName, SIDE_NAMES, type SideName } from '../../model/scenario.ts';
import type { CornerKey } from '../../result/quantities/corner.ts';
import type { Combination, CornerReport, SetupResult, SideReport } from '../../result/result.ts';
import { STANDS_AT } from '../../result/tolerance/bands.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { PLAIN, withUnits } from '../text/numbers.ts';
import { choiceOf, closedClearance, measure, nameOf, quantityOf, wordOf } from '../text/parts.ts';
import { halfWidths } from './buildSheet.ts';

/**
 * A clearance with less than this beyond its margin is named among what to measure first, mm: free length,
 * cut sleeve and cut stop are each good to about 1 mm, and they add up. Common practice, no source.
 */
export const THIN_SPARE = 3;

export function cornerView(setup: SetupResult, axle: AxleName, corner: CornerReport) {
  const { values, parts } = corner;
  const band = corner.bands[STANDS_AT];
  return {
    axle,
    title: AXLE_TITLES[axle],
    ...partViews(parts),
    ...settingView(setup, values),
    height: measure(quantityOf(values, 'ride_height_mm'), 'length'),
    /** How far the car may stand from it on the perch as set; null where no band was computed. */
    stands: band ? halfWidths(band) : null,
    window: windowView(corner),
    /** The solid height that coil bind is judged on is an estimate. */
    solidEstimated: wordOf(corner, 'solid_height_source') === 'estimated',
    thinnest: thinnestView(values, wordOf(corner, 'thinnest_contact')),
    coils: coilsView(corner),
    /** Null where one load stands for both sides. */
    sides: sidesView(setup, corner),
  };
}

/** Where the perch goes and what it leaves, of the corner or of one of its sides. */
function settingView(setup: SetupResult, values: CornerReport['values']) {
  const length = (key: CornerKey) => measure(quantityOf(values, key), 'length');
  return {
    perch: length('perch_mm'),
    perchBelowTop: length('perch_below_top_mm'),
    bump: length('bump_travel_mm'),
    droop: length('droop_travel_mm'),
    frequency: measure(quantityOf(values, `${setup.frequency_basis}_frequency_hz`), 'frequency'),
  };
}

/** The clearance nearest its margin; `closed`: with the stop fully closed, where full bump is judged under a load. */
function thinnestView(values: CornerReport['values'], name: string) {
  const length = (key: CornerKey) => measure(quantityOf(values, key), 'length');
  return {
    name,
    clearance: length('thinnest_clearance_mm'),
    spare: length('thinnest_spare_mm'),
    closed: closedClearance(values, 'thinnest_clearance'),
  };
}

/** How near the coils come to each other at full bump. */
function coilsView(corner: CornerReport) {
  const read = (key: CornerKey) => quantityOf(corner.values, key);
  const least = read('least_gap_sum_mm');
  const clearance = read('clearance_coil_bind_mm');
  const basis = corner.words.coil_bind_margin;
  const of = (value: number | null) => measure(value, 'length');
  return {
    clearance: of(clearance),
    /** Least sum of gaps between coils; null where the wire is unknown. */
    least: least === null ? null : of(least),
    /** It is asked for under repeated load, 1.5 times as much. */
    repeated: least === null ? null : of(1.5 * least),
    isShort: least !== null && (clearance ?? 0) < least,
    /** The least sum follows from an estimated wire. */
    isEstimated: wordOf(corner, 'wire_source') === 'estimated',
    /** Null in a record that does not tell where its margin comes from. */
    margin: basis === undefined ? null : { length: of(read('margin_coil_bind_mm')), basis },
  };
}

function windowView(corner: CornerReport) {
  return {
    exists: wordOf(corner, 'window') === 'usable',
    low: measure(quantityOf(corner.values, 'lowest_height_mm'), 'length'),
    high: measure(quantityOf(corner.values, 'highest_height_mm'), 'length'),
    lowLimit: wordOf(corner, 'lowest_height_limit'),
    highLimit: wordOf(corner, 'highest_height_limit'),
  };
}

function partViews(parts: CornerReport['parts']) {
  const { spring, helper, sleeve, mount, bumpStop } = parts;
  const length = (part: typeof spring, key: string) => measure(choiceOf(part, key), 'length');
  /** Only where there is some of it. */
  const some = (part: typeof spring, key: string) => (choiceOf(part, key) > 0 ? length(part, key) : null);
  const helperName = nameOf(helper);
  return {
    spring: {
      name: spring.name,
      freeLength: length(spring, 'free_length_mm'),
      rate: measure(choiceOf(spring, 'rate_n_per_mm'), 'rate'),
    },
    helper: helperName === null ? null : { name: helperName, freeLength: length(helper, 'free_length_mm') },
    isolator: nameOf(parts.isolator),
    rodEnd: nameOf(parts.rodEnd),
    damper: parts.damper.name,
    perchName: parts.perch.name,
    sleeve: { name: sleeve.name, trim: some(sleeve, 'trim_mm'), grooveDrop: some(sleeve, 'groove_drop_mm') },
    mount: { name: mount.name, spacer: some(mount, 'spacer_mm') },
    stop: {
      name: bumpStop.name,
      length: length(bumpStop, 'cut_length_mm'),
      isCut: choiceOf(bumpStop, 'cut_length_mm') < choiceOf(bumpStop, 'uncut_length_mm'),
      packer: some(bumpStop, 'packer_mm'),
    },
  };
}

/** Null where one load stands for both sides. */
export function sidesView(setup: SetupResult, corner: CornerReport) {
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

function sideView(setup: SetupResult, corner: CornerReport, name: SideName, report: SideReport) {
  const { values, words, failures } = report;
  const length = (key: CornerKey) => measure(quantityOf(values, key), 'length');
  return {
    name,
    load: measure(quantityOf(values, 'wheel_load_kg'), 'mass'),
    ...settingView(setup, values),
    low: length('lowest_height_mm'),
    high: length('highest_height_mm'),
    thinnest: thinnestView(values, words.thinnest_contact ?? ''),
    /** The clearance nearest its margin is less here than at the mean load. */
    isThinner: thinnerSide(corner)?.name === name,
    /** Labels of the checks it fails; empty when it passes. */
    fails: [...new Set(failures.map(({ check }) => CHECK[check].label))].join(', '),
  };
}

/** A side whose clearance is nearer its margin than at the mean load stands for its axle. */
export function thinViews(best: Combination) {
  return AXLE_NAMES.flatMap((axle) => {
    const corner = best.axles[axle];
    const side = thinnerSide(corner);
    const ofSide =
      side &&
      thinView(`${AXLE_TITLES[axle]} ${side.name}`, corner, side.report, side.report.words.thinnest_contact ?? '');
    return ofSide ?? thinView(AXLE_TITLES[axle], corner, corner, wordOf(corner, 'thinnest_contact')) ?? [];
  });
}

function thinView(axle: string, { tight }: CornerReport, { values }: Pick<CornerReport, 'values'>, name: string) {
  const spare = quantityOf(values, 'thinnest_spare_mm');
  // What is tight is named already, with more to say.
  if (spare === null || spare >= THIN_SPARE || tight.some(({ contact }) => contact === name)) return null;
  const { clearance, closed, spare: beyond } = thinnestView(values, name);
  return { axle, name, clearance: clearance.metric, closed: closed?.metric ?? null, spare: beyond.metric };
}
