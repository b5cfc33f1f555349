/**
 * Every formula says what it computes, in which units, where it holds and who says so, and its worked example is run.
 * A part that is missing, a comment shorter than its code, or an example that disagrees with the code fails here.
 */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { checkExample, examplesOf, exportedFunctions, part } from '../setup/docs.ts';

const folder = fileURLToPath(new URL('../../src/domain/formula', import.meta.url));
const PARTS = ['Equation', 'Units', 'Valid', 'Example', 'Source'] as const;

const files = readdirSync(folder).filter((name) => name.endsWith('.ts'));
const formulas = files.flatMap((file) => exportedFunctions(folder, file));

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
    const examples = examplesOf(comment);
    expect(examples.length).toBeGreaterThan(0);
    for (const example of examples) checkExample(example, name, module[name]);
  });
});
