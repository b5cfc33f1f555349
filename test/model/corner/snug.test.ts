import { expect, test } from 'vitest';
import { contactsAt, giveFor } from '../../../src/model/corner/contacts.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { collarTurns, snugAt } from '../../../src/model/corner/snug.ts';
import { anyFullCorner, anyFullSite, plainCorner, plainHelper, plainSite } from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

const site = plainSite();
const plain = plainCorner();
const at = (perch: number, corner = plain) => snugAt(corner, geometryOf(site, corner), perch);

// Hand arithmetic: a_seat = 12 + 6 + 6 = 24, L0 = 220, S0 = 76; the stop is met at 318 + 38 = 356, and closes by
// 38 x 0.6 = 22.8; the damper is 474 long.
test('with the perch at 222 the spring is snug at 466, 110 from the stop, and keeps 11.2 with the stop closed', () => {
  const found = at(222);
  expect(found.length).toBe(222 + 24 + 220);
  expect(found).toMatchObject({ benchLength: 466, preload: 0, looseness: 474 - 466, gap: 466 - 356, benchGap: 110 });
  expect(found.springTravel).toBe(220 - 76);
  expect(found.stopTravel).toBeCloseTo(110 + 22.8, 12);
  expect(found.spare).toBeCloseTo(144 - 132.8, 12);
});

test('a perch wound up to 240 preloads by 10: the damper is out, and the ruler finds 10 less than the snug gap', () => {
  const found = at(240);
  expect(found.length).toBe(240 + 24 + 220);
  expect(found).toMatchObject({ benchLength: 474, preload: 10, looseness: 0, gap: 128, benchGap: 118 });
  expect(found.spare).toBeCloseTo(144 - (128 + 22.8), 12);
});

test('a gap below 0 says that the stop is met before the spring is snug', () => {
  const spring = { freeLength: 100 };
  expect(at(222, plainCorner({ spring })).gap).toBe(222 + 24 + 100 - 356);
});

test('helper and coupler are part of what is snug, and of what goes solid', () => {
  const helper = plainHelper;
  const found = at(180, plainCorner({ helper }));
  expect(found.length).toBe(180 + 24 + 220 + 50 + 4);
  expect(found.springTravel).toBe(220 - 76 + (50 - 12));
});

test('a sleeve that stands proud of the body is where the gap is measured from', () => {
  const corner = plainCorner({ sleeve: { ledgeHeight: 200 }, bumpStop: { diameter: 55 } });
  // T = 200 + 140 - 15 = 325, above the body's 318.
  expect(at(222, corner).gap).toBe(466 - (325 + 38));
});

test('on any corner and at any perch height the spare is the clearance to coil bind with the stop closed', () => {
  forAny([anyFullSite, anyFullCorner, between(120, 320)], 500, (anySite, corner, perch) => {
    const geometry = geometryOf(anySite, corner);
    const found = snugAt(corner, geometry, perch);
    const bind = contactsAt(anySite, corner, geometry, perch, geometry.closedLength).find(
      (c) => c.name === 'coil_bind',
    );
    expect(found.spare).toBeCloseTo((bind?.clearance ?? Number.NaN) + giveFor(corner, 'coil_bind'), 9);
    // What a ruler finds says the same: preload has used up as much of the gap as of the spring.
    const left = found.springTravel - found.preload;
    const way = found.benchGap + found.stopTravel - found.gap;
    expect(left - way).toBeCloseTo(found.spare, 9);
    expect(Math.min(found.preload, found.looseness)).toBe(0);
    expect(found.length + found.looseness - found.preload).toBeCloseTo(corner.damper.extended, 9);
  });
});

test('a collar rises by its pitch a turn, goes down with negative turns, and turns unknown without a pitch', () => {
  expect(collarTurns({ threadPitch: 2 }, 214, 179)).toBe(17.5);
  expect(collarTurns({ threadPitch: 1.5 }, 200, 203)).toBe(-2);
  expect(collarTurns({ threadPitch: null }, 214, 179)).toBeNull();
});
