import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contactsAt } from '../../../src/domain/corner/contacts.ts';
import { geometryOf } from '../../../src/domain/corner/geometry.ts';
import type { Corner } from '../../../src/domain/corner/site.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { baseAt } from '../../../src/domain/motion.ts';
import { anyFullCorner, anySite, plainCorner, plainSite } from '../../setup/corners.ts';

const base = plainCorner();
const isolator = { name: 'isolator', price: null, thickness: 6, bore: 56, spigot: 0 };
const site = plainSite();

/** Contacts of a corner with the perch at 222 mm and the damper at 340 mm, by name: [length, clearance]. */
function contactsOf(change: Partial<Corner>) {
  const corner = plainCorner(change);
  const found = contactsAt(site, corner, geometryOf(site, corner), 222, 340);
  return Object.fromEntries(found.map((c) => [c.name, [c.length, c.clearance]]));
}

// Hand arithmetic: T = 160 + 140 - 15 = 285; a_fl = 12 + 6 = 18; a_seat = 18 + 6 = 24; give 2.
describe('where parts meet', () => {
  test('the spring is solid where perch, seat depth and solid height add up', () => {
    expect(contactsOf({}).coil_bind).toEqual([222 + 24 + 76, 340 - 322 - 2]);
  });

  test('a sleeve that does not pass the isolator meets it, one that does not pass the flange meets that', () => {
    const found = contactsOf({});
    expect(found.sleeve_isolator).toEqual([285 + 24, 340 - 309 - 2]);
    expect(found.sleeve_flange).toBeUndefined();
    const narrow = contactsOf({ isolator: { ...isolator, bore: 60 }, mount: { ...base.mount, bore: 57.5 } });
    expect(narrow.sleeve_isolator).toBeUndefined();
    expect(narrow.sleeve_flange).toEqual([285 + 18, 340 - 303 - 2]);
  });

  test('a part passes a bore only with the passing clearance to spare', () => {
    const bore = (mm: number) => contactsOf({ isolator: { ...isolator, bore: mm } });
    expect(bore(58).sleeve_isolator).toBeUndefined();
    expect(bore(57.9).sleeve_isolator).toBeDefined();
  });

  test('a locating spigot below the seat is met first', () => {
    expect(contactsOf({ isolator: { ...isolator, spigot: 5 } }).sleeve_isolator).toEqual([314, 24]);
  });

  test('washers wider than the sleeve bore are met at the shoulder, a packer below them', () => {
    const wide = { ...base.mount, washerDiameter: 52 };
    expect(contactsOf({ mount: wide }).sleeve_washers).toEqual([285, 55]);
    const packed = { ...base.bumpStop, packer: 8, packerDiameter: 52 };
    expect(contactsOf({ mount: wide, bumpStop: packed }).sleeve_washers).toEqual([293, 47]);
  });

  test('a packer that enters the sleeve, or none, is not met by it', () => {
    const packed = (packer: number, packerDiameter: number) =>
      contactsOf({ bumpStop: { ...base.bumpStop, packer, packerDiameter } }).sleeve_washers;
    // The sleeve's bore is 50.5, and 1 mm is needed to pass.
    expect(packed(8, 49.5)).toBeUndefined();
    expect(packed(8, 49.6)).toEqual([293, 47]);
    expect(packed(0, 49.6)).toBeUndefined();
  });

  test('a sleeve that passes isolator, flange and washers meets the plate above the shoulder', () => {
    const found = contactsOf({ isolator: { ...isolator, bore: 60 } });
    expect(found.sleeve_plate).toEqual([285 - 17, 340 - 268 - 2]);
    expect(contactsOf({}).sleeve_plate).toBeUndefined();
  });

  test('the body meets the isolator it does not pass', () => {
    const found = contactsOf({ isolator: { ...isolator, bore: 50 } });
    expect(found.body_isolator).toEqual([318 + 24, 340 - 342 - 2]);
    expect(contactsOf({}).body_isolator).toBeUndefined();
  });

  test('the damper itself bottoms without any give of the bush', () => {
    expect(contactsOf({}).damper).toEqual([320, 20]);
  });

  test('the tyre meets the arch at its measured height, the mount raise counted', () => {
    const low = contactsOf({}).tyre_arch?.[0] as number;
    const high = contactsOf({ mount: { ...base.mount, raise: 22 } }).tyre_arch?.[0] as number;
    expect(high - low).toBeCloseTo(10, 12);
  });
});

test('a stop too wide for a proud sleeve meets the sleeve instead of the body', () => {
  const proud = plainCorner({ sleeve: { ...base.sleeve, ledgeHeight: 190, trim: 0, bore: 45.5 } });
  expect(geometryOf(site, proud)).toMatchObject({ sleeveTop: 330, stopMeets: 'sleeve', stopLength: 330 + 38 });
  const entering = plainCorner({ sleeve: { ...base.sleeve, ledgeHeight: 190, trim: 0, bore: 50.5 } });
  expect(geometryOf(site, entering)).toMatchObject({ stopMeets: 'body', stopLength: 318 + 38 });
});

test('a stop within the passing clearance of a proud sleeve ends the travel on it and is closed against the body', () => {
  // Hand arithmetic: sleeve top 190 + 140, body 318, stop 38 closed to 0.4 of it. 46 passes 47 with the 1 mm asked for.
  const on = (bore: number, standingOnStop = false) => {
    const corner = plainCorner({ sleeve: { ...base.sleeve, ledgeHeight: 190, trim: 0, bore } });
    return geometryOf(plainSite({ standingOnStop }), corner);
  };
  const lengths = { stopLength: 330 + 38, squeezeLength: 318 + 38, closedLength: 318 + 15.2 };
  for (const bore of [46, 46.5, 46.99]) {
    expect(on(bore)).toMatchObject({ stopMeets: 'sleeve or body', stopMeetsAt: 330, stopClosesAt: 318, ...lengths });
  }
  expect(on(45.99)).toMatchObject({ stopMeets: 'sleeve', squeezeLength: 368, closedLength: 345.2 });
  expect(on(47)).toMatchObject({ stopMeets: 'body', stopLength: 356, closedLength: 333.2 });
  // A car that may stand on its stop stands no lower than with the stop closed on the sleeve.
  expect(on(46.5).lowestStanding).toBe(on(46.5).stopHeight);
  const { motion } = plainSite();
  expect(baseAt(motion, on(46.5, true).lowestStanding) + 12).toBeCloseTo(330 + 15.2, 9);
});

test('whichever a stop meets that may do either, travel and clearances are no better than judged', () => {
  let apart = 0;
  fc.assert(
    fc.property(anySite, anyFullCorner, (any, corner) => {
      const at = (diameter: number) => cornerState(any, { ...corner, bumpStop: { ...corner.bumpStop, diameter } });
      const { bore } = corner.sleeve;
      const [enters, either, lands] = [at(bore - 1), at(bore - 0.5), at(bore + 0.5)];
      fc.pre(either.geometry.stopMeets === 'sleeve or body' && any.target.targetHeight > lands.geometry.stopHeight);
      expect(either.bumpTravel).toBe(lands.bumpTravel);
      expect(either.bumpTravel).toBeLessThanOrEqual(enters.bumpTravel);
      for (const one of [enters, lands]) {
        for (const { name, clearance } of one.contacts) {
          const judged = either.contacts.find((contact) => contact.name === name);
          expect(judged?.clearance ?? Number.NaN, name).toBeLessThanOrEqual(clearance + 1e-9);
        }
      }
      apart++;
    }),
    { numRuns: 400 },
  );
  expect(apart).toBeGreaterThan(20);
});

test('something else may end the droop before the damper does', () => {
  const strap = plainSite({ lowestWheelHeight: 380 });
  expect(geometryOf(strap, base).droopLength).toBeLessThan(474);
  expect(geometryOf(strap, base).droopHeight).toBeCloseTo(380, 9);
  expect(geometryOf(plainSite({ lowestWheelHeight: 450 }), base).droopLength).toBe(474);
});
