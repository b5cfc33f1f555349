import { expect, test } from 'vitest';
import { CHANGES } from '../../src/advice/changes.ts';
import { Walls } from '../../src/advice/pairCure.ts';
import type { Box, HalfPlane, Pair } from '../../src/advice/straight.ts';
import type { CheckName } from '../../src/model/corner/checks.ts';
import type { FitName } from '../../src/model/corner/fit.ts';
import type { Corner } from '../../src/model/corner/site.ts';
import { plainCorner, plainSite } from '../setup/corners.ts';

const site = plainSite();
const corner = plainCorner();
const [trim, spacer, stop] = CHANGES as [Pair[0], Pair[0], Pair[0]];
const pair: Pair = [trim, spacer];
const box: Box = [
  [0, 60],
  [0, 40],
];
/** At most -2 anywhere in the box, and at most 2. */
const wall: HalfPlane = [0, 0.5, -22];
const hill: HalfPlane = [0, 0.5, -18];

function noted(on: Corner, check: CheckName, side: HalfPlane, detail: FitName | '' = '') {
  const walls = new Walls(site);
  walls.note(on, pair, [{ check, detail, side }], box);
  return walls;
}
const cut: Corner = { ...corner, sleeve: { ...corner.sleeve, trim: 30 }, perch: { ...corner.perch, height: 13 } };

test('a margin that nothing within the limits makes up stands in the way of every sleeve and perch of the damper set', () => {
  const walls = noted(corner, 'bump_travel', wall);
  expect(walls.stand(corner, pair)).toBe(true);
  expect(walls.stand(cut, pair)).toBe(true);
});

test('but not of another pair of changes, another damper set, another spring', () => {
  const walls = noted(corner, 'bump_travel', wall);
  expect(walls.stand(cut, [trim, stop])).toBe(false);
  expect(walls.stand({ ...cut, bumpStop: { ...corner.bumpStop } }, pair)).toBe(false);
  expect(walls.stand({ ...cut, spring: { ...corner.spring } }, pair)).toBe(false);
});

test('what can be made up, or is a matter of the sleeve, is no wall', () => {
  expect(noted(corner, 'bump_travel', hill).stand(cut, pair)).toBe(false);
  expect(noted(corner, 'bump_travel', [0, 0.5, -20]).stand(cut, pair)).toBe(false);
  expect(noted(corner, 'perch_low', wall).stand(cut, pair)).toBe(false);
  expect(noted(corner, 'fit', wall, 'spring_over_sleeve').stand(cut, pair)).toBe(false);
  expect(noted(corner, 'fit', wall, 'stop_in_mount').stand(cut, pair)).toBe(true);
  expect(new Walls(site).stand(corner, pair)).toBe(false);
});

test('where the stop can meet the sleeve nothing is taken for granted', () => {
  const proud = plainCorner({
    sleeve: { ...corner.sleeve, ledgeHeight: 200 },
    bumpStop: { ...corner.bumpStop, diameter: 55 },
  });
  expect(noted(proud, 'bump_travel', wall).stand(proud, pair)).toBe(false);
  const walls = noted(corner, 'bump_travel', wall);
  // The same damper set on a sleeve that its stop can meet.
  const tall: Corner = { ...corner, sleeve: { ...corner.sleeve, ledgeHeight: 230, bore: 46.5 } };
  expect(walls.stand(tall, pair)).toBe(false);
});
