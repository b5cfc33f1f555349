/** Keys of plain data in either style: `bumpStop` inside the program, `bump_stop` where it is written. */

export type SnakeKey<K extends string> = K extends `${infer First}${infer Rest}`
  ? `${First extends Lowercase<First> ? First : `_${Lowercase<First>}`}${SnakeKey<Rest>}`
  : K;
export type CamelKey<K extends string> = K extends `${infer First}_${infer Rest}`
  ? `${First}${Capitalize<CamelKey<Rest>>}`
  : K;

export function snakeKey(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

export function camelKey(key: string): string {
  return key.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

/** @param named keys whose strings are names of keys themselves, and changed like them */
export function mapKeys(data: unknown, change: (key: string) => string, named: ReadonlySet<string> = NONE): unknown {
  // The same keys come again and again.
  const names = new Map<string, string>();
  const nameOf = (key: string): string => {
    const name = names.get(key) ?? change(key);
    names.set(key, name);
    return name;
  };
  const mapped = (value: unknown, isName: boolean): unknown => {
    if (typeof value === 'string') return isName ? change(value) : value;
    if (Array.isArray(value)) return value.map((item) => mapped(item, isName));
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [nameOf(key), mapped(item, named.has(key))]));
  };
  return mapped(data, false);
}

const NONE: ReadonlySet<string> = new Set();

/** The numbers among the fields of a mapping, under the names the model uses. */
export function numbersOf<T extends object>(fields: T): NumbersOf<T> {
  const numbers = Object.entries(fields).filter(([, value]) => typeof value === 'number');
  return Object.fromEntries(numbers.map(([key, value]) => [camelKey(key), value])) as NumbersOf<T>;
}

type NumbersOf<T> = {
  readonly [K in keyof T as T[K] extends number | undefined ? CamelKey<K & string> : never]: Exclude<T[K], undefined>;
};
