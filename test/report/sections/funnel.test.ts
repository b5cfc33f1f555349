import { expect, test } from 'vitest';
import { mostRejecting, nothingView } from '../../../src/report/sections/funnel.ts';
import { emptySetup, setup } from '../fixture.ts';

test('only axles of which nothing passes are named, with their worst check', () => {
  const view = nothingView(emptySetup('street'));
  expect(view.axles.map(({ axle, check }) => [axle, check])).toEqual([['front', 'coil bind']]);
  expect(view.pairs).toBeNull();
});

test('of two checks that reject equally many, the one judged first is named', () => {
  const { front } = setup('low').axles;
  const tally = { ...front, rejected: { ...front.rejected, fit: 20_000, coil_bind: 20_000 } };
  expect(mostRejecting(tally)).toEqual({ check: 'fit', rejected: 20_000 });
});
