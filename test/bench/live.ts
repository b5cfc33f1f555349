/**
 * What a movement of a slider costs in a report's live bench, one JSON line a slider: median and 95th percentile, in
 * milliseconds, of what the script takes and of script and layout together.
 *
 *   npx tsx test/bench/live.ts out/hill-hatch/report.html
 */

import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { launch, spread } from './browser.ts';

const SLIDERS = ['bench-height', 'bench-stop', 'bench-load', 'bench-travel'];
const MOVES = 240;

/** Runs in the page: a slider moved to and fro, once a frame. */
const DRAG = `async (id) => {
  const slider = document.getElementById(id);
  const [min, max] = [Number(slider.min), Number(slider.max)];
  const [script, whole] = [[], []];
  for (let k = 0; k < ${MOVES}; k++) {
    slider.value = String(min + (max - min) * (0.5 + 0.45 * Math.sin(k / 15)));
    const start = performance.now();
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    script.push(performance.now() - start);
    void document.body.offsetHeight;
    whole.push(performance.now() - start);
    await new Promise(requestAnimationFrame);
  }
  return [script, whole];
}`;

async function main(file: string): Promise<void> {
  const browser = await launch();
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(resolve(file)).href);
  await page.evaluate(`document.querySelector('.bench-picture').scrollIntoView()`);
  for (const slider of SLIDERS) {
    const [script, whole] = (await page.evaluate(`(${DRAG})('${slider}')`)) as [number[], number[]];
    const record = { slider, moves: MOVES, ...spread('script', script), ...spread('with_layout', whole) };
    process.stdout.write(`${JSON.stringify(record)}\n`);
  }
  await browser.close();
}

await main(process.argv[2] ?? 'reports/hill-hatch.html');
