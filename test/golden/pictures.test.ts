/**
 * Drawings and charts of the scenarios that come with the tool, compared with stored ones byte for byte. A stored
 * picture proves nothing about the numbers: it shows what a change changed, to be looked at.
 */

import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Drawing } from '../../src/report/charts/draw.ts';
import { placeDrawing } from '../../src/report/drawing/cornerDrawing.ts';
import { cornerLayout } from '../../src/report/drawing/layout.ts';
import { drawingsView } from '../../src/report/sections/drawing.ts';
import { forcesView } from '../../src/report/sections/forces.ts';
import { mapsView } from '../../src/report/sections/maps.ts';
import { bandsViews } from '../../src/report/sections/sureness.ts';
import { answerOf } from '../../src/report/text/answers.ts';
import { cornerLengths } from '../../src/result/records/lengths.ts';
import type { Result, SetupResult } from '../../src/result/result.ts';
import { outside, overlaps } from '../report/drawing/words.ts';
import { SCENARIOS, sweptScenario } from '../setup/scenarios.ts';

const REFRESH = 'UPDATE_GOLDEN=1 npx vitest run --config test/vitest.config.ts test/golden';
const isRefresh = process.env.UPDATE_GOLDEN === '1';

/** A sweep of a whole scenario takes its time on a busy machine. */
const PATIENCE = 300_000;
const swept = new Map(SCENARIOS.map((name) => [name, sweptScenario(name)]));

test.each([...swept])(
  'the pictures of %s are the stored ones',
  async (name, sweeping) => {
    const result = await sweeping;
    const pictures: [string, string][] = [];
    for (const setup of result.setups) pictures.push(...(await picturesOf(result, setup)));
    expect(pictures.length).toBeGreaterThanOrEqual(6);
    for (const [picture, svg] of pictures) compare(`${name}-${picture}.svg`, `${svg}\n`);
  },
  PATIENCE,
);

test.each([...swept])(
  'no words overlap or leave the sheet in any drawing of the shortlist of %s',
  async (_, sweeping) => {
    const { setups } = await sweeping;
    const all = setups.flatMap(({ shortlist }) => shortlist.flatMap(({ axles }) => [axles.front, axles.rear]));
    expect(all.length).toBeGreaterThan(10);
    for (const corner of all) {
      const drawing = placeDrawing(cornerLayout(cornerLengths(corner)), new Set());
      expect(overlaps(drawing)).toEqual([]);
      expect(outside(drawing)).toEqual([]);
    }
  },
  PATIENCE,
);

function compare(name: string, svg: string): void {
  const file = new URL(name, import.meta.url);
  if (isRefresh) {
    mkdirSync(new URL('.', import.meta.url), { recursive: true });
    writeFileSync(file, svg);
  }
  const stored = existsSync(file) ? readFileSync(file, 'utf8') : '';
  expect(svg === stored, `${name} differs from the stored picture. Look at it, and if it is right: ${REFRESH}`).toBe(
    true,
  );
}

async function picturesOf(result: Result, setup: SetupResult): Promise<[string, string][]> {
  const answer = answerOf(result, setup);
  if (answer === null) throw new Error(`Setup ${setup.name} has no answer.`);
  const drawings = drawingsView(result, answer)?.corners ?? [];
  const forces = (await forcesView(result, answer))?.charts ?? [];
  const maps = await mapsView(result, answer);
  const bands = await bandsViews(answer.combination);
  const charts: [string, Drawing | null | undefined][] = [
    ...forces.map(({ axle, drawing }): [string, Drawing] => [`forces-${axle}`, drawing]),
    ...bands.map(({ title, drawing }): [string, Drawing] => [`bands-${title.toLowerCase()}`, drawing]),
    ['frequencies', maps?.frequencies?.drawing],
    ['trade', maps?.trade?.drawing],
    ...(maps?.springs ?? []).map(({ axle, drawing }): [string, Drawing] => [`springs-${axle}`, drawing]),
  ];
  const svgs = charts.flatMap(([kind, chart]): [string, string][] => (chart ? [[kind, whole(chart)]] : []));
  return [...drawings.map(({ axle, svg }): [string, string] => [`drawing-${axle}`, svg]), ...svgs].map(
    ([kind, svg]) => [`${setup.name}-${kind}`, svg.replaceAll('><', '>\n<')],
  );
}

function whole({ viewBox, body }: Drawing): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${viewBox}">${body}</svg>`;
}
