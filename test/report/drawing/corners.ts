/** Judged corners of every kind as records of the result object, for tests of the drawing. */
import fc from 'fast-check';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import type { Corner, Site } from '../../../src/model/corner/site.ts';
import type { Working } from '../../../src/model/corner/window.ts';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { valuesOf } from '../../../src/result/quantities/quantity.ts';
import { partsOf, workingOf } from '../../../src/result/records/combination.ts';
import { failureOf } from '../../../src/result/records/sides.ts';
import type { CornerReport } from '../../../src/result/result.ts';
import { anyCorner, anySite, plainCorner } from '../../setup/corners.ts';

export interface Judged {
  readonly working: Working;
  readonly report: CornerReport;
}

export function judged(site: Site, corner: Corner): Judged {
  const working = workingOf(site, corner);
  const report: CornerReport = {
    id: 'F1',
    parts: partsOf(corner),
    values: valuesOf(cornerQuantities([]), working),
    words: { mount_bolted: corner.mount.bolted, wire_source: 'unknown' },
    failures: findingsOf(working.state).map(failureOf),
    flags: [],
    bands: {},
    tight: [],
  };
  return { working, report };
}

/** Every kind of upper and lower part together with the random ones: each contact comes up somewhere. */
export const anyDrawnCorner: fc.Arbitrary<Corner> = fc
  .record({
    corner: anyCorner,
    sleeve: fc.constantFrom({}, { outerDiameter: 50.8 }, { length: 175, trim: 0 }, { grooveDrop: 12 }),
    isolator: fc.constantFrom('plain', 'none', 'spigot'),
    mount: fc.constantFrom(
      {},
      { bore: 54, spigot: 3 },
      { bolted: 'below', spacer: 6 } as const,
      {
        seat: 'moving',
        raise: 32,
        bareRaise: 12,
        spacer: 20,
      } as const,
    ),
    body: fc.constantFrom(50, 55.5, 61.5),
    packer: fc.constantFrom({}, { packer: 5, packerDiameter: 58 }, { packer: 5, packerDiameter: 40 }),
    washers: fc.constantFrom(46, 49.8, 58),
    wire: fc.boolean(),
  })
  .map(({ corner, sleeve, isolator, mount, body, packer, washers, wire }) => ({
    ...corner,
    damper: { ...corner.damper, bodyDiameter: body },
    sleeve: { ...corner.sleeve, ...sleeve, bore: Math.max(body + 0.5, corner.sleeve.bore) },
    isolator: isolatorOf(isolator),
    mount: { ...corner.mount, ...mount, washerDiameter: washers },
    bumpStop: { ...corner.bumpStop, ...packer },
    spring: {
      ...corner.spring,
      wire: wire
        ? {
            diameter: 9.5,
            activeCoils: 7,
            totalCoils: 9,
            material: 'chrome_silicon',
            materialGiven: true,
            estimated: false,
          }
        : null,
    },
  }));

function isolatorOf(kind: string): Corner['isolator'] {
  const plain = plainCorner().isolator;
  if (kind === 'none' || plain === null) return null;
  return kind === 'spigot' ? { ...plain, spigot: 4 } : plain;
}

export const anyJudged: fc.Arbitrary<Judged> = fc
  .tuple(anySite, anyDrawnCorner)
  .map(([site, corner]) => judged(site, corner));
