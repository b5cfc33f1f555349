/** All fields of a scenario, read from the schema: what to write, what happens where it is left out, what it means. */

import * as z from 'zod';
import { allAssumedInWords } from './assumedValues.ts';
import { alternatives, bare, describe, unknownOf } from './issues.ts';
import { ABSENCES, DEFAULT_SOURCES } from './leaves.ts';
import { scenario } from './scenario.ts';

export interface FieldRow {
  readonly field: string;
  readonly kind: string;
  readonly whenLeftOut: string;
  readonly text: string;
}

export interface FieldSection {
  /** Path of the mapping, e.g. `axles.front.sleeves[]`; empty for the top level. */
  readonly path: string;
  readonly rows: readonly FieldRow[];
}

export const REQUIRED = 'required';

/** One section a mapping, in the order of the file; both axles, and both axles' targets, share one. */
export function fieldSections(): readonly FieldSection[] {
  const sections = new Map<string, readonly FieldRow[]>();
  collect(scenario, '', sections);
  return [...sections].map(([path, rows]) => ({ path, rows }));
}

/** The sections at or below a path; brackets may be left out and `rear` stands for `front`, whose fields are the same. */
export function fieldsBelow(path: string): readonly FieldSection[] {
  const plain = (text: string) => text.replaceAll('[]', '').replaceAll(/(^|\.)rear(?=\.|$)/g, '$1front');
  const asked = plain(path);
  const isBelow = (name: string) => name === asked || name.startsWith(`${asked}.`);
  const sections = fieldSections();
  if (asked === '') return sections;
  const below = sections.filter((section) => isBelow(plain(section.path)));
  if (below.length > 0) return below;
  return sections.flatMap((section) => {
    const rows = section.rows.filter(({ field }) => plain([section.path, field].filter(Boolean).join('.')) === asked);
    return rows.length > 0 ? [{ ...section, rows }] : [];
  });
}

function collect(schema: z.core.$ZodType, path: string, sections: Map<string, readonly FieldRow[]>): void {
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray) collect(option.element, `${path}[]`, sections);
    if (!(option instanceof z.ZodObject)) continue;
    const shape: Readonly<Record<string, z.core.$ZodType>> = option.shape;
    const rows = Object.entries(shape).map(([name, field]) => row(name, field));
    const known = sections.get(path) ?? [];
    sections.set(path, [...known, ...rows.filter((one) => !known.some((other) => sameRow(one, other)))]);
    for (const [name, field] of Object.entries(shape)) {
      // The rear axle has the same fields as the front axle.
      if (name === 'rear' && shape.front !== undefined) continue;
      collect(field, path === '' ? name : `${path}.${name}`, sections);
    }
  }
}

function row(name: string, field: z.core.$ZodType): FieldRow {
  const unknown = unknownOf(field);
  const usual = unknown ? `; \`unknown\`: ${allAssumedInWords(unknown)}` : '';
  return { field: name, kind: kindOf(field), whenLeftOut: whenLeftOut(field), text: describe(field) + usual };
}

/** Alternatives of one mapping may share a field, such as how springs are estimated. */
function sameRow(a: FieldRow, b: FieldRow): boolean {
  return a.field === b.field && a.kind === b.kind && a.whenLeftOut === b.whenLeftOut && a.text === b.text;
}

function kindOf(field: z.core.$ZodType): string {
  const kinds = alternatives(field).map((option) => {
    if (option instanceof z.ZodArray) return 'list';
    if (option instanceof z.ZodObject) return 'mapping';
    if (option instanceof z.ZodBoolean) return 'true or false';
    return leafKind(option);
  });
  return [...new Set(kinds)].join(' or ');
}

function leafKind(leaf: z.core.$ZodType): string {
  const meta = z.globalRegistry.get(leaf);
  if (meta?.const !== undefined) return `\`${String(meta.const)}\``;
  const words: unknown = meta?.enum;
  if (Array.isArray(words)) return words.map((word) => `\`${word}\``).join(' or ');
  const quantity = quantityIn(leaf);
  if (quantity !== null) return quantity;
  if (meta?.type === 'array') return 'two values `[from, to]`';
  return meta?.type === 'string' ? 'text' : 'any';
}

/** What may be written for a quantity, or null: leaves share one definition per kind, whose description says so. */
export function quantityIn(leaf: z.core.$ZodType): string | null {
  const { parent } = leaf._zod;
  const kind = parent === undefined ? undefined : z.globalRegistry.get(parent);
  return kind?.id === undefined ? null : (kind.description ?? null);
}

export function whenLeftOut(field: z.core.$ZodType): string {
  if (field instanceof z.ZodOptional) return ABSENCES.get(field)?.meaning ?? 'not used';
  if (!(field instanceof z.ZodPrefault)) return REQUIRED;
  const value = field.def.defaultValue;
  const source = DEFAULT_SOURCES.get(field)?.source ?? '';
  if (bare(field) instanceof z.ZodObject) return 'defaults below';
  return `\`${typeof value === 'string' ? value || '(empty)' : JSON.stringify(value)}\` (${source})`;
}
