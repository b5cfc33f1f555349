/** Reading the doc comments of exported functions, and running the worked examples in them. */
import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

export interface Documented {
  readonly file: string;
  readonly name: string;
  readonly comment: string;
  readonly code: string;
  readonly parameters: readonly string[];
}

/** Every exported function of a file with the doc comment right above it. */
export function exportedFunctions(folder: string, file: string): Documented[] {
  const text = readFileSync(`${folder}/${file}`, 'utf8');
  const pattern =
    /(?:\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\n)?export function (\w+)\(([\s\S]*?)\)(?:: [^\n]*)? \{\n([\s\S]*?)\n\}\n/g;
  return [...text.matchAll(pattern)].map(([, comment = '', name = '', parameters = '', code = '']) => ({
    file,
    name,
    comment: comment.replace(/^\s*\* ?/gm, ''),
    code,
    parameters: [...parameters.matchAll(/(\w+)(?:: | = )/g)].map((m) => m[1] ?? ''),
  }));
}

/** The worked examples of a comment, as written. */
export function examplesOf(comment: string): string[] {
  return [...comment.matchAll(/^Example: (.+)$/gm)].map((m) => m[1] ?? '');
}

/** What stands behind a label of a comment, up to the next label. */
export function part(comment: string, label: string): string {
  const start = comment.indexOf(`${label}: `);
  const rest = comment.slice(start + label.length);
  const end = rest.search(/\n(Equation|Units|Valid|Example|Source): /);
  return end < 0 ? rest : rest.slice(0, end);
}

/** `name(JSON arguments).path = number`, the number to the digits shown. */
export function checkExample(example: string, name: string, formula: ((...args: unknown[]) => unknown) | undefined) {
  const found = /^(\w+)\((.*)\)((?:\.\w+)*) = (\S+)$/.exec(example);
  expect(found, `${example} reads as an example`).not.toBeNull();
  const [, called, args, path = '', shown = ''] = found ?? [];
  expect(called).toBe(name);
  let value = formula?.(...(JSON.parse(`[${args}]`) as unknown[]));
  for (const key of path.split('.').slice(1)) value = (value as Record<string, unknown>)[key];
  const decimals = /\.(\d+)$/.exec(shown)?.[1]?.length ?? 0;
  expect(Math.abs(Number(value) - Number(shown)), `${example}, computed ${value}`).toBeLessThanOrEqual(
    0.5 * 10 ** -decimals * (1 + 1e-9),
  );
}
