/** Force against travel at the wheel, one chart an axle, for what is bought. */
import { COIL_BIND, CONTACT, CONTACTS, type ContactName } from '../../model/corner/contacts.ts';
import type { ForceCurve } from '../../model/corner/forceCurve.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { CornerReport, Result } from '../../result/result.ts';
import { drawChart } from '../charts/draw.ts';
import { forceChart, ON_PAPER } from '../charts/forceTravel.ts';
import type { ChartMark } from '../charts/marksAbove.ts';
import { ofAnswers, section } from '../frame/section.ts';
import type { Answer } from '../text/answers.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { measure, quantityOf } from '../text/parts.ts';

export const forces = section({
  id: 'forces',
  link: 'Forces',
  title: 'Force against travel',
  view: (page) => ofAnswers(page, (answer, isFirst) => forcesView(page.result, answer, isFirst)),
  prints: true,
  leaves: null,
  beside: 'pictures',
});

/**
 * Null where the record carries no curves.
 * @param isPrinted whether print shows this setup's first chart
 */
export async function forcesView(result: Result, answer: Answer, isPrinted = false) {
  const { setup, combination } = answer;
  const charts = [];
  for (const axle of AXLE_NAMES) {
    const corner = combination.axles[axle];
    const curve = corner.force_curve;
    if (!curve || curve.height_mm.length < 2) return null;
    charts.push(await axleForces(axle, corner, curve, isPrinted && charts.length === 0));
  }
  return { setup: setup.name, isBuild: result.mode === 'build', charts };
}

async function axleForces(axle: AxleName, corner: CornerReport, curve: ForceCurve, isPrinted: boolean) {
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
    /** The same, small, for print; null where it is not printed. */
    small: isPrinted ? await drawChart(forceChart({ ...chart, plot: ON_PAPER })) : null,
    load: measure(load, 'force'),
    full: measure(values.wheel_force_full_n ?? null, 'force'),
    /** False: the total is not known past the stop. */
    isStopKnown: curve.stop_known,
    knee: curve.knee_height_mm === null ? null : measure(curve.knee_height_mm, 'length'),
    /** What meets first in bump after or before the stop, other than the spring’s own coils. */
    metal: metal ? CONTACT[metal.name].label : null,
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
    ...known(CONTACT[COIL_BIND].label, contactHeight(corner, COIL_BIND), 'limit'),
    ...known('other metal', metal?.height ?? null, 'limit'),
  ];
}

interface Metal {
  readonly name: ContactName;
  readonly height: number;
}

/** The contact met first on the way into bump, other than coil bind. */
function firstMetal(corner: CornerReport): Metal | null {
  const found = CONTACTS.filter((name) => name !== COIL_BIND).flatMap((name): Metal[] => {
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

function heightOf({ values }: CornerReport, id: 'ride_height' | 'height_at_stop' | 'height_at_droop' | 'height_full') {
  return values[`${id}_mm`] ?? null;
}
