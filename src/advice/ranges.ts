/**
 * How much freedom a purchase leaves: for each swept dimension of a corner, which of its listed values still pass
 * every check with the other choices as they are; for each family with several parts, which of the others would do.
 */
import type { Corner, Site } from '../model/corner/site.ts';
import { works } from '../model/corner/verdict.ts';
import { type AxleOptions, FAMILIES, type Family } from '../model/scenario.ts';
import { rounded, type WorkingRange } from '../result/advice.ts';

/** Dimensions a builder picks among, by family; every other difference counts as another part. */
const DIMENSIONS: Readonly<Partial<Record<Family, readonly string[]>>> = {
  mount: ['spacer'],
  bumpStop: ['length', 'packer'],
  sleeve: ['trim', 'grooveDrop'],
  isolator: ['thickness'],
  perch: ['height'],
};

/** Follows from another dimension, so that it differs with it. */
const FOLLOWS: Readonly<Partial<Record<string, readonly string[]>>> = { spacer: ['raise'], packer: ['packerDiameter'] };

type Fields = Readonly<Record<string, unknown>>;

/** Springs are left out: another one is another purchase. So is another helper, but the reader may ask. */
export function workingRanges(site: Site, corner: Corner, options: AxleOptions): WorkingRange[] {
  return FAMILIES.filter((family) => family !== 'spring').flatMap((family) => {
    const chosen = corner[family] as Fields | null;
    const listed = options[family] as readonly (Fields | null)[];
    const passes = (part: Fields | null) => works(site, { ...corner, [family]: part });
    const dimensions = chosen === null ? [] : (DIMENSIONS[family] ?? []);
    return [
      ...dimensions.flatMap((key) => rangeOf(family, key, chosen as Fields, listed, passes)),
      ...partsOf(family, chosen, listed, passes),
    ];
  });
}

function rangeOf(
  family: Family,
  key: string,
  chosen: Fields,
  listed: readonly (Fields | null)[],
  passes: (part: Fields) => boolean,
): WorkingRange[] {
  const alike = listed.filter((part): part is Fields => part !== null && differsOnlyIn(part, chosen, key));
  if (alike.length < 2) return [];
  const readingOf = (part: Fields) => rounded(part[key] as number, 2);
  const working = rising(alike.filter(passes).map(readingOf));
  const [from = Number.NaN, to = Number.NaN] = [working[0], working.at(-1)];
  const inside = rising(alike.map(readingOf)).filter((value) => value > from && value < to);
  return [
    {
      kind: 'dimension',
      family,
      dimension: key,
      chosen_mm: readingOf(chosen),
      works_mm: working,
      gaps_mm: inside.filter((value) => !working.includes(value)),
      options: alike.length,
    },
  ];
}

/** What is free in every one of several setups that share the families named: the values that work in all of them. */
export function sharedRanges(each: readonly (readonly WorkingRange[])[], shared: readonly Family[]): WorkingRange[] {
  const [first = [], ...others] = each.map((ranges) => ranges.filter(({ family }) => shared.includes(family)));
  // The same parts chosen from the same lists give the same ranges in the same order; only what works differs.
  return first.map((range, k) => others.reduce((joint, ranges) => inBoth(joint, ranges[k] as WorkingRange), range));
}

function inBoth(one: WorkingRange, other: WorkingRange): WorkingRange {
  if (one.kind === 'part') {
    const { works: also } = other as typeof one;
    return { ...one, works: one.works.filter((name) => also.includes(name)) };
  }
  const { works_mm, gaps_mm } = other as typeof one;
  const both = one.works_mm.filter((value) => works_mm.includes(value));
  const [from = Number.NaN, to = Number.NaN] = [both[0], both.at(-1)];
  const between = rising([...one.works_mm, ...one.gaps_mm, ...works_mm, ...gaps_mm]);
  return {
    ...one,
    works_mm: both,
    gaps_mm: between.filter((value) => value > from && value < to && !both.includes(value)),
  };
}

function rising(values: readonly number[]): number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}

/** Parts of other names: one that passes with any of its own dimensions counts. */
function partsOf(
  family: Family,
  chosen: Fields | null,
  listed: readonly (Fields | null)[],
  passes: (part: Fields | null) => boolean,
): WorkingRange[] {
  const names = [...new Set(listed.map(nameOf))];
  if (names.length < 2) return [];
  const working = names.filter((name) => listed.some((part) => nameOf(part) === name && passes(part)));
  return [{ kind: 'part', family, chosen: nameOf(chosen), works: working, options: names.length }];
}

function nameOf(part: Fields | null): string {
  return part === null ? 'none' : String(part.name);
}

function differsOnlyIn(part: Fields, chosen: Fields, key: string): boolean {
  const free = new Set([key, ...(FOLLOWS[key] ?? [])]);
  return Object.keys(chosen).every((field) => free.has(field) || part[field] === chosen[field]);
}
