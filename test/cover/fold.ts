/**
 * Adds what one measurement saw of a file to what another did. The same source, compiled in different ways, gives the
 * same statements, branches and functions on the same lines, but columns that differ here and there: arrow functions
 * and parentheses begin at another place in each compiler's source map. So the n-th of a line is the n-th of that line,
 * where both saw equally many there; where they did not, nothing is added, and the line rather counts as not run.
 */

interface Place {
  readonly start: { readonly line: number; readonly column: number };
}

/** Coverage of one file in the format of Istanbul. */
export interface FileCoverage {
  readonly statementMap: Readonly<Record<string, Place>>;
  readonly branchMap: Readonly<Record<string, { readonly loc: Place; readonly type: string }>>;
  readonly fnMap: Readonly<Record<string, { readonly decl: Place }>>;
  readonly s: Record<string, number>;
  readonly b: Record<string, number[]>;
  readonly f: Record<string, number>;
}

/** Adds the counts of `other` to those of `file`, in place. */
export function fold(file: FileCoverage, other: FileCoverage): void {
  const pairs = <T>(mine: Readonly<Record<string, T>>, theirs: Readonly<Record<string, T>>, key: (one: T) => Key) =>
    matched(placed(mine, key), placed(theirs, key));
  for (const [to, from] of pairs(file.statementMap, other.statementMap, (one) => ['', one])) {
    file.s[to] = (file.s[to] ?? 0) + (other.s[from] ?? 0);
  }
  for (const [to, from] of pairs(file.fnMap, other.fnMap, (one) => ['', one.decl])) {
    file.f[to] = (file.f[to] ?? 0) + (other.f[from] ?? 0);
  }
  for (const [to, from] of pairs(file.branchMap, other.branchMap, (one) => [one.type, one.loc])) {
    const counts = file.b[to] ?? [];
    const added = other.b[from] ?? [];
    if (counts.length === added.length) file.b[to] = counts.map((count, at) => count + (added[at] ?? 0));
  }
}

type Key = readonly [kind: string, place: Place];

/** Ids by kind and line, from left to right. */
function placed<T>(things: Readonly<Record<string, T>>, key: (one: T) => Key): ReadonlyMap<string, readonly string[]> {
  const sorted = Object.entries(things)
    .map(([id, thing]) => ({ id, key: key(thing) }))
    .sort((a, b) => a.key[1].start.column - b.key[1].start.column);
  const lines = new Map<string, string[]>();
  for (const { id, key: at } of sorted) {
    const line = `${at[0]}${at[1].start.line}`;
    lines.set(line, [...(lines.get(line) ?? []), id]);
  }
  return lines;
}

function matched(
  mine: ReadonlyMap<string, readonly string[]>,
  theirs: ReadonlyMap<string, readonly string[]>,
): readonly (readonly [string, string])[] {
  return [...mine].flatMap(([line, ids]) => {
    const others = theirs.get(line) ?? [];
    return others.length === ids.length ? ids.map((id, at) => [id, others[at] ?? ''] as const) : [];
  });
}
