/** Facts of the trade that nobody publishes: how each is computed with the program's own corner model. */
import { contactsAt } from '../../../src/model/corner/contacts.ts';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import type { Corner, Site } from '../../../src/model/corner/site.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { solidHeight } from '../../../src/model/formula/coil.ts';
import { plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';
import type { Inputs } from '../rows.ts';

const wireTimesCoils = (i: Inputs) => solidHeight(i.number('d'), i.number('coils'), 'closed_ground');

function springOf(freeLength: number, solid: number, rate = 52): Corner['spring'] {
  return {
    ...plainCorner().spring,
    freeLength,
    rate,
    solid: { source: 'wire x coils', height: solid, least: solid, most: solid, thinWire: null, thickWire: null },
  };
}

/**
 * The perch is set so that the spring is just snug while body and stop are the gap apart; from there the damper goes
 * in by the gap and the squeeze of the stop. What is left to coil bind at that damper length, bush give aside.
 */
function clearOfBind(i: Inputs): number {
  const site = plainSite();
  const { mount } = plainCorner();
  const spring = springOf(i.number('L'), wireTimesCoils(i));
  const corner = plainCorner({ spring, mount: { ...mount, bushGive: 0 } });
  const geometry = geometryOf(site, corner);
  const snug = geometry.stopLength + i.number('gap');
  const perch = snug - geometry.seatBelowShoulder - geometry.stack.freeLength;
  return contact(site, corner, perch, snug - i.number('final'), 'coil_bind');
}

function contact(site: Site, corner: Corner, perch: number, full: number, name: string): number {
  const found = contactsAt(site, corner, geometryOf(site, corner), perch, full).find((c) => c.name === name);
  return found?.clearance ?? Number.POSITIVE_INFINITY;
}

/** What a quantity of the plain corner changes by from the low to the high ride height, so from low to high perch. */
function fromLowToHigh(i: Inputs, read: (state: ReturnType<typeof cornerState>) => number): number {
  const [low, high] = ['low', 'high'].map((end) => cornerState(plainSite(), plainCorner(), i.number(end)));
  if (low === undefined || high === undefined || low.standing.perch >= high.standing.perch) return Number.NaN;
  return read(high) - read(low);
}

const bindClearance = (state: ReturnType<typeof cornerState>) =>
  state.contacts.find((c) => c.name === 'coil_bind')?.clearance ?? Number.NaN;

function checksFailed(i: Inputs): number {
  const { bumpStop, spring } = plainCorner();
  const shorter = { ...spring, solid: { ...spring.solid, height: 60, least: 60, most: 60 } };
  const corner = plainCorner({ bumpStop: { ...bumpStop, length: i.number('cut') }, spring: shorter });
  const site = plainSite({ tyreOnArchHeight: 225, target: { ...plainTarget, allowedSlack: 8 } });
  return findingsOf(cornerState(site, corner)).length;
}

/** A sleeve whose uncut top stands proud of the body: how much has to go until it keeps its margin. */
function trimNeeded(i: Inputs): number {
  const { sleeve, damper, isolator, mount } = plainCorner();
  const length = i.number('sleeve');
  const bore = i.number('bore');
  const corner = plainCorner({
    sleeve: { ...sleeve, length, trim: 0, ledgeHeight: damper.bodyLength + i.number('proud') - length },
    isolator: isolator && { ...isolator, bore },
    mount: { ...mount, bore: Math.max(bore, mount.bore), washerDiameter: 40 },
  });
  const state = cornerState(plainSite(), corner);
  const short = state.contacts.filter((c) => c.name.startsWith('sleeve')).map((c) => c.margin - c.clearance);
  return Math.max(0, ...short);
}

/** Least clearance of the sleeve to anything with a groove this much lower, less the same with the sleeve trimmed. */
function grooveAgainstCut(i: Inputs): number {
  const { sleeve } = plainCorner();
  const least = (change: Partial<Corner['sleeve']>) => {
    const { contacts } = cornerState(plainSite(), plainCorner({ sleeve: { ...sleeve, ...change } }));
    return Math.min(...contacts.filter((c) => c.name.startsWith('sleeve')).map((c) => c.clearance));
  };
  const by = i.number('by');
  const whole = least({ trim: 0, grooveDrop: 0 });
  if (least({ trim: by, grooveDrop: 0 }) - whole < by - 1e-9) return Number.NaN;
  return least({ trim: 0, grooveDrop: by }) - least({ trim: by, grooveDrop: 0 });
}

function raised(i: Inputs) {
  const { mount } = plainCorner();
  const higher = plainCorner({ mount: { ...mount, raise: mount.raise + i.number('rise') } });
  return [cornerState(plainSite(), plainCorner()), cornerState(plainSite(), higher)] as const;
}

function looseness(i: Inputs): number {
  const helper = i.text('helper') === 'none' ? null : { ...aHelper, freeLength: i.number('helper') };
  const spring = springOf(i.number('L'), 60, i.number('rate'));
  return cornerState(plainSite(), plainCorner({ spring, helper }), i.number('height')).slack;
}

const aHelper = { name: 'helper', price: null, blockHeight: 14, rate: 4, bore: 60, coupler: 4, couplerBore: 60 };

export const PRACTICE = {
  solid_height: wireTimesCoils,
  travel_to_solid: (i) => i.number('L') - wireTimesCoils(i),
  clear_of_bind: clearOfBind,
  bump_travel_gained: (i) => fromLowToHigh(i, (state) => state.bumpTravel),
  bind_clearance_lost: (i) => -fromLowToHigh(i, bindClearance),
  checks_failed: checksFailed,
  trim_needed: trimNeeded,
  groove_against_cut: grooveAgainstCut,
  travel_by_rise: (i) => {
    const [before, after] = raised(i);
    const travel = ({ standing, geometry }: typeof before) => standing.length - geometry.stopLength;
    return travel(after) - travel(before);
  },
  wheel_travel_by_rise: (i) => {
    const [before, after] = raised(i);
    return after.bumpTravel - before.bumpTravel;
  },
  looseness,
  looseness_left: (i) => Math.max(0, looseness(i)),
} as const satisfies Record<string, (i: Inputs) => number>;
