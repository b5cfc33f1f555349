/**
 * What would work on an axle that has nothing that does: springs on a grid of lengths and rates around what is wished for,
 * each judged with every listed choice of the other parts, and where none of those works with a generic helper, with
 * another trim of the sleeve, with a mount of another height.
 */
import { standingAt } from '../model/corner/balance.ts';
import type { Finding } from '../model/corner/findings.ts';
import { geometryOf } from '../model/corner/geometry.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import type { Helper, Spring } from '../model/parts.ts';
import { type AxleOptions, FAMILIES } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import { rounded } from '../result/advice.ts';
import type { WouldWork, WouldWorkCell } from '../result/nothing.ts';
import { type ContinuousChange, isOfSleeve, LIMITS, MOUNT_HEIGHT, stopCanMeetSleeve, TRIM } from './changes.ts';
import { findFirstWorking } from './cure.ts';
import { boreOver, genericHelpers, genericSpring, type SolidEnd } from './generic.ts';
import { rateForFrequency } from './rateNeeded.ts';
import { type Alike, type Listed, listedOf, type Place, pickedDigits, type Trial, trialsOnSet } from './trials.ts';

/** Lengths and rates at most: what a phone's width holds, with three marks in a cell. */
const MOST = { lengths: 8, rates: 6 } as const;
/** Steps of the grid at least, mm and N/mm. */
const LEAST_STEP = { lengths: 5, rates: 1 } as const;
/** Combinations of the other parts that are tried with each spring; beyond, the option lists are thinned evenly. */
const MOST_A_CELL = 200;
/** How far beyond the rates that give the wished frequencies the grid goes. */
const BEYOND = 0.1;
/** No spring of a car is shorter, mm. */
const SHORTEST = 40;

export interface WishedFor {
  /** Its frequency window holds only what could be in balance, where that is asked for. */
  readonly site: Site;
  readonly options: AxleOptions;
  /** The nearest build's corner, around which the grid lies. */
  readonly nearest: Corner;
  /** Whether a corner that passes is in balance with something of the other axle; null: not asked for. */
  readonly isBalanced: ((corner: Corner) => boolean) | null;
}

/** What can be done beside another spring, the least first. */
export const WAYS = ['as_listed', 'trim', 'helper', 'mount'] as const;
export type Way = (typeof WAYS)[number];

/** What works with one spring. */
export interface Cell {
  /** At the solid height that coil bind is judged on, and at the least it could be. */
  readonly springs: Readonly<Record<SolidEnd, Spring>>;
  readonly ways: Readonly<Record<Way, Changed | null>>;
}

/** A corner that passes, and the listed one that was changed. */
export interface Changed {
  readonly corner: Corner;
  readonly before: Corner;
  readonly solid: SolidEnd;
}

export interface Mapped {
  readonly cells: readonly Cell[];
  readonly map: WouldWork;
}

export function* wouldWork(wished: WishedFor): Steps<Mapped> {
  const { site, options, nearest } = wished;
  const bore = boreOver(nearest, site.margins.passing);
  const helpers = genericHelpers(bore);
  const picked = pickedDigits(options, MOST_A_CELL);
  const listed = listedOf(site, options, helpers, picked, [TRIM, MOUNT_HEIGHT]);
  const { lengths, rates } = gridAround(site, nearest, helpers);
  const cells: Cell[] = [];
  for (const rate of rates) {
    yield { what: `springs that would work, ${site.axle}`, done: cells.length, of: lengths.length * rates.length };
    for (const length of lengths) cells.push(cellOf(wished, listed, [length, rate, bore]));
  }
  return {
    cells,
    map: {
      lengths_mm: lengths,
      rates_n_per_mm: rates,
      cells: cells.map(cellRecord),
      bore_mm: rounded(bore, 1),
      helpers: helpers.map((helper) => ({
        name: helper.name,
        free_length_mm: helper.freeLength,
        block_height_mm: helper.blockHeight,
        rate_n_per_mm: helper.rate,
        coupler_mm: helper.coupler,
      })),
      trim_to_mm: LIMITS.trim,
      mount_lower_mm: LIMITS.lowerMount,
      mount_higher_mm: LIMITS.higherMount,
      balanced: wished.isBalanced !== null,
      combinations: FAMILIES.reduce((n, family) => (family === 'spring' ? n : n * options[family].length), 1),
      looked_at: picked.reduce((product, digits) => product * digits.length, 1),
    },
  };
}

function cellOf({ isBalanced }: WishedFor, listed: Listed, size: readonly [number, number, number]): Cell {
  const springs = { judged: genericSpring(...size), least: genericSpring(...size, 'least') };
  const accepts = (corner: Corner) => isBalanced === null || isBalanced(corner);
  const ways: Record<Way, Changed | null> = { as_listed: null, trim: null, helper: null, mount: null };
  for (const solid of ['judged', 'least'] as const) {
    const own: Listed = { ...listed, options: { ...listed.options, spring: [springs[solid]] } };
    for (const way of WAYS) {
      // What works as listed needs nothing else.
      if (ways.as_listed?.solid === solid) break;
      const found = ways[way] ?? TRIED[way](own, accepts);
      ways[way] = found && { solid, ...found };
    }
  }
  return { springs, ways };
}

type Accepts = (corner: Corner) => boolean;
type FoundCorner = Pick<Changed, 'corner' | 'before'>;

const TRIED: Readonly<Record<Way, (listed: Listed, accepts: Accepts) => FoundCorner | null>> = {
  as_listed: (listed, accepts) => firstWorking(listed, listed.helpers, accepts),
  trim: (listed, accepts) => firstChanged(listed, TRIM, accepts),
  helper: (listed, accepts) => {
    const generic = listed.allHelpers.map((_, k) => k).slice(listed.options.helper.length);
    return firstWorking(listed, generic, accepts);
  },
  mount: (listed, accepts) => firstChanged(listed, MOUNT_HEIGHT, accepts),
};

/** The first listed combination with some helpers that passes; null: none does. */
function firstWorking(listed: Listed, helpers: readonly number[], accepts: Accepts): FoundCorner | null {
  for (const set of listed.sets) {
    for (const helper of helpers) {
      const [first] = trialsOnSet(listed, set.slice(0, 1), helper, 0);
      // What a damper set and its springs fail they fail on every sleeve and perch, as long as the stop meets the body.
      const isHopeless = first?.findings.some((finding) => !isOfSleeve(finding));
      if (isHopeless && set.every((place) => !stopCanMeetSleeve(listed.site, place.parts))) continue;
      const found = trialsOnSet(listed, set, helper, 0).find((trial) => trial.findings.length === 0);
      if (found && accepts(found.corner)) return { corner: found.corner, before: { ...found.corner, helper: null } };
    }
  }
  return null;
}

/** The first listed combination that passes with one change of any size within its limits; null: none does. */
function firstChanged(listed: Listed, change: ContinuousChange, accepts: Accepts): FoundCorner | null {
  const { site, sets, helpers } = listed;
  const { places } = listed.alike.get(change) as Alike;
  const isFirst = ({ number }: Place) => places.indexOf(places[number] as number) === number;
  for (const set of sets) {
    const starts = set.filter(isFirst);
    for (const helper of starts.length === 0 ? [] : helpers) {
      const [first] = trialsOnSet(listed, starts.slice(0, 1), helper, 0) as [Trial];
      const mayWork = clears(site, first, change) || starts.some(({ parts }) => stopCanMeetSleeve(site, parts));
      if (!mayWork) continue;
      for (const trial of trialsOnSet(listed, starts, helper, 0)) {
        const to = firstValue(site, trial, change);
        const corner = to === null ? null : change.set(trial.corner, to);
        if (corner !== null && accepts(corner)) return { corner, before: trial.corner };
      }
    }
  }
  return null;
}

/** Whether some size of the change clears what neither sleeve nor perch decides. */
function clears(site: Site, trial: Trial, change: ContinuousChange): boolean {
  const apart = (finding: Finding) => !isOfSleeve(finding);
  return trial.findings.every(isOfSleeve) || firstValue(site, trial, change, apart) !== null;
}

/** A value of the changed size with which everything passes, the larger ones first; null: none within its limits. */
export function firstValue(
  site: Site,
  trial: Pick<Trial, 'corner' | 'findings'>,
  change: ContinuousChange,
  counts?: (finding: Finding) => boolean,
) {
  const towards = (way: 1 | -1) => findFirstWorking(site, trial, change, way, Number.POSITIVE_INFINITY, counts);
  return towards(1) ?? towards(-1);
}

function cellRecord({ springs, ways }: Cell): WouldWorkCell {
  const { as_listed, trim, helper, mount } = ways;
  return {
    free_length_mm: springs.judged.freeLength,
    rate_n_per_mm: springs.judged.rate,
    solid_height_mm: rounded(springs.judged.solid.height, 1),
    least_solid_height_mm: rounded(springs.least.solid.height, 1),
    as_listed: as_listed && { solid: as_listed.solid },
    trim: trim && { solid: trim.solid, trim_mm: rounded(TRIM.get(trim.corner), 1) },
    helper: helper && { solid: helper.solid, name: (helper.corner.helper as Helper).name },
    mount: mount && { solid: mount.solid, raise_mm: rounded(MOUNT_HEIGHT.get(mount.corner), 1) },
  };
}

/** Rates around those that give the wished frequencies, and the lengths with which the perch is within its reach. */
function gridAround(site: Site, nearest: Corner, helpers: readonly Helper[]) {
  const { frequencyFrom, frequencyTo } = site.target;
  const least = rateForFrequency(site, nearest, frequencyFrom);
  const most = rateForFrequency(site, nearest, frequencyTo) ?? 2 * (least ?? nearest.spring.rate);
  const [low, high] = [(1 - BEYOND) * (least ?? most / 4), (1 + BEYOND) * most];
  const geometry = geometryOf(site, nearest);
  const standing = standingAt(site, nearest, geometry, site.target.targetHeight, site.sprungLoad);
  const room = standing.length - geometry.seatBelowShoulder;
  const force = Math.max(0, standing.springForce);
  const closed = Math.max(...helpers.map(({ blockHeight, coupler }) => blockHeight + coupler));
  const onTop = room - geometry.perchHighest - nearest.sleeve.trim - closed + force / high;
  const onLock = room - geometry.perchLowest + force / low;
  const toFull = standing.length - geometry.closedLength;
  const unbound = [low, high].map((rate) => leastLength(rate, toFull + force / rate, nearest.spring.bore, onLock));
  const shortest = Math.max(SHORTEST, onTop, Math.min(...unbound));
  return { lengths: stepsOver('lengths', Math.min(shortest, onLock), onLock), rates: stepsOver('rates', low, high) };
}

/** The shortest spring of a rate, in steps, that has so much travel before it is solid, but none beyond a longest. */
function leastLength(rate: number, travel: number, bore: number, longest: number): number {
  let length = Math.max(SHORTEST, travel);
  while (length < longest && length - genericSpring(length, rate, bore, 'least').solid.height < travel) length += 10;
  return length;
}

const STEPS = [1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 50, 100, 200, 500, 1000] as const;

/** Multiples of a round step between two values, few of them; at least one. */
export function stepsOver(what: 'lengths' | 'rates', from: number, to: number): number[] {
  const count = (step: number) => Math.floor(to / step) - Math.ceil(from / step) + 1;
  const steps = STEPS.filter((step) => step >= LEAST_STEP[what]);
  const step = steps.find((one) => count(one) <= MOST[what]) ?? 1000;
  const start = Math.max(1, Math.ceil(from / step));
  return Array.from({ length: Math.max(1, Math.min(MOST[what], count(step))) }, (_, k) => (start + k) * step);
}
