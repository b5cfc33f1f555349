/** Every leaf of plain data, and the data with another value in its place. */

export type LeafPath = readonly (string | number)[];

/** What somebody might put in a leaf's place. */
export const STRANGE: readonly unknown[] = [null, 'text', -1, 1e15, []];

export function leavesOf(data: unknown, path: LeafPath = []): LeafPath[] {
  if (typeof data !== 'object' || data === null) return [path];
  const keys = Array.isArray(data) ? [...data.keys()] : Object.keys(data);
  return keys.flatMap((key) => leavesOf((data as Readonly<Record<string, unknown>>)[key], [...path, key]));
}

/** A copy that shares all but what lies on the way. */
export function replacedAt(data: unknown, [key, ...rest]: LeafPath, value: unknown): unknown {
  if (key === undefined) return value;
  const below = replacedAt((data as Readonly<Record<string, unknown>>)[key], rest, value);
  return Array.isArray(data) ? data.with(Number(key), below) : { ...(data as object), [key]: below };
}
