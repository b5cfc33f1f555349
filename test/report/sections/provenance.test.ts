import { expect, test } from 'vitest';
import { screenOnly } from '../../../src/report/sections/provenance.ts';

test('what no section above leaves to the screen is not named', () => {
  expect(screenOnly([{ leaves: 'maps' }, { leaves: null }, { leaves: 'other weights' }])).toBe('maps, other weights');
});
