/** zod's issues to complaints with the path of the value each one is about. */

import * as z from 'zod';
import type { Complaint } from '../problems/problems.ts';
import { emptyEntries, missingField, tooMany, wrongType } from '../problems/value.ts';
import type { Aspect, PathKey } from '../source/yaml.ts';
import { complainUnknownKey, type IssueParams, UNKNOWNS, type Unknown } from './leaves.ts';

export interface PathComplaint {
  readonly path: readonly PathKey[];
  readonly at: Aspect;
  readonly complaint: Complaint;
}

type Issue = z.core.$ZodIssue;

/** All complaints about `data`, which `schema` refused. */
export function complaintsOf(schema: z.ZodType, issues: readonly Issue[], data: unknown): readonly PathComplaint[] {
  return issues.flatMap((issue) => translate(schema, issue, [], data));
}

function translate(
  schema: z.ZodType,
  issue: Issue,
  above: readonly PathKey[],
  data: unknown,
): readonly PathComplaint[] {
  const path = [...above, ...issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key))];
  const value = valueAt(data, path);
  if (issue.code === 'invalid_union') {
    const branch = likeliestBranch(issue.errors);
    if (branch !== null) return branch.flatMap((inner) => translate(schema, inner, path, data));
    return [{ path, at: 'value', complaint: wrongType(value, descriptionAt(schema, path) || MAPPING) }];
  }
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message.split(' ');
    return issue.keys.map((key) => ({ path: [...path, key], at: 'key', complaint: complainUnknownKey(key, known) }));
  }
  const name = path[path.length - 1];
  if (value === undefined && typeof name === 'string') {
    const complaint = missingField(name, descriptionAt(schema, path));
    return [{ path: path.slice(0, -1), at: 'owner', complaint }];
  }
  return [{ path, ...complaintAbout(issue, value) }];
}

function complaintAbout(issue: Issue, value: unknown): Pick<PathComplaint, 'at' | 'complaint'> {
  if (issue.code === 'custom' && issue.params !== undefined) {
    // Every custom issue of the schema is made by `complain`.
    const { complaint, atKey } = issue.params as unknown as IssueParams;
    return { at: atKey === true ? 'key' : 'inside', complaint };
  }
  return { at: 'value', complaint: builtInComplaint(issue, value) };
}

/** What is wanted where alternatives differ only in their fields. */
const MAPPING = 'a mapping of fields';

function builtInComplaint(issue: Issue, value: unknown): Complaint {
  const count = Array.isArray(value) ? value.length : 0;
  if (issue.code === 'too_small') return emptyEntries();
  if (issue.code === 'too_big') return tooMany(count, Number(issue.maximum));
  const expected = issue.code === 'invalid_type' ? issue.expected : '';
  const words: Record<string, string> = {
    object: MAPPING,
    array: 'a list of entries',
    boolean: 'true or false',
  };
  return wrongType(value, words[expected] ?? issue.message);
}

/** The alternative the user most likely meant: of those whose kind of value fits, the one with the fewest issues. */
function likeliestBranch(branches: readonly (readonly Issue[])[]): readonly Issue[] | null {
  const misfit = (issue: Issue) =>
    issue.path.length === 0 &&
    (issue.code === 'invalid_type' || (issue.code === 'custom' && issue.params?.misfit === true));
  const fitting = branches.filter((issues) => !issues.some(misfit));
  return fitting.reduce<readonly Issue[] | null>(
    (best, next) => (best === null || next.length < best.length ? next : best),
    null,
  );
}

export function valueAt(data: unknown, path: readonly PathKey[]): unknown {
  return path.reduce<unknown>((value, key) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    return (value as Record<PathKey, unknown>)[key];
  }, data);
}

// Walking a schema and data side by side.

/** A schema without the wrappers that make a field optional. */
export function bare(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional) return bare(schema.unwrap());
  return schema;
}

/** What is read in place of a field that is left out; undefined where nothing is. */
export function defaultOf(schema: z.core.$ZodType): unknown {
  return schema instanceof z.ZodPrefault ? schema.def.defaultValue : undefined;
}

/** What is taken where a field is `unknown`, null where nothing is judged by it; undefined where it may not be. */
export function unknownOf(field: z.core.$ZodType): Unknown | undefined {
  return UNKNOWNS.get(bare(field) as z.ZodType)?.unknown;
}

/** The alternatives of a schema: those of a union, else the schema itself. */
export function alternatives(schema: z.core.$ZodType): readonly z.core.$ZodType[] {
  const inner = bare(schema);
  return inner instanceof z.ZodUnion ? inner.options.flatMap(alternatives) : [inner];
}

/** The description of the field a path leads to, or '' where there is none. */
function descriptionAt(schema: z.core.$ZodType, path: readonly PathKey[]): string {
  let found: readonly z.core.$ZodType[] = [schema];
  for (const key of path) {
    found = found.flatMap((candidate) => alternatives(candidate).flatMap((option) => childOf(option, key)));
  }
  return found.map(describe).find((text) => text !== '') ?? '';
}

/** A leaf of the schema and what stands there. */
export interface Written {
  readonly leaf: z.core.$ZodType;
  readonly path: readonly PathKey[];
  readonly value: unknown;
}

/** Every field of `data` that is given, with the leaf that reads it; `data` is sound. */
export function* writtenIn(schema: z.core.$ZodType, value: unknown, path: readonly PathKey[] = []): Generator<Written> {
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray) {
      if (Array.isArray(value))
        for (const [i, item] of value.entries()) yield* writtenIn(option.element, item, [...path, i]);
    } else if (option instanceof z.ZodObject) {
      if (isMapping(value) && fits(option, value)) {
        for (const [key, item] of Object.entries(value)) yield* writtenIn(option.shape[key], item, [...path, key]);
      }
    } else yield { leaf: option, path, value };
  }
}

/** Whether a mapping belongs to this alternative: all its keys are known to it. */
export function fits(schema: z.ZodObject, data: Record<string, unknown>): boolean {
  return Object.keys(data).every((key) => Object.hasOwn(schema.shape, key));
}

export function isMapping(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function describe(schema: z.core.$ZodType): string {
  const own = z.globalRegistry.get(schema)?.description;
  if (own !== undefined) return own;
  const inner = bare(schema);
  return inner === schema ? '' : describe(inner);
}

function childOf(schema: z.core.$ZodType, key: PathKey): readonly z.core.$ZodType[] {
  if (schema instanceof z.ZodArray) return [schema.element];
  if (!(schema instanceof z.ZodObject)) return [];
  const shape: Readonly<Record<string, z.core.$ZodType>> = schema.shape;
  const child = Object.hasOwn(shape, key) ? shape[String(key)] : undefined;
  return child === undefined ? [] : [child];
}
