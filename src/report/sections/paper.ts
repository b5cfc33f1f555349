/** The notes of all setups in one list, and what paper leaves to the screen. */
import type { Combination } from '../../domain/result.ts';
import type { Answer } from '../answers.ts';
import { messagesOf } from './answer.ts';

export interface PaperNote {
  /** The setups it belongs to, or empty where it belongs to all of them. */
  readonly setups: string;
  readonly text: string;
}

/** Each note on what is bought once, in the order in which the setups bring them. */
export function paperNotes(answers: readonly Answer[]): PaperNote[] {
  const owners = new Map<string, Set<string>>();
  for (const { setup, combination } of answers) {
    for (const note of notesOf(combination)) owners.set(note, (owners.get(note) ?? new Set()).add(setup.name));
  }
  return [...owners].map(([text, names]) => ({
    text,
    setups: names.size === answers.length ? '' : [...names].join(', '),
  }));
}

/** Without those on the range of a formula: the pages for the workshop name them. */
function notesOf(combination: Combination): string[] {
  return messagesOf(combination, 'note', ({ topic }) => topic !== 'range');
}

/** Names of what stands on screen only, of the parts that this page has, as a list in a sentence. */
export function screenOnly(parts: readonly (readonly [name: string, isThere: boolean])[]): string {
  return parts.flatMap(([name, isThere]) => (isThere ? [name] : [])).join(', ');
}
