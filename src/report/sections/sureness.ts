/** How sure the numbers are: for the best combination of a setup, what tolerances make of every judged quantity. */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { untoleranced } from '../../result/measuring.ts';
import { CONTACT_QUANTITIES } from '../../result/quantities/contacts.ts';
import { type CornerKey, STANDING, WINDOW } from '../../result/quantities/corner.ts';
import { GIVEN } from '../../result/quantities/given.ts';
import { PAIR } from '../../result/quantities/pair.ts';
import { keyOf } from '../../result/quantities/quantity.ts';
import { RATES } from '../../result/quantities/rates.ts';
import type { BandReport, Combination, CornerReport, SetupResult } from '../../result/result.ts';
import { STANDS_AT, STUDIED_KEYS } from '../../result/tolerance/bands.ts';
import { type BandRow, bandChart } from '../charts/bandChart.ts';
import { drawChart } from '../charts/draw.ts';
import { ofAnswers, section } from '../frame/section.ts';
import { isInFull } from '../text/answers.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { PAGE } from '../text/numbers.ts';
import { measure, quantityOf } from '../text/parts.ts';
import { measurementView, restsText } from '../text/settling.ts';

export const sureness = section({
  id: 'sureness',
  link: 'How sure',
  title: 'How sure the numbers are',
  view: async (page) => {
    const studied = await ofAnswers(page, async (answer) => {
      const { setup, combination } = answer;
      if (!isInFull(answer)) return null;
      return { ...surenessView(setup, combination), pictures: await bandsViews(combination) };
    });
    return studied && { untoleranced: untoleranced(), ...studied };
  },
  prints: false,
  leaves: 'tolerances of every number',
});

const QUANTITIES = new Map<string, { readonly label: string; readonly dimension: Dimension }>(
  [...GIVEN, ...STANDING, ...RATES, ...CONTACT_QUANTITIES, ...WINDOW, ...PAIR].map((q) => [keyOf(q), q]),
);

/** Labels that only make sense below the row before them. */
const OWN_LABELS: Readonly<Record<string, string>> = {
  [STANDS_AT]: 'stands at, hub to arch, the perch as set',
  thinnest_spare_mm: 'thinnest clearance beyond its margin',
};

export function surenessView(setup: SetupResult, best: Combination) {
  const flags = [...best.axles.front.flags, ...best.axles.rear.flags, ...best.flags];
  return {
    setup: setup.name,
    id: best.id,
    settling: settlingView(best),
    axles: [...AXLE_NAMES.map((axle) => axleSureness(setup, axle, best.axles[axle])), ...pairSureness(best)],
    tight: tightViews(best),
    /** Sentences about formulas and measured curves used outside the range where they are known to hold. */
    ranges: [...new Set(flags.filter(({ topic }) => topic === 'range').map(({ message }) => message))],
  };
}

/** Below this share of the spread a measurement is not worth a line. */
const LEAST_SHARE = 0.005;

/** What would settle the answer most, where any of it rests on assumed values. */
function settlingView({ settling }: Combination) {
  if (settling === undefined) return null;
  const shown = settling.measurements.filter(({ share }) => share >= LEAST_SHARE);
  return { text: restsText(settling, PAGE), assumed: settling.assumed, measurements: shown.map(measurementView) };
}

/** Bounce and pitch, where the pitch inertia ratio moves them. */
function pairSureness({ bands, values }: Combination) {
  if (bands === undefined) return [];
  const rows = Object.keys(bands).map((key) => rowOf(key, { bands, values, tight: [] }));
  return [{ title: 'Whole car', rows }];
}

/** Clearances whose worst case is negative, and springs that may leave their seats, front before rear. */
export function tightViews({ axles }: Combination) {
  return AXLE_NAMES.flatMap((axle) =>
    axles[axle].tight.map(({ contact, clearance_mm, worst_mm, measure: what, seat }) => ({
      axle: AXLE_TITLES[axle],
      contact,
      clearance: measure(seat?.slack_mm ?? clearance_mm, 'length'),
      worst: measure(seat?.worst_slack_mm ?? worst_mm, 'length'),
      /** Where the spring may leave its seat: then the two are its looseness, and this is what holds it. */
      held: seat ? measure(seat.held_mm, 'length') : null,
      measure: what,
    })),
  );
}

/** Rows in the order in which the bands are made; of the two frequencies only the one the setup is judged by. */
function axleSureness({ frequency_basis }: SetupResult, axle: AxleName, corner: CornerReport) {
  const unjudged = frequency_basis === 'ride' ? 'body_frequency_hz' : 'ride_frequency_hz';
  const keys = STUDIED_KEYS.filter((key) => key !== unjudged && corner.bands[key] !== undefined);
  return { title: AXLE_TITLES[axle], rows: keys.map((key) => rowOf(key, corner)) };
}

type Banded = Pick<CornerReport, 'bands' | 'tight'> & { readonly values: Readonly<Record<string, number | null>> };

function rowOf(key: string, corner: Banded) {
  const quantity = QUANTITIES.get(key);
  const band = corner.bands[key];
  if (quantity === undefined || band === undefined) throw new Error(`Nothing describes the band “${key}”.`);
  const { dimension } = quantity;
  const value = measure(corner.values[key] ?? null, dimension);
  return {
    label: OWN_LABELS[key] ?? quantity.label,
    unit: value.unit,
    imperialUnit: value.imperialUnit,
    value,
    likely: span(band.rss_low, band.rss_high, dimension),
    worst: span(band.worst_low, band.worst_high, dimension),
    contributor: band.contributor,
    by: measure(band.contributes, dimension),
    measure: band.measure,
    /** A clearance that tolerances could use up, a looseness that lets the spring leave its seat. */
    isTight: isTight(key, band, corner),
  };
}

/** `12.1 to 15.8` in both worlds. */
function span(low: number, high: number, dimension: Dimension) {
  const [from, to] = [measure(low, dimension), measure(high, dimension)];
  return {
    metric: `${from.metric} to ${to.metric}`,
    imperial: from.imperial === null || to.imperial === null ? null : `${from.imperial} to ${to.imperial}`,
  };
}

function isTight(key: string, band: BandReport, { tight }: Pick<CornerReport, 'tight'>): boolean {
  if (key === 'slack_mm') return tight.some(({ seat }) => seat !== undefined);
  return key.startsWith('clearance_') && band.worst_low < 0;
}

/** What is drawn: lengths that must stay above 0. */
const DRAWN = new Map<CornerKey, string>(
  [...STANDING, ...CONTACT_QUANTITIES]
    .filter(({ id }) => id === 'bump_travel' || id === 'droop_travel' || id.startsWith('clearance_'))
    .map((quantity) => [keyOf(quantity), quantity.label]),
);

/** Axles without a band, because every tolerance is given as 0, have no chart. */
export async function bandsViews({ axles }: Combination) {
  const views = [];
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
