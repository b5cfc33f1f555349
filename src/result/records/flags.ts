/** Flags of a corner: what is estimated, not checked, or near a jump. A flag never rejects. */

import { CONTACT, type Contact, gapsMissed } from '../../model/corner/contacts.ts';
import * as flags from '../../model/corner/flagMessages.ts';
import { type CornerState, clearanceClosed } from '../../model/corner/state.ts';
import { stressDoubts } from '../../model/corner/stress.ts';
import type { Working } from '../../model/corner/window.ts';
import { isMeasured, PAIRS_FOR_SLOPE } from '../../model/motion.ts';
import { springDetails } from '../../model/spring/details.ts';
import { helperClosesFirst, kneeForce } from '../../model/stack.ts';
import { RATES } from '../quantities/rates.ts';
import type { Flag } from '../result.ts';
import { rateHalfWidth } from '../tolerance/inputs.ts';

/** A helper that closes within this share of the standing spring force is flagged. */
const NEAR_STANDING = 0.15;

export function cornerFlags(working: Working): Flag[] {
  const { state } = working;
  return [
    ...motionFlags(state),
    ...springFlags(state),
    ...helperFlags(state),
    ...shortStopFlags(state),
    ...loadPolicyFlags(state),
    ...stopFlags(state),
    ...fitFlags(state),
    ...dampingFlags(working),
    ...(working.window === null ? [warning(flags.noWindow(state.site.axle))] : []),
  ];
}

function motionFlags(state: CornerState): Flag[] {
  const { motion, axle } = state.site;
  const places: [string, number][] = [
    ['the target height', state.standing.height],
    ['the stop just met', state.geometry.stopHeight],
    ['full bump', state.full.height],
    ['full droop', state.geometry.droopHeight],
  ];
  const beyond = places.filter(([, height]) => motion.heights.length > 1 && !isMeasured(motion, height));
  const few = motion.heights.length < PAIRS_FOR_SLOPE ? [note(flags.fewPairs(axle, motion.heights.length))] : [];
  return beyond.length === 0 ? few : [...few, ofRange(warning(flags.outsideMotion(axle, beyond)))];
}

function springFlags(state: CornerState): Flag[] {
  const { spring } = state.corner;
  const { axle } = state.site;
  const found: Flag[] = [];
  if (spring.solid.source === 'estimated') {
    found.push(estimate(flags.estimatedSolid(axle, spring.name, spring.solid)));
  }
  if (spring.solid.source === 'wire x coils') found.push(note(flags.wireTimesCoils(axle, spring.name)));
  if (spring.rateEstimated)
    found.push(estimate(flags.estimatedRate(axle, spring.name, spring.rate, rateHalfWidth(spring, 0))));
  return [...found, ...rangeFlags(state), ...wireFlags(state)];
}

/**
 * Where formulas end: of a known wire; of an estimate, whose wire nobody gave. One note says both that it is an
 * extrapolation and that stress is not checked.
 */
function rangeFlags({ corner: { spring }, site: { axle } }: CornerState): Flag[] {
  const breaches = springDetails(spring)?.breaches ?? [];
  if (spring.wire !== null && !spring.wire.estimated) {
    return breaches.map((b) => ofRange(note(flags.outsideValidity(axle, spring.name, b))));
  }
  if (spring.solid.source !== 'estimated' || breaches.length === 0) {
    return [note(flags.stressNotChecked(axle, spring.name))];
  }
  return breaches.map((b) => ofRange(note(flags.estimateBeyondRange(axle, spring.name, b))));
}

/** Stress that only warns, and coils nearer to each other than they should come. */
function wireFlags(state: CornerState): Flag[] {
  const { axle } = state.site;
  const { spring } = state.corner;
  const [doubts, missed] = [stressDoubts(state), gapsMissed(state)];
  return [
    ...(doubts.length > 0 ? [warning(flags.stressDoubts(axle, spring.name, doubts))] : []),
    ...(missed ? [warning(flags.gapsMissed(axle, spring.name, missed, spring.wire?.estimated === true))] : []),
  ];
}

function helperFlags(state: CornerState): Flag[] {
  const { stack } = state.geometry;
  const { axle } = state.site;
  if (stack.helperTravel === 0) return [];
  const share = kneeForce(stack) / state.standing.springForce;
  const odd = helperClosesFirst(stack) ? [] : [warning(flags.helperLonger(axle))];
  return Math.abs(share - 1) <= NEAR_STANDING ? [...odd, warning(flags.helperNearStanding(axle, share))] : odd;
}

/** Foam this short, or cut to less than half, is no longer the piece that was pressed. Common practice, no source. */
const SHORT_STOP = 30;
const SHORT_SHARE = 0.5;

function shortStopFlags({ corner: { bumpStop }, site }: CornerState): Flag[] {
  const { name, length, uncutLength, curve } = bumpStop;
  const why = [
    ...(length < SHORT_STOP ? [`shorter than ${SHORT_STOP} mm`] : []),
    ...(length < SHORT_SHARE * uncutLength ? ['less than half of it'] : []),
  ].join(' and ');
  return curve === null && why !== '' ? [warning(flags.shortStop(site.axle, name, length, uncutLength, why))] : [];
}

/**
 * With the load policy, contacts that only the fully closed stop would reach, and margins that it would eat into: told
 * once, at the mean load or on the side that keeps least.
 */
function loadPolicyFlags({ site, geometry, full, contacts, sides }: CornerState): Flag[] {
  if (site.bump.kind === 'closed') return [];
  const places = [
    { where: site.axle, full, contacts },
    ...sides.map((side) => ({ ...side, where: `${site.axle} ${side.name}` })),
  ];
  return contacts.flatMap(({ name, margin }, k) => {
    const found = places.map((place) => {
      const { clearance } = place.contacts[k] as Contact;
      return { where: place.where, clearance, closed: clearanceClosed({ full: place.full, geometry }, clearance) };
    });
    const least = found.reduce((one, other) => (other.closed < one.closed ? other : one));
    if (least.clearance < margin || least.closed >= margin) return [];
    return [warning(flags.beyondFull(least.where, CONTACT[name].label, least.closed, margin))];
  });
}

/** A stop that may land on the sleeve or enter it. */
function stopFlags({ corner, geometry, site }: CornerState): Flag[] {
  if (geometry.stopMeets !== 'sleeve or body') return [];
  const spare = corner.sleeve.bore - corner.bumpStop.diameter;
  const apart = geometry.stopMeetsAt - geometry.stopClosesAt;
  return [warning(flags.stopMayMeetSleeve(site.axle, spare, site.margins.passing, apart))];
}

function fitFlags(state: CornerState): Flag[] {
  const { corner, site } = state;
  const slop = corner.sleeve.bore - corner.damper.bodyDiameter;
  const rodEnd = corner.rodEnd ? [] : [note(flags.rodEndNotChecked(site.axle))];
  return slop > 0 ? [note(flags.looseSleeve(site.axle, slop)), ...rodEnd] : rodEnd;
}

function dampingFlags(working: Working): Flag[] {
  const { dampingFrom, dampingTo } = working.state.site.target;
  const zeta = RATES.find((q) => q.id === 'damping_ratio')?.read(working) ?? null;
  if (zeta === null || dampingFrom === null || dampingTo === null) return [];
  if (zeta >= dampingFrom && zeta <= dampingTo) return [];
  return [warning(flags.damping(working.state.site.axle, zeta, dampingFrom, dampingTo))];
}

const warning = (message: string): Flag => ({ kind: 'warning', message });
const estimate = (message: string): Flag => ({ kind: 'estimate', message });
const note = (message: string): Flag => ({ kind: 'note', message });
const ofRange = (flag: Flag): Flag => ({ ...flag, topic: 'range' });
