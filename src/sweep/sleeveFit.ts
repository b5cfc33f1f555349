/** A sleeve against the metal around it, and against the springs that must pass over it. */
import { contactLengths, giveFor, marginFor } from '../domain/corner/contacts.ts';
import { stackFits } from '../domain/corner/fit.ts';
import { sleeveTopOf } from '../domain/corner/geometry.ts';
import type { Corner } from '../domain/corner/site.ts';
import type { Desk, FitMask } from './desk.ts';
import type { Head } from './head.ts';

/** Whether the sleeve keeps its margin to isolator, flange, washers and plate at a full bump. */
export function sleeveClears({ layout }: Desk, head: Head, number: number, full: number): boolean {
  const { site } = layout;
  const sleeve = layout.sleeves[number] as Corner['sleeve'];
  const corner = { ...head.corner, sleeve };
  const geometry = { ...head.geometry, sleeveTop: sleeveTopOf(sleeve) };
  return contactLengths(site, corner, geometry, 0).every(([name, length]) => {
    return !name.startsWith('sleeve') || full - length - giveFor(corner, name) >= marginFor(site, name);
  });
}

/** Which stacks fit over a sleeve and a perch; the same for all cuts of a sleeve. */
export function fitMask(desk: Desk, sleeveNumber: number, perchNumber: number): FitMask {
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
