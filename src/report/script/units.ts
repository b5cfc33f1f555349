/** The switch between units: the page is printed in both worlds, and one of them can be put aside. */
import { figureAtEnd, headUnits, pieces } from './figures.ts';
import type { Units } from './state.ts';

let isMarked = false;

export function showUnits(units: Units): void {
  if (units !== 'both' && !isMarked) markWorlds();
  document.documentElement.dataset.units = units;
}

/** Done once, and only when somebody asks: it walks through the whole page. */
function markWorlds(): void {
  isMarked = true;
  for (const head of document.querySelectorAll('th small')) markHead(head);
  for (const small of document.querySelectorAll<HTMLElement>('main small.i')) markPair(small);
  for (const text of textsOf(document.querySelector('main'))) markSentence(text);
}

/** `mm, in` in a column's head. */
function markHead(head: Element): void {
  const units = headUnits(head.textContent ?? '');
  if (units && head.childElementCount === 0) {
    head.replaceChildren(span('m', units[0]), span('both', ', '), span('i', units[1]));
  }
}

/** The figure in front of its small imperial partner, whose brackets only stand where both are shown. */
function markPair(small: HTMLElement): void {
  const before = small.previousSibling;
  if (before instanceof Text) {
    const figure = before.splitText(figureAtEnd(before.data));
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
    if (text instanceof Text && !text.parentElement?.closest('svg, .m, .i')) texts.push(text);
  }
  return texts;
}

function span(name: string, text: string): HTMLSpanElement {
  const made = document.createElement('span');
  made.className = name;
  made.textContent = text;
  return made;
}
