/** Flags of a corner: what is estimated, not checked, or near a jump. A flag never rejects. */
import { closedLength } from '../bumpStop.ts';
import { CONTACT_LABELS } from '../corner/contactLabels.ts';
import type { CornerState } from '../corner/state.ts';
import { flags } from '../messages.ts';
import { isMeasured, PAIRS_FOR_SLOPE } from '../motion.ts';
import type { Working } from '../quantities/quantity.ts';
import { RATES } from '../quantities/rates.ts';
import type { Flag } from '../result.ts';
import { springDetails } from '../springDetails.ts';
import { helperClosesFirst, kneeForce } from '../stack.ts';
import { rateHalfWidth } from '../tolerance/inputs.ts';

/** A helper that closes within this share of the standing spring force is flagged. */
const NEAR_STANDING = 0.15;

/** Stress at solid over strength beyond which a given solid height is doubted; EN 13906-1 allows 0.56 (from memory). */
const DOUBTFUL_STRESS_SHARE = 0.65;

export function cornerFlags(working: Working): Flag[] {
  const { state } = working;
  return [
    ...motionFlags(state),
    ...springFlags(state),
    ...helperFlags(state),
    ...loadPolicyFlags(state),
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
    found.push(estimate(flags.estimatedSolid(axle, spring.name, spring.solid.least, spring.solid.height)));
  }
  if (spring.solid.source === 'wire x coils') found.push(note(flags.wireTimesCoils(axle, spring.name)));
  if (spring.rateEstimated)
    found.push(estimate(flags.estimatedRate(axle, spring.name, spring.rate, rateHalfWidth(spring, 0))));
  if (spring.wire === null || spring.wire.estimated) found.push(note(flags.stressNotChecked(axle, spring.name)));
  return [...found, ...wireFlags(state)];
}

/** Formulas outside their range, and a solid height lower than any wire should allow: often a typing error. */
function wireFlags({ corner, site }: CornerState): Flag[] {
  const { spring } = corner;
  const details = springDetails(spring);
  if (details === null) return [];
  const outside = details.breaches.map((b) => ofRange(note(flags.outsideValidity(site.axle, spring.name, b))));
  const share = details.stressAtSolid / details.tensileStrength;
  const doubtful = spring.solid.source === 'catalogue' && share > DOUBTFUL_STRESS_SHARE;
  return doubtful ? [...outside, warning(flags.doubtfulSolid(site.axle, spring.name, share))] : outside;
}

function helperFlags(state: CornerState): Flag[] {
  const { stack } = state.geometry;
  const { axle } = state.site;
  if (stack.helperTravel === 0) return [];
  const share = kneeForce(stack) / state.standing.springForce;
  const odd = helperClosesFirst(stack) ? [] : [warning(flags.helperLonger(axle))];
  return Math.abs(share - 1) <= NEAR_STANDING ? [...odd, warning(flags.helperNearStanding(axle, share))] : odd;
}

/** With the load policy, contacts that only the fully closed stop would reach. */
function loadPolicyFlags(state: CornerState): Flag[] {
  if (state.site.bump.kind === 'closed') return [];
  const closed = state.geometry.stopMeetsAt + state.corner.bumpStop.packer + closedLength(state.corner.bumpStop);
  return state.contacts
    .filter((c) => c.clearance >= c.margin && c.length > closed)
    .map((c) => warning(flags.metalBeyondFull(state.site.axle, CONTACT_LABELS[c.name], c.length - closed)));
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
