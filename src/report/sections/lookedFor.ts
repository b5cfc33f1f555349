/** What a workshop looks for and the model knows: a column for each setup and axle. */
import type { BandReport, CornerReport } from '../../domain/result.ts';
import { AXLE_NAMES, SIDE_NAMES } from '../../domain/scenario.ts';
import type { Dimension } from '../../domain/units.ts';
import type { Build, BuiltSetup } from '../builds.ts';
import { fixed, PAGE } from '../numbers.ts';
import { type Measure, measure, quantityOf } from '../read.ts';

export interface LookedForRow {
  readonly label: string;
  readonly unit: string;
  readonly imperialUnit: string | null;
  readonly cells: readonly LookedForCell[];
}

export interface LookedForCell {
  readonly readings: readonly SideReading[];
  /** Stands where the model does not know. */
  readonly unknown: string | null;
  readonly note: string | null;
}

export interface SideReading {
  readonly side: string | null;
  readonly figures: readonly Measure[];
}

type Axle = (typeof AXLE_NAMES)[number];

interface RowShape {
  readonly label: string;
  /** One figure, or several with a stroke between. */
  readonly keys: readonly string[];
  readonly dimension: Dimension;
  readonly unknown?: string;
  readonly note?: (corner: CornerReport, built: BuiltSetup, axle: Axle) => string | null;
}

// biome-ignore format: one row a line of the table
const ROWS: readonly RowShape[] = [
  { label: 'wheel load, driver aboard', keys: ['wheel_load_kg'], dimension: 'mass' },
  { label: 'stroke used, standing', keys: ['stroke_used_pct'], dimension: 'share' },
  { label: 'damper travel left to stop / to droop', keys: ['damper_bump_travel_mm', 'damper_droop_travel_mm'], dimension: 'length' },
  { label: 'spring force standing / at full bump', keys: ['spring_force_n', 'full_spring_force_n'], dimension: 'force' },
  { label: 'force at solid', keys: ['block_load_n'], dimension: 'force', note: blockNote },
  { label: 'force at which the stop is closed', keys: ['closed_at_force_n'], dimension: 'force', unknown: 'force not stated' },
  { label: 'damping ratio at 0.1 m/s / in rebound alone', keys: ['damping_ratio', 'rebound_ratio'], dimension: 'ratio', unknown: 'no damper table given' },
  { label: 'stress: solid / allowed / full bump / allowed', keys: ['stress_solid_mpa', 'stress_solid_allowed_mpa', 'stress_full_mpa', 'stress_allowed_mpa'], dimension: 'stress', unknown: 'wire not known', note: wireNote },
  { label: 'hub to arch at full bump / tyre on arch', keys: ['height_full_mm', 'tyre_on_arch_mm'], dimension: 'length' },
];

export function lookedForRows({ setups }: Build): LookedForRow[] {
  return ROWS.map((row) => ({
    label: row.label,
    unit: measure(0, row.dimension).unit,
    imperialUnit: measure(0, row.dimension).imperialUnit,
    cells: setups.flatMap((built) => AXLE_NAMES.map((axle) => cellOf(row, built, axle))),
  }));
}

function cellOf({ keys, dimension, unknown, note }: RowShape, built: BuiltSetup, axle: Axle): LookedForCell {
  const corner = built.combination.axles[axle];
  const isKnown = keys.every((key) => quantityOf(corner.values, key) !== null);
  return {
    readings: isKnown ? readingsOf(corner, keys, dimension) : [],
    unknown: isKnown ? null : (unknown ?? PAGE.none),
    note: isKnown ? (note?.(corner, built, axle) ?? null) : null,
  };
}

/** Left and right where each side has its own. */
function readingsOf({ values, sides }: CornerReport, keys: readonly string[], dimension: Dimension): SideReading[] {
  const figures = (own: CornerReport['values']) => keys.map((key) => measure(quantityOf(own, key), dimension));
  if (sides === undefined || keys.every((key) => sides.left.values[key] === undefined)) {
    return [{ side: null, figures: figures(values) }];
  }
  return SIDE_NAMES.map((side) => ({ side, figures: figures({ ...values, ...sides[side].values }) }));
}

function wireNote({ words }: CornerReport): string | null {
  return words.wire_source === 'estimated' ? 'wire estimated' : null;
}

function blockNote(corner: CornerReport, { sheet }: BuiltSetup, axle: Axle): string | null {
  const band: BandReport | undefined = sheet.bands[axle].block_load_n;
  const estimated = corner.words.solid_height_source === 'estimated' ? ', solid height estimated' : '';
  if (band === undefined) return estimated === '' ? null : estimated.slice(2);
  return `at worst ${fixed(band.worst_low, 0, PAGE)} to ${fixed(band.worst_high, 0, PAGE)} N${estimated}`;
}
