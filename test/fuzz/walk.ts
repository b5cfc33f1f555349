/**
 * A walk over every scalar field of the scenarios that come with the tool: each in turn becomes nothing, tiny, huge and
 * negative, and what is not refused is swept, drawn, explained and audited. No output may hold what is no number.
 */
import { blockYaml } from './blockYaml.ts';
import { bytesOf, type Input, SEEDS, slim } from './corpus.ts';
import { judge, type Verdict } from './judge.ts';

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

/** Springs that work, so that there is something to say of them. */
const SPRINGS = /^(?:name|HS280-34|HS220-58|HS260-58|LE320-44|LE280-58)\b/;

/** The scenarios with very few options, and one build shown of each setup. */
const STARTS = SEEDS.filter(({ small, name }) => !small && name !== 'fixture').map(({ name, tree, catalogue }) => {
  const few = slim(tree, catalogue.includes('HS') || catalogue.includes('LE') ? 4 : 2) as Record<
    string,
    Record<string, unknown>
  >;
  const springs = catalogue.split('\n').filter((line) => SPRINGS.test(line));
  return { name, tree: { ...few, ranking: { ...few.ranking, keep: 2 } }, catalogue: `${springs.join('\n')}\n` };
});

export const STEPS: readonly Step[] = STARTS.flatMap(({ name, tree }) =>
  numbersIn(tree).flatMap(({ path, value }) =>
    SIZES.map((size) => ({ scenario: name, path, value: resized(value, size) })),
  ),
);

/** @throws an error that names the step and what is wrong with what came out */
export async function take(step: Step): Promise<Verdict> {
  try {
    return await judge(inputAfter(step), true);
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

/** Takes every so many of the steps. */
export async function walk(each: number, say: (line: string) => void = () => undefined): Promise<Walked> {
  const counts = { refused: 0, clean: 0, swept: 0 };
  const failures: string[] = [];
  for (const [k, step] of STEPS.entries()) {
    if (k % each !== 0) continue;
    try {
      counts[await take(step)]++;
    } catch (error) {
      failures.push(`${(error as Error).message}: ${(error as Error).cause}`);
      say(failures.at(-1) ?? '');
    }
    if (k % (100 * each) === 0) say(`${k} of ${STEPS.length}: ${JSON.stringify(counts)}, ${failures.length} failures`);
  }
  return { ...counts, failures };
}

function inputAfter({ scenario, path, value }: Step): Input {
  const start = STARTS.find(({ name }) => name === scenario);
  const tree = structuredClone(start?.tree) as unknown as Fields;
  path.slice(0, -1).reduce<Fields>((at, key) => at[key] as Fields, tree)[path.at(-1) ?? ''] = value;
  return { scenario: bytesOf(blockYaml(tree)), catalogue: bytesOf(start?.catalogue ?? '') };
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

function resized(value: number | string, size: (number: number) => number): number | string {
  if (typeof value === 'number') return size(value);
  return value.replace(AMOUNT, (number) => String(size(Number(number))));
}
