/** Where two plain values differ, by the path that leads there. */

export interface Difference {
  /** `setups[low].shortlist[0].score`; list entries with a name or a setup are called by it. */
  readonly path: string;
  /** As JSON; null where there is nothing. */
  readonly before: string | null;
  readonly after: string | null;
}

/** The differences of two plain JSON values in the order of the first, then of the second. */
export function differencesOf(before: unknown, after: unknown, path = ''): Difference[] {
  if (isRecord(before) && isRecord(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    return keys.flatMap((key) => differencesOf(before[key], after[key], path === '' ? key : `${path}.${key}`));
  }
  if (Array.isArray(before) && Array.isArray(after)) {
    const longer = before.length >= after.length ? before : after;
    return longer.flatMap((entry, k) => differencesOf(before[k], after[k], `${path}[${nameIn(entry) ?? k}]`));
  }
  const [one, other] = [written(before), written(after)];
  return one === other ? [] : [{ path, before: one, after: other }];
}

/** What a list's entry is called, where it has a name. */
function nameIn(entry: unknown): string | null {
  const name = isRecord(entry) ? entry.name : null;
  return typeof name === 'string' ? name : null;
}

function written(value: unknown): string | null {
  return value === undefined ? null : JSON.stringify(value);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A value of an input file that is not what it was; as it was written. */
export interface InputChange {
  /** Path of the file, as the reports call it. */
  readonly file: string;
  /** What the value is called, outermost first: `setups`, `low`, `front`, `target_height`. */
  readonly names: readonly string[];
  /** Null where there is nothing. */
  readonly before: string | null;
  readonly after: string | null;
}

/** What became of the inputs from one report to another. */
export interface InputChanges {
  readonly changes: readonly InputChange[];
  /** Files that are other texts without another value: comments, order or spacing differ. */
  readonly reworded: readonly string[];
}
