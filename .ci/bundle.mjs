// Bundles the program and the scripts of its pages. The build writes them into dist.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as buildParts, buildSync } from 'esbuild';

/** The scripts a page can carry, by name: their entries below src/page/. `src/report/frame/templates.ts` loads them. */
export const ENTRIES = {
  page: 'controls/page.ts',
  bench: 'bench/live.ts',
  form: 'form/form.ts',
};

/** What a browser has instead of Node's modules. */
const IN_BROWSERS = {
  'node:path': 'path-browserify',
  'node:crypto': join(fileURLToPath(new URL('../src/page/', import.meta.url)), 'form/digest.ts'),
  'csv-parse/sync': 'csv-parse/browser/esm/sync',
  // Its inner part writes where it is told, and so no further than to a limit; its own interface knows none.
  'brotli/dec/decode.js': fileURLToPath(new URL('../node_modules/brotli/dec/decode.js', import.meta.url)),
};

/** What is started by its file: the command line and the threads. Commands are parts that it loads. */
const STARTED = ['cli/main.ts', 'sweep/worker.ts', 'pipeline/drawingWorker.ts'];

/** Packages that are loaded as installed: the charts' are large and wanted late, the threads' starts a file of its own. */
const INSTALLED = ['vega', 'vega-lite', 'piscina'];

const root = fileURLToPath(new URL('..', import.meta.url));
const source = fileURLToPath(new URL('../src/', import.meta.url));
const page = new URL('../src/page/', import.meta.url);

/**
 * The program, into a folder: a file for each of what is started, for each command, and for what they share.
 * @returns the folders of the packages that are in it
 */
export async function bundleProgram(outdir, { sourcemap }) {
  const { metafile } = await buildParts({
    entryPoints: STARTED.map((entry) => join(source, entry)),
    // Wherever the build is started, the same bytes.
    absWorkingDir: root,
    outdir,
    outbase: source,
    // As deep as the folders of src, so that a file finds its neighbours from any part; see `ownPlaces`.
    chunkNames: 'parts/[name]-[hash]',
    bundle: true,
    splitting: true,
    metafile: true,
    sourcemap,
    sourcesContent: false,
    external: INSTALLED,
    // Packages in the older format ask for Node's modules by a function that the newer one lacks.
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
    plugins: [ownPlaces],
    tsconfigRaw: { compilerOptions: { target: 'ES2023', verbatimModuleSyntax: true } },
    format: 'esm',
    target: 'node20',
    platform: 'node',
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'warning',
  });
  return packagesIn(metafile);
}

/** Bundled, a file lies elsewhere: what lies beside it is sought where it would be if it were compiled alone. */
const ownPlaces = {
  name: 'own places',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8');
      const place = relative(source, path).replaceAll('\\', '/').replace(/ts$/, 'js');
      const own = `new URL('../${place}', import.meta.url).href`;
      return { loader: 'ts', contents: text.replaceAll('import.meta.url', own) };
    });
  },
};

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

/**
 * The script of an entry made short, into a file: the same bytes for the same sources.
 * @returns the folders of the packages that are in it
 */
export function bundle(entry, outfile) {
  const { outputFiles, metafile } = build(entry, { minify: true, metafile: true });
  mkdirSync(dirname(outfile), { recursive: true });
  writeFileSync(outfile, checked(outputFiles[0].text, entry));
  return packagesIn(metafile);
}

function packagesIn({ inputs }) {
  const folders = Object.keys(inputs).map((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0]);
  return [...new Set(folders)].filter((folder) => folder !== undefined).map((folder) => join(root, folder));
}

function build(entry, options) {
  return buildSync({
    entryPoints: [entry],
    absWorkingDir: root,
    // Nothing above this folder is asked how to compile: source and packed runs give the same bytes.
    tsconfigRaw: { compilerOptions: { target: 'ES2022', verbatimModuleSyntax: true } },
    bundle: true,
    format: 'iife',
    target: 'es2022',
    platform: 'browser',
    alias: IN_BROWSERS,
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
