import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layoutAt, placeAt } from '../../../src/page/bench/travel.ts';
import { anyJudged } from '../../report/drawing/corners.ts';

const shares = fc.double({ min: -1, max: 1, noNaN: true });

test('the ends of the travel and standing are the model’s own lengths, to the last bit', () => {
  fc.assert(
    fc.property(anyJudged, ({ working: { state } }) => {
      const { geometry, standing, full, corner } = state;
      expect(placeAt(state, -1)).toMatchObject({ length: geometry.droopLength, height: geometry.droopHeight });
      expect(placeAt(state, 0)).toMatchObject({ length: standing.length, height: standing.height, travel: 0 });
      expect(placeAt(state, 1)).toMatchObject({ length: full.length, height: full.height });
      expect(placeAt(state, 1).give).toBe(corner.mount.bushGive);
    }),
    { numRuns: 100 },
  );
});

test('every part stands where the model has it at any place of the travel, to a billionth of a mm', () => {
  fc.assert(
    fc.property(anyJudged, shares, ({ working: { state } }, share) => {
      const place = placeAt(state, share);
      const { positions, lengths } = layoutAt(state, place);
      const { full } = positions;
      const { geometry, corner, standing } = state;
      const near = (found: number, wanted: number) => expect(Math.abs(found - wanted)).toBeLessThan(1e-9);
      near(full.shoulder, place.length);
      near(full.sleeve[1], geometry.sleeveTop);
      near(full.perch[1], standing.perch);
      near(full.body[1], corner.damper.bodyLength);
      near(full.seat, place.length - geometry.seatBelowShoulder - place.give);
      near(full.flange, place.length - geometry.flangeBelowShoulder - place.give);
      near(full.tower, place.length - corner.mount.raise - place.give);
      near(lengths.stop.meetsAt, geometry.stopMeetsAt);
      near(place.toStop, place.length - geometry.stopLength);
    }),
    { numRuns: 200 },
  );
});

test('at full bump each gap that is markupOf is the clearance that was judged', () => {
  fc.assert(
    fc.property(anyJudged, ({ working: { state } }) => {
      const { clearances } = layoutAt(state, placeAt(state, 1));
      for (const gap of clearances) {
        const judged = state.contacts.find(({ name }) => name === gap.name);
        expect(Math.abs(gap.faces[1] - gap.faces[0] - (judged?.clearance ?? Number.NaN))).toBeLessThan(1e-9);
      }
    }),
    { numRuns: 200 },
  );
});

test('the bush is pressed in with the stop: not before it is met, and wholly at full bump', () => {
  fc.assert(
    fc.property(anyJudged, shares, ({ working: { state } }, share) => {
      const { give, length } = placeAt(state, share);
      expect(give).toBeGreaterThanOrEqual(0);
      expect(give).toBeLessThanOrEqual(state.corner.mount.bushGive);
      if (length > state.geometry.stopLength && share < 1) expect(give).toBe(0);
    }),
    { numRuns: 200 },
  );
});
