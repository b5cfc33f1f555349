/** Parts to order: both corners of both axles, each part once, with how many, what they cost, and what has no price. */
import type { Corner } from '../corner/site.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Family } from '../scenario.ts';
import { rounded } from './rounding.ts';
import type { Order, OrderLine } from './types.ts';

/** Left and right. */
const PER_AXLE = 2;

/** What one car needs with these corners. Cuts and spacers make no other part: the same is bought. */
export function orderOf(corners: Readonly<Record<AxleName, Corner>>): Order {
  return orderOver([corners]);
}

/**
 * What several setups of one car need together: parts that are the same option in all of them once, the others for
 * each. A sleeve trimmed twice as short for one setup is another sleeve, since no cut can be undone.
 */
export function orderOver(setups: readonly Readonly<Record<AxleName, Corner>>[]): Order {
  const wanted = AXLE_NAMES.flatMap((axle) =>
    FAMILIES.flatMap((family) => {
      // Options are single objects: a setup that makes the same choice needs nothing more.
      const parts = new Set(setups.map((corners) => corners[axle][family]));
      return [...parts].flatMap((part) => lineOf(family, axle, part) ?? []);
    }),
  );
  return ordered(merged(wanted));
}

function lineOf(family: Family, axle: AxleName, part: Corner[Family]): OrderLine | null {
  if (part === null) return null;
  const sprung = 'freeLength' in part ? part : null;
  return {
    family,
    part: part.name,
    free_length_mm: sprung ? rounded(sprung.freeLength, 1) : null,
    rate_n_per_mm: sprung ? rounded(sprung.rate, 2) : null,
    axles: [axle],
    count: PER_AXLE,
    price: part.price,
    total: null,
  };
}

/** Equal parts drawn together; a part is its family, name, spring dimensions and price. */
function merged(lines: readonly OrderLine[]): OrderLine[] {
  const byPart = new Map<string, OrderLine>();
  for (const line of lines) {
    const key = JSON.stringify([line.family, line.part, line.free_length_mm, line.rate_n_per_mm, line.price]);
    const known = byPart.get(key);
    if (!known) byPart.set(key, line);
    else byPart.set(key, { ...known, axles: bothAxles(known, line), count: known.count + line.count });
  }
  return [...byPart.values()];
}

function bothAxles(a: OrderLine, b: OrderLine): AxleName[] {
  return AXLE_NAMES.filter((axle) => a.axles.includes(axle) || b.axles.includes(axle));
}

/** Springs first, as in the shortlist's grouping, then the families from the spring outwards. */
function ordered(lines: readonly OrderLine[]): Order {
  const place = ({ family }: OrderLine) => -FAMILIES.indexOf(family);
  const sorted = [...lines].sort((a, b) => place(a) - place(b));
  const priced = sorted.map((line) => ({
    ...line,
    total: line.price === null ? null : rounded(line.count * line.price, 2),
  }));
  return {
    lines: priced,
    total: rounded(
      priced.reduce((sum, line) => sum + (line.total ?? 0), 0),
      2,
    ),
    unpriced: [...new Set(priced.filter((line) => line.price === null).map((line) => line.part))],
  };
}
