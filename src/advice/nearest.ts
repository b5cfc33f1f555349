/**
 * Which of many springs that never work come nearest to working, without trying all of their combinations: what a damper
 * set gives bounds from below how far a stack on it is from working, whatever sleeve and perch hold it.
 */
import { type Standing, standingAt } from '../model/corner/balance.ts';
import { COIL_BIND, giveFor, marginFor } from '../model/corner/contacts.ts';
import { fixedRates, judgedFrequencyOf, wheelRate } from '../model/corner/rates.ts';
import type { Spring } from '../model/parts.ts';
import { deflectionUnder, rateUnder, type SpringStack, springStack } from '../model/stack.ts';
import { type Listed, type Place, SCALES, trialsOnSet } from './trials.ts';

/** Bounds are made a hair too low, so that rounding never drops a spring: far above rounding, far below what shows. */
const HAIR = 1e-9;

/** Places of one damper set whose stop meets the same: for one stack they differ in sleeve and perch alone. */
interface Ground {
  readonly place: Place;
  readonly standing: Standing;
  readonly rates: ReturnType<typeof fixedRates>;
  /** The lowest and highest place of any perch, and the deepest hold of its seat, mm. */
  readonly lowest: number;
  readonly highest: number;
  readonly engagement: number;
}

interface Bounded {
  readonly spring: number;
  /** Per damper set and helper how far from working it is at least. */
  readonly bounds: Float64Array;
  readonly least: number;
}

/** The nearest of some springs, by the distance of their closest combination, nearest first; equal ones in the order given. */
export function nearestSprings(listed: Listed, springs: readonly number[], count: number): number[] {
  const grounds = listed.sets.map((set) => groundsOf(listed, set));
  const bounded = springs
    .map((spring) => boundedOf(listed, grounds, spring))
    .sort((a, b) => a.least - b.least || a.spring - b.spring);
  const found: { readonly spring: number; readonly distance: number }[] = [];
  const worst = () => found[count - 1]?.distance ?? Number.POSITIVE_INFINITY;
  for (const one of bounded) {
    if (one.least > worst()) break;
    const { spring } = one;
    found.push({ spring, distance: closestOf(listed, one, worst()) });
    found.sort((a, b) => a.distance - b.distance || a.spring - b.spring);
    if (found.length > count) found.pop();
  }
  return found.map(({ spring }) => spring);
}

/** The distance of the spring's closest combination; anything above `limit` where that is farther. */
function closestOf(listed: Listed, { spring, bounds }: Bounded, limit: number): number {
  let closest = Number.POSITIVE_INFINITY;
  const order = [...bounds.keys()].sort((a, b) => (bounds[a] as number) - (bounds[b] as number));
  for (const at of order) {
    if ((bounds[at] as number) > Math.min(closest, limit)) break;
    const set = listed.sets[Math.floor(at / listed.helpers.length)] as readonly Place[];
    const helper = listed.helpers[at % listed.helpers.length] as number;
    for (const { distance } of trialsOnSet(listed, set, helper, spring)) closest = Math.min(closest, distance);
  }
  return closest;
}

function boundedOf(listed: Listed, grounds: readonly (readonly Ground[])[], at: number): Bounded {
  const { helpers, allHelpers, options } = listed;
  const spring = options.spring[at] as Spring;
  const bounds = new Float64Array(grounds.length * helpers.length);
  for (const [k, helperAt] of helpers.entries()) {
    const helper = allHelpers[helperAt] ?? null;
    const stack = springStack(spring, helper);
    for (const [set, ofSet] of grounds.entries()) {
      const least = ofSet.map((ground) => leastDistance(listed, ground, { spring, helper, stack }));
      bounds[set * helpers.length + k] = Math.min(...least) - HAIR;
    }
  }
  return { spring: at, bounds, least: Math.min(...bounds) };
}

function groundsOf({ site }: Listed, set: readonly Place[]): Ground[] {
  const onBody = set.filter(({ geometry }) => geometry.stopMeets === 'body');
  const others = set.filter(({ geometry }) => geometry.stopMeets !== 'body');
  return [onBody, ...others.map((place) => [place])].flatMap((places) => {
    const [place] = places;
    if (place === undefined) return [];
    const { parts, geometry } = place;
    const standing = standingAt(site, parts, geometry, site.target.targetHeight, site.sprungLoad);
    return {
      place,
      standing,
      rates: fixedRates(site, parts, geometry, standing),
      lowest: Math.min(...places.map((one) => one.geometry.perchLowest)),
      highest: Math.max(...places.map((one) => one.geometry.perchHighest)),
      engagement: Math.max(...places.map((one) => one.parts.perch.engagement)),
    };
  });
}

type Stacked = Pick<Place['parts'], 'spring' | 'helper'> & { readonly stack: SpringStack };

/** What any place of a ground lacks at least with a stack: where the perch has to be, coil bind, slack and frequency. */
function leastDistance({ site }: Listed, ground: Ground, { spring, helper, stack }: Stacked): number {
  const { place, standing, lowest, highest, engagement } = ground;
  const { geometry } = place;
  const { target } = site;
  const perch =
    standing.length - geometry.seatBelowShoulder - stack.freeLength + deflectionUnder(stack, standing.springForce);
  const slack = geometry.droopLength - geometry.seatBelowShoulder - perch - stack.freeLength;
  let lengths =
    over(lowest - perch) + over(perch - highest) + over(slack - target.allowedSlack) + over(slack - engagement);
  // Under a bump load full bump is no longer the stop closed.
  if (site.bump.kind === 'closed') {
    const corner = { ...place.parts, spring, helper };
    const clearance = geometry.closedLength - geometry.seatBelowShoulder - perch - stack.solidLength;
    lengths += over(marginFor(site, corner, COIL_BIND) + giveFor(corner, COIL_BIND) - clearance);
  }
  return lengths / SCALES.mm + offWindow(ground, stack, site) / SCALES.Hz;
}

/** How far the frequency lies outside its window, Hz; 0 where the corner does not stand by itself. */
function offWindow({ standing, rates }: Ground, stack: SpringStack, site: Listed['site']): number {
  const { springForce } = standing;
  const open = (springForce > 0 ? rateUnder(stack, springForce) : 0) + rates.stop;
  if (!(wheelRate(site, standing, open + rates.settledGas, rates.ratioSlope) > 0)) return 0;
  const wheel = wheelRate(site, standing, open + rates.gas, rates.ratioSlope);
  const hertz = judgedFrequencyOf(site, wheel, site.sprungMass);
  return over(site.target.frequencyFrom - hertz) + over(hertz - site.target.frequencyTo);
}

const over = (lack: number) => Math.max(0, lack);
