/// <reference path="./v8-coverage.d.ts" />
/**
 * What ran outside the processes of the tests: the program in processes and threads of its own, and the page's scripts
 * in Chromium. Each leaves a file of V8's counts; here they are added up and told by the lines of the sources.
 */

import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { mergeProcessCovs, type ProcessCov, type ScriptCov } from '@bcoe/v8-coverage';
import { convert } from 'ast-v8-to-istanbul';
import { parseAstAsync } from 'vitest/node';
import type { MeasuredCopy } from './copy.ts';
import type { FileCoverage } from './fold.ts';

interface Script {
  readonly code: string;
  readonly map: SourceMap;
}

interface SourceMap {
  readonly version: 3;
  readonly mappings: string;
  readonly names: string[];
  readonly sources: string[];
}

interface Node {
  readonly start: number;
}

/** A script as Chromium counted it. */
export interface PageScript extends Pick<ScriptCov, 'functions'> {
  readonly source?: string;
}

/** What the bundler of the page's scripts offers. */
interface Bundler {
  readonly ENTRIES: Readonly<Record<string, string>>;
  readonly mappedScript: (name: string) => Script;
}

const { ENTRIES, mappedScript } = (await import(new URL('../../.ci/bundle.mjs', import.meta.url).href)) as Bundler;

/** The page's scripts by the names under which their counts are kept. */
const scripts = new Map(Object.keys(ENTRIES).map((name) => [`script:${name}`, mappedScript(name)]));

/** Writes the page's scripts as written, for the pages that are opened while coverage is measured. */
export function writeScripts(folder: string): void {
  for (const [url, { code }] of scripts) writeFileSync(join(folder, `${url.replace('script:', '')}.js`), code);
}

/** Keeps what a page ran of its scripts; the page's other scripts, data and styles are not code of ours. */
export function keepPage(copy: MeasuredCopy, ran: readonly PageScript[]): void {
  const result = ran.flatMap(({ source, functions }) => {
    const url = [...scripts].find(([, { code }]) => code === source?.trim())?.[0];
    return url === undefined ? [] : [{ scriptId: url, url, functions }];
  });
  writeFileSync(join(copy.raw, `page-${randomUUID()}.json`), JSON.stringify({ result }));
}

/** Coverage by source file, several times a file where several scripts hold it. */
export async function ranElsewhere(copy: MeasuredCopy): Promise<readonly (readonly [string, FileCoverage])[]> {
  const { result } = mergeProcessCovs(readdirSync(copy.raw).map((name) => ours(copy, join(copy.raw, name))));
  const converted = await Promise.all(result.map((script) => bySource(script)));
  return converted.flatMap((files) => Object.entries(files));
}

function ours({ dist }: MeasuredCopy, file: string): ProcessCov {
  const { result } = JSON.parse(readFileSync(file, 'utf8')) as ProcessCov;
  const from = `${pathToFileURL(dist).href}/`;
  return { result: result.filter(({ url }) => scripts.has(url) || url.startsWith(from)) };
}

async function bySource({ url, functions }: ScriptCov): Promise<Record<string, FileCoverage>> {
  const { code, map } = scripts.get(url) ?? compiled(url);
  // The map names its sources in full, so that any file may stand for a script that is none.
  const coverage = { url: scripts.has(url) ? import.meta.url : url, functions };
  const ast = await parseAstAsync(code);
  placeElseIfs(ast);
  return (await convert({ code, sourceMap: map, ast, coverage })) as never;
}

/** The bundler's maps have no place for the `if` of an `else if`: it stands where its condition does, on the same line. */
function placeElseIfs(node: unknown): void {
  if (typeof node !== 'object' || node === null) return;
  const { type, alternate } = node as { type?: string; alternate?: { type: string; start: number; test: Node } };
  if (type === 'IfStatement' && alternate?.type === 'IfStatement') alternate.start = alternate.test.start;
  for (const child of Object.values(node)) placeElseIfs(child);
}

/** A bundled file of the copy, its map naming the sources in full. */
function compiled(url: string): Script {
  const path = fileURLToPath(url);
  const map = JSON.parse(readFileSync(`${path}.map`, 'utf8')) as SourceMap;
  const sources = map.sources.map((source) => pathToFileURL(join(dirname(path), source)).href);
  return { code: readFileSync(path, 'utf8'), map: { ...map, sources } };
}
