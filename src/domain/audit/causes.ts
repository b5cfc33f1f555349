/**
 * What could have gone wrong in building or measuring, each as the model (or the marks) it would leave. Its signature
 * over all measurements is what that model predicts. Some causes come with an amount that is not known beforehand: it is
 * fitted to the measurements.
 */
import type { Corner } from '../corner/site.ts';
import type { Mount, Spring } from '../parts.ts';
import type { AxleOptions } from '../scenario.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { Dimension } from '../units.ts';
import { type Marks, TRUE_MARKS } from './observations.ts';

export type CauseKind =
  | 'stop_uncut'
  | 'other_stop'
  | 'packer_missing'
  | 'groove_not_lowered'
  | 'sleeve_not_cut'
  | 'sleeve_cut_twice'
  | 'spring_length'
  | 'spring_rate'
  | 'helper_missing'
  | 'coupler_missing'
  | 'spacer_missing'
  | 'other_spacer'
  | 'isolator_missing'
  | FittedKind;

export type FittedKind =
  | 'sleeve_length_off'
  | 'stop_length_off'
  | 'spring_length_off'
  | 'spring_rate_off'
  | 'wheel_load_off'
  | 'perch_mark'
  | 'ride_height_mark'
  | 'gap_mark';

/** A cause as it stands before it is tried. */
export interface Cause {
  readonly kind: CauseKind;
  /** The part or size that would be there instead, where there is one to name. */
  readonly detail: string;
  readonly model: Model;
  readonly marks: Marks;
}

/** A cause with an amount: `at` gives it for an amount in the dimension's inner unit, 0 being nothing wrong. */
export interface FittedCause {
  readonly kind: FittedKind;
  readonly dimension: Dimension;
  /** A first step of the amount, to feel which way the measurements move. */
  readonly step: number;
  /** The greatest amount that could be, either way. */
  readonly most: number;
  readonly at: (amount: number) => Cause;
}

/** Causes that leave definite parts, in the order in which ties are kept. */
export function partCauses(model: Model, options: AxleOptions): readonly Cause[] {
  const { corner } = model;
  const cause = (kind: CauseKind, detail: string, change: Partial<Corner>): Cause => ({
    kind,
    detail,
    model: { site: model.site, corner: { ...corner, ...change } },
    marks: TRUE_MARKS,
  });
  return [
    ...stopCauses(corner, options, cause),
    ...sleeveCauses(corner, cause),
    ...springCauses(corner, options, cause),
    ...helperCauses(corner, cause),
    ...mountCauses(corner, options, cause),
  ];
}

type Make = (kind: CauseKind, detail: string, change: Partial<Corner>) => Cause;

function stopCauses({ bumpStop }: Corner, options: AxleOptions, cause: Make): Cause[] {
  const size = (length: number) => `${bumpStop.name} ${mm(length)}`;
  const { length, uncutLength, packer } = bumpStop;
  const uncut = { ...bumpStop, length: uncutLength };
  const others = options.bumpStop.filter((other) => {
    const same = other.length === length && other.closedFraction === bumpStop.closedFraction && other.packer === packer;
    const isUncut = other.name === bumpStop.name && other.length === uncutLength && other.packer === packer;
    return !(same && other.name === bumpStop.name) && !isUncut;
  });
  return [
    ...(uncutLength > length ? [cause('stop_uncut', size(uncutLength), { bumpStop: uncut })] : []),
    ...(packer > 0
      ? [cause('packer_missing', mm(packer), { bumpStop: { ...bumpStop, packer: 0, packerDiameter: 0 } })]
      : []),
    ...others.map((other) => cause('other_stop', `${other.name} ${mm(other.length)}`, { bumpStop: other })),
  ];
}

function sleeveCauses({ sleeve }: Corner, cause: Make): Cause[] {
  const { trim, grooveDrop, length } = sleeve;
  return [
    ...(grooveDrop > 0 ? [cause('groove_not_lowered', mm(grooveDrop), { sleeve: { ...sleeve, grooveDrop: 0 } })] : []),
    ...(trim > 0 ? [cause('sleeve_not_cut', mm(trim), { sleeve: { ...sleeve, trim: 0 } })] : []),
    ...(trim > 0 && 2 * trim < length
      ? [cause('sleeve_cut_twice', mm(trim), { sleeve: { ...sleeve, trim: 2 * trim } })]
      : []),
  ];
}

/** The next shorter and longer spring of the same rate, the next softer and stiffer one of the same length. */
function springCauses({ spring }: Corner, options: AxleOptions, cause: Make): Cause[] {
  const sameBore = options.spring.filter((other) => Math.abs(other.bore - spring.bore) < 1);
  const along = (kind: CauseKind, read: (s: Spring) => number, kept: (s: Spring) => number) => {
    const line = sameBore.filter((other) => near(kept(other), kept(spring)));
    const below = line.filter((other) => read(other) < read(spring) && !near(read(other), read(spring)));
    const above = line.filter((other) => read(other) > read(spring) && !near(read(other), read(spring)));
    const next = [below.reduce(nearest(read, spring), null), above.reduce(nearest(read, spring), null)];
    return next.flatMap((other) => (other ? [cause(kind, nameOf(other, spring), { spring: other })] : []));
  };
  const length = (s: Spring) => s.freeLength;
  const rate = (s: Spring) => s.rate;
  return [...along('spring_length', length, rate), ...along('spring_rate', rate, length)];
}

function nearest(read: (s: Spring) => number, to: Spring) {
  return (best: Spring | null, next: Spring): Spring =>
    best === null || Math.abs(read(next) - read(to)) < Math.abs(read(best) - read(to)) ? next : best;
}

/** Springs of a grid share one name: their sizes tell them apart. */
function nameOf(other: Spring, built: Spring): string {
  const size = `${mm(other.freeLength)}, ${other.rate.toFixed(1)} N/mm`;
  return other.name === built.name ? size : `${other.name}, ${size}`;
}

function helperCauses({ helper }: Corner, cause: Make): Cause[] {
  if (helper === null) return [];
  return [
    cause('helper_missing', helper.name, { helper: null }),
    ...(helper.coupler > 0
      ? [cause('coupler_missing', mm(helper.coupler), { helper: { ...helper, coupler: 0 } })]
      : []),
  ];
}

function mountCauses({ mount, isolator }: Corner, options: AxleOptions, cause: Make): Cause[] {
  const spacers = new Set(options.mount.filter(({ name }) => name === mount.name).map(({ spacer }) => spacer));
  const other = [...spacers].filter((spacer) => spacer !== mount.spacer && spacer !== 0);
  const missing = mount.spacer > 0 ? [cause('spacer_missing', mm(mount.spacer), { mount: withSpacer(mount, 0) })] : [];
  return [
    ...missing,
    ...other.map((spacer) => cause('other_spacer', mm(spacer), { mount: withSpacer(mount, spacer) })),
    ...(isolator ? [cause('isolator_missing', mm(isolator.thickness), { isolator: null })] : []),
  ];
}

/** A spacer lifts the shoulder of a mount bolted above the tower and lowers that of one bolted below it. */
function withSpacer(mount: Mount, spacer: number): Mount {
  const raise = mount.bolted === 'above' ? mount.bareRaise + spacer : mount.bareRaise - spacer;
  return { ...mount, spacer, raise };
}

function near(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-6 * Math.max(1, Math.abs(other));
}

function mm(value: number): string {
  return `${value.toFixed(1)} mm`;
}
