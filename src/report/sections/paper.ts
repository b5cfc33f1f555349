/** What only the printed page says: the notes of all setups in one list, and what paper leaves to the screen. */
import type { Combination, SetupResult } from '../../domain/result.ts';

export interface PaperNote {
  /** The setups it belongs to, or empty where it belongs to all of them. */
  readonly setups: string;
  readonly text: string;
}

/** Each note on a best combination once, in the order in which the setups bring them. */
export function paperNotes(setups: readonly SetupResult[]): PaperNote[] {
  const owners = new Map<string, Set<string>>();
  const found = setups.flatMap(({ name, shortlist: [best] }) => (best ? [{ name, best }] : []));
  for (const { name, best } of found) {
    for (const note of notesOf(best)) owners.set(note, (owners.get(note) ?? new Set()).add(name));
  }
  return [...owners].map(([text, names]) => ({
    text,
    setups: names.size === found.length ? '' : [...names].join(', '),
  }));
}

/** Without those on the range of a formula: the pages for the workshop name them. */
function notesOf({ axles, flags }: Combination): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags];
  return all.filter(({ kind, topic }) => kind === 'note' && topic !== 'range').map(({ message }) => message);
}

/** Names of what stands on screen only, of the parts that this page has, as a list in a sentence. */
export function screenOnly(parts: readonly (readonly [name: string, isThere: boolean])[]): string {
  return parts.flatMap(([name, isThere]) => (isThere ? [name] : [])).join(', ');
}
