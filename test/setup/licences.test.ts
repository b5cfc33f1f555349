/** What comes along with an installation may be passed on. */

import { expect, test } from 'vitest';
import { LICENCES, productionPackages } from './licences.ts';

test('the licence of every package that is installed with the program is one of those allowed', () => {
  const packages = productionPackages();
  expect(packages.length).toBeGreaterThan(50);
  expect(packages.filter(({ licence }) => !LICENCES.includes(licence))).toEqual([]);
});
