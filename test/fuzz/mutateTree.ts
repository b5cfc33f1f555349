/** Mutations of a scenario as data: what stays valid YAML and gets as far as the schema, the rules and the model. */
import { HOSTILE } from './hostile.ts';

/** One change: what to do, where (counted through all places that fit), and with which of its variants. */
export interface Change {
  readonly kind: number;
  readonly at: number;
  readonly with: number;
}

interface Place {
  readonly owner: Record<string, unknown> | unknown[];
  readonly key: string | number;
}

type Mutator = (tree: unknown, change: Change) => void;

/** Applies one change to a tree that is its own copy. */
export function changeTree(tree: unknown, change: Change): void {
  pick(MUTATORS, change.kind)(tree, change);
}

const FACTORS = [0.5, 0.8, 0.9, 0.97, 1.03, 1.1, 1.25, 2, 5, 10, 0.1, 0.01, 100, -1, 0, 1e6, 1e-6];

const scale: Mutator = (tree, { at, with: k }) => {
  const places = placesOf(tree).filter(
    ({ owner, key }) => isLeaf(owner, key) && /\d/.test(String(valueAt(owner, key))),
  );
  const place = pick(places, at);
  if (place) set(place, scaled(get(place), pick(FACTORS, k)));
};

/** The same value in every place of that name: a car that is off as a whole may still hang together. */
const scaleAlike: Mutator = (tree, change) => {
  const places = placesOf(tree).filter(({ owner, key }) => isLeaf(owner, key) && typeof key === 'string');
  const chosen = pick(places, change.at);
  for (const place of places) {
    if (place.key === chosen?.key) set(place, scaled(get(place), pick(FACTORS, change.with)));
  }
};

const replace: Mutator = (tree, { at, with: k }) => {
  const place = pick(placesOf(tree), at);
  if (place) set(place, structuredClone(pick(HOSTILE, k)));
};

const otherUnit: Mutator = (tree, { at, with: k }) => {
  const units = ['mm', 'in', 'kg', 'N/mm', 'lbf/in', 'Hz', 'm', 'MPa', '', '%', 'degC', 'furlong', 'MM', 'N·s/m'];
  const places = placesOf(tree).filter((place) => isLeaf(place.owner, place.key));
  const place = pick(places, at);
  if (place) set(place, String(get(place)).replace(/[^\d.+-]*$/, ` ${pick(units, k)}`));
};

const remove: Mutator = (tree, { at }) => {
  const place = pick(placesOf(tree), at);
  if (!place) return;
  if (Array.isArray(place.owner)) place.owner.splice(Number(place.key), 1);
  else delete place.owner[place.key];
};

const rename: Mutator = (tree, { at, with: k }) => {
  const place = pick(
    placesOf(tree).filter(({ owner }) => !Array.isArray(owner)),
    at,
  );
  const names = ['constructor', 'toString', 'length', 'name', 'from', '', '<<', 'none', ' ', 'trm', '\u202e', '1'];
  if (!place || Array.isArray(place.owner)) return;
  const value = get(place);
  delete place.owner[place.key];
  place.owner[pick(names, k)] = value;
};

const swap: Mutator = (tree, { at, with: k }) => {
  const places = placesOf(tree);
  const [a, b] = [pick(places, at), pick(places, k)];
  if (!a || !b) return;
  // A copy each: one inside the other must not become a circle.
  const [first, second] = [structuredClone(get(a)), structuredClone(get(b))];
  set(a, second);
  set(b, first);
};

/** The values of two fields of one mapping exchanged: extended with compressed, bore with diameter. */
const swapSiblings: Mutator = (tree, { at, with: k }) => {
  const a = pick(placesOf(tree), at);
  if (!a || Array.isArray(a.owner)) return;
  const key = pick(Object.keys(a.owner), k);
  const [first, second] = [a.owner[a.key], a.owner[key]];
  a.owner[a.key] = second;
  a.owner[key] = first;
};

const repeat: Mutator = (tree, { at, with: k }) => {
  const place = pick(
    placesOf(tree).filter(({ owner }) => Array.isArray(owner)),
    at,
  );
  if (!place || !Array.isArray(place.owner)) return;
  const copies = pick([1, 2, 9, 40], k);
  for (let i = 0; i < copies; i++) place.owner.push(structuredClone(get(place)));
};

const wrap: Mutator = (tree, { at, with: k }) => {
  const place = pick(placesOf(tree), at);
  if (!place) return;
  const value = get(place);
  const wraps = [
    [value],
    { value },
    [[value]],
    { from: value, to: value, step: '1 mm' },
    { from: value },
    [value, value],
  ];
  set(place, structuredClone(pick(wraps, k)));
};

const nest: Mutator = (tree, { at, with: k }) => {
  const place = pick(placesOf(tree), at);
  if (!place) return;
  let value: unknown = get(place);
  for (let i = 0; i < pick([5, 50, 400], k); i++) value = i % 2 === 0 ? [value] : { a: value };
  set(place, value);
};

/** Likelier ones stand there more than once: small changes of values get furthest. */
const MUTATORS: readonly Mutator[] = [
  ...[scale, scale, scale, scale, scale, scaleAlike, scaleAlike, swapSiblings, swapSiblings],
  ...[replace, replace, replace, otherUnit, remove, rename, swap, repeat, wrap, nest],
];

function scaled(value: unknown, factor: number): unknown {
  if (typeof value === 'number') return value * factor;
  if (typeof value !== 'string') return value;
  return value.replace(/^[+-]?[\d.]+/, (number) => String(Number((Number(number) * factor).toPrecision(6))));
}

/** Every value in the tree but its root. */
function placesOf(tree: unknown): Place[] {
  const places: Place[] = [];
  const walk = (value: unknown) => {
    if (typeof value !== 'object' || value === null) return;
    const owner = value as Place['owner'];
    const keys = Array.isArray(owner) ? owner.keys() : Object.keys(owner);
    for (const key of keys) {
      places.push({ owner, key });
      walk(valueAt(owner, key));
    }
  };
  walk(tree);
  return places;
}

function valueAt(owner: Place['owner'], key: string | number): unknown {
  return (owner as Record<string | number, unknown>)[key];
}

function isLeaf(owner: Place['owner'], key: string | number): boolean {
  const value = valueAt(owner, key);
  return typeof value === 'string' || typeof value === 'number';
}

function get({ owner, key }: Place): unknown {
  return valueAt(owner, key);
}

function set({ owner, key }: Place, value: unknown): void {
  (owner as Record<string | number, unknown>)[key] = value;
}

export function pick<T>(list: readonly T[], k: number): T {
  return list[k % Math.max(1, list.length)] as T;
}
