/** The working of a combination out of a report alone: no file of the scenario is there any more. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, expect, test, vi } from 'vitest';
import { explain } from '../../../src/cli/run/explain.ts';
import { EXIT } from '../../../src/cli/terminal/exit.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { DEMO_IDS, sweptPage, sweptScenario } from '../../setup/scenarios.ts';
import { ROOT } from '../../setup/source-tree.ts';

const folder = mkdtempSync(join(tmpdir(), 'springsift-explain-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => vi.restoreAllMocks());

const [ID = ''] = DEMO_IDS['loaded-estate'].best;

function page(name: string, html: string): string {
  const path = join(folder, name);
  writeFileSync(path, html);
  return path;
}

async function explained(path: string): Promise<string> {
  let said = '';
  const stream = 'stdout';
  vi.spyOn(process[stream], 'write').mockImplementation((text) => {
    said += String(text);
    return true;
  });
  expect(await explain(path, ID, {})).toBe(EXIT.ok);
  vi.restoreAllMocks();
  return said;
}

test('a report is explained as its scenario is', { timeout: 300_000 }, async () => {
  const report = page('report.html', await sweptPage('loaded-estate'));
  const [fromReport, fromFile] = [
    await explained(report),
    await explained(join(ROOT, 'scenarios', 'loaded-estate', 'scenario.yaml')),
  ];
  expect(fromReport).toContain(ID);
  expect(fromReport).toBe(fromFile);
});

test('a page without a result, and a report whose inputs are read no longer, are refused', {
  timeout: 300_000,
}, async () => {
  await expect(explain(page('other.html', '<p>nothing</p>'), ID, {})).rejects.toThrow('without a result');
  const result = await sweptScenario('loaded-estate');
  const html = await reportHtml({ ...result, inputs: result.inputs.slice(1) });
  await expect(explain(page('lost.html', html), ID, {})).rejects.toThrow('in the inputs that the report carries');
});
