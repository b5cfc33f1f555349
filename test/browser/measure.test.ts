import { beforeAll, expect, test } from 'vitest';
import { blankSheet, drawMeasure, measureSheetOf } from '../../src/measure/measure.ts';
import { readReal } from '../setup/scenarios.ts';
import { expectAccessible, openPage, printPage } from './harness.ts';

const KINDS = ['blank', 'of the demo'] as const;
const sheets = new Map<string, string>();
beforeAll(async () => {
  sheets.set('blank', await drawMeasure(blankSheet('test')));
  sheets.set('of the demo', await drawMeasure(await measureSheetOf(await readReal('hill-hatch'), 'test')));
}, 300_000);

test.each(KINDS)('the sheet %s asks for nothing, is accessible and does not scroll sideways', (kind) =>
  expectAccessible(sheets.get(kind) ?? ''),
);

test.each(KINDS.flatMap((kind) => (['A4', 'Letter'] as const).map((format) => [kind, format] as const)))(
  'the sheet %s prints on two to four pages of %s',
  async (kind, format) => {
    const { page } = await openPage(sheets.get(kind) ?? '', { colorScheme: 'dark' });
    const { pages } = await printPage(page, format);
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(4);
  },
);
