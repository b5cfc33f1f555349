/** The project read as text: its files, their imports, their code without comments. For the architecture tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface SourceFile {
  /** From the project's root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

export interface Import {
  readonly specifier: string;
  /** Path from the project's root for a relative import, else null. */
  readonly file: string | null;
  /** Package name for a package, else null. */
  readonly package: string | null;
}

/** Names at the top of the project, without what .gitignore leaves out and git's own folder. */
export function topLevelNames(): readonly string[] {
  const ignored = readFileSync(join(ROOT, '.gitignore'), 'utf8').split(/\r?\n/).filter(Boolean);
  const outside = new Set(['.git', ...ignored.map((line) => line.replace(/^\/|\/$/g, ''))]);
  return readdirSync(ROOT).filter((name) => !outside.has(name));
}

/** All files below the named files and folders, sorted by path. */
export function readFiles(names: readonly string[], extension = ''): readonly SourceFile[] {
  return names
    .flatMap((name) => pathsBelow(join(ROOT, name)))
    .filter((path) => path.endsWith(extension))
    .map((path) => ({ path: relative(ROOT, path).split(sep).join('/'), text: readFileSync(path, 'utf8') }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

function pathsBelow(path: string): readonly string[] {
  try {
    const entries = readdirSync(path, { withFileTypes: true, recursive: true });
    return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return [path];
    throw error;
  }
}

/** `import ... from`, `export ... from`, bare `import '...'`, `import('...')`; types count like values. */
export function importsOf(file: SourceFile): readonly Import[] {
  const code = withoutComments(file.text);
  const patterns = [
    /^[ \t]*(?:import|export)\b[^'"`;]*?\bfrom\s*(['"])(.+?)\1/gm,
    /^[ \t]*import\s*(['"])(.+?)\1/gm,
    /\bimport\s*\(\s*(['"])(.+?)\1/g,
  ];
  return patterns
    .flatMap((pattern) => [...code.matchAll(pattern)])
    .map((match) => resolveImport(file.path, match[2] ?? ''));
}

function resolveImport(from: string, specifier: string): Import {
  if (specifier.startsWith('.')) return { specifier, file: posix.join(dirname(from), specifier), package: null };
  if (specifier.startsWith('node:')) return { specifier, file: null, package: null };
  const depth = specifier.startsWith('@') ? 2 : 1;
  return { specifier, file: null, package: specifier.split('/').slice(0, depth).join('/') };
}

// Strings and templates are matched too, so that a `//` inside one is not taken for a comment.
const TOKENS = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\[\s\S]|[^`\\])*`/g;

export function withoutComments(text: string): string {
  return text.replace(TOKENS, (token) => (token.startsWith('/') ? '' : token));
}

/** Templates stay: code can stand inside them. */
export function withoutCommentsAndStrings(text: string): string {
  return text.replace(TOKENS, (token) => (token.startsWith('`') ? token : token.startsWith('/') ? '' : "''"));
}

/** The first circle met when following the edges from each node, as a path that ends where it starts; else null. */
export function findCircle(edges: ReadonlyMap<string, readonly string[]>): readonly string[] | null {
  const done = new Set<string>();
  const visit = (node: string, trail: readonly string[]): readonly string[] | null => {
    const start = trail.indexOf(node);
    if (start >= 0) return [...trail.slice(start), node];
    if (done.has(node)) return null;
    for (const next of edges.get(node) ?? []) {
      const circle = visit(next, [...trail, node]);
      if (circle) return circle;
    }
    done.add(node);
    return null;
  };
  for (const node of edges.keys()) {
    const circle = visit(node, []);
    if (circle) return circle;
  }
  return null;
}
