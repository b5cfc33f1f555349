/** The report tells parts apart by name: within a family of an axle no name may stand twice. */
import { repeatedName } from '../messages/rule.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { PART_LISTS } from './partLists.ts';

export function partNames(data: unknown, axle: readonly PathKey[]): readonly PathComplaint[] {
  return Object.entries(PART_LISTS).flatMap(([list, { word }]) => {
    const entries = valueAt(data, [...axle, list]);
    if (!Array.isArray(entries)) return [];
    const seen = new Set<string>();
    return entries.flatMap((entry, i): readonly PathComplaint[] => {
      // `none` is an alternative like the others and has no name of its own.
      const own = entry === 'none' ? 'none' : valueAt(entry, ['name']);
      if (typeof own !== 'string') return [];
      if (!seen.has(own)) {
        seen.add(own);
        return [];
      }
      const path = entry === 'none' ? [...axle, list, i] : [...axle, list, i, 'name'];
      return [{ path, at: 'value', complaint: repeatedName(own, word) }];
    });
  });
}
