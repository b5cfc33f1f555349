/**
 * Functions of the model say what they compute and in which units; where they give an equation, also where it holds and
 * who says so. Every formula has all of that, in a comment longer than its code. Worked examples are run: an example that
 * disagrees with the code fails here.
 */

import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { checkExample, examplesOf, exportedFunctions, part } from './setup/docs.ts';

const model = fileURLToPath(new URL('../src/model', import.meta.url));
/** Records, sentences and scores: no physics of their own. */
const OTHERS = /^(?:messages|flagMessages|checks|checkRecord|options|score|verdict)\.ts$/;
const PARTS = ['Equation', 'Units', 'Valid', 'Example', 'Source'];
const filesIn = (folder: string) => {
  const names = readdirSync(`${model}/${folder}`).filter((name) => name.endsWith('.ts') && !OTHERS.test(name));
  return names.map((name) => `${folder}/${name}`);
};

const cornerFiles = ['motion.ts', 'stack.ts', 'bumpStop.ts', ...filesIn('corner')];
const functionsIn = (files: readonly string[]) => files.flatMap((file) => exportedFunctions(model, file));
const [ofCorner, formulas] = [functionsIn(cornerFiles), functionsIn(filesIn('formula'))];

test.each([
  ['corner model', cornerFiles, ofCorner, 60],
  ['formula folder', filesIn('formula'), formulas, 30],
] as const)('every exported function of the %s is read by this test', async (_, files, functions, least) => {
  for (const file of files) {
    const module: Record<string, unknown> = await import(`${model}/${file}`);
    const exported = Object.keys(module).filter((key) => typeof module[key] === 'function');
    const read = functions.filter((f) => f.file === file).map((f) => f.name);
    expect(read.sort(), file).toEqual(exported.sort());
  }
  expect(functions.length).toBeGreaterThanOrEqual(least);
});

describe.each([...ofCorner, ...formulas])('$name in $file', ({ file, name, comment, parameters }) => {
  test('begins with what it is and names the units of its result and of every argument', () => {
    expect(comment.trim(), 'first a sentence that says what it is').not.toMatch(new RegExp(`^(${PARTS.join('|')})`));
    const units = part(comment, 'Units');
    expect(units).toContain('result');
    for (const parameter of parameters) expect(units, parameter).toContain(`\`${parameter}\``);
    expect(comment).toMatch(/^Valid: \S/m);
  });

  test('says who stands behind an equation', () => {
    if (/^Equation: /m.test(comment)) expect(comment).toMatch(/^Source: \S/m);
  });

  test('agrees with its worked examples to the digits shown', async () => {
    const module: Record<string, (...args: unknown[]) => unknown> = await import(`${model}/${file}`);
    for (const example of examplesOf(comment)) checkExample(example, name, module[name]);
  });
});

describe.each(formulas)('$name in $file', ({ comment, code }) => {
  test('has every part of its description, longer than its code', () => {
    for (const part of PARTS) expect(comment, part).toMatch(new RegExp(`^${part}: \\S`, 'm'));
    expect(examplesOf(comment).length).toBeGreaterThan(0);
    expect(comment.length).toBeGreaterThan(code.length);
  });
});

test('there are worked examples wherever plain arguments make one', () => {
  const shown = ofCorner.filter(({ comment }) => examplesOf(comment).length > 0).map(({ name }) => name);
  expect(shown.length).toBeGreaterThanOrEqual(15);
});
