/** What each dimension is called in sentences, and how large a value can be before it must be a slip. */
import { type Dimension, UNITS } from '../../domain/units.ts';
import type { Wanted } from '../messages/value.ts';

/** Dimensions a scenario uses. `count` and the last ones are bare numbers. */
export type FieldDimension = Extract<
  Dimension,
  | 'length'
  | 'area'
  | 'volume'
  | 'force'
  | 'mass'
  | 'rate'
  | 'stress'
  | 'frequency'
  | 'temperature'
  | 'velocity'
  | 'share'
  | 'ratio'
  | 'count'
  | 'money'
>;

/** Noun, and the largest plausible size in inner units (a share: in per cent). */
const DIMENSIONS: Readonly<Record<FieldDimension, { readonly noun: string; readonly most: number }>> = {
  length: { noun: 'a length', most: 10_000 },
  area: { noun: 'an area', most: 1_000_000 },
  volume: { noun: 'a volume', most: 1e9 },
  force: { noun: 'a force', most: 1_000_000 },
  mass: { noun: 'a mass', most: 50_000 },
  rate: { noun: 'a rate', most: 10_000 },
  stress: { noun: 'a pressure or stress', most: 1_000_000 },
  frequency: { noun: 'a frequency', most: 100 },
  temperature: { noun: 'a temperature', most: 300 },
  velocity: { noun: 'a velocity', most: 50 },
  share: { noun: 'a percentage', most: 100 },
  ratio: { noun: 'a number', most: 1_000 },
  count: { noun: 'a number', most: 100_000 },
  money: { noun: 'a price', most: 1e9 },
};

export function largest(dimension: FieldDimension): number {
  return DIMENSIONS[dimension].most;
}

/** Unit symbols as they are written; none for bare numbers. */
export function unitsOf(dimension: FieldDimension): readonly string[] {
  return UNITS[dimension].map((unit) => unit.symbol).filter((symbol) => symbol !== '');
}

export function wantedFor(dimension: FieldDimension): Wanted {
  return { noun: DIMENSIONS[dimension].noun, units: unitsOf(dimension) };
}
