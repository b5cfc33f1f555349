/** The corners of what is bought drawn to scale, with a table of what the drawing dimensions. */
import { CHECK } from '../../model/corner/checks.ts';
import { CONTACT } from '../../model/corner/contacts.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { cornerLengths, isDrawable } from '../../result/records/lengths.ts';
import type { CornerReport, Result, SetupResult } from '../../result/result.ts';
import { cornerDrawing } from '../drawing/cornerDrawing.ts';
import { type Clearance, cornerLayout } from '../drawing/layout.ts';
import { hasPlace } from '../drawing/words.ts';
import { ofSetups, section } from '../frame/section.ts';
import type { Answer } from '../text/answers.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { measure } from '../text/parts.ts';

export const drawing = section({
  id: 'drawing',
  link: 'Drawing',
  title: 'Drawn to scale',
  view: ({ result, answers, isBuild }) => {
    const drawings = ofSetups(answers.map((answer) => drawingsView(result, answer)));
    return drawings && { isBuild, ...drawings };
  },
  prints: true,
  leaves: ({ setups }) => (setups.length > 1 ? 'drawings and charts of the further setups' : null),
  beside: 'pictures',
});

/** Null where the record has no lengths to draw. */
export function drawingsView(result: Result, { setup, combination: best }: Answer) {
  if (!AXLE_NAMES.every((axle) => isDrawable(best.axles[axle]))) return null;
  return {
    setup: setup.name,
    isBuild: result.mode === 'build',
    id: best.id,
    corners: AXLE_NAMES.map((axle) => drawnCorner(setup, axle, best.axles[axle])),
  };
}

/** @param isLettered a list beside the picture tells what fails by the checks’ letters */
export function drawnCorner(setup: SetupResult, axle: AxleName, corner: CornerReport, isLettered = false) {
  const layout = cornerLayout(cornerLengths(corner));
  const { clearances, lengths } = layout;
  const title = `${AXLE_TITLES[axle]} corner to scale, setup ${setup.name}`;
  const failing = corner.failures.map(({ check }) => check);
  const source = corner.words.wire_source;
  const { solid, leastSolid } = lengths.spring;
  return {
    axle,
    title: AXLE_TITLES[axle],
    svg: cornerDrawing(layout, failing, { title, isLettered }),
    /** How the coils were drawn: each of the three alone is true, or none. */
    coils: { isEstimated: source === 'estimated', isUnknown: !lengths.wire.isKnown },
    least: leastSolid < solid ? measure(leastSolid, 'length') : null,
    /** Full bump is judged under a load, so that every clearance has a second figure. */
    isUnderLoad: clearances.some(({ closed }) => closed !== null),
    rows: clearances.map((clearance) => rowOf(corner, clearance)),
    /** Failing checks that no place of the drawing shows. */
    unplaced: corner.failures
      .filter(({ check }) => !hasPlace(check))
      .map(({ check, message }) => ({ check: CHECK[check].label, message })),
  };
}

function rowOf({ values, bands }: CornerReport, gap: Clearance) {
  const band = bands?.[`clearance_${gap.name}_mm`];
  return {
    name: CONTACT[gap.name].label,
    isThinnest: gap.isThinnest,
    fails: gap.fails,
    clearance: measure(gap.clearance, 'length'),
    /** With the stop fully closed; null where full bump is that. */
    closed: gap.closed === null ? null : measure(gap.closed, 'length'),
    atWheel: measure(values[`wheel_clearance_${gap.name}_mm`] ?? null, 'length'),
    margin: measure(gap.clearance - gap.spare, 'length'),
    /** With every tolerance against it; null where no band was computed. */
    worst: band ? measure(band.worst_low, 'length') : null,
    mayTouch: band !== undefined && band.worst_low < 0,
  };
}
