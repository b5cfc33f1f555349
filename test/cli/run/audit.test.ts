import { cp, lstat, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
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
    const springs = await readFile(join(folder, 'car', 'springs.csv'), 'utf8');
    const standing = await readdir(join(folder, 'car'));
    const out = join(folder, 'adopted');
    const ran = await springsift(['audit', scenario, measured, '--out', out, '--adopt']);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toMatch(/the build is street-F[0-9A-Z]+-R[0-9A-Z]+-[0-9A-Z]{2} there/);
    expect(ran.stdout).toMatch(/springs\.csv, row 55 \(HS280-34\), column free_length_mm: 280\.9 in place of 280\.\n/);
    expect((await readdir(join(folder, 'car'))).sort()).toEqual([...standing, 'scenario.as-built.yaml'].sort());
    expect(await readFile(join(folder, 'car', 'springs.csv'), 'utf8')).toBe(springs);
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

test('what takes the name of the adopted scenario while the build is audited is left alone', SLOW, async () => {
  const target = join(folder, 'car', 'late.yaml');
  // The pages are written before the scenario: then something else comes to stand in its place.
  const code = `import fs from 'node:fs';
    import { syncBuiltinESMExports } from 'node:module';
    const rename = fs.promises.rename;
    fs.promises.rename = async (from, to) => {
      if (/audit\\.json$/.test(to)) fs.writeFileSync(${JSON.stringify(target)}, 'mine');
      return rename(from, to);
    };
    syncBuiltinESMExports();`;
  const preload = join(folder, 'late.mjs');
  await writeFile(preload, code);
  const args = ['audit', scenario, measured, '--out', join(folder, 'late'), '--adopt', 'late.yaml', '--force'];
  expect(await springsift(args, { preload })).toMatchObject({ code: 1, stderr: LEFT_ALONE.stderr });
  expect(await readFile(target, 'utf8')).toBe('mine');
});

/** Adopts with --force under a name that stands there already; what stood there before and after. */
async function adoptedOver(name: string): Promise<{ code: number | null; stderr: string; kept: boolean }> {
  const path = join(folder, 'car', name);
  const before = await readFile(path, 'utf8');
  const args = ['--out', join(folder, `over-${name}`), '--adopt', name, '--force'];
  const { code, stderr } = await springsift(['audit', scenario, measured, ...args]);
  return { code, stderr, kept: (await readFile(path, 'utf8')) === before };
}

const LEFT_ALONE = { code: 1, kept: true, stderr: expect.stringContaining('left as it is, with --force too') };

test('adopting never replaces the file of measurements, --force or not', SLOW, async () => {
  await cp(measured, join(folder, 'car', 'measured.yaml'));
  expect(await adoptedOver('measured.yaml')).toEqual(LEFT_ALONE);
});

test('adopting never replaces a catalogue, --force or not', SLOW, async () => {
  expect(await adoptedOver('springs.csv')).toEqual(LEFT_ALONE);
});

test('adopting never replaces a scenario of another name or car, --force or not', SLOW, async () => {
  const text = await readFile(scenario, 'utf8');
  await writeFile(join(folder, 'car', 'other.yaml'), text.replace('name: Hill hatch', 'name: Other hatch'));
  expect(await adoptedOver('other.yaml')).toEqual(LEFT_ALONE);
  await writeFile(join(folder, 'car', 'longer.yaml'), text.replace('wheelbase: 2460 mm', 'wheelbase: 2470 mm'));
  expect(await adoptedOver('longer.yaml')).toEqual(LEFT_ALONE);
  await writeFile(join(folder, 'car', 'older.yaml'), text.replace('268 kg', '267 kg'));
  expect(await adoptedOver('older.yaml')).toMatchObject({ code: 0, kept: false });
});

test('adopting replaces neither a link nor what it leads to, --force or not', SLOW, async () => {
  const target = join(folder, 'target.yaml');
  await cp(scenario, target);
  await symlink(target, join(folder, 'car', 'link.yaml'));
  expect(await adoptedOver('link.yaml')).toEqual(LEFT_ALONE);
  expect((await lstat(join(folder, 'car', 'link.yaml'))).isSymbolicLink()).toBe(true);
  // A link that leads nowhere is one, too.
  await symlink(join(folder, 'nowhere.yaml'), join(folder, 'car', 'nowhere.yaml'));
  const args = ['--out', join(folder, 'over-nowhere'), '--adopt', 'nowhere.yaml', '--force'];
  expect(await springsift(['audit', scenario, measured, ...args])).toMatchObject({ code: 1, stdout: '' });
});

test('adopting does not replace the page that the same call has just written', SLOW, async () => {
  const out = join(folder, 'car');
  const ran = await springsift(['audit', scenario, measured, '--out', out, '--adopt', 'audit.json', '--force']);
  expect(ran).toMatchObject({ code: 1, stderr: expect.stringContaining('left as it is, with --force too') });
  expect(JSON.parse(await readFile(join(out, 'audit.json'), 'utf8'))).toMatchObject({ schema: 'springsift-audit' });
});

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
