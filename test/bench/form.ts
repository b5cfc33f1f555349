/**
 * What the form on the measuring sheet costs, one JSON line each, its limit beside it: its bytes, its first paint from
 * the disk, from a keystroke at the corner level to the answer, and from a car opened to what its sweep found.
 */

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { launch, spread } from './browser.ts';
import { catalogue } from './shapes.ts';

const PAINTS = 5;
const KEYSTROKES = 40;
const SWEEPS = 5;

const PAINTED = `performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN`;

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

/** The demo with 20,000 combinations an axle: 100 springs, two helpers, two stops, and mounts and trims that make up the rest. */
function twentyThousand(): Readonly<Record<string, string>> {
  const demo = readFileSync('scenarios/hill-hatch/scenario.yaml', 'utf8');
  const front = demo.replace('{ from: 0 mm, to: 40 mm, step: 5 mm }', '{ from: 0 mm, to: 45 mm, step: 5 mm }');
  const scenario = front.replace('{ from: 0 mm, to: 30 mm, step: 5 mm }', '{ from: 0 mm, to: 48 mm, step: 2 mm }');
  return { 'scenario.yaml': scenario, 'springs.csv': catalogue(100) };
}

/** The page is made here, in a folder that goes again. Run from the project's own folder, built. */
export async function formPage(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'springsift-form-'));
  execFileSync(process.execPath, ['dist/cli/main.js', 'measure', '--out', folder, '--force']);
  const browser = await launch();
  try {
    await measureIn(browser, join(folder, 'measure.html'));
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}

async function measureIn(browser: Browser, file: string): Promise<void> {
  say({ measure: 'form, size', kb: Math.round(statSync(file).size / 1024), limit_kb: 900 });
  const paints: number[] = [];
  for (let k = 0; k < PAINTS; k++) {
    const opened = await open(browser, file);
    paints.push((await opened.evaluate(PAINTED)) as number);
    await opened.close();
  }
  say({ measure: 'form, first paint from disk', loads: PAINTS, ...spread('paint', paints), limit_ms: 500 });
  const page = await open(browser, file);
  await openTexts(page, { 'scenario.yaml': CORNER });
  await page.waitForSelector('.axle-answer');
  const strokes: [number, number][] = [];
  for (let k = 0; k < KEYSTROKES; k++) {
    strokes.push((await page.evaluate(`(${STROKE})('${281 + (k % 7)} mm')`)) as [number, number]);
  }
  const [scripts, answers] = [strokes.map(([script]) => script), strokes.map(([, answer]) => answer)];
  const spreads = { ...spread('script', scripts), ...spread('to_answer', answers) };
  say({ measure: 'form, keystroke at the corner level', strokes: KEYSTROKES, ...spreads, limit_ms: 100 });
  const sweeps: number[] = [];
  for (let k = 0; k < SWEEPS; k++) {
    await openTexts(page, { 'scenario.yaml': CORNER });
    await page.waitForSelector('.setup-answer', { state: 'detached' });
    const start = performance.now();
    await openTexts(page, twentyThousand());
    await page.waitForSelector('.setup-answer', { timeout: 120_000 });
    sweeps.push(performance.now() - start);
  }
  say({ measure: 'form, 20,000 combinations an axle', setups: 2, ...spread('to_answer', sweeps), limit_ms: 1000 });
}

async function open(browser: Browser, file: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(file).href);
  await page.waitForSelector('.headline');
  return page;
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
