/** The switch between units: the page is printed in both worlds, and one of them can be put aside. */
import type { Units } from './state.ts';

let isMarked = false;

export function showUnits(units: Units): void {
  if (units !== 'both' && !isMarked) markWorlds();
  document.documentElement.dataset.units = units;
}

/** Done once, when a reader first asks: it walks through the whole page, but for the bench, which marks its own. */
function markWorlds(): void {
  isMarked = true;
  for (const header of document.querySelectorAll('th small:not(#bench *)')) markHeader(header);
  for (const small of document.querySelectorAll<HTMLElement>('main small.i:not(#bench *)')) markPair(small);
  for (const text of textsOf(document.querySelector('main'))) markSentence(text);
}

/** `mm, in` in a column's header. */
function markHeader(header: Element): void {
  const units = headerUnits(header.textContent ?? '');
  if (units && header.childElementCount === 0) {
    header.replaceChildren(span('m', units[0]), span('both', ', '), span('i', units[1]));
  }
}

/** The figure in front of its small imperial partner, whose brackets only stand where both are shown. */
function markPair(small: HTMLElement): void {
  const before = small.previousSibling;
  if (before instanceof Text) {
    const figure = before.splitText(numberAtEnd(before.data));
    figure.replaceWith(span('m', figure.data));
  }
  const bare = /^\((.*)\)$/s.exec(small.textContent ?? '')?.[1];
  if (bare) small.replaceChildren(span('both', '('), bare, span('both', ')'));
}

/** Sentences of plain text. */
function markSentence(text: Text): void {
  const parts = pieces(text.data);
  if (parts.length === 1) return;
  text.replaceWith(
    ...parts.map((piece) => (piece.world ? span(piece.world === 'metric' ? 'm' : 'i', piece.text) : piece.text)),
  );
}

function textsOf(root: Element | null): Text[] {
  const texts: Text[] = [];
  if (!root) return texts;
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const text = walker.currentNode;
    if (text instanceof Text && !text.parentElement?.closest('svg, .m, .i, #bench')) texts.push(text);
  }
  return texts;
}

function span(name: string, text: string): HTMLSpanElement {
  const made = document.createElement('span');
  made.className = name;
  made.textContent = text;
  return made;
}

/** Where a text carries a figure in both worlds: `3.0 mm (0.12 in)`. */

const ONE = '[\\u2212+-]?\\d[\\d.\\u202f]*';
const NUMBER = `(?:${ONE} to )?${ONE}`;
const PAIR = new RegExp(`(${NUMBER}\\s[^\\s()]+ )(\\(${NUMBER}\\s(?:in|lb|psi|mph|1/in)[^\\s()]*\\))`, 'g');
/** A value that does not exist is a dash. */
const AT_END = new RegExp(`(?:(?:${ONE}|\\u2013) to )?(?:${ONE}|\\u2013)(?:\\s[^\\s()]+)?\\s*$`);

export interface Piece {
  readonly text: string;
  /** Which world it belongs to; null for what stands around. */
  readonly world: 'metric' | 'imperial' | null;
}

/** The text in pieces, in order; one piece where it holds no figure in both worlds. */
export function pieces(text: string): Piece[] {
  const found: Piece[] = [];
  let from = 0;
  for (const { index, 0: whole, 1: metric = '', 2: imperial = '' } of text.matchAll(PAIR)) {
    found.push({ text: text.slice(from, index), world: null });
    found.push({ text: metric, world: 'metric' }, { text: imperial, world: 'imperial' });
    from = index + whole.length;
  }
  found.push({ text: text.slice(from), world: null });
  return found.filter((piece) => piece.text !== '');
}

/** Where the figure begins that ends a text, with its unit or range; the text's length where none does. */
export function numberAtEnd(text: string): number {
  return AT_END.exec(text)?.index ?? text.length;
}

/** `mm, in`: the two units of a column's header, or null. */
export function headerUnits(text: string): readonly [metric: string, imperial: string] | null {
  const [metric, imperial, ...more] = text.split(', ');
  return metric && imperial && more.length === 0 ? [metric, imperial] : null;
}
