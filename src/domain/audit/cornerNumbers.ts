/** The bench test and the numbers of a corner that an audit shows, by the model as given and as corrected. */
import { CONTACT_LABELS } from '../corner/contactLabels.ts';
import { giveFor, marginFor } from '../corner/contacts.ts';
import { geometryOf } from '../corner/geometry.ts';
import { collarTurns, snugAt } from '../corner/snug.ts';
import { cornerState } from '../corner/state.ts';
import { heightWindow, type WindowEnd } from '../corner/window.ts';
import { limitLabel } from '../messages.ts';
import type { Model } from '../tolerance/inputs.ts';
import type { MeasuredUnit } from './measured.ts';
import type { BenchReport, CornerNumbers, WindowNumbers } from './types.ts';

/**
 * Spring travel against the travel to the stop and the stop's squeeze: the perch at its lowest on the sleeve, where the
 * target height wants it, at its highest safe place, and at its highest on the sleeve.
 */
export function benchReports({ site, corner }: Model): readonly BenchReport[] {
  const geometry = geometryOf(site, corner);
  const at = (where: BenchReport['where'], perch: number): BenchReport => {
    const snug = snugAt(corner, geometry, perch);
    const give = giveFor(corner, 'coil_bind');
    return {
      where,
      perch_mm: perch,
      spring_travel_mm: snug.springTravel,
      gap_mm: snug.gap,
      stop_squeeze_mm: snug.stopTravel - snug.gap,
      stop_travel_mm: snug.stopTravel,
      give_mm: give,
      spare_mm: snug.spare - give,
      margin_mm: marginFor(site, corner, 'coil_bind'),
      preload_mm: snug.preload,
      looseness_mm: snug.looseness,
    };
  };
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const safe = window?.usable ? finite(window.high.perch) : null;
  return [
    at('lowest', geometry.perchLowest),
    at('target', state.standing.perch),
    ...(safe === null ? [] : [at('highest safe', safe)]),
    at('highest', geometry.perchHighest),
  ];
}

export function numbersOf({ site, corner }: Model, { standing }: MeasuredUnit): CornerNumbers {
  const state = cornerState(site, corner);
  const window = heightWindow(state);
  const { perch } = state.standing;
  const from = standing.at(-1)?.perch ?? null;
  return {
    target_height_mm: site.target.targetHeight,
    perch_mm: perch,
    perch_change_mm: from === null ? null : perch - from,
    collar_turns: from === null ? null : collarTurns(corner.sleeve, perch, from),
    bump_travel_mm: state.bumpTravel,
    droop_travel_mm: state.droopTravel,
    slack_mm: state.slack,
    body_frequency_hz: finite(state.rates.bodyFrequency),
    window: window && windowNumbers(window),
    clearances: state.contacts.map(({ name, clearance, margin }) => {
      return { contact: CONTACT_LABELS[name], clearance_mm: clearance, margin_mm: margin };
    }),
  };
}

function windowNumbers(window: NonNullable<ReturnType<typeof heightWindow>>): WindowNumbers {
  const end = ({ perch, height, limit }: WindowEnd) => {
    return { perch_mm: finite(perch), height_mm: finite(height), limit: limitLabel(limit) };
  };
  return { usable: window.usable, low: end(window.low), high: end(window.high) };
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
