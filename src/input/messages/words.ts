/** How values and lists are put into sentences. */

const LONGEST_SHOWN = 60;

/** A value as the user wrote it: short, on one line, with nothing a terminal would obey. */
export function shown(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'a mapping';
  const text = harmless(String(value));
  return text.length > LONGEST_SHOWN ? `\`${text.slice(0, LONGEST_SHOWN)}...\`` : `\`${text}\``;
}

/** Control and formatting characters become spaces: they could move a terminal's cursor or turn text around. */
export function harmless(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
}

/** `a`, `a or b`, `a, b or c`. */
export function either(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** A number without the noise of binary fractions. */
export function plainNumber(value: number): string {
  return String(Number(value.toPrecision(10)));
}

export function quantityInWords(value: number, unit: string): string {
  return unit === '' ? plainNumber(value) : `${plainNumber(value)} ${unit}`;
}
