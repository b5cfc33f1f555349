/** Which tests can see a file of src, by what they import, and over how many steps. */
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

/** `test/domain/formula.docs.test.ts` mirrors a folder: it reads what stands in it. */
function mirrors(test: string, path: string): boolean {
  const [mirrored] = test.replace(/^test\//, 'src/').split('.');
  return path === `${mirrored}.ts` || path.startsWith(`${mirrored}/`);
}

/** For a test and a file of src: steps of imports between them, 0 for its mirror, undefined where there are none. */
export function distancesOf(
  files: readonly SourceFile[],
  tests: readonly string[],
): (test: string, path: string) => number | undefined {
  const edges = new Map(files.map((file) => [file.path, runtimeImports(file)]));
  const reach = new Map(tests.map((test) => [test, distancesFrom(test, edges)]));
  return (test, path) => (mirrors(test, path) ? 0 : reach.get(test)?.get(path));
}
