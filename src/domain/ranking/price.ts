/** What a corner costs. */
import type { Corner } from '../corner/site.ts';
import { FAMILIES } from '../scenario.ts';

/** Price of the parts of one corner, in the scenario's currency; null as soon as one part has none. */
export function cornerPrice(corner: Corner): number | null {
  let total = 0;
  for (const family of FAMILIES) {
    const part = corner[family];
    if (part === null) continue;
    if (part.price === null) return null;
    total += part.price;
  }
  return total;
}

/** Parts that have no price, by name: the reader is told that the total leaves them out. */
export function unpricedParts(corner: Corner): string[] {
  return FAMILIES.flatMap((family) => {
    const part = corner[family];
    return part !== null && part.price === null ? [part.name] : [];
  });
}
