/** What comes along with an installation may be passed on, and is listed. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { LICENCES, licenceTable, productionPackages } from './licences.ts';

test('the licence of every package that is installed with the program is one of those allowed', () => {
  const packages = productionPackages();
  expect(packages.length).toBeGreaterThan(50);
  expect(packages.filter(({ licence }) => !LICENCES.includes(licence))).toEqual([]);
});

test('DEVELOPERS.md lists them', () => {
  const developers = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
  expect(developers).toContain(licenceTable());
});
