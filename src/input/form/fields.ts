/** The table of fields as a form shows it: what each field is for, what may stand there, and in which unit. */

import * as z from 'zod';
import type { Dimension } from '../../model/units.ts';
import type { Assumable } from '../schema/assumedValues.ts';
import { whenLeftOut } from '../schema/fieldReference.ts';
import { alternatives, bare, describe, unknownOf } from '../schema/issues.ts';
import { DIMENSIONS } from '../schema/leaves.ts';
import { benchScenario, scenario } from '../schema/scenario.ts';
import { UNKNOWN } from '../values/quantity.ts';

interface Field {
  /** Its name in the file; empty for an entry of a list and for an alternative. */
  readonly key: string;
  /** In the words of the table of fields. */
  readonly text: string;
  readonly isNeeded: boolean;
  /** What its absence means; empty where it is needed. */
  readonly whenLeftOut: string;
  /** What is taken where it is `unknown`: null where nothing is judged by it; undefined where it may not be. */
  readonly unknown: Assumable | null | undefined;
}

export interface Group extends Field {
  readonly kind: 'group';
  readonly fields: readonly FormField[];
}

export interface List extends Field {
  readonly kind: 'list';
  readonly entry: FormField;
}

/** One of several forms, such as a load for both wheels or one for each. */
export interface Either extends Field {
  readonly kind: 'either';
  readonly options: readonly FormField[];
}

export interface Value extends Field {
  /** A `swept` one is a single value, a list of them, or a range; a `span` is two of them. */
  readonly kind: 'value' | 'swept' | 'span';
  readonly dimension: Dimension;
}

export interface Words extends Field {
  readonly kind: 'choice' | 'yesNo' | 'text';
  /** What may be chosen; none where anything may be written. */
  readonly words: readonly string[];
}

export type FormField = Group | List | Either | Value | Words;

/** All fields of a level, in the order of the file. */
export function formFields(level: 'bench' | 'car'): Group {
  const known = FORMS.get(level) ?? (fieldOf('', level === 'bench' ? benchScenario : scenario) as Group);
  FORMS.set(level, known);
  return known;
}

/** Walking the table takes a while. */
const FORMS = new Map<'bench' | 'car', Group>();

/** Fields that a form leaves alone: the version of the format, and a place for anchors. */
const HIDDEN: ReadonlySet<string> = new Set(['springsift', 'shared']);

function fieldOf(key: string, schema: z.core.$ZodType): FormField {
  const leftOut = whenLeftOut(schema);
  const isNeeded = bare(schema) === schema;
  const field: Field = {
    key,
    text: describe(schema),
    isNeeded,
    whenLeftOut: isNeeded ? '' : leftOut,
    unknown: unknownOf(schema),
  };
  const options = alternatives(schema).filter((option) => z.globalRegistry.get(option)?.const !== UNKNOWN);
  const [only, ...others] = options.map((option) => formOf(option, field));
  if (only === undefined) throw new Error(`no form for ${key}`);
  return others.length === 0 ? only : { ...field, kind: 'either', options: [only, ...others] };
}

function formOf(schema: z.core.$ZodType, field: Field): FormField {
  const text = field.text || describe(schema);
  if (schema instanceof z.ZodObject) {
    const entries = Object.entries(schema.shape as Readonly<Record<string, z.core.$ZodType>>);
    const fields = entries.filter(([key]) => !HIDDEN.has(key)).map(([key, child]) => fieldOf(key, child));
    return { ...field, text, kind: 'group', fields };
  }
  if (schema instanceof z.ZodArray) return { ...field, text, kind: 'list', entry: fieldOf('', schema.element) };
  if (schema instanceof z.ZodBoolean) return { ...field, text, kind: 'yesNo', words: ['true', 'false'] };
  const meta = z.globalRegistry.get(schema);
  const words = meta?.enum as readonly string[] | undefined;
  if (words !== undefined) return { ...field, text: describe(schema) || text, kind: 'choice', words };
  const dimension = DIMENSIONS.get(schema)?.dimension;
  if (dimension === undefined) return { ...field, text, kind: 'text', words: [] };
  if (meta?.type === 'array') return { ...field, text, kind: 'span', dimension };
  return { ...field, text, kind: isSwept(schema) ? 'swept' : 'value', dimension };
}

/** Leaves share a definition a kind; that of a swept one says so in its id. */
function isSwept(leaf: z.core.$ZodType): boolean {
  const kind = leaf._zod.parent ?? leaf;
  return z.globalRegistry.get(kind)?.id?.endsWith('_swept') === true;
}
