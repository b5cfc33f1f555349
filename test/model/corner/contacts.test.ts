import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { surplusAt } from '../../../src/model/corner/balance.ts';
import { bumpLoad, CONTACTS, contactsAt, wheelStopLabel } from '../../../src/model/corner/contacts.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { baseAt } from '../../../src/model/motion.ts';
import {
  anyCorner,
  anyFullCorner,
  anySite,
  type CornerChange,
  plainCorner,
  plainSite,
  stopCurve,
} from '../../setup/corners.ts';
import { forAny } from '../../setup/random.ts';

const base = plainCorner();
const site = plainSite();

/** Contacts of a corner with the perch at 222 mm and the damper at 340 mm, by name: [length, clearance]. */
function contactsOf(change: CornerChange) {
  const corner = plainCorner(change);
  const found = contactsAt(site, corner, geometryOf(site, corner), 222, 340);
  return Object.fromEntries(found.map((c) => [c.name, [c.length, c.clearance]]));
}

// Hand arithmetic: T = 160 + 140 - 15 = 285; a_fl = 12 + 6 = 18; a_seat = 18 + 6 = 24; give 2.
describe('where parts meet', () => {
  const passed = { isolator: { bore: 60 } };
  const wide = { mount: { washerDiameter: 52 } };

  test.each([
    ['the spring is solid where perch, seat depth and solid height add up', 'coil_bind', {}, [222 + 24 + 76, 16]],
    ['a sleeve that does not pass the isolator meets it', 'sleeve_isolator', {}, [285 + 24, 340 - 309 - 2]],
    ['and not the flange', 'sleeve_flange', {}, undefined],
    ['nor the plate', 'sleeve_plate', {}, undefined],
    ['one that passes the isolator does not meet it', 'sleeve_isolator', passed, undefined],
    [
      'nor does one that passes by just the passing clearance',
      'sleeve_isolator',
      { isolator: { bore: 58 } },
      undefined,
    ],
    ['with less than that it does', 'sleeve_isolator', { isolator: { bore: 57.9 } }, [309, 29]],
    ['one that does not pass the flange meets that', 'sleeve_flange', { ...passed, mount: { bore: 57.5 } }, [303, 35]],
    ['one that passes isolator, flange and washers meets the plate above', 'sleeve_plate', passed, [285 - 17, 70]],
    ['a locating spigot below the seat is met first', 'sleeve_isolator', { isolator: { spigot: 5 } }, [314, 24]],
    ['washers wider than the sleeve bore are met at the shoulder', 'sleeve_washers', wide, [285, 55]],
    ['the body meets the isolator it does not pass', 'body_isolator', { isolator: { bore: 50 } }, [318 + 24, -4]],
    ['and none that it passes', 'body_isolator', {}, undefined],
    ['the damper itself bottoms without any give of the bush', 'damper', {}, [320, 20]],
  ] as const)('%s: %s', (_, name, change, expected) => {
    expect(contactsOf(change)[name]).toEqual(expected);
  });

  test('a packer that the sleeve does not pass is met below the washers', () => {
    expect(contactsOf({ ...wide, bumpStop: { packer: 8, packerDiameter: 52 } }).sleeve_washers).toEqual([293, 47]);
  });

  test('a packer that enters the sleeve, or none, is not met by it', () => {
    const packed = (packer: number, packerDiameter: number) =>
      contactsOf({ bumpStop: { packer, packerDiameter } }).sleeve_washers;
    // The sleeve's bore is 50.5, and 1 mm is needed to pass.
    expect(packed(8, 49.5)).toBeUndefined();
    expect(packed(8, 49.6)).toEqual([293, 47]);
    expect(packed(0, 49.6)).toBeUndefined();
  });

  test('the tyre meets the arch at its measured height, the mount raise counted', () => {
    const low = contactsOf({}).tyre_arch?.[0] as number;
    const high = contactsOf({ mount: { raise: 22 } }).tyre_arch?.[0] as number;
    expect(high - low).toBeCloseTo(10, 12);
  });
});

test('a stop too wide for a proud sleeve meets the sleeve instead of the body', () => {
  const proud = plainCorner({ sleeve: { ledgeHeight: 190, trim: 0, bore: 45.5 } });
  expect(geometryOf(site, proud)).toMatchObject({ sleeveTop: 330, stopMeets: 'sleeve', stopLength: 330 + 38 });
  const entering = plainCorner({ sleeve: { ledgeHeight: 190, trim: 0, bore: 50.5 } });
  expect(geometryOf(site, entering)).toMatchObject({ stopMeets: 'body', stopLength: 318 + 38 });
});

test('a stop within the passing clearance of a proud sleeve ends the travel on it and is closed against the body', () => {
  // Hand arithmetic: sleeve top 190 + 140, body 318, stop 38 closed to 0.4 of it. 46 passes 47 with the 1 mm asked for.
  const on = (bore: number, standingOnStop = false) => {
    const corner = plainCorner({ sleeve: { ledgeHeight: 190, trim: 0, bore } });
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
  forAny([anySite, anyFullCorner], 400, (any, corner) => {
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
  });
  expect(apart).toBeGreaterThan(20);
});

test('something else may end the droop before the damper does', () => {
  const strap = plainSite({ lowestWheelHeight: 380 });
  expect(geometryOf(strap, base).droopLength).toBeLessThan(474);
  expect(geometryOf(strap, base).droopHeight).toBeCloseTo(380, 9);
  expect(geometryOf(plainSite({ lowestWheelHeight: 450 }), base).droopLength).toBe(474);
});

test('judged closed, full bump is where the stop is closed', () => {
  const { full, geometry } = cornerState(plainSite(), plainCorner());
  // Hand arithmetic: B + p + 0.4 b = 318 + 0 + 0.4 x 38.
  expect(full.length).toBeCloseTo(333.2, 12);
  expect(full.height).toBe(geometry.closedHeight);
});

test('judged under a load, spring, gas and stop balance it, kept between stop closed and stop just met', () => {
  let balanced = 0;
  forAny([anySite, anyCorner], 500, (site, corner) => {
    fc.pre(site.bump.kind === 'load');
    const { full, geometry, standing } = cornerState(site, corner);
    expect(full.length).toBeGreaterThanOrEqual(geometry.closedLength - 1e-9);
    expect(full.length).toBeLessThanOrEqual(geometry.stopLength + 1e-9);
    const surplus = surplusAt(site, corner, geometry, full.height, bumpLoad(site), standing.perch);
    // A balance found on the spring gone solid is a step of the force, not a zero: coil bind rejects it.
    const solidAt = standing.perch + geometry.seatBelowShoulder + geometry.stack.solidLength;
    if (full.length > geometry.closedLength && full.length < geometry.stopLength && full.length > solidAt + 1e-6) {
      balanced++;
      expect(Math.abs(surplus)).toBeLessThan(1e-6 * bumpLoad(site));
    }
  });
  expect(balanced).toBeGreaterThan(30);
});

test('a harder bump goes deeper, and the heaviest state counts', () => {
  const corner = plainCorner({ bumpStop: { length: 60, curve: stopCurve } });
  const at = (multiple: number, heaviestLoad = plainSite().sprungLoad) =>
    cornerState(plainSite({ bump: { kind: 'load', multiple }, heaviestLoad }), corner).full.length;
  expect(at(3)).toBeLessThan(at(2));
  expect(at(2, 1.5 * plainSite().sprungLoad)).toBeCloseTo(at(3), 9);
});

test('a setup judged with the stop closed has no bump load', () => {
  expect(bumpLoad(plainSite())).toBe(0);
  expect(bumpLoad(plainSite({ bump: { kind: 'load', multiple: 3 } }))).toBeCloseTo(3 * 237 * 9.80665, 9);
});

test('every end of a wheel’s way has words of its own', () => {
  const ends = [...CONTACTS, 'closed_stop', 'droop'] as const;
  expect(new Set(ends.map(wheelStopLabel)).size).toBe(ends.length);
  expect([wheelStopLabel('closed_stop'), wheelStopLabel('droop')]).toEqual(['bump stop closed', 'full droop']);
});
