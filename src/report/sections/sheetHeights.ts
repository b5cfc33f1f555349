/** Heights to set and lengths to measure of a build sheet: a column for each setup and axle. */
import type { BandReport, CornerReport } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName, SIDE_NAMES } from '../../domain/scenario.ts';
import { STANDS_AT } from '../../domain/tolerance/bands.ts';
import type { Build, BuiltSetup } from '../builds.ts';
import { fixed, PAGE } from '../numbers.ts';
import { type Measure, measure, quantityOf, wordOf } from '../read.ts';

export interface HeightColumn {
  readonly setup: string;
  readonly axle: string;
}

export interface HeightRow {
  /** Names the row's words in the template. */
  readonly id: string;
  readonly label: string;
  readonly isKey: boolean;
  readonly isMeasured: boolean;
  readonly cells: readonly HeightCell[];
}

export interface HeightCell {
  /** One, or left and right where each has its own load. */
  readonly readings: readonly Reading[];
  readonly band: { readonly likely: Measure; readonly worst: Measure } | null;
  /** What the figure belongs to, e.g. which parts come nearest. */
  readonly note: string | null;
}

export interface Reading {
  readonly side: string | null;
  readonly pieces: readonly Piece[];
}

/** `to 185.4`: words, then a figure; either may be missing. */
export interface Piece {
  readonly text: string | null;
  readonly measure: Measure | null;
}

type Values = CornerReport['values'];
type Read = (values: Values) => readonly Piece[];

interface RowShape {
  readonly id: string;
  readonly label: string;
  readonly isKey?: boolean;
  readonly isMeasured?: boolean;
  readonly read: Read;
  /** Key of the band of what is measured on the bench. */
  readonly band?: string;
  readonly note?: (corner: CornerReport) => string;
}

// biome-ignore format: one row a line of the sheet
const ROWS: readonly RowShape[] = [
  { id: 'height', label: 'ride height, hub to arch', isMeasured: true, read: lengths(['ride_height_mm']), band: STANDS_AT },
  { id: 'perch', label: 'perch seat above lower eye', isKey: true, isMeasured: true, read: lengths(['perch_mm']) },
  { id: 'thread', label: 'sleeve above perch seat / below lock ring', read: lengths(['perch_below_top_mm', 'thread_below_mm'], ['/']) },
  { id: 'turns', label: 'collar turns from lowest; height a turn of both perches of the axle together', read: turns },
  { id: 'range', label: 'workable perch, lowest to highest', read: lengths(['lowest_perch_mm', 'highest_perch_mm'], ['to']) },
  { id: 'spring', label: 'spring, seat to seat, at ride height', read: lengths(['spring_length_mm']) },
  { id: 'seats', label: 'seat to seat, damper out, spring off', isMeasured: true, read: lengths(['seats_out_mm']) },
  { id: 'slack', label: 'spring there, damper out', read: slack },
  { id: 'out', label: 'gap to the stop, damper fully out', isMeasured: true, read: lengths(['gap_out_mm']), band: 'gap_out_mm' },
  { id: 'snug', label: 'gap to the stop, spring just snug', isKey: true, isMeasured: true, read: lengths(['gap_snug_mm']), band: 'gap_snug_mm' },
  { id: 'snug-range', label: 'the same, perch lowest to highest', read: lengths(['gap_lowest_mm', 'gap_highest_mm'], ['to']) },
  { id: 'spare', label: 'to solid − to stop fully closed = coils keep, give still in it', read: lengths(['spring_travel_snug_mm', 'stop_travel_snug_mm', 'snug_spare_mm', 'least_gap_sum_mm'], ['−', '=', '; least']) },
  { id: 'bump', label: 'hub to arch, stop closed, spring out', isMeasured: true, read: lengths(['height_closed_mm']) },
  { id: 'metal', label: 'least clearance there, spring apart, give off', read: lengths(['closed_metal_clearance_mm']), note: (corner) => wordOf(corner, 'thinnest_metal') },
];

export function heightColumns({ setups }: Build): HeightColumn[] {
  return setups.flatMap(({ setup }) => AXLE_NAMES.map((axle) => ({ setup: setup.name, axle })));
}

export function heightRows({ setups }: Build): HeightRow[] {
  return ROWS.map((row) => ({
    id: row.id,
    label: row.label,
    isKey: row.isKey ?? false,
    isMeasured: row.isMeasured ?? false,
    cells: setups.flatMap((built) => AXLE_NAMES.map((axle) => cellOf(row, built, axle))),
  }));
}

function cellOf(row: RowShape, { combination, sheet }: BuiltSetup, axle: AxleName): HeightCell {
  const corner = combination.axles[axle];
  const band = row.band === undefined ? undefined : sheet.bands[axle][row.band];
  return {
    readings: readingsOf(row.read, corner),
    band: band ? halfWidths(band) : null,
    note: row.note?.(corner) ?? null,
  };
}

/** Left and right where they differ as shown; what only the parts decide is the same on both. */
function readingsOf(read: Read, { values, sides }: CornerReport): Reading[] {
  const both: Reading = { side: null, pieces: read(values) };
  if (sides === undefined) return [both];
  const own = SIDE_NAMES.map((side): Reading => ({ side, pieces: read({ ...values, ...sides[side].values }) }));
  const [left, right] = own.map(({ pieces }) => JSON.stringify(pieces));
  return left === right ? [both] : own;
}

/** Half-widths, the wider side of each: what `± 1.7 mm` says. */
export function halfWidths({ rss_low, rss_high, worst_low, worst_high }: BandReport) {
  return {
    likely: measure((rss_high - rss_low) / 2, 'length'),
    worst: measure((worst_high - worst_low) / 2, 'length'),
  };
}

/** Lengths one after the other, with words before the second, third... */
function lengths(keys: readonly string[], words: readonly string[] = []): Read {
  return (values) =>
    keys.map((key, k) => ({ text: words[k - 1] ?? null, measure: measure(quantityOf(values, key), 'length') }));
}

function turns(values: Values): Piece[] {
  const count = quantityOf(values, 'collar_turns');
  if (count === null) return [{ text: 'pitch not given', measure: null }];
  const height = measure(quantityOf(values, 'height_per_turn_mm'), 'length');
  return [
    { text: `${fixed(count, 1, PAGE)};`, measure: height },
    { text: 'a turn', measure: null },
  ];
}

/** `squeezed by`, `loose by` */
function slack(values: Values): Piece[] {
  const loose = quantityOf(values, 'bench_slack_mm');
  const by = measure(loose === null ? null : Math.abs(loose), 'length');
  return [{ text: (loose ?? 0) < 0 ? 'squeezed by' : 'loose by', measure: by }];
}
