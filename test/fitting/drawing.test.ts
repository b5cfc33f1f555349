/** The picture of parts on the bench: what was measured to scale, the rest as such parts usually are. */
import { expect, test } from 'vitest';
import { benchDrawing, drawnCorner } from '../../src/fitting/drawing.ts';
import { benchSite, benchState, hopefulCorners } from '../../src/model/corner/bench.ts';
import { plainCorner, plainHelper, plainIsolator, plainSite } from '../setup/corners.ts';

const NAN = Number.NaN;
const unmeasured = plainCorner({
  damper: { bodyDiameter: NAN },
  mount: { bore: NAN, washerDiameter: NAN },
  isolator: { ...plainIsolator, bore: NAN },
  bumpStop: { diameter: NAN, packer: 5, packerDiameter: NAN },
  sleeve: { bore: NAN, outerDiameter: NAN },
  spring: { bore: NAN, rate: NAN },
  helper: { ...plainHelper, bore: NAN, rate: NAN },
});

test('what was measured is drawn as it is, a soft helper, too', () => {
  const corner = plainCorner({ helper: { ...plainHelper, rate: 0.5 }, bumpStop: { packer: 5, packerDiameter: 40 } });
  expect(drawnCorner(corner)).toEqual(corner);
});

test('diameters that nobody measured, taken to meet, to pass or to land, are drawn one inside the other', () => {
  for (const corner of [unmeasured, ...hopefulCorners(unmeasured)]) {
    const { damper, sleeve, spring, bumpStop, mount, isolator, helper } = drawnCorner(corner);
    const sizes = [damper.bodyDiameter, sleeve.bore, sleeve.outerDiameter, spring.bore];
    expect(sizes).toEqual([...new Set(sizes)].sort((a, b) => a - b));
    for (const size of [...sizes, bumpStop.diameter, bumpStop.packerDiameter, mount.washerDiameter, mount.bore]) {
      expect(size).toBeGreaterThan(30);
      expect(size).toBeLessThan(100);
    }
    expect([isolator?.bore, helper?.bore]).toEqual([spring.bore, spring.bore]);
  }
});

test('a picture holds no number that is none, with and without a place for the perch', () => {
  const site = benchSite('front', plainSite(), plainSite().margins);
  for (const corner of [unmeasured, plainCorner(), plainCorner({ damper: { compressed: 332 } })]) {
    const svg = benchDrawing(benchState(site, corner), 'a <b> & c');
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    expect(svg).toContain('<title>a &lt;b&gt; &amp; c</title>');
    expect(svg).toContain('damper 474.0 mm');
  }
});
