/** Force against travel at the wheel, one chart an axle, for what is bought. */

import { CONTACT_LABELS } from '../../domain/corner/contactLabels.ts';
import { CONTACTS, type ContactName } from '../../domain/corner/contacts.ts';
import type { CornerReport, ForceCurve, Result } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import type { Answer } from '../answers.ts';
import { type Drawing, drawChart } from '../charts/draw.ts';
import { forceChart, ON_PAPER } from '../charts/forceTravel.ts';
import type { ChartMark } from '../charts/marksAbove.ts';
import { AXLE_TITLES } from '../labels.ts';
import { type Measure, measure, quantityOf } from '../read.ts';

export interface ForcesView {
  readonly setup: string;
  readonly isBuild: boolean;
  readonly charts: readonly AxleForces[];
}

export interface AxleForces {
  readonly axle: AxleName;
  readonly title: string;
  readonly drawing: Drawing;
  /** The same, small, for print; null where it is not printed. */
  readonly small: Drawing | null;
  readonly load: Measure;
  readonly full: Measure;
  /** False: the total is not known past the stop. */
  readonly isStopKnown: boolean;
  readonly knee: Measure | null;
  /** What meets first in bump after or before the stop, other than the spring’s own coils. */
  readonly metal: string | null;
}

/**
 * Null where the record carries no curves.
 * @param isPrinted whether print shows this setup's first chart
 */
export async function forcesView(result: Result, answer: Answer, isPrinted = false): Promise<ForcesView | null> {
  const { setup, combination } = answer;
  const charts: AxleForces[] = [];
  for (const axle of AXLE_NAMES) {
    const corner = combination.axles[axle];
    const curve = corner.force_curve;
    if (!curve || curve.height_mm.length < 2) return null;
    charts.push(await axleForces(axle, corner, curve, isPrinted && charts.length === 0));
  }
  return { setup: setup.name, isBuild: result.mode === 'build', charts };
}

async function axleForces(
  axle: AxleName,
  corner: CornerReport,
  curve: ForceCurve,
  isPrinted: boolean,
): Promise<AxleForces> {
  const { values } = corner;
  const standing = heightOf(corner, 'ride_height') ?? 0;
  const load = quantityOf(values, 'sprung_load_n') ?? 0;
  const metal = firstMetal(corner);
  const stopAt = heightOf(corner, 'height_at_stop') ?? standing;
  const chart = { curve, standing, stopAt, load, marks: marksOf(corner, curve, metal) };
  return {
    axle,
    title: AXLE_TITLES[axle],
    drawing: await drawChart(forceChart(chart)),
    small: isPrinted ? await drawChart(forceChart({ ...chart, plot: ON_PAPER })) : null,
    load: measure(load, 'force'),
    full: measure(values.wheel_force_full_n ?? null, 'force'),
    isStopKnown: curve.stop_known,
    knee: curve.knee_height_mm === null ? null : measure(curve.knee_height_mm, 'length'),
    metal: metal ? CONTACT_LABELS[metal.name] : null,
  };
}

function marksOf(corner: CornerReport, curve: ForceCurve, metal: Metal | null): ChartMark[] {
  const known = (name: string, at: number | null, kind: ChartMark['kind']): ChartMark[] =>
    at === null ? [] : [{ name, at, kind }];
  const low = curve.height_mm[0] ?? 0;
  const knee = curve.knee_height_mm;
  const isSeen = knee !== null && knee > low && knee < (curve.height_mm.at(-1) ?? 0);
  return [
    ...known('full droop', heightOf(corner, 'height_at_droop'), 'plain'),
    ...known('helper closes', isSeen ? knee : null, 'plain'),
    ...known('standing', heightOf(corner, 'ride_height'), 'wanted'),
    ...known('stop met', heightOf(corner, 'height_at_stop'), 'plain'),
    ...known('full bump', heightOf(corner, 'height_full'), 'plain'),
    ...known('coil bind', contactHeight(corner, 'coil_bind'), 'limit'),
    ...known('other metal', metal?.height ?? null, 'limit'),
  ];
}

interface Metal {
  readonly name: ContactName;
  readonly height: number;
}

/** The contact met first on the way into bump, other than coil bind. */
function firstMetal(corner: CornerReport): Metal | null {
  const found = CONTACTS.filter((name) => name !== 'coil_bind').flatMap((name): Metal[] => {
    const height = contactHeight(corner, name);
    return height === null ? [] : [{ name, height }];
  });
  return found.reduce<Metal | null>(
    (first, next) => (first === null || next.height > first.height ? next : first),
    null,
  );
}

/** Ride height at which a contact happens: its clearance at the wheel below full bump. */
function contactHeight(corner: CornerReport, name: ContactName): number | null {
  const full = heightOf(corner, 'height_full');
  const clearance = corner.values[`wheel_clearance_${name}_mm`] ?? null;
  return full === null || clearance === null ? null : full - clearance;
}

function heightOf({ values }: CornerReport, id: string): number | null {
  return values[`${id}_mm`] ?? null;
}
