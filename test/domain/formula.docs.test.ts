/**
 * Every formula says what it computes, in which units, where it holds and who says so, and its worked example is run.
 * A part that is missing, a comment shorter than its code, or an example that disagrees with the code fails here.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const folder = fileURLToPath(new URL('../../src/domain/formula', import.meta.url));
const PARTS = ['Equation', 'Units', 'Valid', 'Example', 'Source'] as const;

interface Documented {
  readonly file: string;
  readonly name: string;
  readonly comment: string;
  readonly code: string;
  readonly parameters: readonly string[];
}

/** Every exported function of a file with the doc comment right above it. */
function exportedFunctions(file: string): Documented[] {
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

const files = readdirSync(folder).filter((name) => name.endsWith('.ts'));
const formulas = files.flatMap(exportedFunctions);

test('every exported function of the formula folder is read by this test', async () => {
  for (const file of files) {
    const module: Record<string, unknown> = await import(`${folder}/${file}`);
    const exported = Object.keys(module).filter((key) => typeof module[key] === 'function');
    expect(
      formulas
        .filter((f) => f.file === file)
        .map((f) => f.name)
        .sort(),
    ).toEqual(exported.sort());
  }
  expect(formulas.length).toBeGreaterThanOrEqual(30);
});

describe.each(formulas)('$name in $file', ({ file, name, comment, code, parameters }) => {
  test('has every part of its description', () => {
    for (const part of PARTS) expect(comment, part).toMatch(new RegExp(`^${part}: \\S`, 'm'));
    expect(comment.trim(), 'first a sentence that says what it is').not.toMatch(
      /^(Equation|Units|Valid|Example|Source)/,
    );
  });

  test('names every argument and the result among its units', () => {
    const units = part(comment, 'Units');
    expect(units).toContain('result');
    for (const parameter of parameters) expect(units, parameter).toContain(`\`${parameter}\``);
  });

  test('has a comment longer than its code', () => {
    expect(comment.length).toBeGreaterThan(code.length);
  });

  test('agrees with its worked example to the digits shown', async () => {
    const module: Record<string, (...args: unknown[]) => unknown> = await import(`${folder}/${file}`);
    const examples = [...comment.matchAll(/^Example: (.+)$/gm)].map((m) => m[1] ?? '');
    expect(examples.length).toBeGreaterThan(0);
    for (const example of examples) checkExample(example, name, module[name]);
  });
});

function part(comment: string, label: string): string {
  const start = comment.indexOf(`${label}: `);
  const rest = comment.slice(start + label.length);
  const end = rest.search(/\n(Equation|Units|Valid|Example|Source): /);
  return end < 0 ? rest : rest.slice(0, end);
}

/** `name(JSON arguments).path = number`, the number to the digits shown. */
function checkExample(example: string, name: string, formula: ((...args: unknown[]) => unknown) | undefined) {
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
