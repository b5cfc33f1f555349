// Compiles src to dist and puts beside it what the compiler leaves out: templates, styles, page scripts, data.
// Arguments: another folder than dist, and options of the compiler.
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, rmSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle, ENTRIES } from './bundle.mjs';

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
const project = ['-p', join(from, 'tsconfig.build.json'), '--outDir', to, ...options];
const compiled = spawnSync(process.execPath, [compiler, ...project], { stdio: 'inherit' });

cpSync(from, to, { recursive: true, filter: (path) => statSync(path).isDirectory() || isAsset(path) });
for (const [name, entry] of Object.entries(ENTRIES)) {
  bundle(join(from, 'report', entry), join(to, 'report', 'script', `${name}.js`));
}
if (existsSync(command)) chmodSync(command, 0o755);
process.exitCode = compiled.status ?? 1;
