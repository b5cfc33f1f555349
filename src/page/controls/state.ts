/**
 * What a reader has set, as it stands in the address: `#row-id&units=metric&find=coil&sort1=5d`. The id of a row comes
 * first, as in a plain link to it; what is as printed is left out.
 */
export const UNITS = ['both', 'metric', 'imperial'] as const;
export type Units = (typeof UNITS)[number];

export const TIGHTNESS = ['all', 'tight', 'not tight'] as const;
export type Tightness = (typeof TIGHTNESS)[number];

/** Column of a table, counted from 0, and which way. */
export interface Order {
  readonly column: number;
  readonly falling: boolean;
}

export interface State {
  /** Element that the address leads to, or empty. */
  readonly anchor: string;
  readonly units: Units;
  readonly find: string;
  readonly tightness: Tightness;
  /** By the table's number on the page. */
  readonly orders: Readonly<Record<number, Order>>;
}

export function readState(hash: string): State {
  const [anchor = '', ...rest] = hash.replace(/^#/, '').split('&');
  // An address may also begin with what was set.
  const isSet = anchor.includes('=');
  const set = new URLSearchParams((isSet ? [anchor, ...rest] : rest).join('&'));
  return {
    anchor: isSet ? '' : decodeText(anchor),
    units: oneOf(UNITS, set.get('units')),
    find: set.get('find') ?? '',
    tightness: oneOf(TIGHTNESS, set.get('care')),
    orders: ordersOf(set),
  };
}

/** Settings that other scripts of the page keep in the address, letter for letter. */
export function othersIn(hash: string): string[] {
  const parts = hash.replace(/^#/, '').split('&');
  return parts.filter((part) => part.includes('=') && !/^(?:units|find|care|sort\d{1,3})=/.test(part));
}

export function writeState({ anchor, units, find, tightness, orders }: State, others: readonly string[] = []): string {
  const set = new URLSearchParams();
  if (units !== UNITS[0]) set.set('units', units);
  if (find !== '') set.set('find', find);
  if (tightness !== TIGHTNESS[0]) set.set('care', tightness);
  for (const [table, { column, falling }] of Object.entries(orders)) {
    set.set(`sort${table}`, `${column}${falling ? 'd' : 'a'}`);
  }
  const parts = [encodeURIComponent(anchor), set.toString(), ...others].filter((part) => part !== '');
  return parts.length > 0 ? `#${parts.join('&')}` : '';
}

function ordersOf(set: URLSearchParams): Record<number, Order> {
  const orders: Record<number, Order> = {};
  for (const [key, value] of set) {
    const table = /^sort(\d{1,3})$/.exec(key)?.[1];
    const order = /^(\d{1,3})([ad])$/.exec(value);
    if (table && order) orders[Number(table)] = { column: Number(order[1]), falling: order[2] === 'd' };
  }
  return orders;
}

/** The named one, or the first where the address holds another word. */
export function oneOf<T extends string>(known: readonly [T, ...T[]], value: string | null): T {
  return known.find((one) => one === value) ?? known[0];
}

function decodeText(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
