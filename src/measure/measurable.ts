/** Every number of the scenario format with its dimension, read from the one table of fields, and what a scenario holds. */

import * as z from 'zod';
import { tolerancesOf } from '../input/assemble/settings.ts';
import { alternatives, bare, describe } from '../input/schema/issues.ts';
import { DIMENSIONS } from '../input/schema/leaves.ts';
import { type ScenarioFields, scenario as schema } from '../input/schema/scenario.ts';
import { tolerances } from '../input/schema/settings.ts';
import type { AxleName, AxleOptions, Scenario, Tolerances } from '../model/scenario.ts';
import type { Dimension } from '../model/units.ts';
import type { InputFile } from '../result/result.ts';
import type { AxleEffects } from '../result/tolerance/settling.ts';

export type NumberField = Omit<MeasuredField, 'values'>;

/** All numbers of the format in the order of the table; both axles' fields stand once, without the axle's name. */
export function numberFields(): readonly NumberField[] {
  const found = new Map<string, NumberField>();
  for (const field of walk(schema, '', true)) if (!found.has(field.path)) found.set(field.path, field);
  return [...found.values()];
}

/** The same with the values of a scenario, or with none. */
export function measuredFields(
  read: { readonly fields: ScenarioFields; readonly scenario: Scenario } | null,
): readonly MeasuredField[] {
  return numberFields().map((field) => ({
    ...field,
    values: { front: valuesFor('front', field.path, read), rear: valuesFor('rear', field.path, read) },
  }));
}

/** The tolerances of a scenario that names none. */
export function defaultTolerances(): Tolerances {
  return tolerancesOf(tolerances.parse({}));
}

function* walk(node: z.core.$ZodType, path: string, isNeeded: boolean): Generator<NumberField> {
  for (const option of alternatives(node)) {
    const leaf = DIMENSIONS.get(option);
    if (leaf) yield { path, dimension: leaf.dimension, text: describe(node) || describe(option), isNeeded };
    if (option instanceof z.ZodArray) yield* walk(option.element, `${path}[]`, isNeeded);
    if (!(option instanceof z.ZodObject)) continue;
    for (const [key, child] of Object.entries(option.shape) as [string, z.core.$ZodType][]) {
      // The rear axle, and what a setup asks of it, has the same fields as the front axle.
      if (key === 'rear' && option.shape.front !== undefined) continue;
      yield* walk(child, below(path, key), isNeeded && bare(child) === child);
    }
  }
}

function below(path: string, key: string): string {
  if (path === '') return key;
  return path === 'axles' ? '' : `${path}.${key}`;
}

function valuesFor(
  axle: AxleName,
  path: string,
  read: { readonly fields: ScenarioFields; readonly scenario: Scenario } | null,
): readonly number[] {
  if (read === null) return [];
  const ofCar = path.startsWith('car.');
  if (ofCar && axle === 'rear') return [];
  const written = valuesAt(ofCar ? read.fields : read.fields.axles[axle], path.split('.'));
  const { options } = read.scenario.axles[axle];
  const all = path.startsWith('springs[].') ? [...written, ...catalogued(options, path)] : written;
  return [...new Set(all)].sort((a, b) => a - b);
}

/** Springs of a catalogue do not stand in the scenario's own file. */
function catalogued({ spring: springs }: AxleOptions, path: string): readonly number[] {
  return springs.flatMap(({ freeLength, rate, rateEstimated, bore, solid, wire }) => {
    const known = wire !== null && !wire.estimated;
    const of: Readonly<Record<string, number | null>> = {
      free_length: freeLength,
      rate: rateEstimated ? null : rate,
      bore,
      solid_height: solid.source === 'catalogue' ? solid.height : null,
      wire: known ? wire.diameter : null,
      coils: known ? wire.totalCoils : null,
    };
    return of[path.slice('springs[].'.length)] ?? [];
  });
}

/** All numbers at a path; `[]` goes through a list, and what is not there has none. */
function valuesAt(data: unknown, [key, ...rest]: readonly string[]): readonly number[] {
  if (key === undefined) return Array.isArray(data) ? data.flatMap((item) => valuesAt(item, [])) : finite(data);
  if (typeof data !== 'object' || data === null) return [];
  const isList = key.endsWith('[]');
  const child = (data as Readonly<Record<string, unknown>>)[isList ? key.slice(0, -2) : key];
  if (!isList) return valuesAt(child, rest);
  return Array.isArray(child) ? child.flatMap((item) => valuesAt(item, rest)) : [];
}

function finite(value: unknown): readonly number[] {
  return typeof value === 'number' && Number.isFinite(value) ? [value] : [];
}

// What a sheet of measurements is made of: every number a scenario needs, and what is known of it already.

export interface MeasuredField {
  /** Path in the scenario, that of an axle without `axles.front`: `car.wheelbase`, `dampers[].extended`. */
  readonly path: string;
  readonly dimension: Dimension;
  /** What it is, in the words of the table of fields. */
  readonly text: string;
  readonly isNeeded: boolean;
  /** What the scenario holds already, in inner units, each value once; a field of the car stands under front. */
  readonly values: Readonly<Record<AxleName, readonly number[]>>;
}

export interface MeasureSheet {
  readonly tool: string;
  /** Null: a blank sheet. */
  readonly scenario: string | null;
  readonly fields: readonly MeasuredField[];
  /** The files that the form on the sheet begins with: the scenario, then its catalogues. */
  readonly files: readonly Pick<InputFile, 'path' | 'text'>[];
  /** The defaults, or the scenario's own. */
  readonly tolerances: Tolerances;
  readonly defaults: Tolerances;
  /** Best combination of each setup, for which the effects hold; none without a scenario, or where nothing works. */
  readonly bests: readonly { readonly setup: string; readonly id: string }[];
  readonly effects: readonly AxleEffects[];
}
