/** The corners of what is bought drawn to scale, with a table of what the drawing dimensions. */
import { CHECK_LABELS } from '../../domain/checks.ts';
import { CONTACT_LABELS } from '../../domain/corner/contactLabels.ts';
import type { ContactName } from '../../domain/corner/contacts.ts';
import type { CornerReport, Failure, Result, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import type { Answer } from '../answers.ts';
import { cornerDrawing } from '../drawing/cornerDrawing.ts';
import { type Clearance, cornerLayout } from '../drawing/layout.ts';
import { cornerLengths, isDrawable } from '../drawing/lengths.ts';
import { hasPlace } from '../drawing/words.ts';
import { AXLE_TITLES } from '../labels.ts';
import { type Measure, measure } from '../read.ts';

export interface DrawingsView {
  readonly setup: string;
  readonly isBuild: boolean;
  readonly id: string;
  readonly corners: readonly CornerDrawingView[];
}

export interface CornerDrawingView {
  readonly axle: AxleName;
  readonly title: string;
  readonly svg: string;
  /** How the coils were drawn: each of the three alone is true, or none. */
  readonly coils: { readonly isEstimated: boolean; readonly isUnknown: boolean };
  readonly least: Measure | null;
  /** Full bump is judged under a load, so that every clearance has a second figure. */
  readonly isUnderLoad: boolean;
  readonly rows: readonly ClearanceRow[];
  /** Failing checks that no place of the drawing shows. */
  readonly unplaced: readonly { readonly check: string; readonly message: string }[];
}

export interface ClearanceRow {
  readonly name: string;
  readonly isThinnest: boolean;
  readonly fails: boolean;
  readonly clearance: Measure;
  /** With the stop fully closed; null where full bump is that. */
  readonly closed: Measure | null;
  readonly atWheel: Measure;
  readonly margin: Measure;
  /** With every tolerance against it; null where no band was computed. */
  readonly worst: Measure | null;
  readonly mayTouch: boolean;
}

/** Null where the record has no lengths to draw. */
export function drawingsView(result: Result, { setup, combination: best }: Answer): DrawingsView | null {
  if (!AXLE_NAMES.every((axle) => isDrawable(best.axles[axle]))) return null;
  return {
    setup: setup.name,
    isBuild: result.mode === 'build',
    id: best.id,
    corners: AXLE_NAMES.map((axle) => cornerView(setup, axle, best.axles[axle])),
  };
}

function cornerView(setup: SetupResult, axle: AxleName, corner: CornerReport): CornerDrawingView {
  const { clearances, lengths } = cornerLayout(cornerLengths(corner));
  const source = corner.words.wire_source;
  const { solid, leastSolid } = lengths.spring;
  return {
    axle,
    title: AXLE_TITLES[axle],
    svg: cornerDrawing(corner, { title: `${AXLE_TITLES[axle]} corner to scale, setup ${setup.name}` }),
    coils: { isEstimated: source === 'estimated', isUnknown: !lengths.wire.isKnown },
    least: leastSolid < solid ? measure(leastSolid, 'length') : null,
    isUnderLoad: clearances.some(({ closed }) => closed !== null),
    rows: clearances.map((clearance) => rowOf(corner, clearance)),
    unplaced: corner.failures.filter(({ check }) => !hasPlace(check)).map(failureView),
  };
}

function rowOf({ values, bands }: CornerReport, gap: Clearance): ClearanceRow {
  const band = bands?.[`clearance_${gap.name}_mm`];
  return {
    name: contactName(gap.name),
    isThinnest: gap.isThinnest,
    fails: gap.fails,
    clearance: measure(gap.clearance, 'length'),
    closed: gap.closed === null ? null : measure(gap.closed, 'length'),
    atWheel: measure(values[`wheel_clearance_${gap.name}_mm`] ?? null, 'length'),
    margin: measure(gap.clearance - gap.spare, 'length'),
    worst: band ? measure(band.worst_low, 'length') : null,
    mayTouch: band !== undefined && band.worst_low < 0,
  };
}

function contactName(name: ContactName): string {
  return CONTACT_LABELS[name];
}

function failureView({ check, message }: Failure) {
  return { check: CHECK_LABELS[check], message };
}
