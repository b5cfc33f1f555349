/** One corner of a combination as answer and shortlist show it. */
import type { CornerReport, SetupResult } from '../../domain/result.ts';
import type { AxleName } from '../../domain/scenario.ts';
import { AXLE_TITLES } from '../labels.ts';
import { choiceOf, type Measure, measure, nameOf, quantityOf, wordOf } from '../read.ts';
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
  readonly bump: Measure;
  readonly droop: Measure;
  readonly window: WindowView;
  readonly frequency: Measure;
  /** The solid height that coil bind is judged on is an estimate. */
  readonly solidEstimated: boolean;
  readonly thinnest: { readonly name: string; readonly clearance: Measure; readonly spare: Measure };
  /** Null where one load stands for both sides. */
  readonly sides: SidesView | null;
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
    bump: length('bump_travel_mm'),
    droop: length('droop_travel_mm'),
    window: windowView(corner),
    solidEstimated: wordOf(corner, 'solid_height_source') === 'estimated',
    frequency: measure(quantityOf(values, `${setup.frequency_basis}_frequency_hz`), 'frequency'),
    thinnest: {
      name: wordOf(corner, 'thinnest_contact'),
      clearance: length('thinnest_clearance_mm'),
      spare: length('thinnest_spare_mm'),
    },
    sides: sidesView(setup, corner),
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
