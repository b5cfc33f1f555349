// Turns browser code of src into one small classic script that a page carries inline. The build writes it into dist.

import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

/** The scripts a page can carry, by name: their entries below src/page/. `src/report/frame/scripts.ts` loads them. */
export const ENTRIES = {
  page: 'controls/page.ts',
  bench: 'bench/live.ts',
};

const page = new URL('../src/page/', import.meta.url);

/**
 * The script of that name as written, with a source map that names its sources in full: for coverage in a browser,
 * since what was made short has other branches than its source.
 */
export function mappedScript(name) {
  const entry = fileURLToPath(new URL(ENTRIES[name], page));
  const { outputFiles } = build(entry, { minify: false, sourcemap: 'external', outdir: fileURLToPath(page) });
  const [map, script] = ['.map', '.js'].map((end) => outputFiles.find(({ path }) => path.endsWith(end)));
  const { sources, ...rest } = JSON.parse(map.text);
  return {
    code: checked(script.text, name),
    map: { ...rest, sources: sources.map((path) => new URL(path, page).href) },
  };
}

/** The script of an entry made short, into a file: the same bytes for the same sources. */
export function bundle(entry, outfile) {
  mkdirSync(dirname(outfile), { recursive: true });
  writeFileSync(outfile, checked(build(entry, { minify: true }).outputFiles[0].text, entry));
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
