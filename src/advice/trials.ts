/** Listed combinations tried with a spring: what each fails, and how close it comes. */
import { CHECK } from '../model/corner/checks.ts';
import { CONTACT, type ContactName, contactLengths } from '../model/corner/contacts.ts';
import { type Finding, findingsOf, findingsOnSeat } from '../model/corner/findings.ts';
import { type Geometry, geometryOf } from '../model/corner/geometry.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import type { CornerState } from '../model/corner/state.ts';
import { findingsAt, lightContacts, lightState } from '../model/corner/verdict.ts';
import type { Helper, Spring } from '../model/parts.ts';
import { AXLE_NAMES, type AxleOptions, FAMILIES, type Family, type Scenario } from '../model/scenario.ts';
import { springStack } from '../model/stack.ts';
import { CHANGES, type ContinuousChange } from './changes.ts';

/**
 * What one is for each unit of a shortfall, so that millimetres, newtons, megapascals and hertz can be added. This tool's
 * own choice, stated wherever a distance is shown: what a builder would find about equally hard to make up.
 */
export const SCALES = { mm: 10, N: 100, MPa: 50, Hz: 0.1, '': 0.1 };

/** What no amount would make up, or has no amount. */
const NO_AMOUNT = 1000;

/** How far a combination is from working: the sum of its shortfalls, each over the scale of its unit. */
export function distanceOf(findings: readonly Finding[]): number {
  const distances = findings.map(({ check, shortfall }) =>
    Number.isFinite(shortfall) ? shortfall / SCALES[CHECK[check].unit] : NO_AMOUNT,
  );
  return distances.reduce((sum, distance) => sum + distance, 0);
}

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
  const trials = listed.sets.flatMap((set) =>
    listed.helpers.flatMap((helper) => trialsOnSet(listed, set, helper, spring)),
  );
  return trials.sort((a, b) => a.distance - b.distance || a.index - b.index);
}

/** A corner whose stop meets the body, judged in full. */
interface Judged {
  readonly state: CornerState;
  readonly findings: readonly Finding[];
}

/** One stack on one damper set: judged in full once, and from there on its sleeves and perches as long as they allow it. */
export function trialsOnSet(listed: Listed, set: readonly Place[], helperAt: number, springAt: number): Trial[] {
  const { site, options, allHelpers } = listed;
  const stacked = { spring: options.spring[springAt] as Spring, helper: allHelpers[helperAt] ?? null };
  const stack = springStack(stacked.spring, stacked.helper);
  let onBody: Judged | null = null;
  return set.map((place) => {
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

/**
 * A listed combination of an axle without helper and spring, worked out once for all springs that never work: a damper
 * set (damper, mount, isolator, bump stop, rod end) with a sleeve and a perch, and the lengths they give.
 */
export interface Place {
  /** Number among the places tried. */
  readonly number: number;
  /** Position of each family's option in its list. */
  readonly digits: readonly number[];
  /** Its parts with the first listed helper and spring, which each trial exchanges for its own, as it does the stack. */
  readonly parts: Corner;
  readonly geometry: Geometry;
  /** Contacts of the sleeve: no spring changes where they are. */
  readonly contacts: readonly (readonly [ContactName, number])[];
}

/** What is tried on an axle. */
export interface Listed {
  readonly site: Site;
  readonly options: AxleOptions;
  /** Places of each damper set. */
  readonly sets: readonly (readonly Place[])[];
  /** Positions of the helpers tried. */
  readonly helpers: readonly number[];
  /** The axle's own helpers, then those that only the other axle lists: a trial names its helper by its place here. */
  readonly allHelpers: readonly (Helper | null)[];
  readonly alike: ReadonlyMap<ContinuousChange, Alike>;
}

/** Per place a number that is the same for all places that one change can turn into each other. */
export interface Alike {
  /** Of the damper set alone, and with sleeve and perch. */
  readonly sets: readonly number[];
  readonly places: readonly number[];
}

const PLACE_FAMILIES = FAMILIES.filter((family) => family !== 'helper' && family !== 'spring');
const SET_FAMILIES = PLACE_FAMILIES.filter((family) => family !== 'sleeve' && family !== 'perch');

/** @param picked per family but the spring the positions tried; `changes`: those that are looked for */
export function listedOf(
  site: Site,
  options: AxleOptions,
  otherHelpers: readonly Helper[],
  picked: readonly (readonly number[])[],
  changes: readonly ContinuousChange[] = CHANGES,
): Listed {
  const seats = productOf(picked.slice(SET_FAMILIES.length, PLACE_FAMILIES.length));
  const sets = productOf(picked.slice(0, SET_FAMILIES.length)).map((set, k) =>
    seats.map((seat, m) => placeOf(site, options, k * seats.length + m, [...set, ...seat])),
  );
  const places = sets.flat();
  return {
    site,
    options,
    sets,
    helpers: picked[PLACE_FAMILIES.length] as readonly number[],
    allHelpers: [...options.helper, ...otherHelpers],
    alike: new Map(changes.map((change) => [change, alikeBy(options, places, change)])),
  };
}

/** Every choice of one of each list, the last list fastest. */
function productOf(lists: readonly (readonly number[])[]): number[][] {
  return lists.reduce<number[][]>((rows, list) => rows.flatMap((row) => list.map((digit) => [...row, digit])), [[]]);
}

function placeOf(site: Site, options: AxleOptions, number: number, digits: readonly number[]): Place {
  const chosen = FAMILIES.map((family, k) => [family, options[family][digits[k] ?? 0]]);
  const parts = Object.fromEntries(chosen) as unknown as Corner;
  const geometry = geometryOf(site, parts);
  const contacts = contactLengths(site, parts, geometry, 0).filter(([name]) => CONTACT[name].part === 'sleeve');
  return { number, digits, parts, geometry, contacts };
}

/** Position of a combination in the product of options. */
function indexOf({ options }: Listed, { digits }: Place, helper: number, spring: number): number {
  const place = mixed(options, PLACE_FAMILIES, (_, k) => digits[k] as number);
  return (place * options.helper.length + helper) * options.spring.length + spring;
}

function alikeBy(options: AxleOptions, places: readonly Place[], change: ContinuousChange): Alike {
  const same = sameBut(options, places[0] as Place, change);
  const digit = ({ digits }: Place, family: Family, k: number) =>
    (family === change.family ? same[digits[k] as number] : digits[k]) as number;
  const numbersOver = (families: readonly Family[]) =>
    places.map((place) => mixed(options, families, (family, k) => digit(place, family, k)));
  return { sets: numbersOver(SET_FAMILIES), places: numbersOver(PLACE_FAMILIES) };
}

/** Per part of the changed family the first one that differs from it in the changed dimension at most. */
function sameBut(options: AxleOptions, { parts }: Place, change: ContinuousChange): number[] {
  const texts = options[change.family].map((part) =>
    JSON.stringify(change.set({ ...parts, [change.family]: part }, 0)[change.family]),
  );
  return texts.map((text) => texts.indexOf(text));
}

/** A mixed-radix number with one digit a family. */
function mixed(options: AxleOptions, families: readonly Family[], digit: (family: Family, k: number) => number) {
  return families.reduce((number, family, k) => number * options[family].length + digit(family, k), 0);
}

/**
 * Which options of each family (all but the springs) are tried: all of them, or evenly thinned lists with both
 * ends kept, the longest list thinned first, until at most `most` combinations are left.
 */
export function pickedDigits(options: AxleOptions, most: number): number[][] {
  const families = FAMILIES.slice(0, -1);
  const sizes = families.map((f) => options[f].length);
  while (sizes.reduce((n, size) => n * size, 1) > Math.max(1, most)) {
    const longest = sizes.indexOf(Math.max(...sizes));
    sizes[longest] = Math.max(1, (sizes[longest] as number) - Math.ceil((sizes[longest] as number) / 8));
  }
  return families.map((f, k) => spread(options[f].length, sizes[k] as number));
}

function spread(count: number, picked: number): number[] {
  if (picked === 1) return [0];
  return Array.from({ length: picked }, (_, k) => Math.round((k * (count - 1)) / (picked - 1)));
}

/** Springs that a thinned list keeps. */
const MOST_SPRINGS = 400;

/** The scenario with both axles' lists thinned, to about `most` combinations over all setups. */
export function thin(scenario: Scenario, most: number): Scenario {
  const axles = AXLE_NAMES.map((axle) => {
    const { options } = scenario.axles[axle];
    const { length } = options.spring;
    const springs = spread(length, Math.min(length, MOST_SPRINGS));
    const share = most / (2 * scenario.setups.length * springs.length);
    const picked = [...pickedDigits(options, Math.floor(share)), springs];
    const lists = picked.map((digits, k) => {
      const family = FAMILIES[k] as keyof AxleOptions;
      return [family, digits.map((digit) => options[family][digit])];
    });
    return [axle, { ...scenario.axles[axle], options: Object.fromEntries(lists) as AxleOptions }];
  });
  return { ...scenario, axles: Object.fromEntries(axles) as Scenario['axles'] };
}
