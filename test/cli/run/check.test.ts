/** Slips of the pen told by the commands that read a scenario: on stderr, with their place, and nothing is refused. */

import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { audit } from '../../../src/cli/run/audit.ts';
import { check } from '../../../src/cli/run/check.ts';
import { measure } from '../../../src/cli/run/measure.ts';
import { sweep } from '../../../src/cli/run/sweep.ts';
import { EXIT } from '../../../src/cli/terminal/exit.ts';
import { type DrawingThread, draw } from '../../../src/pipeline/drawing.ts';
import type { Result } from '../../../src/result/result.ts';
import { printed } from '../../setup/printed.ts';
import { ROOT } from '../../setup/source-tree.ts';

let folder = '';
let scenario = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-slips-'));
  await cp(join(ROOT, 'scenarios', 'hill-hatch'), join(folder, 'car'), { recursive: true });
  scenario = join(folder, 'car', 'scenario.yaml');
  await replace(scenario, 'unsprung_mass: 26 kg', 'unsprung_mass: 57 lb   # 26 kg');
  await replace(scenario, 'bar_rate: 9 N/mm', 'bar_rate: 90 N/mm');
  await replace(join(folder, 'car', 'springs.csv'), 'HS180-64,180,64,84.4', 'HS180-64,180,64,8.44');
});
afterAll(() => rm(folder, { recursive: true, force: true }));
afterEach(() => vi.restoreAllMocks());

async function replace(path: string, from: string, to: string): Promise<void> {
  const text = await readFile(path, 'utf8');
  expect(text).toContain(from);
  await writeFile(path, text.replace(from, to));
}

test('check names every value that is assumed, and nothing of it where none is', async () => {
  const unsure = join(folder, 'unsure');
  await cp(join(folder, 'car'), unsure, { recursive: true });
  const path = join(unsure, 'scenario.yaml');
  await replace(path, 'unsprung_mass: 31 kg', 'unsprung_mass: unknown');
  const { out } = printed();
  expect(await check(path, {})).toBe(EXIT.ok);
  expect(out().replace(/\s+/g, ' ')).toContain(
    'assumed axles.front.unsprung_mass: 32 kg, 12 kg either way (common practice, no source)',
  );
  vi.restoreAllMocks();
  const without = printed();
  await check(scenario, {});
  expect(without.out()).not.toContain('assumed');
});

const drawings: DrawingThread = { getReady() {}, sketch() {}, draw, async close() {} };

test('check tells slips with file, line and column, what is usual and what explains them, and ends with 0', async () => {
  const { out, err } = printed();
  expect(await check(scenario, {})).toBe(EXIT.ok);
  expect(out()).toMatch(/^Hill hatch: no problem\./);
  expect(err()).toBe(
    [
      `${scenario}:30:66: warning: found \`bar_rate\` of \`90 N/mm\``,
      '  usual: 0 N/mm to 80 N/mm (common practice, no source)',
      '  advice: lbf/in meant as N/mm, `90 lbf/in` or a factor of ten, `9 N/mm`? A figure that is right may stay',
      `${join(folder, 'car', 'springs.csv')}:11:17: warning: found \`solid_height_mm, HS180-64\` of \`8.44 mm\``,
      '  usual: 20 mm to 260 mm (common practice, no source)',
      '  advice: inches meant as mm, `8.44 in` or a factor of ten, `84.4 mm`? A figure that is right may stay',
      '2 warnings: the figures are taken as they stand.',
      '',
    ].join('\n'),
  );
});

test('a scenario without a slip is told of nothing on stderr, and one slip is counted as one', async () => {
  const { err } = printed();
  await check(join(ROOT, 'scenarios', 'loaded-estate', 'scenario.yaml'), {});
  expect(err()).toBe('');
  const built = join(folder, 'one');
  await cp(join(ROOT, 'scenarios', 'hill-hatch'), built, { recursive: true });
  await replace(join(built, 'scenario.yaml'), 'bar_rate: 9 N/mm', 'bar_rate: 90 N/mm');
  await check(join(built, 'scenario.yaml'), {});
  expect(err()).toMatch(/1 warning: the figure is taken as it stands\.\n$/);
});

test('sweep tells them, too, and its page and record carry them with the names of the inputs', async () => {
  const { err } = printed();
  const out = join(folder, 'swept');
  expect(await sweep([scenario], { out, quiet: true }, drawings)).toBe(EXIT.ok);
  expect(err()).toContain('warning: found `bar_rate` of `90 N/mm`');
  const { warnings } = JSON.parse(await readFile(join(out, 'results.json'), 'utf8')) as Result;
  expect(warnings?.map(({ file, line, column }) => [file, line, column])).toEqual([
    ['scenario.yaml', 30, 66],
    ['springs.csv', 11, 17],
  ]);
  const page = await readFile(join(out, 'report.html'), 'utf8');
  expect(page.slice(page.indexOf('id="input-warnings"'), page.indexOf('id="answer"'))).toMatch(
    /2 figures are not usual.*“90 N\/mm”.*“8\.44 mm”/s,
  );
});

test('measure and audit tell them, audit those of the measurements as well', async () => {
  const { err } = printed();
  await measure(scenario, { out: join(folder, 'sheet'), quiet: true });
  expect(err()).toContain('warning: found `bar_rate`');
  const built = join(folder, 'built');
  await cp(join(ROOT, 'scenarios', 'loaded-estate'), built, { recursive: true });
  const measured = join(built, 'built', 'measured.yaml');
  const text = await readFile(measured, 'utf8');
  const [line = '', value = ''] = /^.*sleeve_length: (\S+) mm.*$/m.exec(text) ?? [];
  await writeFile(measured, text.replace(line, line.replace(`${value} mm`, `${Number(value) / 10} mm`)));
  await audit(join(built, 'scenario.yaml'), measured, { out: join(folder, 'audited') });
  expect(err()).toMatch(/measured\.yaml:\d+:\d+: warning: found `sleeve_length` of/);
  expect(err()).toMatch(/a factor of ten, `\d+(\.\d+)? mm`\?/);
});
