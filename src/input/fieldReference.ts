/** All fields of a scenario as Markdown tables, read from the schema. */
import { z } from 'zod';
import { ABSENCES, DEFAULT_SOURCES } from './schema/leaves.ts';
import { scenario } from './schema/scenario.ts';
import { alternatives, bare, describe } from './schema/walk.ts';

interface Row {
  readonly field: string;
  readonly kind: string;
  readonly whenLeftOut: string;
  readonly text: string;
}

/** One table per mapping, in the order of the file; both axles, and both axles' targets, share one table. */
export function fieldReference(): string {
  const sections = new Map<string, readonly Row[]>();
  collect(scenario, '', sections);
  return [...sections].map(([path, rows]) => section(path, rows)).join('\n\n');
}

function collect(schema: z.core.$ZodType, path: string, sections: Map<string, readonly Row[]>): void {
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

function row(name: string, field: z.core.$ZodType): Row {
  return { field: name, kind: kindOf(field), whenLeftOut: whenLeftOut(field), text: describe(field) };
}

/** Alternatives of one mapping may share a field, such as how springs are estimated. */
function sameRow(a: Row, b: Row): boolean {
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

/** Leaves share one definition per kind, whose description says what may be written. */
function leafKind(leaf: z.core.$ZodType): string {
  const meta = z.globalRegistry.get(leaf);
  if (meta?.const !== undefined) return `\`${String(meta.const)}\``;
  const words: unknown = meta?.enum;
  if (Array.isArray(words)) return words.map((word) => `\`${word}\``).join(' or ');
  const parent = leaf._zod.parent;
  const kind = parent === undefined ? undefined : z.globalRegistry.get(parent);
  if (kind?.id !== undefined && typeof kind.description === 'string') return kind.description;
  if (meta?.type === 'array') return 'two values `[from, to]`';
  return meta?.type === 'string' ? 'text' : 'any';
}

function whenLeftOut(field: z.core.$ZodType): string {
  if (field instanceof z.ZodOptional) return ABSENCES.get(field)?.meaning ?? 'not used';
  if (!(field instanceof z.ZodPrefault)) return '**required**';
  const value = field.def.defaultValue;
  const source = DEFAULT_SOURCES.get(field)?.source ?? '';
  if (bare(field) instanceof z.ZodObject) return 'defaults below';
  return `\`${typeof value === 'string' ? value || '(empty)' : JSON.stringify(value)}\` (${source})`;
}

function section(path: string, rows: readonly Row[]): string {
  const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
  const lines = rows.map((r) => `| \`${r.field}\` | ${[r.kind, r.whenLeftOut, r.text].map(cell).join(' | ')} |`);
  const title =
    path === ''
      ? 'Top level'
      : `\`${path.replace('axles.front', 'axles.front / axles.rear').replace('setups[].front', 'setups[].front / .rear')}\``;
  return [
    `#### ${title}`,
    '',
    '| field | what to write | when left out | meaning |',
    '| --- | --- | --- | --- |',
    ...lines,
  ].join('\n');
}
