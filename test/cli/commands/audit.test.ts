import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { springsift } from '../../setup/run.ts';

let folder = '';
let scenario = '';
let measured = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-audit-'));
  await cp(fileURLToPath(new URL('../../../scenarios/hill-hatch/', import.meta.url)), join(folder, 'car'), {
    recursive: true,
  });
  scenario = join(folder, 'car', 'scenario.yaml');
  measured = join(folder, 'car', 'built', 'measured.yaml');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const SLOW = { timeout: 300_000 };

test('audit writes page and record, and refuses to replace them', SLOW, async () => {
  const out = join(folder, 'out');
  const ran = await springsift(['audit', scenario, measured, '--out', out]);
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  expect((await readdir(out)).sort()).toEqual(['audit.html', 'audit.json']);
  const record = JSON.parse(await readFile(join(out, 'audit.json'), 'utf8')) as { schema: string; units: unknown[] };
  expect([record.schema, record.units.length]).toEqual(['springsift-audit', 3]);
  const again = await springsift(['audit', scenario, measured, '--out', out]);
  expect(again.code).toBe(1);
  expect(again.stderr).toContain('--force');
});

test(
  'adopting writes beside the scenario, over it only with --force, and what it writes checks clean',
  SLOW,
  async () => {
    const before = await readFile(scenario, 'utf8');
    const out = join(folder, 'adopted');
    const ran = await springsift(['audit', scenario, measured, '--out', out, '--adopt']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toMatch(/the build is street-F[0-9A-Z]+-R[0-9A-Z]+-[0-9A-Z]{2} there/);
    expect(await readdir(join(folder, 'car'))).toEqual(
      expect.arrayContaining(['scenario.as-built.yaml', 'springs.as-built.csv']),
    );
    expect(await readFile(scenario, 'utf8')).toBe(before);
    const check = await springsift(['check', join(folder, 'car', 'scenario.as-built.yaml')]);
    expect(check).toMatchObject({ code: 0, stderr: '' });
    const over = await springsift([
      'audit',
      scenario,
      measured,
      '--out',
      join(folder, 'o2'),
      '--adopt',
      'scenario.yaml',
    ]);
    expect(over.code).toBe(1);
    expect(over.stderr).toContain('--force');
    const away = await springsift(['audit', scenario, measured, '--out', join(folder, 'o3'), '--adopt', '../x.yaml']);
    expect(away).toMatchObject({ code: 2 });
    expect(await readFile(scenario, 'utf8')).toBe(before);
    const forced = await springsift([
      ...['audit', scenario, measured, '--out', join(folder, 'o4')],
      ...['--adopt', 'scenario.yaml', '--force'],
    ]);
    expect(forced.code).toBe(0);
    expect(await readFile(scenario, 'utf8')).toContain('wheel_load: { left: 262 kg, right: 266.5 kg }');
    await writeFile(scenario, before);
  },
);

test('an empty form is written for a build, and is no measurement yet', SLOW, async () => {
  const out = join(folder, 'form');
  const ran = await springsift(['audit', scenario, '--blank', 'street', '--out', out]);
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  const form = join(out, 'measured.yaml');
  expect(await readFile(form, 'utf8')).toContain('combination: street-F');
  const empty = await springsift(['audit', scenario, form, '--out', out]);
  expect(empty.code).toBe(2);
  expect(empty.stderr).toContain('no measurement');
  expect(empty.stderr).toContain('Nothing was audited.');
  const unknown = await springsift(['audit', scenario, '--blank', 'fast', '--out', join(folder, 'x')]);
  expect(unknown.code).toBe(2);
  expect((await springsift(['audit', scenario])).stderr).toContain('--blank');
});
