import { expect, test } from 'vitest';
import { assumedGroups } from '../../../src/report/sections/given.ts';

const common = 'common practice, no source';

test('values of one source stand together, what both axles share once, what was left out by name', () => {
  const groups = assumedGroups([
    { field: 'axles.front.isolators[1].spigot', value: '0 mm', source: common },
    { field: 'axles.front.bushes', value: 'not given: no rubber bush acts as a spring', source: 'left out' },
    { field: 'axles.rear.isolators[1].spigot', value: '0 mm', source: common },
    { field: 'axles.rear.rod_ends', value: 'none', source: common },
    { field: 'margins.tyre', value: '8 mm', source: common },
  ]);
  expect(groups).toEqual([
    { source: common, values: ['isolators.spigot 0 mm', 'rear rod_ends none', 'margins.tyre 8 mm'] },
    { source: 'left out', values: ['front bushes'] },
  ]);
});
