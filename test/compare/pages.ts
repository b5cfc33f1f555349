/** What the tests of the comparing pages share. */
import type { AxleName } from '../../src/model/scenario.ts';
import type { Combination, CornerReport } from '../../src/result/result.ts';

/** The words of a page, its tags and styles left out. */
export const textOf = (html: string) =>
  html
    .replace(/<style[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');

export const withCorner = (whole: Combination, axle: AxleName, change: Partial<CornerReport>): Combination => ({
  ...whole,
  axles: { ...whole.axles, [axle]: { ...whole.axles[axle], ...change } },
});

export const TIGHT = [{ contact: 'coil bind', clearance_mm: 6, worst_mm: -2.54, measure: 'the spring' }];
