/**
 * The listed combinations of an axle without helper and spring, worked out once for all springs that never work: each
 * place is a head (damper, mount, isolator, bump stop, rod end) with a sleeve and a perch, and the lengths they give.
 */
import { type ContactName, contactLengths } from '../corner/contacts.ts';
import { type Geometry, geometryOf } from '../corner/geometry.ts';
import type { Corner, Site } from '../corner/site.ts';
import type { Helper } from '../parts.ts';
import { type AxleOptions, FAMILIES, type Family } from '../scenario.ts';
import { CHANGES, type ContinuousChange } from './changes.ts';

export interface Place {
  /** Number among the places looked at. */
  readonly number: number;
  /** Position of each family's option in its list. */
  readonly digits: readonly number[];
  /** Its parts with the first listed helper and spring, which each trial exchanges for its own, as it does the stack. */
  readonly parts: Corner;
  readonly geometry: Geometry;
  /** Contacts of the sleeve: no spring changes where they are. */
  readonly contacts: readonly (readonly [ContactName, number])[];
}

/** What is looked at on an axle. */
export interface Listed {
  readonly site: Site;
  readonly options: AxleOptions;
  /** Places of each head. */
  readonly heads: readonly (readonly Place[])[];
  /** Positions of the helpers looked at. */
  readonly helpers: readonly number[];
  /** The axle's own helpers, then those that only the other axle lists: a trial names its helper by its place here. */
  readonly allHelpers: readonly (Helper | null)[];
  readonly alike: ReadonlyMap<ContinuousChange, Alike>;
}

/** Per place a number that is the same for all places that one change can turn into each other. */
export interface Alike {
  /** Of the head alone, and with sleeve and perch. */
  readonly heads: readonly number[];
  readonly places: readonly number[];
}

const SEATS: readonly Family[] = ['sleeve', 'perch'];
const PLACE_FAMILIES = FAMILIES.filter((family) => family !== 'helper' && family !== 'spring');
const HEAD_FAMILIES = PLACE_FAMILIES.filter((family) => !SEATS.includes(family));

/** @param picked per family but the spring the positions looked at */
export function listedOf(
  site: Site,
  options: AxleOptions,
  otherHelpers: readonly Helper[],
  picked: readonly (readonly number[])[],
): Listed {
  const seats = productOf(picked.slice(HEAD_FAMILIES.length, PLACE_FAMILIES.length));
  const heads = productOf(picked.slice(0, HEAD_FAMILIES.length)).map((head, k) =>
    seats.map((seat, m) => placeOf(site, options, k * seats.length + m, [...head, ...seat])),
  );
  const places = heads.flat();
  return {
    site,
    options,
    heads,
    helpers: picked[PLACE_FAMILIES.length] as readonly number[],
    allHelpers: [...options.helper, ...otherHelpers],
    alike: new Map(CHANGES.map((change) => [change, alikeBy(options, places, change)])),
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
  const contacts = contactLengths(site, parts, geometry, 0).filter(([name]) => name.startsWith('sleeve'));
  return { number, digits, parts, geometry, contacts };
}

/** Position of a combination in the product of options. */
export function indexOf({ options }: Listed, { digits }: Place, helper: number, spring: number): number {
  const place = mixed(options, PLACE_FAMILIES, (_, k) => digits[k] as number);
  return (place * options.helper.length + helper) * options.spring.length + spring;
}

function alikeBy(options: AxleOptions, places: readonly Place[], change: ContinuousChange): Alike {
  const same = sameBut(options, places[0] as Place, change);
  const digit = ({ digits }: Place, family: Family, k: number) =>
    (family === change.family ? same[digits[k] as number] : digits[k]) as number;
  const numbersOver = (families: readonly Family[]) =>
    places.map((place) => mixed(options, families, (family, k) => digit(place, family, k)));
  return { heads: numbersOver(HEAD_FAMILIES), places: numbersOver(PLACE_FAMILIES) };
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
