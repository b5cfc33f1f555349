/**
 * Widths of text without a browser, for a wide sans-serif face: a label that fits by this table fits in any face a
 * reader is likely to have. In shares of the type size, rounded up from the advance widths of DejaVu Sans.
 */
const NARROW = new Set([..." .,:;'|!()[]/ijlI-"]);
const WIDE = new Set([...'mwMW@%']);

export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const character of text) width += shareOf(character);
  return width * size;
}

function shareOf(character: string): number {
  if (NARROW.has(character)) return 0.4;
  if (WIDE.has(character)) return 0.99;
  if (/[A-Z]/.test(character)) return 0.76;
  return (character.codePointAt(0) ?? 0) < 0x2000 ? 0.64 : 1;
}

/** The text, or as much of its start as fits with an ellipsis. */
export function fitText(text: string, size: number, room: number): string {
  if (textWidth(text, size) <= room) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, size) > room) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** Keeps labels in one row or column apart. */

export interface Wanted {
  /** Middle where the label would like to be, and its length. */
  readonly at: number;
  readonly length: number;
}

/**
 * Middles of the labels in the same order, none nearer than `gap` to the next, moved as little as a pass down and a
 * pass up can: labels that push each other share the way. They start at `from` or later; what doesn't fit before `to`
 * goes beyond it rather than overlap. `wanted` rises.
 */
export function spread(wanted: readonly Wanted[], gap: number, from: number, to: number): number[] {
  const middles: number[] = [];
  let blocks: Block[] = [];
  for (const [index, label] of wanted.entries()) {
    blocks.push({ first: index, length: label.length, sum: label.at, count: 1, offsets: [label.length / 2] });
    blocks = mergeBlocks(blocks, wanted, gap, from, to);
  }
  for (const block of blocks) {
    const start = startOf(block, from, to);
    for (const offset of block.offsets) middles.push(start + offset);
  }
  return middles;
}

/** Neighbours without room between them, moved as one. */
interface Block {
  readonly first: number;
  readonly length: number;
  /** Sum of where its labels would have the block's middle. */
  readonly sum: number;
  readonly count: number;
  /** Middles of its labels from its start. */
  readonly offsets: readonly number[];
}

function startOf({ sum, count, length }: Block, from: number, to: number): number {
  return Math.max(from, Math.min(sum / count - length / 2, to - length));
}

function mergeBlocks(
  blocks: readonly Block[],
  wanted: readonly Wanted[],
  gap: number,
  from: number,
  to: number,
): Block[] {
  const done = [...blocks];
  for (;;) {
    const last = done.at(-1);
    const before = done.at(-2);
    if (!last || !before) return done;
    if (startOf(before, from, to) + before.length + gap <= startOf(last, from, to)) return done;
    done.splice(-2, 2, joinBlocks(before, last, wanted, gap));
  }
}

function joinBlocks(a: Block, b: Block, wanted: readonly Wanted[], gap: number): Block {
  const offsets = [...a.offsets, ...b.offsets.map((offset) => a.length + gap + offset)];
  const length = a.length + gap + b.length;
  const sum = offsets.reduce((total, offset, k) => total + (wanted[a.first + k]?.at ?? 0) - offset + length / 2, 0);
  return { first: a.first, length, sum, count: a.count + b.count, offsets };
}

// Text for a terminal, wrapped.

/** As wide as lines are. */
export const COLUMNS = 100;

/** Words after a lead, wrapped to the columns, later lines under the first word. */
export function hanging(lead: string, text: string): string[] {
  const rows: string[] = [];
  let row = lead;
  for (const word of text.split(' ')) {
    if (row.length > lead.length && row.length + word.length > COLUMNS) {
      rows.push(row.trimEnd());
      row = ' '.repeat(lead.length);
    }
    row += `${word} `;
  }
  return [...rows, row.trimEnd()];
}
