/** How large data are once every repeat is written out. */

/**
 * Number of values in plain data, shared objects counted as often as they are reached; `circular` when an object
 * contains itself. Each object is walked once, so the time does not grow with the repeats.
 */
export function expandedSize(data: unknown): number | 'circular' {
  const sizes = new Map<object, number | null>();
  const measure = (value: unknown): number => {
    if (typeof value !== 'object' || value === null) return 1;
    const known = sizes.get(value);
    if (known === null) return Number.NaN;
    if (known !== undefined) return known;
    // Null marks an object still being walked.
    sizes.set(value, null);
    const size = Object.values(value).reduce((sum: number, item: unknown) => sum + measure(item), 1);
    sizes.set(value, size);
    return size;
  };
  const size = measure(data);
  return Number.isNaN(size) ? 'circular' : size;
}
