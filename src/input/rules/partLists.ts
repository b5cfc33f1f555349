/** The part lists of an axle: what one entry is called, and the schema of the list. */
import type { z } from 'zod';
import { bumpStops } from '../schema/bumpStop.ts';
import { dampers } from '../schema/damper.ts';
import { perches, sleeves } from '../schema/sleeveAndPerch.ts';
import { helpers, springs } from '../schema/springs.ts';
import { isolators, mounts, rodEnds } from '../schema/upperParts.ts';

export const PART_LISTS: Readonly<Record<string, { readonly word: string; readonly entry: z.ZodType }>> = {
  dampers: { word: 'damper', entry: dampers.element },
  mounts: { word: 'mount', entry: mounts.element },
  isolators: { word: 'isolator', entry: isolators.element },
  bump_stops: { word: 'bump stop', entry: bumpStops.element },
  rod_ends: { word: 'rod end', entry: rodEnds.element },
  sleeves: { word: 'sleeve', entry: sleeves.element },
  perches: { word: 'perch', entry: perches.element },
  helpers: { word: 'helper spring', entry: helpers.element },
  springs: { word: 'spring', entry: springs.element },
};
