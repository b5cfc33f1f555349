/** The bench test of a corner at its places of the perch, by hand: body 318, stop 38, seat 24 below the shoulder. */

import { expect, test } from 'vitest';
import { benchReports } from '../../../src/audit/fit/audit.ts';
import { motionCurve } from '../../../src/model/motion.ts';
import { plainCorner, plainSite, plainTarget } from '../../setup/corners.ts';

const site = plainSite({ tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } });
const corner = plainCorner();

test('at its lowest place, the target, the highest safe and the highest place spring and stop travel are told', () => {
  const reports = benchReports({ site, corner });
  expect(reports.map(({ where }) => where)).toEqual(['lowest', 'target', 'highest safe', 'highest']);
  const [lowest, , safe, highest] = reports;
  // 160 + 8 + 11 and 160 + 140 - 15; coil bind allows 333.2 - 24 - 76 - 2 - 6.
  expect([lowest?.perch_mm, highest?.perch_mm]).toEqual([179, 285]);
  expect(safe?.perch_mm).toBeCloseTo(225.2, 6);
  // Snug at 179 + 244 = 423 the gap is 67; the stop gives 0.6 x 38, the spring 220 - 76.
  expect(lowest).toMatchObject({ gap_mm: 67, spring_travel_mm: 144, give_mm: 2, margin_mm: 6, preload_mm: 0 });
  expect(lowest?.stop_squeeze_mm).toBeCloseTo(22.8, 9);
  expect(lowest?.stop_travel_mm).toBeCloseTo(89.8, 9);
  expect(lowest?.spare_mm).toBeCloseTo(144 - 89.8 - 2, 9);
  expect(safe?.spare_mm).toBeCloseTo(6, 6);
});

test('without a usable window no place is the highest safe one', () => {
  const places = (at: typeof site) => benchReports({ site: at, corner }).map(({ where }) => where);
  const pairs = [275, 305, 335, 365, 395].map((hubToArch) => {
    const u = hubToArch - 335;
    return { hubToArch, damperLength: 409.5 + 0.75 * u + 4e-3 * u * u, raise: 12 };
  });
  expect(places({ ...site, motion: motionCurve({ pairs, ratio: null }) })).toEqual(['lowest', 'target', 'highest']);
  // As the spring rattles by 7.5 mm at the target, 1 mm allowed and 6 mm kept to coil bind leave no height at all.
  expect(places({ ...site, target: { ...site.target, allowedSlack: 1 } })).toEqual(['lowest', 'target', 'highest']);
});
