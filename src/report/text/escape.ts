/**
 * What is done to foreign text before a reader sees it. Names come from files that other people wrote: they must not
 * move a terminal's cursor, turn the direction of a line around, or end a script element.
 */

/** Control characters, direction marks, invisible joins, line separators, lone halves of a surrogate pair. */
const UNSEEN = /[\p{Cc}\p{Cs}\p{Bidi_Control}\u2028\u2029\u200b\u2060\ufeff]/gu;
/** Plain white space in a page. */
const WHITE = new Set(['\n', '\t', '\r']);

/** For a terminal: every character that would not be seen as itself stands as `\u{...}`. */
export function visible(text: string): string {
  return text.replace(UNSEEN, escapeOf);
}

/** For a page, where line ends and tabs are harmless. Markup is the template's to escape. */
export function visibleInPage(text: string): string {
  return text.replace(UNSEEN, (character) => (WHITE.has(character) ? character : escapeOf(character)));
}

function escapeOf(character: string): string {
  return `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`;
}

/** Plain data in which every string has gone through `change`; keys stay as they are, and so does all that holds no change. */
export function mapStrings<T>(data: T, change: (text: string) => string): T {
  const map = (value: unknown): unknown => {
    if (typeof value === 'string') return change(value);
    if (value === null || typeof value !== 'object') return value;
    const items = Object.values(value);
    const mapped = items.map(map);
    if (mapped.every((item, k) => item === items[k])) return value;
    return Array.isArray(value) ? mapped : Object.fromEntries(Object.keys(value).map((key, k) => [key, mapped[k]]));
  };
  return map(data) as T;
}

/** JSON that may stand inside a script element: no `<`, and no line separator that old readers end a string at. */
export function jsonInScript(data: unknown): string {
  return JSON.stringify(data).replace(/[<\u2028\u2029]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** What a spreadsheet would run as a formula where a cell begins, quotes and blanks before it or not. */
const FORMULA = /(^|[;\t\r\n])(?=["\p{Zs}\t]*[=+\-@\uff1d\uff0b\uff0d\uff20])/gu;

/**
 * A text cell that a spreadsheet would run as a formula gets an apostrophe in front, and so does what would be a cell
 * of its own where the file is read with `;` or tabs between cells. Numbers must not come here.
 */
export function formulaSafe(text: string): string {
  const safe = text.replace(FORMULA, "$1'");
  return /^[\t\r\n]/.test(safe) ? `'${safe}` : safe;
}

/** An element id out of any text. */
export function anchorOf(text: string): string {
  return text.replace(/[^A-Za-z0-9_-]/g, '-');
}
