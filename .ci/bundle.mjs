// Turns browser code of src into one small classic script that a page carries inline. The build writes its result into
// dist; a run from source makes it anew, so that it is never older than what it is made from.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

/** The scripts a page can carry, by name: their entries below src/report/. `src/report/pageScripts.ts` loads them. */
export const ENTRIES = {
  page: 'script/page.ts',
  bench: '../live/live.ts',
};

const report = new URL('../src/report/', import.meta.url);

/** Set while coverage is measured in a browser. */
export const READABLE = 'SPRINGSIFT_READABLE_SCRIPTS';

/**
 * The script of that name as text: the same bytes for the same sources. Where coverage is measured in a browser it is
 * left as written: what was made short has other branches than its source.
 */
export function bundled(name) {
  return process.env[READABLE] ? mappedScript(name).code : textOf(entryOf(name));
}

/** The script of that name as written, with a source map that names its sources in full. */
export function mappedScript(name) {
  const { outputFiles } = build(entryOf(name), { minify: false, sourcemap: 'external', outdir: fileURLToPath(report) });
  const [map, script] = ['.map', '.js'].map((end) => outputFiles.find(({ path }) => path.endsWith(end)));
  const { sources, ...rest } = JSON.parse(map.text);
  return {
    code: checked(script.text, name),
    map: { ...rest, sources: sources.map((path) => new URL(path, report).href) },
  };
}

const entryOf = (name) => fileURLToPath(new URL(ENTRIES[name], report));

/** The same for any entry, into a file. */
export function bundle(entry, outfile) {
  mkdirSync(dirname(outfile), { recursive: true });
  writeFileSync(outfile, textOf(entry));
}

function textOf(entry) {
  return checked(build(entry, { minify: true }).outputFiles[0].text, entry);
}

function build(entry, options) {
  return buildSync({
    entryPoints: [entry],
    // Nothing above this folder is asked how to compile: source and packed runs give the same bytes.
    tsconfigRaw: { compilerOptions: { target: 'ES2022', verbatimModuleSyntax: true } },
    bundle: true,
    format: 'iife',
    target: 'es2022',
    platform: 'browser',
    charset: 'utf8',
    legalComments: 'none',
    write: false,
    logLevel: 'silent',
    ...options,
  });
}

function checked(script, entry) {
  const text = script.trim();
  // Inside a page, either of these would end the script or hide what follows.
  if (/<\/script|<!--/i.test(text)) throw new Error(`The script of ${entry} holds what ends a script element.`);
  return text;
}
