/** The fixture scenario with pieces of its text exchanged, read from memory. */

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Problem } from '../../src/input/problems/problems.ts';
import { formatProblem, type ReadScenario, readScenario } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import type { Scenario } from '../../src/model/scenario.ts';

const fixture = (name: string) => readFileSync(new URL(`fixture/${name}`, import.meta.url), 'utf8');
export const SCENARIO = fixture('scenario.yaml');
export const CATALOGUE = fixture('springs.csv');

export type Edit = readonly [from: string, to: string];

/** Each `from` must stand in the text: a test that edits nothing proves nothing. */
export function edited(text: string, edits: readonly Edit[]): string {
  return edits.reduce((result, [from, to]) => {
    if (!result.includes(from)) throw new Error(`not in the fixture: ${from}`);
    return result.replace(from, () => to);
  }, text);
}

/** The tables of mistakes and slips in the folder of the fixture. */
export const tableOf = (name: string) => parse(fixture(name));

/** An edit as the tables write it: `[from, to]`, or `field: value` for the first field of that name. */
export function editOf(text: string, written: string | Edit): Edit {
  if (typeof written !== 'string') return written;
  const field = written.slice(0, written.indexOf(':'));
  const value = String.raw`(?:\{[^}]*\}|\[[^\]]*\]|[^,}\n#]*[^,}\n# ])`;
  return [new RegExp(String.raw`\b${field}: ${value}`).exec(text)?.[0] ?? `${field}: `, written];
}

export async function scenarioOf(edits: readonly Edit[] = []): Promise<Scenario> {
  const read = await readEdited(edits);
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  return read.scenario;
}

export function readEdited(edits: readonly Edit[], catalogue = CATALOGUE): Promise<ReadScenario> {
  return readTexts(edited(SCENARIO, edits), catalogue);
}

export function readTexts(scenario: string, catalogue = CATALOGUE): Promise<ReadScenario> {
  const files = [
    { path: 'scenario.yaml', text: scenario },
    { path: 'springs.csv', text: catalogue },
  ];
  return readScenario('scenario.yaml', memoryFiles(files));
}

export async function problemsOf(edits: readonly Edit[], catalogue = CATALOGUE): Promise<readonly Problem[]> {
  const read = await readEdited(edits, catalogue);
  return read.ok ? [] : read.problems;
}

/** Line and column (from 1) at which a piece of text stands. */
export function placeOf(text: string, piece: string): { line: number; column: number } {
  const offset = text.indexOf(piece);
  if (offset < 0) throw new Error(`not in the text: ${piece}`);
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}
