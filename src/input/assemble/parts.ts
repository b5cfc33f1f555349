/**
 * Parts to their alternatives, one per physical choice. The numbers of a part are read by the table of its fields, each
 * from the field of the same name; what is read from another field, or made of several, is named here.
 */
import { pressureAtTemperature } from '../../model/formula/gas.ts';
import { digitOrder } from '../../model/ids.ts';
import { type SnakeKey, snakeKey } from '../../model/keys.ts';
import {
  type BumpStop,
  type Damper,
  type FieldsThatAre,
  type GasSpring,
  type Helper,
  type Isolator,
  type Mount,
  PART_FIELDS,
  type Perch,
  type RodEnd,
  type Sleeve,
  type StopCurve,
} from '../../model/parts.ts';
import type { Family } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import type { AxleFields, BenchAxleFields } from '../schema/scenario.ts';

type Entry<K extends keyof AxleFields & keyof BenchAxleFields> = (
  | AxleFields
  | BenchAxleFields
)[K] extends readonly (infer E)[]
  ? Exclude<E, 'none'>
  : never;

type Lists = Readonly<Record<string, readonly (number | null)[]>>;
/** One of the file's values, null where it may be left out; a field that the file does not have has no value. */
type Value<E, Key extends string> = Key extends keyof E
  ? undefined extends E[Key]
    ? number | null
    : number
  : undefined;
type Choice<F extends Family, E, Own extends Lists> = {
  readonly [K in FieldsThatAre<Dimension, F>]: K extends keyof Own ? Own[K][number] : Value<E, SnakeKey<K>>;
} & { readonly name: string; readonly price: number | null };

/** Every choice of a part's numbers. @param own values of what does not stand under the field's own name */
function choicesOf<
  F extends Family,
  E extends { readonly name: string; readonly price?: number | undefined },
  Own extends Lists,
>(family: F, entry: E, own: Own): readonly Choice<F, E, Own>[] {
  const written = entry as Readonly<Record<string, unknown>>;
  const numbers = Object.entries(PART_FIELDS[family]).filter(([, is]) => is !== 'word' && is !== 'record');
  const names = digitOrder(family, Object.fromEntries(numbers));
  const dimensions = names.map((name) => [name, own[name] ?? listed(written[snakeKey(name)])]);
  const shared = { name: entry.name, price: entry.price ?? null };
  return product(Object.fromEntries(dimensions)).map((choice) => ({ ...shared, ...choice }) as Choice<F, E, Own>);
}

function listed(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [value ?? null];
}

export function dampersOf(d: Entry<'dampers'>): readonly Damper[] {
  const forceVelocity = d.force_velocity?.toSorted((a, b) => a.velocity - b.velocity) ?? null;
  const gas = gasOf(d.gas);
  return choicesOf('damper', d, {}).map(({ name, price, ...numbers }) => ({
    name,
    price,
    body: d.body,
    gas,
    forceVelocity,
    ...numbers,
  }));
}

function gasOf(gas: Entry<'dampers'>['gas']): GasSpring {
  if (gas === 'none') return { kind: 'none' };
  if ('out' in gas) return { kind: 'linear', outForce: gas.out, inForce: gas.in ?? null };
  return {
    kind: 'charge',
    chargePressure: pressureAtTemperature(gas.charge, gas.temperature, gas.working_temperature),
    rodArea: gas.rod_area ?? (Math.PI / 4) * (gas.rod_diameter ?? 0) ** 2,
    gasVolume: gas.volume,
  };
}

/** A spacer raises the rod shoulder of a mount bolted above the tower and lowers that of one bolted below. */
export function mountsOf(m: Entry<'mounts'>): readonly Mount[] {
  const own = { bareRaise: m.raise ?? m.plate_height ?? [], raise: [0] };
  return choicesOf('mount', m, own).map((choice) => {
    const stack = m.raise === undefined ? choice.lowerBush + choice.washers : 0;
    const bareRaise = choice.bareRaise - stack;
    const raise = m.bolted === 'above' ? bareRaise + choice.spacer : bareRaise - choice.spacer;
    return { ...choice, bareRaise, raise, seat: m.seat, bolted: m.bolted };
  });
}

export const isolatorsOf = (i: Entry<'isolators'>): readonly Isolator[] => choicesOf('isolator', i, {});
export const rodEndsOf = (r: Entry<'rod_ends'>): readonly RodEnd[] => choicesOf('rodEnd', r, {});
export const sleevesOf = (s: Entry<'sleeves'>): readonly Sleeve[] => choicesOf('sleeve', s, {});
export const perchesOf = (p: Entry<'perches'>): readonly Perch[] => choicesOf('perch', p, {});

export function helpersOf(h: Entry<'helpers'>): readonly Helper[] {
  const { thickness, bore } = h.coupler ?? { thickness: [0], bore: [0] };
  return choicesOf('helper', h, { coupler: thickness, couplerBore: bore });
}

export function bumpStopsOf(b: Entry<'bump_stops'>): readonly BumpStop[] {
  const curve = b.curve === undefined ? null : curveOf(b.curve);
  const widths = b.packer_diameter ?? [Number.NaN];
  const own = {
    uncutLength: b.length,
    length: b.cut_length ?? [null],
    closedFraction: b.closed_fraction ?? [curve === null ? Number.NaN : closedFractionOf(curve)],
    packerDiameter: widths,
  };
  // Without a packer its swept diameters would be the same stop several times.
  const different = choicesOf('bumpStop', b, own).filter(
    ({ packer, packerDiameter }) => packer > 0 || Object.is(packerDiameter, widths[0]),
  );
  return different.map(({ name, price, ...numbers }) => ({
    ...{ name, price, curve, ...numbers },
    length: numbers.length ?? numbers.uncutLength,
    packerDiameter: numbers.packer > 0 ? numbers.packerDiameter : 0,
  }));
}

/** From the first touch: the point 0 mm, 0 N is added where the measurement starts later. */
function curveOf(curve: NonNullable<Entry<'bump_stops'>['curve']>): StopCurve {
  const start = curve.points[0]?.squeeze === 0 ? [] : [{ squeeze: 0, force: 0 }];
  return { measuredLength: curve.measured_length, points: [...start, ...curve.points] };
}

/** The stop counts as closed at the end of its measured curve. */
function closedFractionOf({ points, measuredLength }: StopCurve): number {
  return 1 - (points[points.length - 1]?.squeeze ?? 0) / measuredLength;
}

// The product of swept dimensions.

/**
 * One record per combination of values. The last dimension named turns fastest, the first slowest:
 * `{ a: [1, 2], b: [5, 6] }` gives 1/5, 1/6, 2/5, 2/6.
 */
export function product<D extends Readonly<Record<string, readonly unknown[]>>>(
  dimensions: D,
): readonly { readonly [K in keyof D]: D[K][number] }[] {
  const rows = Object.entries(dimensions).reduce(
    (found: readonly object[], [name, values]) =>
      found.flatMap((row) => values.map((value) => ({ ...row, [name]: value }))),
    [{}],
  );
  return rows as readonly { readonly [K in keyof D]: D[K][number] }[];
}
