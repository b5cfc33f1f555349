/** Which usual values were taken for what nobody knows, and how far off each may be. */

import * as z from 'zod';
import { camelKey } from '../../model/keys.ts';
import { assumedBeside } from '../schema/assumedValues.ts';
import { defaultOf, isMapping, unknownOf } from '../schema/issues.ts';
import { UNKNOWN } from '../values/quantity.ts';

type Assumed = Readonly<Record<string, number>>;

/**
 * Half-widths by the model's name of the field, as `assumed` of a part or an axle; nothing where nothing was taken.
 * @param at the axle's name, where it is one
 */
export function assumedIn(schema: z.core.$ZodType, written: unknown, at = ''): { readonly assumed?: Assumed } {
  if (!(schema instanceof z.ZodObject) || !isMapping(written)) return {};
  const found = Object.entries(schema.shape as Readonly<Record<string, z.core.$ZodType>>).flatMap(([key, field]) => {
    const unknown = unknownOf(field);
    const value = written[key] ?? defaultOf(field);
    if (unknown === undefined || unknown === null || value !== UNKNOWN) return [];
    return [[camelKey(key), assumedBeside(unknown, written, at).give] as const];
  });
  return found.length === 0 ? {} : { assumed: Object.fromEntries(found) };
}
