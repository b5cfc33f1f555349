// Compiles src to dist and puts beside it what the compiler leaves out: templates, styles, page scripts, data, and the
// JSON Schemas: of scenarios from the table of fields, of results from the types of the record.
// Arguments: another folder than dist, and options of the compiler.

import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundle, ENTRIES } from './bundle.mjs';
import { resultJsonSchema } from './resultSchema.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const from = join(root, 'src');
const [folder = 'dist', ...options] = process.argv.slice(2);
const to = resolve(root, folder);
const command = join(to, 'cli', 'main.js');

const isAsset = (path) => !path.endsWith('.ts') && !basename(path).startsWith('tsconfig');

// An emptied dist: a renamed source must not live on as an old compiled file.
rmSync(to, { recursive: true, force: true });

// Started through node itself: `.bin` links are shell scripts on one system and .cmd files on another.
const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
const project = ['-p', root, '--noEmit', 'false', '--rootDir', from, '--outDir', to, ...options];
const compiled = spawnSync(process.execPath, [compiler, ...project], { stdio: 'inherit' });

cpSync(from, to, { recursive: true, filter: (path) => statSync(path).isDirectory() || isAsset(path) });
for (const [name, entry] of Object.entries(ENTRIES)) {
  bundle(join(from, 'page', entry), join(to, 'page', `${name}.js`));
}
if (compiled.status === 0) {
  const load = (...path) => import(pathToFileURL(join(to, ...path)).href);
  const [{ scenarioJsonSchema }, { snakeKey }] = await Promise.all([
    load('input', 'schema', 'jsonSchema.js'),
    load('model', 'keys.js'),
  ]);
  writeFileSync(join(to, 'scenario.schema.json'), scenarioJsonSchema());
  writeFileSync(join(to, 'results.schema.json'), resultJsonSchema(join(from, 'result', 'result.ts'), snakeKey));
}
if (existsSync(command)) chmodSync(command, 0o755);
process.exitCode = compiled.status ?? 1;
