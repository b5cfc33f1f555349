/** Ten problems are printed unasked, and how to see the rest. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { check } from '../../../src/cli/run/check.ts';

const folder = mkdtempSync(join(tmpdir(), 'springsift-all-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function said(fields: number, all: boolean): Promise<string> {
  const path = join(folder, 'scenario.yaml');
  writeFileSync(path, Array.from({ length: fields }, (_, k) => `unknown_${k}: 1\n`).join(''));
  return check(path, { all }).then(
    () => '',
    (error) => (error as Error).message,
  );
}
/** Beside the unknown fields: springsift, name, car, axles and setups are missing. */
const MISSING = 5;

test('from the eleventh problem on they are counted, with the command that prints them', async () => {
  const few = await said(10 - MISSING, false);
  expect(few.match(/: found /g)).toHaveLength(10);
  expect(few).not.toContain('more');
  const many = await said(30, false);
  expect(many.match(/: found /g)).toHaveLength(10);
  expect(many).toMatch(
    /\nand 25 more; all of them: .* check \S+scenario\.yaml --all\n(?:Lines behind .*\n)?35 problems\. Nothing was swept\.$/,
  );
  const all = await said(30, true);
  expect(all.match(/: found /g)).toHaveLength(35);
  expect(all).not.toContain('more;');
});
