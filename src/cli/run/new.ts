/** `new DIR`: a commented scenario with its catalogues, to be filled with one's own measurements. */

import { readdir, readFile } from 'node:fs/promises';
import { isAbsolute, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { EXIT, type ExitCode, failure } from '../terminal/exit.ts';
import { prepareFolder, writeFiles } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';

const PACKAGE = fileURLToPath(new URL('../../../', import.meta.url));

/** The starter is the first of the scenarios that come with the tool. */
const STARTER = join(PACKAGE, 'scenarios', 'hill-hatch');
const SCENARIO = /\.ya?ml$/;

/** Made by the build. */
const SCHEMA = join(PACKAGE, 'dist', 'scenario.schema.json');

export async function newScenario(folder: string, options: { readonly force?: boolean }): Promise<ExitCode> {
  const names = (await readdir(STARTER)).filter((name) => SCENARIO.test(name) || name.endsWith('.csv')).sort();
  const standing = await readdir(folder).catch(() => []);
  if (standing.length > 0 && !options.force) throw failure(say.folderNotEmpty(folder));
  const texts = await Promise.all(
    names.map(async (name) => {
      const text = await readFile(join(STARTER, name), 'utf8');
      return [name, SCENARIO.test(name) ? `${schemaLine(folder)}\n${text}` : text] as const;
    }),
  );
  await prepareFolder(folder, names, options.force ?? false);
  await writeFiles(folder, Object.fromEntries(texts));
  process.stdout.write(`${say.started(folder, names)}\n`);
  return EXIT.ok;
}

/** The comment by which an editor finds what to complete and explain; relative where package and scenario move together. */
export function schemaLine(folder: string): string {
  const inside = relative(PACKAGE, resolve(folder));
  const isInside = !inside.startsWith('..') && !isAbsolute(inside);
  const place = isInside ? relative(folder, SCHEMA).replaceAll('\\', '/') : pathToFileURL(SCHEMA).href;
  return `# yaml-language-server: $schema=${place}`;
}
