import { expect, test } from 'vitest';
import { fitsOf } from '../../../src/model/corner/fit.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { type CornerChange, plainCorner, plainSite } from '../../setup/corners.ts';

const site = plainSite();

/** Fits of a corner by name: [spare, needed]. */
function fits(change: CornerChange) {
  const corner = plainCorner(change);
  return Object.fromEntries(fitsOf(site, corner, geometryOf(site, corner)).map((f) => [f.name, [f.spare, f.needed]]));
}

test('bores over what goes through them', () => {
  expect(fits({})).toMatchObject({
    ...{ spring_over_sleeve: [60 - 57, 1], sleeve_over_body: [0.5, 0], spring_over_spigot: [0.5, 0] },
    ...{ stop_in_mount: [62 - 46, 1], stop_in_isolator: [56 - 46, 1] },
  });
});

test('helper and coupler must pass the sleeve', () => {
  const helper = { bore: 59, couplerBore: 57 };
  expect(fits({ helper })).toMatchObject({ helper_over_sleeve: [2, 1], coupler_over_sleeve: [0, 1] });
  expect(fits({ helper: { ...helper, coupler: 0 } }).coupler_over_sleeve).toBeUndefined();
});

test('a stop whose packer brings it below flange and isolator need not pass their bores', () => {
  const packed = { packer: 30, packerDiameter: 40 };
  expect(fits({ bumpStop: packed }).stop_in_mount).toBeUndefined();
  expect(fits({ bumpStop: packed }).stop_in_isolator).toBeUndefined();
});

test('a stop that begins at the flange’s face need not pass it, one that begins a little above must', () => {
  // The flange lies 12 + 6 mm below the shoulder, the isolator's face 6 lower.
  const packed = (packer: number) => fits({ bumpStop: { packer, packerDiameter: 40 } });
  expect(packed(18).stop_in_mount).toBeUndefined();
  expect(packed(17.9).stop_in_mount).toBeDefined();
  expect(packed(24).stop_in_isolator).toBeUndefined();
  expect(packed(23.9).stop_in_isolator).toBeDefined();
  // A spigot below the flange reaches further down.
  const spigot = fits({ bumpStop: { packer: 20, packerDiameter: 40 }, mount: { spigot: 4 } });
  expect(spigot.stop_in_mount).toBeDefined();
});

test('nut and jam nut on full thread, and not on the plain shank', () => {
  // Stack 3 + 14 + 4 + 12 + 3 = 36 above the shoulder.
  expect(fits({ rodEnd: { threadEnd: 56 } })).toMatchObject({
    thread_start: [36 - 28, 0],
    thread_end: [56 - 36 - 14, 0],
  });
  expect(fits({}).thread_start).toBeUndefined();
});
