/** Parts to order: both corners of both axles, each part once, with how many, what they cost, and what has no price. */
import type { Corner } from '../model/corner/site.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Family } from '../model/scenario.ts';
import { type Order, type OrderLine, rounded } from '../result/advice.ts';

/** Left and right. */
const PER_AXLE = 2;

/**
 * What one car needs for its setups together: parts that are the same option in all of them once, the others for each.
 * Cuts and spacers of one setup make no other part; a sleeve trimmed shorter for another setup is another sleeve, since
 * no cut can be undone.
 */
export function orderFor(setups: readonly Readonly<Record<AxleName, Corner>>[]): Order {
  const wanted = AXLE_NAMES.flatMap((axle) =>
    FAMILIES.flatMap((family) => {
      // Options are single objects: a setup that makes the same choice needs nothing more.
      const parts = new Set(setups.map((corners) => corners[axle][family]));
      return [...parts].flatMap((part) => lineOf(family, axle, part) ?? []);
    }),
  );
  return priceAll(mergeEqual(wanted));
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
    ...('notes' in part ? { notes: part.notes } : {}),
  };
}

/** Equal parts drawn together; a part is its family, name, spring dimensions, price and what its catalogue says of it. */
function mergeEqual(lines: readonly OrderLine[]): OrderLine[] {
  const byPart = new Map<string, OrderLine>();
  for (const line of lines) {
    const key = JSON.stringify([
      line.family,
      line.part,
      line.free_length_mm,
      line.rate_n_per_mm,
      line.price,
      line.notes,
    ]);
    const known = byPart.get(key);
    if (!known) byPart.set(key, line);
    else {
      const axles = AXLE_NAMES.filter((axle) => known.axles.includes(axle) || line.axles.includes(axle));
      byPart.set(key, { ...known, axles, count: known.count + line.count });
    }
  }
  return [...byPart.values()];
}

/** Springs first, as in the shortlist's grouping, then the families from the spring outwards. */
function priceAll(lines: readonly OrderLine[]): Order {
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
