/** One corner of a combination as answer and shortlist show it. */
import type { CornerReport, SetupResult } from '../../domain/result.ts';
import type { AxleName } from '../../domain/scenario.ts';
import { STANDS_AT } from '../../domain/tolerance/bands.ts';
import { AXLE_TITLES } from '../labels.ts';
import {
  choiceOf,
  closedClearance,
  type Measure,
  measure,
  nameOf,
  quantityOf,
  type Thinnest,
  wordOf,
} from '../read.ts';
import { halfWidths } from './sheetHeights.ts';
import { type SidesView, sidesView } from './sides.ts';

export interface CornerView {
  readonly axle: AxleName;
  readonly title: string;
  readonly spring: { readonly name: string; readonly freeLength: Measure; readonly rate: Measure };
  /** Each null where the choice is to have none. */
  readonly helper: { readonly name: string; readonly freeLength: Measure } | null;
  readonly isolator: string | null;
  readonly rodEnd: string | null;
  readonly damper: string;
  readonly perchName: string;
  readonly sleeve: { readonly name: string; readonly trim: Measure | null; readonly grooveDrop: Measure | null };
  readonly mount: { readonly name: string; readonly spacer: Measure | null };
  readonly stop: {
    readonly name: string;
    readonly length: Measure;
    readonly isCut: boolean;
    readonly packer: Measure | null;
  };
  readonly perch: Measure;
  readonly perchBelowTop: Measure;
  readonly height: Measure;
  /** How far the car may stand from it on the perch as set; null where no band was computed. */
  readonly stands: { readonly likely: Measure; readonly worst: Measure } | null;
  readonly bump: Measure;
  readonly droop: Measure;
  readonly window: WindowView;
  readonly frequency: Measure;
  /** The solid height that coil bind is judged on is an estimate. */
  readonly solidEstimated: boolean;
  readonly thinnest: Thinnest;
  readonly coils: CoilsView;
  /** Null where one load stands for both sides. */
  readonly sides: SidesView | null;
}

/** How near the coils come to each other at full bump. */
export interface CoilsView {
  readonly clearance: Measure;
  /** Least sum of gaps between coils; null where the wire is unknown. */
  readonly least: Measure | null;
  /** It is asked for under repeated load, 1.5 times as much. */
  readonly repeated: Measure | null;
  readonly isShort: boolean;
  /** The least sum follows from an estimated wire. */
  readonly isEstimated: boolean;
  /** Null in a record that does not tell where its margin comes from. */
  readonly margin: { readonly length: Measure; readonly basis: string } | null;
}

export interface WindowView {
  readonly exists: boolean;
  readonly low: Measure;
  readonly high: Measure;
  readonly lowLimit: string;
  readonly highLimit: string;
}

export function cornerView(setup: SetupResult, axle: AxleName, corner: CornerReport): CornerView {
  const { values, parts } = corner;
  const length = (key: string) => measure(quantityOf(values, key), 'length');
  return {
    axle,
    title: AXLE_TITLES[axle],
    ...partViews(parts),
    perch: length('perch_mm'),
    perchBelowTop: length('perch_below_top_mm'),
    height: length('ride_height_mm'),
    stands: standsView(corner),
    bump: length('bump_travel_mm'),
    droop: length('droop_travel_mm'),
    window: windowView(corner),
    solidEstimated: wordOf(corner, 'solid_height_source') === 'estimated',
    frequency: measure(quantityOf(values, `${setup.frequency_basis}_frequency_hz`), 'frequency'),
    thinnest: {
      name: wordOf(corner, 'thinnest_contact'),
      clearance: length('thinnest_clearance_mm'),
      spare: length('thinnest_spare_mm'),
      closed: closedClearance(values, 'thinnest_clearance'),
    },
    coils: coilsView(corner),
    sides: sidesView(setup, corner),
  };
}

function standsView({ bands }: CornerReport): CornerView['stands'] {
  const band = bands[STANDS_AT];
  return band ? halfWidths(band) : null;
}

function coilsView(corner: CornerReport): CoilsView {
  const read = (key: string) => quantityOf(corner.values, key);
  const least = read('least_gap_sum_mm');
  const clearance = read('clearance_coil_bind_mm');
  const basis = corner.words.coil_bind_margin;
  const of = (value: number | null) => measure(value, 'length');
  return {
    clearance: of(clearance),
    least: least === null ? null : of(least),
    repeated: least === null ? null : of(1.5 * least),
    isShort: least !== null && (clearance ?? 0) < least,
    isEstimated: wordOf(corner, 'wire_source') === 'estimated',
    margin: basis === undefined ? null : { length: of(read('margin_coil_bind_mm')), basis },
  };
}

function windowView(corner: CornerReport): WindowView {
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
