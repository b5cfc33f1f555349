/** Which tests can see a file of src, by what they import, nearest first. */
import { importsOf, type SourceFile } from '../setup/source-tree.ts';

/** Steps from a test to each file it imports, directly or not; what only brings types does not count. */
type Distances = ReadonlyMap<string, number>;

const TYPES_ONLY = /^[ \t]*(?:import|export) type\b[^;]*;/gm;

function runtimeImports({ path, text }: SourceFile): readonly string[] {
  const found = importsOf({ path, text: text.replace(TYPES_ONLY, '') });
  return found.flatMap(({ file }) => (file === null ? [] : [file]));
}

function distancesFrom(start: string, edges: ReadonlyMap<string, readonly string[]>): Distances {
  const distances = new Map([[start, 0]]);
  // A map being walked also visits what is added on the way.
  for (const [path, distance] of distances) {
    for (const next of edges.get(path) ?? []) if (!distances.has(next)) distances.set(next, distance + 1);
  }
  return distances;
}

const mirrors = (test: string, path: string) =>
  test.replace(/^test\//, '').split('.')[0] === path.replace(/^src\//, '').replace(/\.ts$/, '');

/** For a file of src: its mirror tests, then the others by distance, the quick ones before the slow ones. */
export function testsByFile(
  files: readonly SourceFile[],
  tests: readonly string[],
  seconds: ReadonlyMap<string, number>,
): (path: string) => readonly string[] {
  const edges = new Map(files.map((file) => [file.path, runtimeImports(file)]));
  const reach = tests.map((test) => ({ test, distances: distancesFrom(test, edges) }));
  const cost = (test: string) => seconds.get(test) ?? 1;
  return (path) =>
    reach
      .flatMap(({ test, distances }) => {
        const distance = mirrors(test, path) ? 0 : distances.get(path);
        return distance === undefined ? [] : [{ test, key: distance + Math.log2(1 + cost(test)) }];
      })
      .sort((a, b) => a.key - b.key || (a.test < b.test ? -1 : 1))
      .map(({ test }) => test);
}
