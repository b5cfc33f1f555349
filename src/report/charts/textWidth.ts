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
export function fitted(text: string, size: number, room: number): string {
  if (textWidth(text, size) <= room) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, size) > room) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}
