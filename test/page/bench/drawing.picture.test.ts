import fc from 'fast-check';
import { expect, test } from 'vitest';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import { markupOf, pictureOf } from '../../../src/page/bench/drawing.ts';
import { placeAt } from '../../../src/page/bench/travel.ts';
import { anyJudged } from '../../report/drawing/corners.ts';
import { outside, overlaps } from '../../report/drawing/words.ts';

const shares = fc.double({ min: -1, max: 1, noNaN: true });
const judgedOf = ({ state }: { readonly state: Parameters<typeof findingsOf>[0] }) => {
  const { site, corner, geometry } = state;
  return { site, corner, geometry, state, findings: findingsOf(state) };
};
const count = (text: string, pattern: RegExp) => (text.match(pattern) ?? []).length;

test('the drawing is whole at any place of any corner, with no style of its own', () => {
  fc.assert(
    fc.property(anyJudged, shares, ({ working }, share) => {
      const picture = pictureOf(judgedOf(working), share);
      const { width, height } = picture;
      const body = markupOf(picture);
      expect(body).not.toMatch(/style=|NaN|Infinity|undefined|href|<script|on\w+=/);
      expect(width).toBe(356);
      expect(height).toBeGreaterThanOrEqual(300);
    }),
    { numRuns: 200 },
  );
});

test('no words overlap or leave the sheet at any place of any corner, working or not', () => {
  fc.assert(
    fc.property(anyJudged, shares, ({ working }, share) => {
      const picture = pictureOf(judgedOf(working), share);
      expect(overlaps(picture)).toEqual([]);
      expect(outside(picture)).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

test('each failing clearance has a cross at its words and one where it happens, each other failing check one', () => {
  let crosses = 0;
  fc.assert(
    fc.property(anyJudged, ({ working }) => {
      const judged = judgedOf(working);
      const body = markupOf(pictureOf(judged, 1));
      const gaps = judged.state.contacts.filter(({ clearance, margin }) => clearance < margin).length;
      crosses += gaps;
      expect(count(body, /<text class="fail" x=/g)).toBe(2 * gaps);
      expect(count(body, /class="mark fail"/g)).toBeGreaterThanOrEqual(gaps);
      for (const { check } of judged.findings) {
        if (check === 'bump_travel') expect(body).toContain('too little bump');
        if (check === 'droop_travel') expect(body).toContain('too little droop');
        if (check === 'perch_low') expect(body).toContain('too low');
        if (check === 'perch_high') expect(body).toContain('too high');
        if (check === 'spring_loose') expect(body).toContain('loose at droop');
        if (check === 'frequency') expect(body).toContain('frequency outside');
      }
    }),
    { numRuns: 200 },
  );
  expect(crosses).toBeGreaterThan(20);
});

test('lengths are markupOf to one scale: the damper and its body keep their proportion over the travel', () => {
  fc.assert(
    fc.property(anyJudged, ({ working }) => {
      const judged = judgedOf(working);
      const scales = [-1, 0, 1].map((share) => {
        const body = markupOf(pictureOf(judged, share));
        const eyes = Number(/<path class="axis" d="[^"]*M0 ([\d.]+)H/.exec(body)?.[1]);
        const bodies = [...body.matchAll(/<rect class="body" x="[^"]*" y="([^"]*)"/g)].map((match) => Number(match[1]));
        const top = Math.min(...bodies.slice(0, 3));
        expect(placeAt(judged.state, share).length).toBeGreaterThan(0);
        return (eyes - top) / judged.corner.damper.bodyLength;
      });
      // A tenth of a unit is what the drawing rounds to.
      for (const scale of scales) expect(scale / (scales[0] ?? 0)).toBeCloseTo(1, 2);
    }),
    { numRuns: 50 },
  );
});
