/** How sure the numbers are: for the best combination of a setup, what tolerances make of every judged quantity. */
import { CONTACT_QUANTITIES } from '../../domain/quantities/fullBump.ts';
import { GIVEN } from '../../domain/quantities/given.ts';
import { keyOf } from '../../domain/quantities/quantity.ts';
import { RATES } from '../../domain/quantities/rates.ts';
import { STANDING } from '../../domain/quantities/standing.ts';
import { WINDOW } from '../../domain/quantities/window.ts';
import type { BandReport, Combination, CornerReport, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { STANDS_AT, STUDIED_KEYS } from '../../domain/tolerance/bands.ts';
import type { Dimension } from '../../domain/units.ts';
import { AXLE_TITLES } from '../labels.ts';
import { type Measure, measure, quantityOf } from '../read.ts';

export interface SurenessView {
  readonly setup: string;
  readonly id: string;
  readonly axles: readonly AxleSureness[];
  readonly tight: readonly TightView[];
  /** Sentences about formulas and measured curves used outside the range where they are known to hold. */
  readonly ranges: readonly string[];
}

export interface AxleSureness {
  readonly title: string;
  readonly rows: readonly SureRow[];
}

export interface SureRow {
  readonly label: string;
  readonly unit: string;
  readonly imperialUnit: string | null;
  readonly value: Measure;
  readonly likely: Span;
  readonly worst: Span;
  readonly contributor: string;
  readonly by: Measure;
  readonly measure: string;
  /** A clearance that tolerances could use up, a looseness that lets the spring leave its seat. */
  readonly isTight: boolean;
}

/** `12.1 to 15.8` in both worlds. */
export interface Span {
  readonly metric: string;
  readonly imperial: string | null;
}

export interface TightView {
  readonly axle: string;
  readonly contact: string;
  readonly clearance: Measure;
  readonly worst: Measure;
  /** Where the spring may leave its seat: then the two are its looseness, and this is what holds it. */
  readonly held: Measure | null;
  readonly measure: string;
}

const QUANTITIES = new Map(
  [...GIVEN, ...STANDING, ...RATES, ...CONTACT_QUANTITIES, ...WINDOW].map((q) => [keyOf(q), q]),
);

/** Labels that only make sense below the row before them. */
const OWN_LABELS: Readonly<Record<string, string>> = {
  [STANDS_AT]: 'stands at, hub to arch, the perch as set',
  thinnest_spare_mm: 'thinnest clearance beyond its margin',
};

export function surenessView(setup: SetupResult, best: Combination): SurenessView {
  return {
    setup: setup.name,
    id: best.id,
    axles: AXLE_NAMES.map((axle) => axleSureness(setup, axle, best.axles[axle])),
    tight: tightViews(best),
    ranges: rangeMessages(best),
  };
}

/** Clearances whose worst case is negative, and springs that may leave their seats, front before rear. */
export function tightViews({ axles }: Combination): TightView[] {
  return AXLE_NAMES.flatMap((axle) =>
    axles[axle].tight.map(({ contact, clearance_mm, worst_mm, measure: what, seat }) => ({
      axle: AXLE_TITLES[axle],
      contact,
      clearance: measure(seat?.slack_mm ?? clearance_mm, 'length'),
      worst: measure(seat?.worst_slack_mm ?? worst_mm, 'length'),
      held: seat ? measure(seat.held_mm, 'length') : null,
      measure: what,
    })),
  );
}

function rangeMessages({ axles, flags }: Combination): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags];
  return [...new Set(all.filter((flag) => flag.topic === 'range').map((flag) => flag.message))];
}

/** Rows in the order in which the bands are made; of the two frequencies only the one the setup is judged by. */
function axleSureness({ frequency_basis }: SetupResult, axle: AxleName, corner: CornerReport): AxleSureness {
  const unjudged = frequency_basis === 'ride' ? 'body_frequency_hz' : 'ride_frequency_hz';
  const keys = STUDIED_KEYS.filter((key) => key !== unjudged && corner.bands[key] !== undefined);
  return { title: AXLE_TITLES[axle], rows: keys.map((key) => rowOf(key, corner)) };
}

function rowOf(key: string, corner: CornerReport): SureRow {
  const quantity = QUANTITIES.get(key);
  const band = corner.bands[key];
  if (quantity === undefined || band === undefined) throw new Error(`Nothing describes the band “${key}”.`);
  const { dimension } = quantity;
  const value = measure(quantityOf(corner.values, key), dimension);
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
    isTight: isTight(key, band, corner),
  };
}

function span(low: number, high: number, dimension: Dimension): Span {
  const [from, to] = [measure(low, dimension), measure(high, dimension)];
  return {
    metric: `${from.metric} to ${to.metric}`,
    imperial: from.imperial === null || to.imperial === null ? null : `${from.imperial} to ${to.imperial}`,
  };
}

function isTight(key: string, band: BandReport, { tight }: CornerReport): boolean {
  if (key === 'slack_mm') return tight.some(({ seat }) => seat !== undefined);
  return key.startsWith('clearance_') && band.worst_low < 0;
}
