/** A sleeve against the metal around it, and against the springs that must pass over it. */
import { contactLengths, giveFor, marginFor } from '../domain/corner/contacts.ts';
import { stackFits } from '../domain/corner/fit.ts';
import { sleeveTopOf } from '../domain/corner/geometry.ts';
import type { Corner } from '../domain/corner/site.ts';
import type { Desk, FitMask } from './desk.ts';
import type { Head } from './head.ts';

/** Whether the sleeve keeps its margin to isolator, flange, washers and plate at a full bump. */
export function sleeveClears(desk: Desk, head: Head, number: number, full: number): boolean {
  const { site } = desk.layout;
  return sleeveContacts(desk, head, number).every(([name, length, give]) => {
    return full - length - give >= marginFor(site, head.corner, name);
  });
}

/**
 * Which sleeves keep their margins at a full bump, as a flag each. Cuts of one sleeve differ by their top alone, and
 * what clears at some height clears lower down, so the last cut that fails is found by halving.
 */
export function clearingSleeves(desk: Desk, head: Head, sleeves: readonly number[], full: number): Uint8Array {
  const clearing = new Uint8Array(desk.layout.sleeves.length);
  for (const cuts of cutsOf(desk, sleeves)) {
    let low = 0;
    let high = cuts.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (sleeveClears(desk, head, cuts[middle] as number, full)) high = middle;
      else low = middle + 1;
    }
    for (let k = low; k < cuts.length; k++) clearing[cuts[k] as number] = 1;
  }
  return clearing;
}

/** Sleeves that differ by their top alone, the highest top first; worked out once for the same set of sleeves. */
function cutsOf(desk: Desk, sleeves: readonly number[]): readonly (readonly number[])[] {
  const known = desk.cuts.get(sleeves);
  if (known) return known;
  const groups = new Map<string, number[]>();
  for (const number of sleeves) {
    const { outerDiameter, bore } = desk.layout.sleeves[number] as Corner['sleeve'];
    const key = `${outerDiameter}|${bore}`;
    groups.set(key, [...(groups.get(key) ?? []), number]);
  }
  const top = (number: number) => sleeveTopOf(desk.layout.sleeves[number] as Corner['sleeve']);
  const cuts = [...groups.values()].map((group) => group.sort((one, other) => top(other) - top(one)));
  desk.cuts.set(sleeves, cuts);
  return cuts;
}

/** The least of the sleeve's clearances beyond their margins at a full bump, mm; Infinity where it meets nothing. */
export function sleeveSpare(desk: Desk, head: Head, number: number, full: number): number {
  const { site } = desk.layout;
  const spares = sleeveContacts(desk, head, number).map(([name, length, give]) => {
    return full - length - give - marginFor(site, head.corner, name);
  });
  return Math.min(Number.POSITIVE_INFINITY, ...spares);
}

function sleeveContacts({ layout }: Desk, head: Head, number: number) {
  const sleeve = layout.sleeves[number] as Corner['sleeve'];
  const corner = { ...head.corner, sleeve };
  const geometry = { ...head.geometry, sleeveTop: sleeveTopOf(sleeve) };
  return contactLengths(layout.site, corner, geometry, 0)
    .filter(([name]) => name.startsWith('sleeve'))
    .map(([name, length]) => [name, length, giveFor(corner, name)] as const);
}

/** Which stacks fit over a sleeve and a perch; the same for all cuts of a sleeve. */
export function fitMask(desk: Desk, sleeveNumber: number, perchNumber: number): FitMask {
  const place = sleeveNumber * desk.layout.perches.length + perchNumber;
  const known = desk.masks[place] ?? maskOf(desk, sleeveNumber, perchNumber);
  desk.masks[place] = known;
  return known;
}

function maskOf(desk: Desk, sleeveNumber: number, perchNumber: number): FitMask {
  const { layout, fits } = desk;
  const sleeve = layout.sleeves[sleeveNumber] as Corner['sleeve'];
  const perch = layout.perches[perchNumber] as Corner['perch'];
  const key = `${sleeve.outerDiameter}|${perch.spigotDiameter}`;
  const known = fits.get(key);
  if (known) return known;
  const { springs, helpers, count } = layout.stacks;
  const fitting = Uint8Array.from({ length: count }, (_, k) => {
    const spring = springs[k] as Corner['spring'];
    const tried = stackFits(layout.site, { sleeve, perch, spring, helper: helpers[k] ?? null });
    return tried.every((fit) => fit.spare >= fit.needed) ? 1 : 0;
  });
  const mask = { fitting, all: fitting.every((f) => f === 1), none: fitting.every((f) => f === 0) };
  fits.set(key, mask);
  return mask;
}
