/**
 * The corner model's functions say what they compute and in which units; where they give an equation, also where it
 * holds and who says so. Their worked examples are run.
 */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { checkExample, examplesOf, exportedFunctions, part } from '../setup/docs.ts';

const domain = fileURLToPath(new URL('../../src/domain', import.meta.url));
const FOLDERS = ['corner', 'cases'];
const FILES = ['motion.ts', 'stack.ts', 'bumpStop.ts'];

const files = [
  ...FILES,
  ...FOLDERS.flatMap((folder) => readdirSync(`${domain}/${folder}`).map((name) => `${folder}/${name}`)),
];
const functions = files.flatMap((file) => exportedFunctions(domain, file));

test('every exported function of the corner model is read by this test', async () => {
  for (const file of files) {
    const module: Record<string, unknown> = await import(`${domain}/${file}`);
    const exported = Object.keys(module).filter((key) => typeof module[key] === 'function');
    const read = functions.filter((f) => f.file === file).map((f) => f.name);
    expect(read.sort(), file).toEqual(exported.sort());
  }
  expect(functions.length).toBeGreaterThanOrEqual(60);
});

describe.each(functions)('$name in $file', ({ file, name, comment, parameters }) => {
  test('begins with what it is and names the units of its result and of every argument', () => {
    expect(comment.trim()).not.toMatch(/^(Equation|Units|Valid|Example|Source)/);
    const units = part(comment, 'Units');
    expect(units).toContain('result');
    for (const parameter of parameters) expect(units, parameter).toContain(`\`${parameter}\``);
    expect(comment).toMatch(/^Valid: \S/m);
  });

  test('says who stands behind an equation', () => {
    if (/^Equation: /m.test(comment)) expect(comment).toMatch(/^Source: \S/m);
  });

  test('agrees with its worked examples to the digits shown', async () => {
    const module: Record<string, (...args: unknown[]) => unknown> = await import(`${domain}/${file}`);
    for (const example of examplesOf(comment)) checkExample(example, name, module[name]);
  });
});

test('there are worked examples wherever plain arguments make one', () => {
  const shown = functions.filter(({ comment }) => examplesOf(comment).length > 0).map(({ name }) => name);
  expect(shown.length).toBeGreaterThanOrEqual(15);
});
