/** Marks in a source text: code that says when it is run, so that a mutant is tried by the tests that run it only. */
import type { Mutant } from './mutants.ts';

/** Name of the global function that a mark calls with its number; where there is none a mark does nothing. */
export const MARKS = 'springsiftMark';

export interface MarkHolder {
  [MARKS]?: (mark: number) => void;
}

/** The text with a mark at each mutant, by the mutant's number; those that cannot be marked are left out. */
export function marked(text: string, mutants: readonly (readonly [number: number, mutant: Mutant])[]): string {
  const inserts = mutants.flatMap(([number, { extent }]) => {
    if (extent === null) return [];
    const { start, end } = extent;
    const opening = `(globalThis.${MARKS}?.(${number}), `;
    // At one place outer brackets open first and close last.
    return [
      { at: start, order: -end, text: opening },
      { at: end, order: -start, text: ')' },
    ];
  });
  inserts.sort((a, b) => a.at - b.at || (a.text === ')' ? 0 : 1) - (b.text === ')' ? 0 : 1) || a.order - b.order);
  let from = 0;
  let result = '';
  for (const insert of inserts) {
    result += text.slice(from, insert.at) + insert.text;
    from = insert.at;
  }
  return result + text.slice(from);
}
