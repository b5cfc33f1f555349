/**
 * Ranges inside which the spring formulas are known to hold. Outside them a number is still given, and flagged:
 * each row says what it bounds, from where to where, and who says so.
 */
import { type Material, materialOf } from './materials.ts';

export interface ValidityRow {
  readonly id: ValidityId;
  readonly what: string;
  /** Unit of `from` and `to`: `mm`, or empty for a pure number. */
  readonly unit: 'mm' | '';
  readonly quantity: 'wire' | 'index' | 'mean diameter' | 'free length' | 'active coils';
  /** Null: no bound on that side. */
  readonly from: number | null;
  readonly to: number | null;
  readonly source: string;
}

export type ValidityId = 'strength_fit' | 'wire' | 'index' | 'mean_diameter' | 'free_length' | 'active_coils';

const EN_15800 = 'EN 15800, scope: cold-coiled compression springs';

/** The rows that hold for every material. */
export const VALIDITY: readonly ValidityRow[] = [
  {
    id: 'wire',
    what: 'wire of cold-coiled springs',
    quantity: 'wire',
    unit: 'mm',
    from: 0.07,
    to: 16,
    source: EN_15800,
  },
  { id: 'index', what: 'spring index D/d', quantity: 'index', unit: '', from: 4, to: 20, source: EN_15800 },
  {
    id: 'mean_diameter',
    what: 'mean coil diameter',
    quantity: 'mean diameter',
    unit: 'mm',
    from: 0.63,
    to: 200,
    source: EN_15800,
  },
  {
    id: 'free_length',
    what: 'free length',
    quantity: 'free length',
    unit: 'mm',
    from: null,
    to: 630,
    source: EN_15800,
  },
  { id: 'active_coils', what: 'active coils', quantity: 'active coils', unit: '', from: 2, to: null, source: EN_15800 },
];

/** The wire diameters a material's strength constants were fitted to: beyond, the strength is an extrapolation. */
export function strengthFit(material: string): ValidityRow {
  const { label, fittedFrom, fittedTo, sources }: Material = materialOf(material);
  return {
    id: 'strength_fit',
    what: `strength constants of ${label}`,
    quantity: 'wire',
    unit: 'mm',
    from: fittedFrom,
    to: fittedTo,
    source: sources.fittedRange,
  };
}

export interface Breach {
  readonly row: ValidityRow;
  readonly value: number;
}

/** The rows a spring's measures fall outside of; lengths in mm. */
export function breaches(measures: Readonly<Record<ValidityRow['quantity'], number>>, material: string): Breach[] {
  return [strengthFit(material), ...VALIDITY]
    .map((row) => ({ row, value: measures[row.quantity] }))
    .filter(({ row, value }) => value < (row.from ?? value) || value > (row.to ?? value));
}
