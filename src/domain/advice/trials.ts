/** Listed combinations tried with a spring: what each fails, and how close it comes. */
import { type Finding, findingsOf, findingsOnSeat } from '../corner/findings.ts';
import type { Geometry } from '../corner/geometry.ts';
import type { Corner, Site } from '../corner/site.ts';
import type { CornerState } from '../corner/state.ts';
import type { Spring } from '../parts.ts';
import { springStack } from '../stack.ts';
import { distanceOf } from './closeness.ts';
import { indexOf, type Listed, type Place } from './places.ts';
import { findingsAt, lightContacts, lightState } from './verdict.ts';

/** A combination that fails, and what it fails. */
export interface Tried {
  /** Position in the product of options. */
  readonly index: number;
  readonly corner: Corner;
  readonly findings: readonly Finding[];
}

/** A listed combination tried: it knows its place, and that of its helper. */
export interface Trial extends Tried {
  readonly place: Place;
  readonly helper: number;
  readonly distance: number;
}

/** Every combination with one spring judged, closest first. */
export function trialsOf(listed: Listed, spring: number): Trial[] {
  const trials = listed.heads.flatMap((head) =>
    listed.helpers.flatMap((helper) => trialsOnHead(listed, head, helper, spring)),
  );
  return trials.sort((a, b) => a.distance - b.distance || a.index - b.index);
}

/** A corner whose stop meets the body, judged in full. */
interface Judged {
  readonly state: CornerState;
  readonly findings: readonly Finding[];
}

/** One stack on one head: judged in full once, and from there on its sleeves and perches as long as they allow it. */
function trialsOnHead(listed: Listed, head: readonly Place[], helperAt: number, springAt: number): Trial[] {
  const { site, options, allHelpers } = listed;
  const stacked = { spring: options.spring[springAt] as Spring, helper: allHelpers[helperAt] ?? null };
  const stack = springStack(stacked.spring, stacked.helper);
  let onBody: Judged | null = null;
  return head.map((place) => {
    const corner = { ...place.parts, ...stacked };
    const meetsBody = place.geometry.stopMeets === 'body';
    const judged: Judged =
      meetsBody && onBody !== null ? onSeat(onBody, corner, place) : inFull(site, corner, { ...place.geometry, stack });
    if (meetsBody) onBody ??= judged;
    const { findings } = judged;
    const index = indexOf(listed, place, helperAt, springAt);
    return { index, corner, findings, place, helper: helperAt, distance: distanceOf(findings) };
  });
}

function inFull(site: Site, corner: Corner, geometry: Geometry): Judged {
  const state = lightState(site, corner, geometry);
  return { state, findings: findingsOf(state) };
}

/** The findings with another sleeve and perch under the same stack; the state stays that of the first. */
function onSeat({ state, findings }: Judged, corner: Corner, { geometry, contacts }: Place): Judged {
  const { site, standing, slack, full } = state;
  const onSleeve = (length: number) => lightContacts(site, corner, contacts, length);
  const sides = state.sides.map((side) => ({ ...side, contacts: onSleeve(side.full.length) }));
  const seated = { site, corner, geometry, standing, slack, contacts: onSleeve(full.length), sides };
  return { state, findings: findingsOnSeat(seated, findings) };
}

/** The closest trials with a helper of the other axle's list put in: what the axle's own list does not hold. */
export function withHelpers({ site, options, allHelpers }: Listed, trials: readonly Trial[]): Trial[] {
  return allHelpers.slice(options.helper.length).flatMap((helper, k) =>
    trials.map((trial) => {
      const corner = { ...trial.corner, helper };
      const findings = findingsAt(site, corner);
      return { ...trial, corner, findings, helper: options.helper.length + k, distance: distanceOf(findings) };
    }),
  );
}
