import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cornerDrawing, placeDrawing } from '../../../src/report/drawing/cornerDrawing.ts';
import { cornerLayout } from '../../../src/report/drawing/layout.ts';
import { cornerLengths, isDrawable } from '../../../src/result/records/lengths.ts';
import type { CornerReport } from '../../../src/result/result.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { anyJudged, judged } from './corners.ts';
import { outside, overlaps } from './words.ts';

const placed = (report: CornerReport) =>
  placeDrawing(cornerLayout(cornerLengths(report)), new Set(report.failures.map(({ check }) => check)));

const drawn = (report: CornerReport, title: string) =>
  cornerDrawing(
    cornerLayout(cornerLengths(report)),
    report.failures.map(({ check }) => check),
    { title },
  );

test('no words overlap or leave the sheet in the drawing of any corner, working or not', () => {
  fc.assert(
    fc.property(anyJudged, ({ report }) => {
      const drawing = placed(report);
      expect(overlaps(drawing)).toEqual([]);
      expect(outside(drawing)).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

test('the thinnest clearance alone is a diamond with heavy arrows, unless it fails: then it is a cross', () => {
  let failed = 0;
  fc.assert(
    fc.property(anyJudged, ({ report }) => {
      const { clearances } = cornerLayout(cornerLengths(report));
      const svg = drawn(report, 'corner');
      const fails = clearances.filter((gap) => gap.fails).length;
      failed += fails;
      const isThinShown = clearances.some((gap) => gap.isThinnest && !gap.fails);
      expect(svg.match(/class="mark thin"/g) ?? []).toHaveLength(isThinShown ? 1 : 0);
      expect(svg.match(/class="dim thin"/g) ?? []).toHaveLength(isThinShown ? 1 : 0);
      expect((svg.match(/<text class="fail" x="[^"]*"/g) ?? []).length).toBe(2 * fails);
    }),
  );
  expect(failed).toBeGreaterThan(0);
});

test('what fails away from the clearances is said at its place', () => {
  const { report } = judged(
    plainSite({ target: { ...plainSite().target, targetHeight: 300 } }),
    plainCorner({ spring: { ...plainCorner().spring, rate: 30, freeLength: 260 } }),
  );
  const checks = report.failures.map(({ check }) => check);
  expect(checks).toEqual(expect.arrayContaining(['bump_travel', 'perch_low', 'spring_loose']));
  const words = placed(report)
    .texts.filter(({ style }) => style === 'fail')
    .map(({ text }) => text);
  expect(words.some((text) => /^(to|in) stop .*: too little$/.test(text))).toBe(true);
  expect(words.some((text) => /^perch .*: too low$/.test(text))).toBe(true);
  expect(words.some((text) => /^loose .*: too much$/.test(text))).toBe(true);
});

test('lengths are drawn to the scale of the bar', () => {
  for (const bodyLength of [318, 290]) {
    const base = plainCorner();
    const corner = plainCorner({ damper: { ...base.damper, bodyLength } });
    const svg = drawn(judged(plainSite(), corner).report, 'corner');
    const [, from, to] = (/<path class="bar" d="M([\d.]+) [\d.]+v6M[\d.]+ [\d.]+H([\d.]+)/.exec(svg) ?? []).map(Number);
    const perMillimetre = ((to ?? Number.NaN) - (from ?? 0)) / 50;
    const eyes = Number(/<path class="axis" d="[^"]*M0 ([\d.]+)H/.exec(svg)?.[1]);
    const bodies = [...svg.matchAll(/<rect class="body" x="[^"]*" y="([^"]*)"/g)].map((match) => Number(match[1]));
    // Of the first figure: the eye's neck, the body, its top. A tenth of a unit is what the drawing rounds to.
    const tall = (eyes - Math.min(...bodies.slice(0, 3))) / perMillimetre;
    expect(tall / bodyLength).toBeCloseTo(1, 2);
  }
});

test('the picture has a name, a description with its numbers, and no colour or style of its own', () => {
  const { report } = judged(plainSite(), plainCorner());
  const svg = drawn(report, '<b> & "front"');
  expect(svg).toMatch(
    /^<svg class="drawing" [^>]*role="img"[^>]*><title>&lt;b&gt; &amp; &quot;front&quot;<\/title><desc>/,
  );
  expect(svg).toMatch(/<desc>full droop: damper 474\.0 mm, .*Clearances at full bump in mm: coil bind /);
  expect(svg).not.toMatch(/style=|fill=|stroke="|url\(|NaN|Infinity|undefined|href/);
  expect(drawn(report, 'x')).toBe(drawn(report, 'x'));
});

test('a record without lengths is not drawable, and says which length it lacks', () => {
  const { report } = judged(plainSite(), plainCorner());
  expect(isDrawable(report)).toBe(true);
  const bare = { ...report, values: { ...report.values, perch_mm: null } };
  expect(isDrawable(bare)).toBe(false);
  expect(() => cornerLengths(bare)).toThrow('has no length “perch” to draw');
});
