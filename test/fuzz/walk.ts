/**
 * A walk over every number of the scenarios that come with the tool, of their springs, of what they leave out, of files of
 * the bench and of a question: each in turn becomes nothing, tiny, huge and negative, and what is not refused is swept,
 * drawn, explained, measured and audited. No output may hold what is no number, or none of this world.
 */

import type { Option, Question } from '../../src/fitting/question.ts';
import { blockYaml } from './blockYaml.ts';
import { bytesOf, type Input } from './corpus.ts';
import { judge, judgeQuestion, type Verdict } from './judge.ts';
import { QUESTION, STARTS } from './starts.ts';

/** A field made another: where, and what it becomes. */
export interface Step {
  readonly scenario: string;
  readonly path: readonly (string | number)[];
  readonly value: unknown;
}

/** What a number becomes, its unit kept; the last two stay within most limits. */
const SIZES: readonly ((number: number) => number)[] = [
  () => 0,
  () => 1e-9,
  () => 1e12,
  (number) => -number,
  (number) => number / 1000,
  (number) => number * 30,
];

/** The number of an amount with a unit. */
const AMOUNT = /^[+-]?\d[\d.]*(?= )/;
const NUMBER = /\d[\d.]*/g;

/** Where a step leads that is in the catalogue of a scenario, and the scenario that is a question. */
const CATALOGUE = 'springs.csv';
const ASKED = 'question';

/** Every number of the scenarios, of the springs they name and of a question, each in every size. */
export const STEPS: readonly Step[] = [
  ...STARTS.flatMap(({ name, tree, catalogue }) => stepsOf(name, [...numbersIn(tree), ...cellsIn(catalogue)])),
  ...stepsOf(ASKED, numbersAsked()),
];

function stepsOf(scenario: string, numbers: readonly NumberAt[]): Step[] {
  return numbers.flatMap(({ path, value }) => SIZES.map((size) => ({ scenario, path, value: resized(value, size) })));
}

/** @throws an error that names the step and what is wrong with what came out */
export async function take(step: Step): Promise<Verdict> {
  try {
    if (step.scenario !== ASKED) return await judge(inputAfter(step), true);
    return await judgeQuestion({ ...QUESTION, ...textAfter(step) });
  } catch (error) {
    throw new Error(`${step.scenario}: ${step.path.join('.')}: ${step.value}`, { cause: error });
  }
}

export interface Walked {
  readonly refused: number;
  readonly clean: number;
  readonly swept: number;
  readonly failures: readonly string[];
}

/** Takes every so many of the steps, from the first on. */
export async function walk(each: number, first = 0, say: (line: string) => void = () => undefined): Promise<Walked> {
  const counts = { refused: 0, clean: 0, swept: 0 };
  const failures: string[] = [];
  for (const [k, step] of STEPS.entries()) {
    if (k % each !== first) continue;
    try {
      counts[await take(step)]++;
    } catch (error) {
      failures.push(`${(error as Error).message}: ${(error as Error).cause}`);
      say(failures.at(-1) ?? '');
    }
    if (k % (100 * each) === first)
      say(`${k} of ${STEPS.length}: ${JSON.stringify(counts)}, ${failures.length} failures`);
  }
  return { ...counts, failures };
}

function inputAfter(step: Step): Input {
  const start = STARTS.find(({ name }) => name === step.scenario);
  const tree = structuredClone(start?.tree) as unknown as Fields;
  const lines = (start?.catalogue ?? '').split('\n');
  const { path, value } = step;
  if (path[0] === CATALOGUE) lines[Number(path[1])] = cellsAfter(step, lines);
  else path.slice(0, -1).reduce<Fields>((at, key) => at[key] as Fields, tree)[path.at(-1) ?? ''] = value;
  return { scenario: bytesOf(blockYaml(tree)), catalogue: bytesOf(lines.join('\n')) };
}

function cellsAfter({ path: [, row, cell], value }: Step, lines: readonly string[]): string {
  const cells = lines[Number(row)]?.split(',') ?? [];
  return cells.with(Number(cell), String(value)).join(',');
}

type Fields = Record<string, unknown>;

interface NumberAt {
  readonly path: readonly (string | number)[];
  readonly value: number | string;
}

/** Every number of a tree, with or without a unit. */
function numbersIn(value: unknown, path: readonly (string | number)[] = []): NumberAt[] {
  const isAmount = typeof value === 'string' && path.at(-1) !== 'name' && AMOUNT.test(value);
  if (typeof value === 'number' || isAmount) return [{ path, value }];
  if (typeof value !== 'object' || value === null || path[0] === 'shared') return [];
  const keys = Array.isArray(value) ? value.keys() : Object.keys(value);
  return [...keys].flatMap((key) => numbersIn((value as Fields)[key], [...path, key]));
}

/** Every number of a catalogue's springs. */
function cellsIn(catalogue: string): NumberAt[] {
  return catalogue
    .split('\n')
    .flatMap((line, row) =>
      line
        .split(',')
        .flatMap((cell, k) => (/^[\d.]+$/.test(cell) ? [{ path: [CATALOGUE, row, k], value: Number(cell) }] : [])),
    );
}

/** Every number of the question, by its option and its place in the text. */
function numbersAsked(): NumberAt[] {
  return Object.entries(QUESTION).flatMap(([option, text]) =>
    [...text.matchAll(NUMBER)].map(([value], k) => ({ path: [option, k], value: Number(value) })),
  );
}

/** The option with its number of that place exchanged. */
function textAfter({ path: [option = '', place], value }: Step): Question {
  let k = 0;
  const text = QUESTION[option as Option]?.replace(NUMBER, (number) => (k++ === place ? String(value) : number));
  return { [option]: text };
}

function resized(value: number | string, size: (number: number) => number): number | string {
  if (typeof value === 'number') return size(value);
  return value.replace(AMOUNT, (number) => String(size(Number(number))));
}
