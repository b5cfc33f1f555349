/** Edits of a text by ranges of characters: whatever no edit names stays as it is, byte for byte. */

export interface TextEdit {
  readonly start: number;
  /** First character that stays; equal to `start` for what is put in. */
  readonly end: number;
  readonly text: string;
}

/** @returns null where two edits want different things of the same characters */
export function edited(text: string, edits: readonly TextEdit[]): string | null {
  const sorted = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  const distinct = sorted.filter((edit, k) => k === 0 || !same(edit, sorted[k - 1] as TextEdit));
  if (distinct.some((edit, k) => k > 0 && edit.start < (distinct[k - 1] as TextEdit).end)) return null;
  return distinct.reduceRight((done, { start, end, text: put }) => done.slice(0, start) + put + done.slice(end), text);
}

function same(one: TextEdit, other: TextEdit): boolean {
  return one.start === other.start && one.end === other.end && one.text === other.text;
}
