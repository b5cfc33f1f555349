import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CONTACTS } from '../../../src/model/corner/contacts.ts';
import { cornerLayout, type Span } from '../../../src/report/drawing/layout.ts';
import { cornerLengths } from '../../../src/result/records/lengths.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { anyJudged, judged } from './corners.ts';

const length = ([from, to]: Span) => to - from;
const layoutOf = (report: Parameters<typeof cornerLengths>[0]) => cornerLayout(cornerLengths(report));

test('every part stands where the model has it, to a billionth of a mm', () => {
  fc.assert(
    fc.property(anyJudged, ({ working: { state }, report }) => {
      const { positions, lengths, solid } = layoutOf(report);
      const { geometry, standing, full, corner } = state;
      const near = (found: number, wanted: number) => expect(found).toBeCloseTo(wanted, 9);
      near(positions.droop.shoulder, geometry.droopLength);
      near(positions.standing.shoulder, standing.length);
      near(positions.full.shoulder, full.length);
      near(lengths.slack, state.slack);
      near(lengths.stop.gap, standing.length - geometry.stopLength);
      near(length([standing.perch, solid.spring[1]]), geometry.stack.solidLength);
      for (const position of Object.values(positions)) {
        const give = position.name === 'full' ? corner.mount.bushGive : 0;
        near(position.seat, position.shoulder - geometry.seatBelowShoulder - give);
        near(position.flange, position.shoulder - geometry.flangeBelowShoulder - give);
        near(position.tower, position.shoulder - corner.mount.raise - give);
        near(position.sleeve[1], geometry.sleeveTop);
        near(position.perch[1], standing.perch);
        near(length(position.perch), corner.perch.height);
        near(position.lockRing[1], position.perch[0]);
        near(position.body[1], corner.damper.bodyLength);
        near(position.cut === null ? 0 : length(position.cut), corner.sleeve.trim);
      }
    }),
    { numRuns: 300 },
  );
});

test('standing, the stack reaches from perch to seat with the deflection that the model found', () => {
  let stood = 0;
  fc.assert(
    fc.property(anyJudged, ({ working: { state }, report }) => {
      const { standing, geometry } = state;
      fc.pre(standing.springForce > 0 && standing.deflection < geometry.stack.mainTravel + geometry.stack.helperTravel);
      stood++;
      const { spring, helper, coupler } = layoutOf(report).positions.standing;
      const whole = (helper ? length(helper) : 0) + (coupler ? length(coupler) : 0) + length(spring);
      expect(whole).toBeCloseTo(geometry.stack.freeLength - standing.deflection, 6);
      // Hooke: the main spring alone carries the whole force.
      const main = standing.springForce / state.corner.spring.rate;
      if (main < geometry.stack.mainTravel)
        expect(length(spring)).toBeCloseTo(state.corner.spring.freeLength - main, 6);
    }),
    { numRuns: 300 },
  );
  expect(stood).toBeGreaterThan(50);
});

test('each gap drawn at full bump is the clearance the model judges, for every contact there is', () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(anyJudged, ({ working: { state }, report }) => {
      const { clearances } = layoutOf(report);
      expect(clearances.map(({ name }) => name)).toEqual(state.contacts.map(({ name }) => name));
      for (const [k, gap] of clearances.entries()) {
        seen.add(gap.name);
        expect(length(gap.faces), gap.name).toBeCloseTo(state.contacts[k]?.clearance ?? Number.NaN, 9);
        expect(gap.fails).toBe(gap.spare < 0);
      }
      expect(clearances.filter(({ isThinnest }) => isThinnest)).toHaveLength(1);
    }),
    { numRuns: 1000 },
  );
  expect([...seen].sort()).toEqual([...CONTACTS].sort());
});

test('a proud sleeve holds the stop, which at full bump is as long as it is when closed', () => {
  const base = plainCorner();
  const proud = plainCorner({ sleeve: { ...base.sleeve, length: 175, trim: 0, bore: 45.5, outerDiameter: 57 } });
  const { positions } = layoutOf(judged(plainSite(), proud).report);
  // Hand arithmetic: sleeve top 160 + 175, stop 38 x 0.4.
  expect(positions.full.stop[0]).toBeCloseTo(335, 9);
  expect(length(positions.full.stop)).toBeCloseTo(15.2, 9);
  expect(length(positions.droop.stop)).toBe(38);
});

test('a stop that may land on the sleeve or enter it is drawn closed inside it, and its gap ends at the sleeve', () => {
  const base = plainCorner();
  const proud = plainCorner({ sleeve: { ...base.sleeve, length: 175, trim: 0, bore: 46.5, outerDiameter: 57 } });
  const { positions, lengths } = layoutOf(judged(plainSite(), proud).report);
  // Hand arithmetic: body top 318, closed 15.2; sleeve top 335, stop 38.
  expect(positions.full.stop[0]).toBeCloseTo(318, 9);
  expect(positions.full.stop[1]).toBeCloseTo(333.2, 9);
  expect(lengths.stop.gap).toBeCloseTo(positions.standing.shoulder - 38 - 335, 9);
});

test('a spacer raises a fixed mount’s plate and not its seat; a moving seat goes up with it', () => {
  const base = plainCorner();
  const seat = (kind: 'fixed' | 'moving', spacer: number) => {
    const mount = { ...base.mount, seat: kind, spacer, raise: base.mount.bareRaise + spacer };
    const { seat, tower, plate } = layoutOf(judged(plainSite(), plainCorner({ mount })).report).positions.standing;
    return { seat: seat - tower, plate: plate[0] - tower };
  };
  expect(seat('fixed', 10).seat).toBeCloseTo(seat('fixed', 0).seat, 9);
  expect(seat('moving', 10).seat).toBeCloseTo(seat('moving', 0).seat + 10, 9);
  expect(seat('fixed', 10).plate).toBeCloseTo(seat('fixed', 0).plate + 10, 9);
});
