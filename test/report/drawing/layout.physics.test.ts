import { expect, test } from 'vitest';
import { importsOf, readFiles } from '../../setup/source-tree.ts';

/** The records of checks and contacts: names, faces and places. */
const RECORDS = /^src\/model\/corner\/(?:checks|checkRecord|contacts)\.ts$/;

test('a drawing takes names from the model and lengths from the result, and computes no force', () => {
  const files = readFiles(['src/report/drawing'], '.ts');
  expect(files.length).toBeGreaterThan(5);
  const taken = files.flatMap((file) => importsOf(file).map(({ file: to }) => ({ from: file.path, to: to ?? '' })));
  expect(taken.some(({ to }) => RECORDS.test(to))).toBe(true);
  expect(taken.filter(({ to }) => to.startsWith('src/model/') && !RECORDS.test(to))).toEqual([]);
  const forces = /\b(?:forceAt|deflectionUnder|rateUnder|springStack)\b|\brate\b/;
  expect(files.filter(({ text }) => forces.test(text)).map(({ path }) => path)).toEqual([]);
});
