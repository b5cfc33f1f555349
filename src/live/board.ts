/** Numbers beside the drawing: the verdict, figures with what was swept, clearances as a table. */
import { CONTACT_LABELS } from '../domain/corner/contactLabels.ts';
import type { Contact } from '../domain/corner/contacts.ts';
import { giveFor } from '../domain/corner/contacts.ts';
import { clearanceClosed, thinnestContact } from '../domain/corner/state.ts';
import { fixed, PAGE } from '../report/numbers.ts';
import { amount } from './amount.ts';
import type { Judged } from './bench.ts';
import { element, setAttributes, setText } from './element.ts';
import type { Figure } from './told.ts';
import { type Place, placeAt } from './travel.ts';
import type { Verdict } from './verdict.ts';
import { BOARD, TOLD } from './words.ts';

export interface Board {
  readonly verdict: HTMLElement;
  readonly figures: HTMLElement;
  readonly clearances: HTMLElement;
  /** Estimates and the like. */
  readonly notes: HTMLElement;
  readonly show: (verdict: Verdict, figures: readonly Figure[], swept: readonly Figure[]) => void;
  readonly showNotes: (lines: readonly string[]) => void;
  readonly showContacts: (judged: Judged, share: number) => void;
}

export function board(): Board {
  const verdict = element('div', { class: 'verdict' });
  const figures = element('dl', { class: 'figures' });
  const notes = element('ul', { class: 'notes' });
  const body = element('tbody');
  const heads = BOARD.heads.map((text, k) => element('th', { scope: 'col', class: k === 0 ? '' : 'n' }, text));
  const caption = element('caption', { class: 'vh' }, BOARD.caption);
  const table = element(
    'table',
    { class: 'grid gaps' },
    caption,
    element('thead', {}, element('tr', {}, ...heads)),
    body,
  );
  const region = { class: 'scroll', role: 'region', 'aria-label': BOARD.caption, tabindex: 0 };
  return {
    verdict,
    figures,
    clearances: element('div', region, table),
    notes,
    show: (told, now, swept) => {
      showVerdict(verdict, told);
      showFigures(figures, now, swept);
    },
    showNotes: (lines) => {
      if ([...notes.children].map((item) => item.textContent).join('\n') === lines.join('\n')) return;
      notes.replaceChildren(...lines.map((line) => element('li', {}, line)));
    },
    showContacts: (judged, share) => showRows(body, judged, placeAt(judged.state, share)),
  };
}

function showVerdict(place: HTMLElement, { works, head, lines, aside }: Verdict): void {
  place.classList.toggle('bad', !works);
  const list = lines.length > 0 ? [element('ul', {}, ...lines.map((line) => element('li', {}, line)))] : [];
  const more = aside === '' ? [] : [element('p', { class: 'alert' }, aside)];
  place.replaceChildren(element('p', {}, element('strong', {}, head)), ...list, ...more);
}

/** Built once for the same figures, changed in place after that. */
function showFigures(list: HTMLElement, now: readonly Figure[], swept: readonly Figure[]): void {
  const ids = now.map(({ id, label }) => `${id} ${label}`).join();
  if (list.dataset.ids !== ids) {
    list.dataset.ids = ids;
    list.replaceChildren(...now.map(figureCell));
  }
  for (const [k, figure] of now.entries()) {
    const cell = list.children[k];
    const [, value, aside, was] = cell ? [...cell.children] : [];
    if (!value || !aside || !was) continue;
    const text = String(figure.value);
    if (value.getAttribute('data-value') !== text) {
      setAttributes(value, { 'data-value': text });
      value.replaceChildren(...amount(figure.value, figure.dimension));
    }
    setText(aside, figure.aside);
    const before = swept.find(({ id }) => id === figure.id);
    setText(was, before && textOf(before) !== textOf(figure) ? TOLD.swept(textOf(before)) : '');
  }
}

function figureCell({ id, label }: Figure): HTMLElement {
  const [value, aside, was] = [
    element('dd', { 'data-figure': id }),
    element('dd', { class: 'aside' }),
    element('dd', { class: 'aside was' }),
  ];
  return element('div', {}, element('dt', {}, label), value, aside, was);
}

function textOf({ value, dimension }: Figure): string {
  return amount(value, dimension)
    .map((node) => node.textContent ?? '')
    .join('');
}

function showRows(body: HTMLTableSectionElement, { state }: Judged, place: Place): void {
  const names = state.contacts.map(({ name }) => name).join();
  if (body.dataset.names !== names) {
    body.dataset.names = names;
    body.replaceChildren(...state.contacts.map(contactRow));
  }
  const thinnest = thinnestContact(state);
  const whole = state.corner.mount.bushGive;
  for (const [k, contact] of state.contacts.entries()) {
    const row = body.rows[k];
    const [, now, clearance, margin, spare] = row ? [...row.cells] : [];
    if (!row || !now || !clearance || !margin || !spare) continue;
    const give = whole > 0 ? (giveFor(state.corner, contact.name) / whole) * place.give : 0;
    write(now, place.length - contact.length - give);
    write(clearance, contact.clearance);
    write(margin, contact.margin);
    write(spare, contact.clearance - contact.margin);
    const fails = contact.clearance < contact.margin;
    const isGuess = contact.name === 'coil_bind' && state.corner.spring.solid.source === 'estimated';
    row.classList.toggle('alert', fails);
    const closed = state.site.bump.kind === 'closed' ? null : clearanceClosed(state, contact.clearance);
    const mark = row.cells[0]?.querySelector('small');
    if (mark) setText(mark, marks(fails, contact === thinnest, isGuess, closed));
  }
}

/** @param closed clearance with the stop fully closed, mm; null where full bump is that */
function marks(fails: boolean, isThinnest: boolean, isGuess: boolean, closed: number | null): string {
  const said = [
    fails ? BOARD.fails : isThinnest ? BOARD.thinnest : '',
    isGuess ? BOARD.estimate : '',
    closed === null ? '' : BOARD.closed(closed),
  ];
  return said.filter((text) => text !== '').join('; ');
}

function contactRow({ name }: Contact): HTMLTableRowElement {
  const cells = BOARD.columns.map((column) => element('td', { class: 'n', 'data-contact': `${name} ${column}` }));
  const head = element('th', { scope: 'row' }, `${CONTACT_LABELS[name]} `, element('small', {}));
  return element('tr', {}, head, ...cells);
}

function write(cell: Element, value: number): void {
  setAttributes(cell, { 'data-value': value });
  setText(cell, fixed(value, 1, PAGE));
}
