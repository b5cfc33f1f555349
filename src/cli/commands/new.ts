/** `new DIR`: a commented scenario with its catalogues, to be filled with one's own measurements. */
import { readdir, readFile } from 'node:fs/promises';
import { EXIT, type ExitCode, failure } from '../exit.ts';
import { prepareFolder, writeFiles } from '../files.ts';
import * as say from '../messages.ts';

/** The starter is the first of the scenarios that come with the tool. */
const STARTER = new URL('../../../scenarios/hill-hatch/', import.meta.url);

export async function newScenario(folder: string, options: { readonly force?: boolean }): Promise<ExitCode> {
  const names = (await readdir(STARTER)).filter((name) => /\.(ya?ml|csv)$/.test(name)).sort();
  const standing = await readdir(folder).catch(() => []);
  if (standing.length > 0 && !options.force) throw failure(say.folderNotEmpty(folder));
  const texts = await Promise.all(names.map((name) => readFile(new URL(name, STARTER), 'utf8')));
  await prepareFolder(folder, names, options.force ?? false);
  await writeFiles(folder, Object.fromEntries(names.map((name, k) => [name, texts[k] as string])));
  process.stdout.write(`${say.started(folder, names)}\n`);
  return EXIT.ok;
}
