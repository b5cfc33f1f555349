import { mkdtemp, open, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { KnownError } from '../../../src/cli/terminal/exit.ts';
import { resultIn } from '../../../src/cli/terminal/reading.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { coherent, result } from '../../report/fixture.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-reading-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('the result in a report is read back', async () => {
  const path = join(folder, 'report.html');
  // Its inputs are invented and would not match their digests.
  const written = { ...coherent(result()), inputs: [] };
  await writeFile(path, await reportHtml(written));
  expect(await resultIn(path)).toEqual(JSON.parse(JSON.stringify(written)));
});

test('a file far larger than any report is refused before it is read', async () => {
  const path = join(folder, 'large.html');
  const file = await open(path, 'w');
  // Without content it takes no room on the disk.
  await file.truncate(300_000_000);
  await file.close();
  await expect(resultIn(path)).rejects.toThrow(/found a file of 300 MB/);
  await expect(resultIn(path)).rejects.toBeInstanceOf(KnownError);
});

test('what cannot be a path of a file is told, what is no error of a file stays', async () => {
  await expect(resultIn(join(folder, 'nowhere.html'))).rejects.toThrow(/no such file/);
  await expect(resultIn(folder)).rejects.toThrow(/cannot be read \(EISDIR\)/);
  await expect(resultIn('a\u0000b')).rejects.toThrow(KnownError);
});
