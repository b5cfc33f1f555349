/**
 * What could have gone wrong in building or measuring, each as the model (or the marks) it would leave. Its signature
 * over all measurements is what that model predicts. Some causes come with an amount that is not known beforehand: it is
 * fitted to the measurements.
 */
import { withSpacer } from '../../advice/changes.ts';
import type { Corner } from '../../model/corner/site.ts';
import type { Spring } from '../../model/parts.ts';
import type { AxleOptions } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import { type Marks, TRUE_MARKS } from './observations.ts';
import { dimensionOf, type ParameterName, readParameter, withParameter } from './parameters.ts';

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

type FittedKind =
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

/** What would be there instead, where it applies. */
type Row = readonly [applies: boolean, kind: CauseKind, detail: string, change: Partial<Corner>];

/** Causes that leave definite parts, in the order in which ties are ranked. */
export function partCauses({ site, corner }: Model, options: AxleOptions): readonly Cause[] {
  const { sleeve, helper, isolator } = corner;
  const { trim, grooveDrop, length } = sleeve;
  const coupler = helper?.coupler ?? 0;
  const rows: readonly Row[] = [
    ...stopRows(corner, options),
    [grooveDrop > 0, 'groove_not_lowered', mm(grooveDrop), { sleeve: { ...sleeve, grooveDrop: 0 } }],
    [trim > 0, 'sleeve_not_cut', mm(trim), { sleeve: { ...sleeve, trim: 0 } }],
    [trim > 0 && 2 * trim < length, 'sleeve_cut_twice', mm(trim), { sleeve: { ...sleeve, trim: 2 * trim } }],
    ...springRows(corner, options),
    [helper !== null, 'helper_missing', helper?.name ?? '', { helper: null }],
    [coupler > 0, 'coupler_missing', mm(coupler), { helper: helper && { ...helper, coupler: 0 } }],
    ...spacerRows(corner, options),
    [isolator !== null, 'isolator_missing', mm(isolator?.thickness ?? 0), { isolator: null }],
  ];
  return rows.flatMap(([applies, kind, detail, change]) =>
    applies ? [{ kind, detail, model: { site, corner: { ...corner, ...change } }, marks: TRUE_MARKS }] : [],
  );
}

function stopRows({ bumpStop }: Corner, options: AxleOptions): Row[] {
  const { name, length, uncutLength, packer } = bumpStop;
  const others = options.bumpStop.filter((other) => {
    const same = other.length === length && other.closedFraction === bumpStop.closedFraction && other.packer === packer;
    const isUncut = other.name === name && other.length === uncutLength && other.packer === packer;
    return !(same && other.name === name) && !isUncut;
  });
  const uncut = { ...bumpStop, length: uncutLength };
  return [
    [uncutLength > length, 'stop_uncut', `${name} ${mm(uncutLength)}`, { bumpStop: uncut }],
    [packer > 0, 'packer_missing', mm(packer), { bumpStop: { ...bumpStop, packer: 0, packerDiameter: 0 } }],
    ...others.map((other): Row => [true, 'other_stop', `${other.name} ${mm(other.length)}`, { bumpStop: other }]),
  ];
}

/** The next shorter and longer spring of the same rate, the next softer and stiffer one of the same length. */
function springRows({ spring }: Corner, options: AxleOptions): Row[] {
  const sameBore = options.spring.filter((other) => Math.abs(other.bore - spring.bore) < 1);
  const along = (kind: CauseKind, read: (s: Spring) => number, fixed: (s: Spring) => number) => {
    const line = sameBore.filter((other) => near(fixed(other), fixed(spring)) && !near(read(other), read(spring)));
    return [-1, 1].flatMap((way): Row[] => {
      const beyond = line.filter((other) => way * (read(other) - read(spring)) > 0);
      const next = beyond.reduce(nearest(read, spring), null);
      return next ? [[true, kind, nameOf(next, spring), { spring: next }]] : [];
    });
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

function spacerRows({ mount }: Corner, options: AxleOptions): Row[] {
  const listed = new Set(options.mount.filter(({ name }) => name === mount.name).map(({ spacer }) => spacer));
  const others = [...listed].filter((spacer) => spacer !== mount.spacer && spacer !== 0);
  return [
    [mount.spacer > 0, 'spacer_missing', mm(mount.spacer), { mount: withSpacer(mount, 0) }],
    ...others.map((spacer): Row => [true, 'other_spacer', mm(spacer), { mount: withSpacer(mount, spacer) }]),
  ];
}

function near(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-6 * Math.max(1, Math.abs(other));
}

function mm(value: number): string {
  return `${value.toFixed(1)} mm`;
}

/** A part may be off by this share of what it is, a mark by this many mm: more is another part, or no mark at all. */
const MOST_SHARE = 0.5;
const MOST_MARK = 150;

const FITTED_PARAMETERS: readonly (readonly [kind: FittedKind, parameter: ParameterName, step: number])[] = [
  ['sleeve_length_off', 'sleeve_length', 5],
  ['stop_length_off', 'stop_length', 5],
  ['spring_length_off', 'free_length', 5],
  ['spring_rate_off', 'rate', 2],
  ['wheel_load_off', 'wheel_load', 10],
];

const FITTED_MARKS: readonly (readonly [kind: FittedKind, mark: keyof Marks])[] = [
  ['perch_mark', 'perch'],
  ['ride_height_mark', 'rideHeight'],
  ['gap_mark', 'gap'],
];

/** Causes with an amount that is not known beforehand: it is fitted to the measurements. */
export function fittedCauses(model: Model): readonly FittedCause[] {
  const ofParts = FITTED_PARAMETERS.map(([kind, parameter, step]): FittedCause => {
    const given = readParameter(model, parameter) as number;
    const at = (amount: number) => withParameter(model, parameter, given + amount);
    return {
      ...{ kind, step, dimension: dimensionOf(parameter), most: MOST_SHARE * given },
      at: (amount) => ({ kind, detail: '', model: at(amount), marks: TRUE_MARKS }),
    };
  });
  const ofMarks = FITTED_MARKS.map(
    ([kind, mark]): FittedCause => ({
      ...{ kind, step: 5, dimension: 'length', most: MOST_MARK },
      at: (amount) => ({ kind, detail: '', model, marks: { ...TRUE_MARKS, [mark]: amount } }),
    }),
  );
  return [...ofParts, ...ofMarks];
}

/** Causes that differ only in whether an amount or a part is known: a definite one is preferred to a fitted one. */
const GROUPS: Readonly<Partial<Record<CauseKind, string>>> = {
  stop_uncut: 'stop',
  other_stop: 'stop',
  stop_length_off: 'stop',
  sleeve_not_cut: 'sleeve',
  sleeve_cut_twice: 'sleeve',
  sleeve_length_off: 'sleeve',
  spring_length: 'spring length',
  spring_length_off: 'spring length',
  spring_rate: 'spring rate',
  spring_rate_off: 'spring rate',
  spacer_missing: 'spacer',
  other_spacer: 'spacer',
};

export function groupOf(kind: CauseKind): string {
  return GROUPS[kind] ?? kind;
}
