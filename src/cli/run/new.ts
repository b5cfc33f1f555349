/** `new DIR`: a short file of one axle's parts to fill in, with the measuring sheet; or a whole car as an example. */

import { readdir, readFile } from 'node:fs/promises';
import { isAbsolute, join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { blankSheet, drawMeasure, startFile } from '../../measure/measure.ts';
import { EXIT, type ExitCode, failure } from '../terminal/exit.ts';
import { prepareFolder, settleBeside, writeAndSay } from '../terminal/files.ts';
import * as say from '../terminal/messages.ts';
import { ownCommand, PACKAGE, STARTER } from '../terminal/places.ts';
import { toolVersion } from '../terminal/version.ts';

const SCENARIO = /\.ya?ml$/;

/** Made by the build. */
const SCHEMA = join(PACKAGE, 'dist', 'scenario.schema.json');
const BENCH_SCHEMA = join(PACKAGE, 'dist', 'bench.schema.json');

const SCENARIO_NAME = 'scenario.yaml';

export interface NewOptions {
  readonly force?: boolean;
  /** A whole car, invented, in place of a file to fill in. */
  readonly example?: boolean;
}

export async function newScenario(folder: string, { force = false, example = false }: NewOptions): Promise<ExitCode> {
  await settleBeside(join(folder, '.'));
  const standing = await readdir(folder).catch(() => []);
  if (standing.length > 0 && !force) throw failure(say.folderNotEmpty(folder));
  const texts = example ? await exampleTexts(folder) : await startTexts(folder);
  const names = Object.keys(texts);
  const started = example ? say.started : say.startedBench;
  await prepareFolder(folder, names, force);
  await writeAndSay(folder, texts, force, () => started(ownCommand(), folder, names));
  return EXIT.ok;
}

/** Nothing in it is invented: what is not measured says so. */
async function startTexts(folder: string): Promise<Readonly<Record<string, string>>> {
  const sheet = await drawMeasure(blankSheet(toolVersion()));
  return { [SCENARIO_NAME]: `${schemaLine(folder, BENCH_SCHEMA)}\n${startFile()}`, [SHEET]: sheet };
}

const SHEET = 'measure.html';

/** The name says what its values are, and with it the title of every report. */
async function exampleTexts(folder: string): Promise<Readonly<Record<string, string>>> {
  const names = (await readdir(STARTER)).filter((name) => SCENARIO.test(name) || name.endsWith('.csv')).sort();
  const texts = await Promise.all(
    names.map(async (name) => {
      const text = await readFile(join(STARTER, name), 'utf8');
      return [
        name,
        SCENARIO.test(name) ? `${schemaLine(folder)}\n${text.replace(/^name: (.*)$/m, 'name: $1 (invented)')}` : text,
      ] as const;
    }),
  );
  return Object.fromEntries(texts);
}

/** The comment by which an editor finds what to complete and explain; relative where package and scenario move together. */
export function schemaLine(folder: string, schema = SCHEMA): string {
  const inside = relative(PACKAGE, resolve(folder));
  const isInside = !inside.startsWith('..') && !isAbsolute(inside);
  const place = isInside ? relative(folder, schema).replaceAll('\\', '/') : pathToFileURL(schema).href;
  return `# yaml-language-server: $schema=${place}`;
}
