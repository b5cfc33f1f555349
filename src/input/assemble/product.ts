/** The product of swept dimensions. */

/**
 * One record per combination of values. The last dimension named turns fastest, the first slowest:
 * `{ a: [1, 2], b: [5, 6] }` gives 1/5, 1/6, 2/5, 2/6.
 */
export function product<K extends string>(
  dimensions: Readonly<Record<K, readonly number[]>>,
): readonly Readonly<Record<K, number>>[] {
  const names = Object.keys(dimensions) as K[];
  let rows: Readonly<Record<string, number>>[] = [{}];
  for (const name of names) {
    rows = rows.flatMap((row) => dimensions[name].map((value) => ({ ...row, [name]: value })));
  }
  return rows as Readonly<Record<K, number>>[];
}
