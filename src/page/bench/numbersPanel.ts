/** Numbers beside the drawing: the verdict, figures with what was swept, clearances as a table. */
import { COIL_BIND, CONTACT, type Contact, giveFor } from '../../model/corner/contacts.ts';
import { clearanceClosed, thinnestContact } from '../../model/corner/state.ts';
import { type Dimension, imperialUnit, innerUnit } from '../../model/units.ts';
import { fixed, inImperial, inInner, PAGE, unitSymbol } from '../../report/text/numbers.ts';
import type { Judged } from './bench.ts';
import { element, setAttributes, setItems, setText } from './element.ts';
import type { BenchQuantity, Verdict } from './findings.ts';
import { type Place, placeAt } from './travel.ts';
import { QUANTITY, TABLE } from './words.ts';

export interface NumbersPanel {
  readonly verdict: HTMLElement;
  readonly figures: HTMLElement;
  readonly clearances: HTMLElement;
  /** Estimates and the like. */
  readonly notes: HTMLElement;
  readonly show: (verdict: Verdict, figures: readonly BenchQuantity[], swept: readonly BenchQuantity[]) => void;
  readonly showNotes: (lines: readonly string[]) => void;
  readonly showContacts: (judged: Judged, share: number) => void;
}

export function createNumbersPanel(): NumbersPanel {
  const verdict = element('div', { class: 'verdict' });
  const figures = element('dl', { class: 'figures' });
  const notes = element('ul', { class: 'notes' });
  const body = element('tbody');
  const headers = TABLE.headers.map((text, k) => element('th', { scope: 'col', class: k === 0 ? '' : 'n' }, text));
  const caption = element('caption', { class: 'vh' }, TABLE.caption);
  const table = element(
    'table',
    { class: 'grid gaps' },
    caption,
    element('thead', {}, element('tr', {}, ...headers)),
    body,
  );
  const region = { class: 'scroll', role: 'region', 'aria-label': TABLE.caption, tabindex: 0 };
  return {
    verdict,
    figures,
    clearances: element('div', region, table),
    notes,
    show: (summary, now, swept) => {
      showVerdict(verdict, summary);
      showQuantities(figures, now, swept);
    },
    showNotes: (lines) => setItems(notes, lines),
    showContacts: (judged, share) => showRows(body, judged, placeAt(judged.state, share)),
  };
}

function showVerdict(place: HTMLElement, { works, summary, lines, aside }: Verdict): void {
  place.classList.toggle('bad', !works);
  const list = lines.length > 0 ? [element('ul', {}, ...lines.map((line) => element('li', {}, line)))] : [];
  const more = aside === '' ? [] : [element('p', { class: 'alert' }, aside)];
  place.replaceChildren(element('p', {}, element('strong', {}, summary)), ...list, ...more);
}

/** Built once for the same figures, changed in place after that. */
function showQuantities(list: HTMLElement, now: readonly BenchQuantity[], swept: readonly BenchQuantity[]): void {
  const ids = now.map(({ id, label }) => `${id} ${label}`).join();
  if (list.dataset.ids !== ids) {
    list.dataset.ids = ids;
    list.replaceChildren(...now.map(quantityCell));
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
    setText(was, before && textOf(before) !== textOf(figure) ? QUANTITY.swept(textOf(before)) : '');
  }
}

function quantityCell({ id, label }: BenchQuantity): HTMLElement {
  const [value, aside, was] = [
    element('dd', { 'data-figure': id }),
    element('dd', { class: 'aside' }),
    element('dd', { class: 'aside was' }),
  ];
  return element('div', {}, element('dt', {}, label), value, aside, was);
}

function textOf({ value, dimension }: BenchQuantity): string {
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
    const isGuess = contact.name === COIL_BIND && state.corner.spring.solid.source === 'estimated';
    row.classList.toggle('alert', fails);
    const closed = state.site.bump.kind === 'closed' ? null : clearanceClosed(state, contact.clearance);
    const mark = row.cells[0]?.querySelector('small');
    if (mark) setText(mark, marks(fails, contact === thinnest, isGuess, closed));
  }
}

/** @param closed clearance with the stop fully closed, mm; null where full bump is that */
function marks(fails: boolean, isThinnest: boolean, isGuess: boolean, closed: number | null): string {
  const remarks = [
    fails ? TABLE.fails : isThinnest ? TABLE.thinnest : '',
    isGuess ? TABLE.estimate : '',
    closed === null ? '' : TABLE.closed(closed),
  ];
  return remarks.filter((text) => text !== '').join('; ');
}

function contactRow({ name }: Contact): HTMLTableRowElement {
  const cells = TABLE.columns.map((column) => element('td', { class: 'n', 'data-contact': `${name} ${column}` }));
  const header = element('th', { scope: 'row' }, `${CONTACT[name].label} `, element('small', {}));
  return element('tr', {}, header, ...cells);
}

function write(cell: Element, value: number): void {
  setAttributes(cell, { 'data-value': value });
  setText(cell, fixed(value, 1, PAGE));
}

// A number in both worlds, with the marks by which the page puts one of them aside.

function amount(value: number, dimension: Dimension): Node[] {
  const unit = unitSymbol(innerUnit(dimension), PAGE);
  if (!Number.isFinite(value)) return [document.createTextNode(PAGE.none)];
  const metric = `${inInner(value, dimension, PAGE)}\u00a0${unit}`.trim();
  const imperial = imperialUnit(dimension);
  if (imperial === null) return [document.createTextNode(metric)];
  const both = (text: string) => element('span', { class: 'both' }, text);
  const other = `${inImperial(value, dimension, PAGE)}\u00a0${unitSymbol(imperial, PAGE)}`;
  return [element('span', { class: 'm' }, metric, ' '), element('small', { class: 'i' }, both('('), other, both(')'))];
}
