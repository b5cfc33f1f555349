// Refreshes the sample in reports/: sweeps the demo scenario from source, keeps its report, and photographs the parts
// of it that the README shows. Run it through tsx (`npm run sample`), which reads the TypeScript it imports.

import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { chooseBrowser } from '../test/setup/chromium.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const reports = join(root, 'reports');
const name = 'hill-hatch';

/** What each picture shows: a file of reports/ and the element of the page. */
const PICTURES = [
  { file: `${name}.png`, selector: null },
  { file: `${name}-drawing.png`, selector: '#drawing svg' },
  { file: `${name}-bench.png`, selector: '#live .bench-work' },
  { file: `${name}-windows.png`, selector: '#windows .pairs' },
  { file: `${name}-build-sheet.png`, selector: '#build-sheet .sheet-heights' },
];
const WIDTH = 1180;
const HEIGHT = 1200;

const out = mkdtempSync(join(tmpdir(), 'springsift-sample-'));
try {
  sweepInto(out);
  mkdirSync(reports, { recursive: true });
  copyFileSync(join(out, 'report.html'), join(reports, `${name}.html`));
  await photograph(join(reports, `${name}.html`));
} finally {
  rmSync(out, { recursive: true, force: true });
}

function sweepInto(folder) {
  const command = ['--import', 'tsx', 'src/cli/main.ts', 'sweep', `scenarios/${name}/scenario.yaml`, '--out', folder];
  const { status } = spawnSync(process.execPath, [...command, '--force'], { cwd: root, stdio: 'ignore' });
  if (status !== 0) throw new Error(`springsift sweep ended with ${status}`);
}

async function photograph(page) {
  const { executable, environment } = await chooseBrowser();
  const browser = await chromium.launch({
    executablePath: executable,
    // The same flags as the browser tests: no sandbox for a browser started as root, the same glyphs everywhere.
    args: ['--no-sandbox', '--disable-gpu', '--font-render-hinting=none'],
    env: { ...process.env, ...environment },
  });
  try {
    const context = await browser.newContext({ viewport: { width: WIDTH, height: HEIGHT }, colorScheme: 'light' });
    const tab = await context.newPage();
    await tab.goto(pathToFileURL(page).href);
    for (const { file, selector } of PICTURES) {
      const path = join(reports, file);
      await (selector === null ? tab.screenshot({ path }) : tab.locator(selector).first().screenshot({ path }));
    }
  } finally {
    await browser.close();
  }
  process.stdout.write(`wrote reports/${name}.html and ${PICTURES.map(({ file }) => `reports/${file}`).join(', ')}\n`);
}
