/**
 * What the form on the measuring sheet costs, one JSON line each: its bytes, its first paint from the disk, from a
 * keystroke at the corner level to the answer, and a sweep of the demo in the page.
 *
 *   npx tsx test/bench/form.ts out/measure/measure.html
 */

import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium, type Page } from 'playwright-core';
import { chooseBrowser } from '../setup/chromium.ts';

const KEYSTROKES = 40;

const CORNER = `springsift: 1
axles:
  front:
    wheel_load: 300 kg
    motion: { mount_raise: 12 mm, pairs: [{ hub_to_arch: 340 mm, damper_length: 410 mm }], ratio: 0.95 }
    dampers: [{ extended: 474 mm, compressed: 324 mm, body_length: 318 mm }]
    mounts: [{ raise: 12 mm, flange_depth: -10 mm }]
    bump_stops: [{ length: 60 mm, cut_length: 38 mm, closed_fraction: 0.35 }]
    sleeves: [{ ledge_height: 150 mm, length: 160 mm, trim: 20 mm }]
    perches: [{ height: 11 mm }]
    springs: [{ free_length: 280 mm, rate: 34 N/mm, solid_height: 116 mm }]
`;

/** Runs in the page: types a digit more and takes the time until the answer says something else. */
const STROKE = `async (value) => {
  const field = document.querySelector('#f-axles-front-springs-0-free_length');
  const facts = () => document.querySelector('.axle-answer .facts')?.textContent ?? '';
  const [before, start] = [facts(), performance.now()];
  field.value = value;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  const script = performance.now() - start;
  while (facts() === before || facts() === '') await new Promise(requestAnimationFrame);
  return [script, performance.now() - start];
}`;

const demoFile = (name: string) => fileURLToPath(new URL(`../../scenarios/hill-hatch/${name}`, import.meta.url));

async function main(file: string): Promise<void> {
  const { executable, environment } = await chooseBrowser();
  const browser = await chromium.launch({
    executablePath: executable,
    args: ['--no-sandbox', '--disable-gpu'],
    env: { ...(process.env as Record<string, string>), ...environment },
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(resolve(file)).href);
  await page.waitForSelector('.headline');
  const paint = await page.evaluate(`performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? null`);
  say({ measure: 'form', kb: Math.round(statSync(file).size / 1024), first_paint_ms: paint });
  await openTexts(page, { 'scenario.yaml': CORNER });
  await page.waitForSelector('.axle-answer');
  const strokes: [number, number][] = [];
  for (let k = 0; k < KEYSTROKES; k++) {
    strokes.push((await page.evaluate(`(${STROKE})('${281 + (k % 7)} mm')`)) as [number, number]);
  }
  say({
    measure: 'keystroke at the corner level',
    strokes: KEYSTROKES,
    ...spread(
      'script',
      strokes.map(([script]) => script),
    ),
    ...spread(
      'to_answer',
      strokes.map(([, whole]) => whole),
    ),
  });
  const start = performance.now();
  const texts = ['scenario.yaml', 'springs.csv'].map((name) => [name, readFileSync(demoFile(name), 'utf8')]);
  await openTexts(page, Object.fromEntries(texts));
  await page.waitForSelector('.setup-answer', { timeout: 120_000 });
  const combinations = await page.locator('.axle-answer').count();
  say({
    measure: 'demo swept in the page',
    seconds: Number(((performance.now() - start) / 1000).toFixed(2)),
    combinations,
  });
  await browser.close();
}

async function openTexts(page: Page, texts: Readonly<Record<string, string>>): Promise<void> {
  const files = Object.entries(texts).map(([name, text]) => ({
    name,
    mimeType: 'text/plain',
    buffer: Buffer.from(text),
  }));
  await page.setInputFiles('input[type=file]', files);
}

function say(record: object): void {
  process.stdout.write(`${JSON.stringify(record)}\n`);
}

function spread(name: string, times: readonly number[]) {
  const rising = [...times].sort((a, b) => a - b);
  const at = (share: number) => Number((rising[Math.floor(share * (rising.length - 1))] ?? Number.NaN).toFixed(1));
  return { [`${name}_median_ms`]: at(0.5), [`${name}_p95_ms`]: at(0.95) };
}

await main(process.argv[2] ?? 'out/measure/measure.html');
