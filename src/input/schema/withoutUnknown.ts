/** What `unknown` means before a scenario is read: a field that can be done without is left out, a usual value put in. */

import * as z from 'zod';
import type { Assumption } from '../../model/scenario.ts';
import { NOT_MEASURED, ROWS } from '../../result/measuring.ts';
import { chooseIt, measureIt, neededValue } from '../problems/value.ts';
import type { PathKey } from '../source/yaml.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { assumedBeside } from './assumedValues.ts';
import { alternatives, bare, defaultOf, fits, isMapping, type PathComplaint, unknownOf, valueAt } from './issues.ts';
import { ABSENCES } from './leaves.ts';

/** A field that was left out because nobody knows it. */
export interface LeftOut {
  readonly path: readonly PathKey[];
  /** Nothing else says that it is missing. */
  readonly isSilent: boolean;
}

type Change = (
  field: z.core.$ZodType,
  key: string,
  siblings: Record<string, unknown>,
  path: readonly PathKey[],
) => unknown;

/** A copy of `data` with every `unknown` as `change` says; undefined leaves it out. @param isFilled counts what is taken for a missing field as written */
function changed(
  schema: z.core.$ZodType,
  data: unknown,
  change: Change,
  isFilled: boolean,
  path: readonly PathKey[] = [],
): unknown {
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray && Array.isArray(data)) {
      return data.map((item, i) => changed(option.element, item, change, isFilled, [...path, i]));
    }
    if (option instanceof z.ZodObject && isMapping(data) && fits(option, data)) {
      const shape: Readonly<Record<string, z.core.$ZodType>> = option.shape;
      const written = isFilled ? { ...unknownIn(shape), ...data } : data;
      const entries = Object.entries(written).flatMap(([key, value]) => {
        const field = shape[key] as z.core.$ZodType;
        const isUnknown = value === UNKNOWN;
        const taken = isUnknown
          ? change(field, key, data, path)
          : changed(field, value, change, isFilled, [...path, key]);
        return taken === undefined ? [] : [[key, taken] as const];
      });
      return Object.fromEntries(entries);
    }
  }
  return data;
}

/** Fields that are `unknown` where they are left out. */
function unknownIn(shape: Readonly<Record<string, z.core.$ZodType>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(shape).flatMap(([key, field]) =>
      defaultOf(field) === UNKNOWN && unknownOf(field) ? [[key, UNKNOWN]] : [],
    ),
  );
}

/** Without what nobody knows and the level can do without; wishes, margins and names are nobody's to know. */
export function withoutUnknown(
  schema: z.core.$ZodType,
  data: unknown,
): { readonly data: unknown; readonly leftOut: readonly LeftOut[] } {
  const leftOut: LeftOut[] = [];
  const leaveOut: Change = (field, key, siblings, path) => {
    if (!isMeasured(path) || !canBeLeftOut(field) || STANDS_IN[key]?.(siblings) === false) return UNKNOWN;
    leftOut.push({ path: [...path, key], isSilent: field instanceof z.ZodOptional && !ABSENCES.has(field) });
    return undefined;
  };
  return { data: changed(schema, data, leaveOut, false), leftOut };
}

type Siblings = Readonly<Record<string, unknown>>;

const areKnown =
  (...keys: readonly string[]) =>
  (siblings: Siblings) =>
    keys.every((key) => siblings[key] !== undefined && siblings[key] !== UNKNOWN);
const pairsOf = ({ pairs }: Siblings) => (Array.isArray(pairs) ? pairs : []);

/** Fields that may be missing where something else stands in for them. */
const STANDS_IN: Readonly<Record<string, (siblings: Siblings) => boolean>> = {
  raise: areKnown('plate_height'),
  plate_height: areKnown('raise'),
  rod_diameter: areKnown('rod_area'),
  rod_area: areKnown('rod_diameter'),
  rate: areKnown('wire', 'coils'),
  wire: areKnown('rate'),
  coils: areKnown('rate'),
  packer_diameter: ({ packer }) => packer === undefined || packer === UNKNOWN,
  ratio: (siblings) => pairsOf(siblings).length > 1,
  mount_raise: (siblings) =>
    siblings.pairs === undefined || pairsOf(siblings).every((pair) => isMapping(pair) && areKnown('mount_raise')(pair)),
};

const isMeasured = ([part]: readonly PathKey[]) => part === 'axles' || part === 'car';

function canBeLeftOut(field: z.core.$ZodType): boolean {
  if (unknownOf(field) !== undefined || bare(field) === field) return false;
  // A word of its own, like a body of unknown kind.
  return !(bare(field) as z.ZodType).safeParse(UNKNOWN).success;
}

/** Every field at or below a schema that may be left out as `unknown`. */
export function* fieldsLeftOut(schema: z.core.$ZodType): Generator<z.core.$ZodType> {
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray) yield* fieldsLeftOut(option.element);
    if (!(option instanceof z.ZodObject)) continue;
    for (const field of Object.values(option.shape as Readonly<Record<string, z.core.$ZodType>>)) {
      if (canBeLeftOut(field)) yield field;
      yield* fieldsLeftOut(field);
    }
  }
}

/** With what is usual in place of `unknown`, where that depends on what else is known. */
export function withAssumed(schema: z.core.$ZodType, data: unknown): unknown {
  const take: Change = (field, _, siblings, path) => {
    const unknown = unknownOf(field);
    return unknown ? assumedBeside(unknown, siblings, path.join('.')).take : UNKNOWN;
  };
  return changed(schema, data, take, true);
}

// What cannot be unknown: said with how it is measured.

/** What nobody said would be missed stands among what was taken. */
export function silentlyLeftOut({ path, isSilent }: LeftOut): readonly Assumption[] {
  if (!isSilent) return [];
  return [{ field: pathInWords(path), value: 'unknown: taken as not given', source: 'left out of the scenario' }];
}

/** `axles.front.mounts[1].raise` */
const pathInWords = (path: readonly PathKey[]) =>
  path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key + 1}]` : text === '' ? key : `${text}.${key}`),
    '',
  );

/** Complaints about `unknown` say how to measure. */
export function refuseUnknown(complaints: readonly PathComplaint[], data: unknown): readonly PathComplaint[] {
  return complaints.map((one) => {
    if (valueAt(data, one.path) !== UNKNOWN) return one;
    const { expected, advice } = one.complaint;
    return { ...one, complaint: neededValue(expected, howToKnow(one.path) ?? advice) };
  });
}

/** As the measuring sheet says; null for words and lists, whose alternatives tell enough. */
function howToKnow(path: readonly PathKey[]): string | null {
  const [part, , ...inside] = path;
  const field = (part === 'axles' ? inside : path).reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[]`;
    return text === '' ? key : `${text}.${key}`;
  }, '');
  const rows = Object.values(ROWS).flat();
  const row =
    rows.find(({ paths }) => paths.includes(field)) ?? rows.find(({ paths }) => paths[0]?.startsWith(`${field}.`));
  if (row !== undefined) return measureIt(row.how);
  const choice = NOT_MEASURED.find(({ start }) => field.startsWith(start));
  return choice === undefined ? null : chooseIt(choice.why);
}
