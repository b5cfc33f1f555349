/** What the page can do where scripts run. Without them all of it is there, in both units, in the order it was made. */
import { type Sortable, sortable } from './sorting.ts';
import {
  type Order,
  oneOf,
  othersIn,
  readState,
  type State,
  TIGHTNESS,
  type Tightness,
  UNITS,
  writeState,
} from './state.ts';
import { showUnits } from './units.ts';

let state = readState(location.hash);

const tables: readonly Sortable[] = [...document.querySelectorAll<HTMLTableElement>('table[data-sort]')].map(
  (table, number) => sortable(table, (order) => change({ orders: withOrder(number, order) })),
);
const find = document.querySelector<HTMLInputElement>('#find');
const choices = [...document.querySelectorAll<HTMLInputElement>('.controls input[type=radio]')];

find?.addEventListener('input', () => change({ find: find.value }));
for (const choice of choices) {
  choice.addEventListener('change', () =>
    change(
      choice.name === 'units' ? { units: oneOf(UNITS, choice.value) } : { tightness: oneOf(TIGHTNESS, choice.value) },
    ),
  );
}
// A link inside the page leads to its row and leaves everything else as it was set.
addEventListener('hashchange', () => {
  const read = readState(location.hash);
  state = location.hash.includes('=') ? read : { ...state, anchor: read.anchor };
  apply();
  remember();
});
for (const controls of document.querySelectorAll<HTMLElement>('.controls')) controls.hidden = false;
document.documentElement.classList.add('scripted');
apply();
// Until the page is whole the browser itself looks for what the address names.
addEventListener('load', () => {
  if (state.anchor !== '' && location.hash.includes('=')) goTo(state.anchor);
});

function change(changed: Partial<State>): void {
  state = { ...state, ...changed };
  apply();
  remember();
}

function apply(): void {
  showUnits(state.units);
  showOnly(state.find, state.tightness);
  for (const [number, table] of tables.entries()) table.sort(state.orders[number]);
  if (find && find.value !== state.find) find.value = state.find;
  for (const choice of choices)
    choice.checked = choice.value === (choice.name === 'units' ? state.units : state.tightness);
}

/** Into the address, without a step in the reader's history, and without moving what it leads to. */
function remember(others = othersIn(location.hash)): void {
  try {
    history.replaceState(null, '', writeState(state, others) || location.pathname + location.search);
  } catch {
    // Some previews have no address of their own: then nothing is remembered.
  }
}

/** The browser marks and shows an element only for an address that is nothing but its id. */
function goTo(anchor: string): void {
  const others = othersIn(location.hash);
  location.replace(`#${encodeURIComponent(anchor)}`);
  remember(others);
}

function withOrder(number: number, order: Order | undefined): Record<number, Order> {
  const { [number]: _, ...others } = state.orders;
  return order ? { ...others, [number]: order } : others;
}

// Which combinations of the shortlist are shown: those with the words looked for, and those tight or not.

function showOnly(find: string, tightness: Tightness): void {
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  for (const list of document.querySelectorAll<HTMLTableElement>('table[data-sort="shortlist"]')) {
    const bodies = [...list.tBodies];
    for (const body of bodies) body.hidden = !(has(body, words) && isWanted(body, tightness));
    const left = bodies.filter((body) => !body.hidden).length;
    const place = list.closest('.setup')?.querySelector('.found');
    if (place)
      place.textContent = left < bodies.length ? `Shown: ${left} of ${bodies.length}${why(words, tightness)}.` : '';
  }
}

function has(body: HTMLElement, words: readonly string[]): boolean {
  const text = (body.textContent ?? '').toLowerCase();
  return words.every((word) => text.includes(word));
}

function isWanted(body: HTMLElement, tightness: Tightness): boolean {
  return tightness === 'all' || (body.dataset.tight === 'yes') === (tightness === 'tight');
}

function why(words: readonly string[], tightness: Tightness): string {
  const reasons = [
    ...(words.length > 0 ? [`with \u201c${words.join(' ')}\u201d`] : []),
    ...(tightness === 'all' ? [] : [tightness]),
  ];
  return `, ${reasons.join(', ')}`;
}
