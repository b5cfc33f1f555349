// Bundles src into dist and puts beside it what the bundler leaves out: templates, styles, page scripts, the licences of
// the packages inside, and the JSON Schemas: of scenarios from the table of fields, of results and of part files
// from their types. Types are checked apart (`npm run types`).

import { chmodSync, cpSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { tsImport } from 'tsx/esm/api';
import { bundle, bundleProgram, ENTRIES } from './bundle.mjs';
import { partJsonSchema, resultJsonSchema } from './resultSchema.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const from = join(root, 'src');
const to = join(root, 'dist');

// An emptied dist: a renamed source must not live on as an old bundled file.
rmSync(to, { recursive: true, force: true });

const inside = await bundleProgram(to, { sourcemap: false });
const isAsset = (path) => statSync(path).isDirectory() || /\.(?:hbs|css)$/.test(path);
cpSync(join(from, 'report'), join(to, 'report'), { recursive: true, filter: isAsset });
const inPages = Object.entries(ENTRIES).flatMap(([name, entry]) =>
  bundle(join(from, 'page', entry), join(to, 'page', `${name}.js`)),
);
writeFileSync(join(to, 'licences.txt'), [...new Set([...inside, ...inPages])].map(licenceOf).sort().join('\n'));
const load = (path) => tsImport(`../src/${path}`, import.meta.url);
const [{ benchJsonSchema, scenarioJsonSchema }, { snakeKey }] = await Promise.all([
  load('input/schema/jsonSchema.ts'),
  load('model/keys.ts'),
]);
writeFileSync(join(to, 'scenario.schema.json'), scenarioJsonSchema());
writeFileSync(join(to, 'bench.schema.json'), benchJsonSchema());
writeFileSync(join(to, 'results.schema.json'), resultJsonSchema(join(from, 'result', 'result.ts'), snakeKey));
writeFileSync(join(to, 'part.schema.json'), partJsonSchema(join(from, 'sweep', 'shard.ts')));
chmodSync(join(to, 'cli', 'main.js'), 0o755);

/** Name, version and licence of a package that is in the bundle: its licence asks for this where it is passed on. */
function licenceOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((name) => /^licen[cs]e/i.test(name));
  if (file === undefined && license === undefined) throw new Error(`${name} says nothing of its licence.`);
  const text = file === undefined ? `${license}, by ${author}` : readFileSync(join(folder, file), 'utf8').trim();
  return `${name} ${version}\n\n${text}\n`;
}
