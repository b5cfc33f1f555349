/**
 * What the tolerance study does not move, for sentences that would else say "everything": read from the rows of the
 * measuring sheet, which hold every number of the scenario format and the inputs of the study that each one settles.
 */
import { NOT_MEASURED, ROWS } from './rows.ts';

/** `car: tyre rate, wheelbase; mount: spigot, washers`, in the order of the sheet. */
export function untoleranced(): string {
  const parts = new Map<string, string[]>();
  for (const path of pathsWithout()) {
    const { part, name } = namesOf(path);
    parts.set(part, [...(parts.get(part) ?? []), name]);
  }
  return [...parts].map(([part, names]) => `${part}: ${names.join(', ')}`).join('; ');
}

function pathsWithout(): string[] {
  const rows = Object.values(ROWS).flat();
  const unmoved = rows.filter(({ inputs, within }) => inputs === undefined && within === undefined);
  const given = NOT_MEASURED.filter(({ isGiven }) => isGiven).map(({ start }) => start.replace(/(?:\[\])?\.$/, ''));
  return [...unmoved.flatMap(({ paths }) => paths), ...given];
}

/** `rod_ends[].jam_nut` is the jam nut of the rod end; what names no part is the car's. */
function namesOf(path: string): { readonly part: string; readonly name: string } {
  const words = path.replaceAll('[]', '').replaceAll('_', ' ').split('.');
  const [first = '', ...rest] = words;
  return rest.length === 0 ? { part: 'car', name: first } : { part: single(first), name: rest.join(' ') };
}

function single(list: string): string {
  return list.replace(/(?<=sh|ch)es$/, '').replace(/(?<!s)s$/, '');
}
