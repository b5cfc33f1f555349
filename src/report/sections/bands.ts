/** Clearances and travels of the best combination with their tolerance bands, one chart an axle. */
import { CONTACT_QUANTITIES } from '../../domain/quantities/fullBump.ts';
import { keyOf } from '../../domain/quantities/quantity.ts';
import { STANDING } from '../../domain/quantities/standing.ts';
import type { Combination, CornerReport } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { STUDIED_KEYS } from '../../domain/tolerance/bands.ts';
import { type BandRow, bandChart } from '../charts/bandChart.ts';
import { type Drawing, drawChart } from '../charts/draw.ts';
import { AXLE_TITLES } from '../labels.ts';
import { quantityOf } from '../read.ts';

export interface BandsView {
  readonly title: string;
  readonly drawing: Drawing;
}

/** What is drawn: lengths that must stay above 0. */
const DRAWN = new Map(
  [...STANDING, ...CONTACT_QUANTITIES]
    .filter(({ id }) => id === 'bump_travel' || id === 'droop_travel' || id.startsWith('clearance_'))
    .map((quantity) => [keyOf(quantity), quantity.label]),
);

/** Axles without a band, because every tolerance is given as 0, have no chart. */
export async function bandsViews({ axles }: Combination): Promise<BandsView[]> {
  const views: BandsView[] = [];
  // One after the other: drawing numbers its definitions from a shared counter.
  for (const axle of AXLE_NAMES) {
    const rows = bandRows(axles[axle]);
    if (rows.length > 0) views.push({ title: AXLE_TITLES[axle], drawing: await drawChart(bandChart(rows)) });
  }
  return views;
}

/** In the order of the table. */
export function bandRows({ bands, values }: CornerReport): BandRow[] {
  return STUDIED_KEYS.flatMap((key) => {
    const [name, band] = [DRAWN.get(key), bands[key]];
    if (name === undefined || band === undefined) return [];
    const value = quantityOf(values, key);
    const { rss_low, rss_high, worst_low, worst_high } = band;
    return value === null ? [] : [{ name, value, likely: [rss_low, rss_high], worst: [worst_low, worst_high] }];
  });
}
