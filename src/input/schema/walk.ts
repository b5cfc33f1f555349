/** Walking a schema and data side by side. */
import { z } from 'zod';
import type { PathKey } from '../source/nodeAt.ts';

/** A schema without the wrappers that make a field optional. */
export function bare(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional) return bare(schema.unwrap());
  return schema;
}

/** The alternatives of a schema: those of a union, else the schema itself. */
export function alternatives(schema: z.core.$ZodType): readonly z.core.$ZodType[] {
  const inner = bare(schema);
  return inner instanceof z.ZodUnion ? inner.options.flatMap(alternatives) : [inner];
}

/** The description of the field a path leads to, or '' where there is none. */
export function descriptionAt(schema: z.core.$ZodType, path: readonly PathKey[]): string {
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
