/** What the page can do where scripts run. Without them all of it is there, in both units, in the order it was made. */
import { showOnly } from './filter.ts';
import { type Sortable, sortable } from './sorting.ts';
import { CARE, type Order, othersIn, readState, type State, UNITS, writeState } from './state.ts';
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
    change(choice.name === 'units' ? { units: oneOf(UNITS, choice) } : { care: oneOf(CARE, choice) }),
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
  showOnly(state.find, state.care);
  for (const [number, table] of tables.entries()) table.sort(state.orders[number]);
  if (find && find.value !== state.find) find.value = state.find;
  for (const choice of choices) choice.checked = choice.value === (choice.name === 'units' ? state.units : state.care);
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

function oneOf<T extends string>(known: readonly [T, ...T[]], { value }: HTMLInputElement): T {
  return known.find((one) => one === value) ?? known[0];
}
